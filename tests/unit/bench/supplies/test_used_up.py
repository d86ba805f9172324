"""What is used up: HAND figures from the sheet's own, and what is missing where the sheet says too little."""

from pathlib import Path

import pytest

from gudgeon.bench.errors import EngineNotRead
from gudgeon.bench.supplies.model import Supply
from gudgeon.bench.supplies.used_up import supplies
from gudgeon.demo import __file__ as demo
from tests.unit.bench.benches import make_job

FOLDER = Path(demo).parent
SHEET = (FOLDER / "sheet.yaml").read_text(encoding="utf-8")
KIT = (FOLDER / "kit.yaml").read_text(encoding="utf-8")


def asked(folder: Path, *changes: tuple[str, str], kit: str = KIT) -> dict[str, Supply]:
    sheet = SHEET
    for old, new in changes:
        assert old in sheet
        sheet = sheet.replace(old, new)
    folder.mkdir(exist_ok=True)
    job = make_job(folder, sheet=sheet, kit=kit)
    job.record("identity-read", code="TW18-D4", read_from="pad on the block")
    return {one.key: one for one in supplies(job.bench())}


def test_no_figure_of_the_sheet_before_the_code_was_read(tmp_path: Path) -> None:
    with pytest.raises(EngineNotRead):
        supplies(make_job(tmp_path, sheet=SHEET, kit=KIT).bench())


def test_a_bead_of_a_stated_length(tmp_path: Path) -> None:
    # HAND: 540 mm · π/4 · (2 mm)² · 1.3 = 2205 mm³ = 2.2 mL; 29.57 mL to the fluid ounce
    one = asked(tmp_path)["sealant_rear_cover"]
    assert one.amount == "2.2 mL (0.07 US fl oz)"
    assert one.how == (
        "540 mm (21.260 in) long, as the sheet says, 2.0 mm (0.079 in) wide: length · π/4 · width², and 30 % more for "
        "nozzle and ends (common practice, no source). A tube of 70.0 mL (2.37 US fl oz) is enough."
    )
    assert (one.source, one.missing) == ("manual p. 84", "")


def test_a_bead_through_the_holes_where_the_sheet_knows_them(tmp_path: Path) -> None:
    # HAND: holes on a rectangle of 150 × 100 mm: 500 mm; · π · 1 mm² · 1.3 = 2.04 mL
    corners = {
        1: (0, 100),
        2: (150, 100),
        3: (150, 60),
        4: (150, 20),
        5: (150, 0),
        6: (0, 0),
        7: (0, 20),
        8: (0, 60),
    }
    places = {
        1: "top left", 2: "top right", 3: '"right, upper"', 4: '"right, lower"', 5: "bottom right", 6: "bottom left",
        7: '"left, lower"', 8: '"left, upper"',
    }  # fmt: skip
    changes = [
        (
            f"      {number}: {{where: {where}}}\n",
            f"      {number}: {{where: {where}, x: {x} mm, y: {y} mm}}\n",
        )
        for number, where in places.items()
        for x, y in (corners[number],)
    ]
    one = asked(tmp_path, ("bead 2 mm, 540 mm long, inside", "bead 2 mm, inside"), *changes)[
        "sealant_rear_cover"
    ]
    assert one.amount == "2.0 mL (0.07 US fl oz)"
    assert one.how.startswith(
        "500 mm (19.685 in) around through the 8 holes of Rear cover bolts, so at most that, "
    )


def test_a_bead_of_unknown_length_or_width_is_not_guessed(tmp_path: Path) -> None:
    found = asked(tmp_path / "long", ("bead 2 mm, 540 mm long, inside", "bead 2 mm, inside"))[
        "sealant_rear_cover"
    ]
    assert (found.amount, found.how) == ("", "")
    assert found.missing == (
        "where every bolt sits, in x and y (Rear cover bolts), or the length itself: write it into the data sheet where it "
        "says where the sealant goes, like “bead 2 mm, 560 mm long”"
    )
    found = asked(tmp_path / "wide", ("bead 2 mm, 540 mm long, inside", "thin, inside"))["sealant_rear_cover"]
    assert found.missing == (
        "how wide the bead is: the data sheet says “thin, inside the bolt holes”; write it there, like “bead 2 mm”"
    )


def test_dabs_are_counted(tmp_path: Path) -> None:
    # HAND: 16 · 0.2 mL = 3.2 mL
    assert asked(tmp_path / "said")["sealant_cap_corners"].amount == "3.2 mL (0.11 US fl oz)"
    found = asked(tmp_path / "not", ("16 dabs, one at", "a dab at"))["sealant_cap_corners"]
    assert (found.amount, found.missing) == (
        "",
        "how many dabs: write it into the data sheet where it says where they go, like “8 dabs”",
    )


def test_lube_for_journals_and_followers(tmp_path: Path) -> None:
    # HAND: 10 journals of 25.96 mm, 0.8 · 25.96 = 20.77 mm wide, 0.2 mm of film: 10 · π · 25.96 · 20.77 · 0.2 = 3388 mm³;
    # 16 followers at 0.5 mL: 8 mL; together 11.4 mL
    one = asked(tmp_path / "with")["assembly_lube"]
    assert one.amount == "11.4 mL (0.39 US fl oz)"
    assert one.source == "common practice, no source"
    without = asked(tmp_path / "without", ("name: Camshaft journal\n", "name: Camshaft\n"))["assembly_lube"]
    assert without.amount == "8.0 mL (0.27 US fl oz)"
    assert without.missing == "the diameter of the camshaft journals, as a characteristic with its places"


def test_oil_takes_the_greater_of_two_printed_fillings(tmp_path: Path) -> None:
    found = asked(tmp_path)
    assert (found["engine_oil"].name, found["engine_oil"].amount) == (
        "Engine oil, SAE 10W-40",
        "4.5 L (4.8 US qt)",
    )
    assert found["engine_oil"].how == (
        "as much as it holds (with filter); the greater of 4.2 L (4.4 US qt) and 4.5 L (manual p. 140)"
    )
    assert (found["oil_flush"].amount, found["oil_flush"].only_if) == (
        "4.5 L (4.8 US qt)",
        "coolant was in the oil",
    )


def test_oil_of_unknown_capacity(tmp_path: Path) -> None:
    old = SHEET[SHEET.index("capacity: {value: 4.2 L") : SHEET.index("source: manual p. 20}\n  coolant")]
    found = asked(tmp_path, (old, ""))
    assert (found["engine_oil"].amount, found["engine_oil"].missing) == (
        "",
        "how much oil it holds: write it into the data sheet, with the engine oil",
    )
    assert "oil_flush" not in found


def test_coolant_is_mixed_by_the_cold_that_it_stands(tmp_path: Path) -> None:
    # PRINTED capacity 6.4 L; concentrate and water together are that
    found = asked(tmp_path)
    concentrate, water = found["coolant"].amount, found["coolant_water"].amount
    assert float(concentrate.split()[0]) + float(water.split()[0]) == pytest.approx(6.4, abs=0.011)
    assert found["coolant"].source == "manual p. 92; freezing points ASHRAE 2001, by volume"
    # HAND: 2 · 6.4 L
    assert found["rinse_water"].amount == "12.8 L (13.5 US qt)"


def test_an_engine_without_coolant_takes_none(tmp_path: Path) -> None:
    found = asked(tmp_path, ("does_not_have: [", "does_not_have: [liquid cooling, "))
    assert not {"coolant", "coolant_water", "rinse_water"} & set(found)


def test_in_inches_the_inch_units_come_first(tmp_path: Path) -> None:
    found = asked(tmp_path, kit=KIT.replace("units: metric", "units: inch"))
    assert found["engine_oil"].amount == "4.8 US qt (4.5 L)"
    assert found["sealant_rear_cover"].amount == "0.07 US fl oz (2.2 mL)"


def test_what_is_wiped_with_says_that_it_is_a_habit(tmp_path: Path) -> None:
    found = asked(tmp_path)
    for key in ("rags", "gloves", "cleaner"):
        assert found[key].source == "common practice, no source"
        assert found[key].amount
    # HAND: 2 for each of 15 joints
    assert (found["rags"].amount, found["rags"].how) == ("30", "2 for each of 15 joints that the job closes")

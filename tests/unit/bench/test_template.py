"""The template of a joint: holes by the sheet or by positions of their own, and every refusal in its words."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.errors import EngineNotRead
from gudgeon.bench.template.errors import (
    NoPositions,
    NotOfThisJoint,
    OffUnreadable,
    OtherJoint,
    PlaceTwice,
    PlaceUnreadable,
    PositionsTooCoarse,
    SamePlace,
)
from gudgeon.bench.template.positions import as_address, read_positions, said_positions
from gudgeon.bench.template.template import template
from gudgeon.errors import InputError
from gudgeon.written.errors import FileRefused
from tests.unit.bench.benches import make_job
from tests.unit.paper import cards

PLACED = """
gudgeon: positions 1
joint: many
traced_from: cover.jpg
off_by: 0.4 mm
viewed_from: below
bolts:
  1: {x: 0 mm, y: 0 mm}
  2: {x: 2 in, y: 10 mm}
"""


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return cards.job(tmp_path_factory.mktemp("placed"), placed=True, mixed=True).bench()


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return cards.job(tmp_path_factory.mktemp("bare")).bench()


def test_holes_of_the_sheet(bench: Bench) -> None:
    made = template(bench, "many")
    assert [(one.name, one.x_mm, one.y_mm) for one in made.holes] == [
        ("1", 0, 40), ("2", 0, -40), ("3", 60, 40), ("4", 60, -40),
    ]  # fmt: skip
    # PRINTED: ISO 273:1979, medium: M10 11 mm, M8 9 mm.
    assert [one.diameter_mm for one in made.holes] == [11.0, 9.0, 11.0, 9.0]
    assert made.holes[0].thread == "M10x1.25"
    assert made.viewed_from == "above, timing end at the left"
    assert made.remarks == ()


def test_mirrored_it_counts_to_the_other_side(bench: Bench) -> None:
    assert [(one.x_mm, one.y_mm) for one in template(bench, "many", mirrored=True).holes] == [
        (0, 40), (0, -40), (-60, 40), (-60, -40),
    ]  # fmt: skip


def test_the_demo_head_brings_its_face(tmp_path: Path) -> None:
    open_demo(tmp_path / "demo", now=datetime.now(UTC).astimezone())
    bench = open_bench(tmp_path / "demo" / "book.gudgeon")
    made, mirrored = template(bench, "head"), template(bench, "head", mirrored=True)
    bench.store.close()
    assert made.outline == ((-22.0, -66.0), (386.0, -66.0), (386.0, 66.0), (-22.0, 66.0))
    assert mirrored.outline == ((22.0, -66.0), (-386.0, -66.0), (-386.0, 66.0), (22.0, 66.0))
    assert made.openings[0] == (45.5, 0.0, 82.6)
    assert {one.rule for one in made.holes} == {"the hole that the data sheet states"}
    assert made.holes[0].length == "133.00 mm (5.236 in)"


def test_positions_of_a_file_take_the_place_of_all_of_the_sheet(bench: Bench, tmp_path: Path) -> None:
    file = tmp_path / "pos.yaml"
    file.write_text(PLACED, encoding="utf-8")
    made = template(bench, "many", positions=read_positions(file))
    assert [(one.name, one.x_mm, one.y_mm) for one in made.holes] == [("1", 0, 0), ("2", 50.8, 10)]
    assert made.viewed_from == "below"
    assert made.said_from == "cover.jpg"
    assert made.remarks == (
        "Without a place in these positions, and so without a hole here: 3, 4.",
        "Traced from a photo: a hole may be off by up to ± 0.4 mm.",
    )


def test_positions_of_an_address_come_back_as_they_went() -> None:
    places = {"1": (0.0, -12.25), "I1a": (130.5, 7.0)}
    assert dict(said_positions(as_address(places)).places) == places


def test_an_unread_thread_and_holes_that_run_into_each_other_are_said(tmp_path: Path) -> None:
    sheet = cards.sheet(placed=True).replace(
        "{thread: M10x1.25, strength_class: '10.9'}", "{thread: own thread}"
    )
    made = make_job(tmp_path, sheet=sheet)
    made.read_code()
    answer = template(made.bench(), "many", positions=said_positions("1:0,0;2:6.5,0;3:60,0;4:90,0"))
    assert answer.remarks == (
        "No thread is stated that could be read for 1, 2, 3, 4: a ring of 6 mm stands at the place. Punch it to fit the "
        "fastener.",
        "So close that their holes would run into each other, punch them smaller: 1 and 2.",
    )


def test_locked_until_the_code_is_read(tmp_path: Path) -> None:
    with pytest.raises(EngineNotRead):
        template(make_job(tmp_path, sheet=cards.sheet(placed=True)).bench(), "many")


def test_without_positions_it_says_how_to_trace(bare: Bench) -> None:
    with pytest.raises(NoPositions) as refused:
        template(bare, "many")
    assert str(refused.value) == (
        "The data sheet gives no position for any bolt of Test bolts, so no template can be made of it. Write `x:` and "
        "`y:` of each in the sheet, or trace them: take a photo of the bare face straight from above, with a rectangle "
        "of known sides in its plane, and point at its corners and at every hole, on the page of the photo or with: "
        "gudgeon trace PHOTO --joint many"
    )


@pytest.mark.parametrize(
    ("said", "error", "words"),
    [
        ("1:0,0;9:4,4", NotOfThisJoint,
         "Test bolts has no fastener `9`. It has: `1`, `2`, `3`, `4`. Name each place as the data sheet numbers it."),
        ("1:0,0;2:1.5,2", SamePlace,
         "1 and 2 stand 2.5 mm apart, and no two fasteners stand closer than 3 mm (common practice, no source). Look at "
         "both positions again; nothing was made of them."),
        ("1:0;2:5,5", PlaceUnreadable, "`1:0` is no place. Write it like 1:12.5,40."),
        ("1:nan,0", PlaceUnreadable, "`1:nan,0` is no place. Write it like 1:12.5,40."),
        ("1:0,0;1:60,0", PlaceTwice,
         "`1` stands at two places. One of them is of another fastener: number it as the data sheet does."),
        (";", PlaceUnreadable, "`;` is no place. Write it like 1:12.5,40."),
    ],
)  # fmt: skip
def test_positions_that_are_refused(bare: Bench, said: str, error: type[Exception], words: str) -> None:
    with pytest.raises(error) as refused:
        template(bare, "many", positions=said_positions(said))
    assert str(refused.value) == words


@pytest.mark.parametrize("written", [None, ""], ids=["missing", "empty"])
def test_without_positions_it_says_what_makes_them(tmp_path: Path, written: str | None) -> None:
    file = tmp_path / "pos.yaml"
    if written is not None:
        file.write_text(written, encoding="utf-8")
    with pytest.raises(InputError) as refused:
        read_positions(file)
    assert "`gudgeon trace`" in str(refused.value)
    assert "blank" not in str(refused.value)


def test_positions_of_another_joint_are_refused(bench: Bench, tmp_path: Path) -> None:
    file = tmp_path / "pos.yaml"
    file.write_text(PLACED.replace("joint: many", "joint: pump"), encoding="utf-8")
    with pytest.raises(OtherJoint) as refused:
        template(bench, "many", positions=read_positions(file))
    assert str(refused.value) == (
        "These positions are of `pump`, and the template was asked for `many`. Name that joint, or another file."
    )


def test_a_place_without_a_side_is_told_with_its_line(tmp_path: Path) -> None:
    file = tmp_path / "pos.yaml"
    file.write_text(PLACED.replace("x: 2 in, ", ""), encoding="utf-8")
    with pytest.raises(FileRefused) as refused:
        read_positions(file)
    assert "line 9" in str(refused.value)
    assert "`2` has no place: it takes `x:` and `y:`." in str(refused.value)


TOO_COARSE = (
    "; above 3 mm no template is made of them (common practice, no source). Trace them again, from a photo taken from "
    "nearer and straight from above."
)


@pytest.mark.parametrize(
    ("off", "most"), [("30 mm", "30 mm"), ("0.5 to 3.1 mm", "0.5 to 3.1 mm"), ("0.2 in", "0.2 in")]
)
def test_positions_that_are_too_coarse_make_no_template(
    bench: Bench, tmp_path: Path, off: str, most: str
) -> None:
    """As nothing is traced that is off by more."""
    file = tmp_path / "pos.yaml"
    file.write_text(PLACED.replace("0.4 mm", off), encoding="utf-8")
    with pytest.raises(PositionsTooCoarse) as refused:
        template(bench, "many", positions=read_positions(file))
    assert str(refused.value) == f"These positions may be off by up to {most}{TOO_COARSE}"


@pytest.mark.parametrize("off", ["-1 mm", "min 1 mm"])
def test_a_file_says_how_far_off_it_may_be_or_is_refused_with_its_line(tmp_path: Path, off: str) -> None:
    file = tmp_path / "pos.yaml"
    file.write_text(PLACED.replace("0.4 mm", off), encoding="utf-8")
    with pytest.raises(FileRefused) as refused:
        read_positions(file)
    assert "line 5" in str(refused.value)
    assert f"`{off}` does not say how far off the positions may be" in str(refused.value)


def test_an_address_says_how_far_off_it_may_be_or_is_refused(bare: Bench) -> None:
    for said in ("99", "-1 mm", "-1", "far", "0.4 in"):
        with pytest.raises(OffUnreadable) as unreadable:
            said_positions("1:0,0", off_by=said)
        assert str(unreadable.value) == (
            f"`{said}` does not say how far off the positions may be, and without it a template could mislead. Write "
            "it like 0.4 mm, 0 or more; traced positions say it."
        )
    with pytest.raises(PositionsTooCoarse):
        template(bare, "many", positions=said_positions("1:0,0", off_by="99 mm"))
    most = template(bare, "many", positions=said_positions("1:0,0", off_by="3.0 mm"))
    assert "Traced from a photo: a hole may be off by up to ± 3.0 mm." in most.remarks

"""metrology.flatness: from a file to an answer for people and for programs."""

import json
from pathlib import Path

import pytest

from gudgeon.calc.calculator import run
from gudgeon.calc.input_errors import InputRefused
from gudgeon.cli.main import main
from gudgeon.written.points_errors import CellBlank

# HAND: a pure twist of ±0.05 about z = 0.01 x + 7, in mm; the zone square to that plane is 0.1 / √(1 + 0.01²).
TWIST = "x mm,y mm,z mm\n0,0,7.05\n400,0,10.95\n400,200,11.05\n0,200,6.95\n"
ZONE = 0.1 / (1 + 0.01**2) ** 0.5


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "face.csv").write_text(TWIST, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_file_beside_is_read_and_answered() -> None:
    found = run("metrology.flatness", {"file": "face.csv"})
    assert [one.name for one in found.results] == [
        "minimum_zone_mm", "least_squares_mm", "plane", "contact_points", "certificate_gap_mm",
    ]  # fmt: skip
    assert found["minimum_zone_mm"] == pytest.approx(ZONE, abs=1e-13)
    assert found["plane"] == pytest.approx((0.01, 0.0, 7.0), abs=1e-12)
    contacts = found["contact_points"]
    assert isinstance(contacts, tuple)
    assert list(contacts) == [1, 3, 2, 4]
    assert found["certificate_gap_mm"] == pytest.approx(0, abs=1e-12)
    shown = {one.name: one.shown for one in found.results}
    assert shown["minimum_zone_mm"] == "0.1000 mm (0.0039 in)"
    assert shown["contact_points"] == "1, 3 above; 2, 4 below"
    assert shown["plane"].endswith(" 7.00000 mm")
    assert found.flags == ()


def test_programs_get_lists_of_numbers(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["calc", "metrology.flatness", "file=face.csv", "--json"]) == 0
    results = json.loads(capsys.readouterr().out)["results"]
    assert results["plane"] == pytest.approx([0.01, 0.0, 7.0], abs=1e-12)
    assert results["contact_points"] == [1, 3, 2, 4]
    assert results["minimum_zone_mm"] == pytest.approx(ZONE, abs=1e-13)


def test_people_get_a_table(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["calc", "metrology.flatness", "file=face.csv"]) == 0
    told = capsys.readouterr().out
    assert "0.1000 mm (0.0039 in)" in told
    assert "1, 3 above; 2, 4 below" in told


def test_bare_figures_are_mm_unless_another_unit_is_said(here: Path) -> None:
    bare = "\n".join(TWIST.splitlines()[1:])
    (here / "bare.csv").write_text(bare, encoding="utf-8")
    assert run("metrology.flatness", {"file": "bare.csv"})["minimum_zone_mm"] == pytest.approx(
        ZONE, abs=1e-13
    )
    inches = run("metrology.flatness", {"file": "bare.csv", "unit": "in"})
    assert inches["minimum_zone_mm"] == pytest.approx(25.4 * ZONE, abs=1e-11)
    assert inches.flags == ("The figures were read in inches, and are given in mm.",)


def test_further_columns_are_left_out_and_named(here: Path) -> None:
    text = "\n".join(f"{k or 'place'},{line}" for k, line in enumerate(TWIST.splitlines()))
    (here / "named.csv").write_text(text, encoding="utf-8")
    assert run("metrology.flatness", {"file": "named.csv"}).flags == ("Columns left out: place.",)


def test_a_face_along_z_has_no_plane(here: Path) -> None:
    (here / "side.csv").write_text("0.05,0,0\n-0.05,450,0\n0.05,450,180\n-0.05,0,180\n", encoding="utf-8")
    found = run("metrology.flatness", {"file": "side.csv"})
    assert found["plane"] is None
    assert next(one.shown for one in found.results if one.name == "plane") == "none: the face stands along z"
    assert len(found.flags) == 1


def test_what_is_wrong_in_the_file_is_said_with_its_place(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "gap.csv").write_text("1,2,3\n4,,6\n", encoding="utf-8")
    with pytest.raises(CellBlank) as caught:
        run("metrology.flatness", {"file": "gap.csv"})
    assert str(caught.value).startswith("gap.csv, line 2, column 3: y is blank.")
    assert main(["calc", "metrology.flatness", "file=gap.csv"]) == 2
    assert "gap.csv, line 2, column 3: y is blank." in capsys.readouterr().err
    with pytest.raises(InputRefused) as missing:
        run("metrology.flatness", {"file": "none.csv"})
    assert str(missing.value) == (
        "file: none.csv: there is no such file. Check its name, and the folder it is sought from."
    )

"""`gudgeon clamp` as a person types it."""

import json
from pathlib import Path

import pytest

from gudgeon.bench.clamp import CAUTION
from gudgeon.cli.main import main
from tests.unit.bench.benches import KIT, make_job
from tests.unit.bench.test_clamp import TURN, sheet
from tests.unit.bench.test_clamp_families import TURNS, two
from tests.unit.sheet.sheets import SMALL

FEW = ["--trials", "400"]


def book(folder: Path, text: str) -> str:
    job = make_job(folder, sheet=text, kit=KIT)
    job.read_code()
    return str(job.book)


def test_it_says_where_the_spread_comes_from(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["clamp", "head", "--book", book(tmp_path, sheet(*TURN)), *FEW, "--what-if", "by-eye"]) == 0
    shown = " ".join(capsys.readouterr().out.split())
    assert "Head bolts: " in shown and "of the spread of ±" in shown
    assert "What if (after the last stage, on the same chances)" in shown
    assert "no gauge and no marks: every turn by eye" in shown
    assert "400 tightenings, seed 1. Source: manual p. 9" in shown
    assert CAUTION in shown


def test_what_cannot_be_said_ends_with_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["clamp", "head", "--book", book(tmp_path, SMALL)]) == 1
    shown = " ".join(capsys.readouterr().out.split())
    assert "cannot be said. Not stated: the friction of thread and head" in shown
    assert "Not stated, so not said" in shown


def test_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["clamp", "head", "--book", book(tmp_path, sheet(*TURN)), *FEW, "--json", "--seed", "3"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert (answer["trials"], answer["seed"]) == (400, 3)
    assert len(answer["stages"]) == 3
    last = answer["stages"][-1]
    assert {"clamp_n", "low_n", "high_n", "yields", "stretch_mm"} <= set(last["bolts"][0])
    assert sum(last["causes"].values()) == pytest.approx(1.0, abs=0.15)


@pytest.mark.parametrize("trials", ["199", "50001", "many"])
def test_trials_out_of_reason_are_refused(trials: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["clamp", "head", "--trials", trials])
    assert ended.value.code == 2
    assert f"a whole number from 200 to 50000 was expected, {trials!r} was found" in capsys.readouterr().err


def test_the_invented_job(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its head: a turn leaves far less spread than the torque before it, and the wrench has little to do with it."""
    assert main(["demo", "--folder", str(tmp_path / "job")]) == 0
    capsys.readouterr()
    assert main(["clamp", "head", "--book", str(tmp_path / "job" / "book.gudgeon"), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["trials"] == 10_000
    assert answer["heading"]["notice"]
    stages = {one["stage"]: one for one in answer["stages"]}
    assert stages[5]["band_share"] < stages[3]["band_share"] / 2
    assert stages[5]["causes"]["wrench"] < 0.1
    assert answer["missing"] == []


def test_a_stage_left_out_begins_with_what_is_not_seen(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["clamp", "head", "--book", book(tmp_path, sheet(*TURN)), *FEW, "--what-if", "skip=1"]) == 0
    shown = " ".join(capsys.readouterr().out.split())
    assert shown.index("What the model does not see: a turn is counted") < shown.index(
        "against the program as written"
    )
    assert "Of yield: the clamp as a share of the force at which this bolt begins to yield" in shown
    assert "in the middle" not in shown


def test_two_families_have_rows_of_their_own(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["clamp", "head", "--book", book(tmp_path, two(*TURNS)), *FEW]) == 0
    shown = capsys.readouterr().out
    assert "long (M10)" in shown and "short (M8)" in shown
    assert "0.0000" not in shown

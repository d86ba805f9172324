"""Figures stay locked until the code has been read off the engine."""

from pathlib import Path

import pytest

from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.errors import EngineDiffers, EngineNotRead
from gudgeon.bench.good import inspect
from gudgeon.bench.holds import standings
from gudgeon.bench.now import now
from gudgeon.bench.pull_list import all_joints, card
from gudgeon.bench.ready import ready
from tests.unit.bench.benches import make_job


def test_locked_until_the_code_is_read(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    bench = job.bench()
    for ask in (inspect, all_joints, consequences):
        with pytest.raises(EngineNotRead) as caught:
            ask(bench)
        assert str(caught.value) == (
            "Figures are locked: the engine code has not been read off the engine. The sheet is for L1-A.\n"
            "Read it (pad beside the filler) and record it: gudgeon record identity CODE --read-from WHERE"
        )
    with pytest.raises(EngineNotRead):
        card(bench, "head")
    # The questions that show no figure still answer, and say that it is locked.
    assert "locked" in now(bench).next[0]
    assert ready(bench, milestone="crank").reasons[0].what == "Engine code"


@pytest.mark.parametrize("code", ["L1-A", "l1a", "L1 A"])
def test_a_code_that_matches_unlocks(tmp_path: Path, code: str) -> None:
    job = make_job(tmp_path)
    job.record("identity-read", code=code)
    assert card(job.bench(), "head").next_pull == 1


def test_another_code_needs_a_reason(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.record("identity-read", code="L1-B")
    with pytest.raises(EngineDiffers) as caught:
        card(job.bench(), "head")
    assert str(caught.value) == (
        "Figures are locked: `L1-B` was read off the engine, the sheet is for L1-A.\n"
        "Use the sheet of this engine, or say why this one serves: gudgeon record identity L1-B --why REASON"
    )
    job.record("identity-read", code="L1-B", why_not="same head, bulletin 7")
    answer = card(job.bench(), "head")
    assert answer.heading.remarks == (
        "The code read off the engine, L1-B, is not the sheet's. Why it serves: same head, bulletin 7",
    )


def test_a_struck_reading_of_the_code_locks_again(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    entry = job.bench().state.identity
    assert entry is not None
    job.record("strike", entry=entry.entry, why="read off the wrong engine")
    with pytest.raises(EngineNotRead):
        card(job.bench(), "head")


def test_a_sheet_changed_to_another_code_locks_again(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.read_code()
    sheet = tmp_path / "sheet.yaml"
    sheet.write_text(
        sheet.read_text(encoding="utf-8").replace("codes: [L1-A]", "codes: [Z9]"), encoding="utf-8"
    )
    with pytest.raises(EngineDiffers):
        card(job.bench(), "head")


def test_figures_can_be_proved_once_the_code_was_read(tmp_path: Path) -> None:
    """The code is an entry of its own: what rests on it needs no proof recorded beside it."""
    job = make_job(tmp_path)

    def stands() -> bool:
        bench = job.bench()
        return next(
            one.stands for one in standings(bench.sheet, bench.state) if one.hold.id == "figures_checked"
        )

    job.record("hold-proved", hold="figures_checked", value="all pages compared")
    assert not stands()
    job.read_code()
    assert stands()

"""The page on timing says the figures of the invented engine, and its commands work."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.timing.answer import TimingAnswer, timing
from gudgeon.bench.timing.drive import Lowered, cam_shift, drive_model
from gudgeon.bench.timing.offset import NEAR_WHOLE
from gudgeon.book.address import book_address
from gudgeon.calc.engine.tdc import middle_of
from gudgeon.cli.main import main
from tests.house.code import ROOT

PAGE = " ".join((ROOT / "docs" / "how-it-works" / "timing.md").read_text("utf-8").split())
SEEN = re.findall(r'gudgeon timing --seen "([^"]+)"', PAGE)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    assert main(["demo", "--folder", str(folder)]) == 0
    return folder / "book.gudgeon"


@pytest.fixture(scope="module")
def answer(book: Path) -> Iterator[TimingAnswer]:
    bench = open_bench(book_address(str(book)))
    try:
        yield timing(bench, seen_off=SEEN)
    finally:
        bench.store.close()


def test_the_marks(answer: TimingAnswer) -> None:
    counts = [one.printed.split()[0] for one in answer.counts]
    assert f"{counts[0]}, {counts[1]} and {counts[2]} teeth lie between the marks" in PAGE
    assert all(one.note == "both agree" for one in answer.counts)
    turns = re.findall(r"after (\d+)", answer.realign)
    assert f"after {turns[0]} turns, and with the camshafts after {turns[1]}" in PAGE


def test_a_mark_seen_off_and_what_the_cut_explains(answer: TimingAnswer) -> None:
    one = answer.seen[0]
    explained = f"{one.explained_cam_deg:.2f}°"
    assert SEEN == ["intake: half a tooth left"]
    assert one.timing == "late"
    assert f"is {one.cam_deg:g}° and {one.crank_deg:g}°: the cut explains {explained} of it" in PAGE
    assert (
        f"The 0.14 mm of the invented job make {explained} of the camshaft, 0.31° of the crankshaft" in PAGE
    )
    assert answer.shifts[0].startswith(
        f"Intake camshaft sprocket: {explained} of the camshaft (0.31° of the crankshaft)"
    )
    assert NEAR_WHOLE == 0.25
    assert "within a quarter of a tooth" in PAGE


def test_a_whole_tooth_takes_about_so_much(book: Path) -> None:
    """HAND: a tooth of 8 mm pitch on a span that leans by 2.04°: 8 / cos 2.04° = 8.0 mm."""
    bench = open_bench(book_address(str(book)))
    try:
        model = drive_model(bench)
    finally:
        bench.store.close()
    assert model is not None
    assert cam_shift(model, {"head": Lowered(8.0)}).camshafts[0].teeth == pytest.approx(1.0, abs=0.05)
    assert "that would take about 8 mm" in PAGE


def test_events_and_middle(answer: TimingAnswer) -> None:
    assert answer.events.lines[0].opens.startswith("12° → 11.7°")
    assert "opens at 11.7° instead of 12°" in PAGE
    assert middle_of(30.0, second_deg=310.0).middle_deg == 350.0
    assert "of 30° and 310° it is 350°, not 170°" in PAGE


def test_what_is_not_told_is_what_the_proof_asks(answer: TimingAnswer) -> None:
    assert len(answer.proof.parts) == 5
    assert not answer.proof.stands

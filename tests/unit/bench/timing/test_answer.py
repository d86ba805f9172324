"""Is it timed, as a whole: wheels, counts, turns until marks are back, the cut, what is missing."""

from pathlib import Path

import pytest

from gudgeon.bench.errors import EngineNotRead
from gudgeon.bench.timing.errors import NoDrive
from tests.unit.bench.benches import make_job
from tests.unit.bench.timing.engines import BELT, asked, cut, job
from tests.unit.sheet.sheets import SMALL


def test_nothing_is_told_before_the_code_was_read(tmp_path: Path) -> None:
    with pytest.raises(EngineNotRead):
        asked(make_job(tmp_path, sheet=BELT))


def test_the_wheels_and_how_they_sit(tmp_path: Path) -> None:
    crank, cam = asked(job(tmp_path)).wheels
    assert (crank.teeth, crank.mark, crank.seat, crank.rides_on) == (
        "20 teeth",
        "notch",
        "on a key",
        "in the block",
    )
    assert (cam.teeth, cam.mark, cam.seat, cam.rides_on) == (
        "40 teeth", "dot", "without a key: it can turn on its shaft", "on head, comes nearer when it is cut",
    )  # fmt: skip


def test_nobody_panics_after_two_turns(tmp_path: Path) -> None:
    """HAND: lcm(114, 20) / 20 = 57 turns; with the camshaft, which is back every second turn, 114."""
    assert asked(job(tmp_path)).realign == (
        "After two turns of the crankshaft the marks of the wheels are back; the marks printed on the belt are back at "
        "the crankshaft only after 57 turns, and with the marks of the camshafts after 114: that is as it should be."
    )


def test_a_belt_that_is_back_after_two_turns_says_so(tmp_path: Path) -> None:
    """HAND: 40 teeth of the belt pass in two turns of 20."""
    of = job(tmp_path, ("belt_teeth: 114", "belt_teeth: 40"))
    assert asked(of).realign == (
        "After two turns of the crankshaft the marks of the wheels are back, and those of the belt too."
    )


def test_unknown_teeth_leave_it_open(tmp_path: Path) -> None:
    assert asked(job(tmp_path, ("  belt_teeth: 114\n", ""))).realign == (
        "After two turns of the crankshaft the marks of the wheels are back. When marks printed on the belt are back is "
        "left open: the teeth of the belt or the teeth at the crankshaft are not stated."
    )


def test_teeth_between_marks_are_counted_along_the_path(tmp_path: Path) -> None:
    """HAND: both marks stand on the line through the centers, so half of the belt, 57 teeth, lies on either side."""
    counts = "  tensioner_pin:"
    printed = (
        "  teeth_between_marks: [{from: crank, to: cam, teeth: 57}, {from: cam, to: crank, teeth: 56}]\n"
    )
    first, second = asked(job(tmp_path, (counts, printed + counts))).counts
    assert (first.printed, first.by_path, first.note) == ("57 teeth", "57.0 teeth", "both agree")
    assert (second.printed, second.by_path) == ("56 teeth", "57.0 teeth")
    assert second.note == "the places of the wheels make 57.0 teeth: one is wrong"


def test_rules_of_holding_locks_pin_and_keyless_wheels(tmp_path: Path) -> None:
    assert asked(job(tmp_path)).rules == (
        "Hold against it: cam wheel bolt: two-pin holder",
        "Locking tool: camshaft bar",
        "Locking tools hold the timing and take no torque: never turn the engine or a bolt against them.",
        "Pin of the tensioner: 3 mm pin beside the roller",
        "Without a key: Cam wheel. Such a wheel keeps its place by its bolt alone: hold it, and look at the marks again "
        "once the bolt is tight.",
    )


def test_the_cut_is_that_of_the_heights_in_the_book(tmp_path: Path) -> None:
    of = job(tmp_path)
    before = asked(of, "cam: half a tooth late")
    assert before.cut == (
        "The cut is not known: the book does not hold the height of the head both as found and as left."
    )
    assert before.shifts == ()
    assert before.seen[0].explained_cam_deg is None
    cut(of)
    after = asked(of, "cam: half a tooth late")
    assert after.cut.startswith("The cut: 0.2 mm (0.0079 in) ± ")
    assert after.shifts[0].startswith("Cam wheel: 0.19° of the camshaft (0.38° of the crankshaft) later, ± ")
    assert after.seen[0].explained_cam_deg == pytest.approx(0.1884, abs=1e-4)


def test_the_heights_of_one_head_say_nothing_of_two(tmp_path: Path) -> None:
    of = job(tmp_path, ("  heads: {head: 0°}\n", "  heads: {head: 0°, other: 90°}\n"))
    cut(of)
    assert asked(of).cut == (
        "What the cut does to the timing is left open: the drive has 2 heads, and the heights in the book are those of "
        "one."
    )


def test_cautions_stand_with_it(tmp_path: Path) -> None:
    said = " ".join(asked(job(tmp_path)).cautions)
    for words in (
        "Battery off",
        "spark plugs out",
        "Stop at any hard contact",
        "against locking tools",
        "never backward",
    ):
        assert words in said


def test_what_the_sheet_lacks_is_named_with_its_line(tmp_path: Path) -> None:
    missing = asked(job(tmp_path, ("  crank_stops: crank_stops\n", ""))).missing
    assert any(
        one.startswith("drive.crank_stops (") and "line " in one and one.endswith(
            "Top dead center is not worked out: no characteristic holds where the crank stood at a piston stop "
            "(`crank_stops`)."
        )
        for one in missing
    )  # fmt: skip


def test_a_sheet_without_a_drive_still_asks_for_two_turns(tmp_path: Path) -> None:
    of = make_job(tmp_path, sheet=SMALL)
    of.read_code()
    answer = asked(of)
    assert (answer.kind, answer.wheels, answer.runs) == ("", (), "")
    assert answer.missing[0] == "drive: the data sheet states none, so wheels, marks and teeth are not told"
    assert answer.proof.parts[0].what.startswith("Two full turns")
    with pytest.raises(NoDrive) as caught:
        asked(of, "cam 1 tooth")
    assert str(caught.value) == (
        "The data sheet states no drive, so nothing can be said of the timing. Write `drive:` with its wheels, teeth and "
        "marks; `gudgeon sheet blank` shows how."
    )

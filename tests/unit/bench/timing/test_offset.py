"""A mark that is seen off: every way of writing it, late or early by its side, what the cut explains.

HAND: one tooth of a wheel of 40 is 360° / 40 = 9° of the camshaft and 18° of the crankshaft. A cut of 0.2 mm moves the
pulled span, which leans by β with cos β = 0.99711, by 0.2 · cos β mm on a radius of 60.638 mm: 0.1884° of the camshaft
(the rule of the trade, cut / radius, gives 0.19°).
"""

import pytest

from gudgeon.bench.timing.drive import DriveModel, Lowered, cam_shift, drive_of
from gudgeon.bench.timing.errors import (
    OffsetBothSides,
    OffsetNeedsPitch,
    OffsetTooLarge,
    OffsetUnreadable,
    OffsetWheelUnknown,
)
from gudgeon.bench.timing.offset import SeenOffset, seen
from gudgeon.sheet.load import parse_sheet
from tests.unit.bench.timing.engines import BELT

CHAIN = (
    ("kind: timing belt", "kind: timing chain"),
    ("does_not_have: [", "does_not_have: [timing belt, "),
    (", timing chain", ""),
)


def model(*changes: tuple[str, str]) -> DriveModel:
    text = BELT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    found = drive_of(parse_sheet(text, file="sheet.yaml").sheet)
    assert found is not None
    return found


def look(text: str, *changes: tuple[str, str], cut_mm: float | None = 0.2) -> SeenOffset:
    found = model(*changes)
    shift = None if cut_mm is None else cam_shift(found, {"head": Lowered(cut_mm, 0.01)})
    return seen(text, found, shift=shift)


@pytest.mark.parametrize(
    ("text", "teeth"),
    [
        ("cam: half a tooth", 0.5),
        ("cam 0.5 tooth", 0.5),
        ("cam half tooth", 0.5),
        ("Cam wheel: 1/2 tooth", 0.5),
        ("cam: quarter of a tooth", 0.25),
        ("camshaft a tooth", 1.0),
        ("cam one tooth", 1.0),
        ("cam: two teeth", 2.0),
        ("cam 1 1/2 teeth", 1.5),
        ("cam: one and a half teeth", 1.5),
        ("cam 4.5 deg", 0.5),
        ("cam: 4.5°", 0.5),
        ("cam 4.5 degrees", 0.5),
        ("cam 9 crank degrees", 0.5),
        ("cam 4.5 cam deg", 0.5),
        ("cam 9° of the crankshaft", 0.5),
        ("cam 4.7625 mm", 0.5),
        ("cam 0.1875 in", 0.5),
        ("the mark stands at: no", None),
        ("cam mark is half a tooth to the left", 0.5),
    ],
)
def test_it_is_read_as_a_person_writes_it(text: str, teeth: float | None) -> None:
    if teeth is None:
        with pytest.raises(OffsetUnreadable):
            look(text)
        return
    found = look(text)
    assert found.teeth == pytest.approx(teeth)
    assert found.cam_deg == pytest.approx(9 * teeth)
    assert found.crank_deg == pytest.approx(18 * teeth)


@pytest.mark.parametrize(
    ("text", "teeth", "cam_deg"),
    [("crank half a tooth", 0.5, 4.5), ("crankshaft: 9 deg", 0.5, 4.5), ("crank 4.5 cam degrees", 0.5, 4.5)],
)
def test_a_tooth_at_the_crankshaft_is_a_tooth_at_the_camshaft(
    text: str, teeth: float, cam_deg: float
) -> None:
    """HAND: half a tooth of 20 is 9° of the crankshaft, 4.5° of the camshaft."""
    found = look(text)
    assert found.teeth == pytest.approx(teeth)
    assert found.cam_deg == pytest.approx(cam_deg)
    assert found.crank_deg == pytest.approx(2 * cam_deg)


@pytest.mark.parametrize(
    ("text", "turns", "timing"),
    [
        # The mark of the camshaft stands at the top: right is clockwise, the way in which it turns.
        ("cam 1 tooth right", "clockwise", "early"),
        ("cam 1 tooth left", "clockwise", "late"),
        ("cam 1 tooth right", "counterclockwise", "late"),
        ("cam 1 tooth clockwise", "clockwise", "early"),
        ("cam 1 tooth counterclockwise", "clockwise", "late"),
        ("cam 1 tooth ahead", "clockwise", "early"),
        ("cam 1 tooth behind", "counterclockwise", "late"),
        # That of the crankshaft stands at the bottom: right is counterclockwise, behind; the valves are then ahead.
        ("crank 1 tooth right", "clockwise", "early"),
        ("crank 1 tooth left", "clockwise", "late"),
        ("crank 1 tooth ahead", "clockwise", "late"),
        ("crank 1 tooth behind", "clockwise", "early"),
        ("cam 1 tooth late", "clockwise", "late"),
        ("crank 1 tooth early", "clockwise", "early"),
        ("cam 1 tooth", "clockwise", ""),
        ("cam 1 tooth up", "clockwise", ""),
    ],
)
def test_the_side_and_the_way_it_turns_tell_late_or_early(text: str, turns: str, timing: str) -> None:
    assert look(text, ("turns: clockwise", f"turns: {turns}")).timing == timing


@pytest.mark.parametrize(("side", "timing"), [("up", "late"), ("down", "early"), ("left", ""), ("right", "")])
def test_at_the_side_of_a_wheel_up_and_down_tell_it(side: str, timing: str) -> None:
    """HAND: at 90°, to the right, a wheel that turns clockwise goes down."""
    found = look(f"cam 1 tooth {side}", ("mark: dot, mark_at: 0°", "mark: dot, mark_at: 90°"))
    assert found.timing == timing
    if not timing:
        assert found.why_timing == (
            f"where this mark stands, {side} is no way along the rim: say clockwise or counterclockwise"
        )


def test_a_cut_explains_what_it_makes_late_and_never_a_tooth() -> None:
    half = look("cam: half a tooth late")
    assert half.explained_cam_deg == pytest.approx(0.1884, abs=1e-4)
    assert half.rest_cam_deg == pytest.approx(4.5 - 0.1884, abs=1e-4)
    assert half.words == (
        "half a tooth at Cam wheel: 4.5° at the camshaft, 9° at the crankshaft, the valves come late; "
        "the cut explains 0.19° of it at the camshaft"
    )
    assert half.advice == (
        "What is left is no cut, and it is no whole tooth either: a mark seen from aside, slack on the pulled side, a "
        "wheel without a key that has moved, or a tooth to set right. Take up the slack, turn two turns in the running "
        "direction and look straight on."
    )
    whole = look("cam 1 tooth late")
    assert whole.advice == (
        "What is left is a whole tooth: set it right before anything turns. No cut explains a whole tooth."
    )
    assert look("cam 2 teeth late").advice == (
        "What is left is 2 teeth: set it right before anything turns. No cut explains a whole tooth."
    )


def test_a_cut_hides_more_of_what_is_early() -> None:
    early = look("cam 0.5 tooth right")
    assert early.explained_cam_deg == pytest.approx(-0.1884, abs=1e-4)
    assert early.rest_cam_deg == pytest.approx(4.5 + 0.1884, abs=1e-4)
    assert early.words.endswith(
        "the valves come early; the cut explains none of it, and hides 0.19° more at the camshaft"
    )


def test_a_cut_explains_no_more_than_there_is() -> None:
    """HAND: 3 mm of cut make 2.83° late; of 1° seen it explains 1°."""
    found = look("cam 1 deg late", cut_mm=3.0)
    assert found.explained_cam_deg == pytest.approx(1.0)
    assert found.rest_cam_deg == pytest.approx(0.0)
    assert found.advice == (
        "What is left is less than a quarter tooth: as near as a mark is read. Look at it straight on, after two turns "
        "in the running direction."
    )


def test_without_a_cut_in_the_book_nothing_is_explained() -> None:
    found = look("cam half a tooth", cut_mm=None)
    assert found.explained_cam_deg is None
    assert found.words == (
        "half a tooth at Cam wheel: 4.5° at the camshaft, 9° at the crankshaft; what the cut does to it is not known"
    )


def test_where_the_side_is_not_said_the_cut_may_explain_it() -> None:
    found = look("cam half a tooth")
    assert found.why_timing == (
        "on which side the mark stands was not said: late, early, or left, right, up, down"
    )
    assert found.words.endswith("the cut explains 0.19° of it at the camshaft, if it stands late")


REFUSED = [
    (
        "cam: a lot",
        OffsetUnreadable,
        "`cam: a lot` cannot be read as a mark that is off. Write a wheel and how far, like `intake: half a tooth late`, "
        "`exhaust 4 deg` or `crank 3 mm right`. Wheels with a mark: crank, cam.",
    ),
    (
        "cam 3 mm sideways",
        OffsetUnreadable,
        "`cam 3 mm sideways` cannot be read as a mark that is off. Write a wheel and how far, like "
        "`intake: half a tooth late`, `exhaust 4 deg` or `crank 3 mm right`. Wheels with a mark: crank, cam.",
    ),
    (
        "cam -1 tooth",
        OffsetUnreadable,
        "`cam -1 tooth` cannot be read as a mark that is off. Write a wheel and how far, like "
        "`intake: half a tooth late`, `exhaust 4 deg` or `crank 3 mm right`. Wheels with a mark: crank, cam.",
    ),
    (
        "pump: 1 tooth",
        OffsetWheelUnknown,
        "`pump` is no wheel whose mark tells the timing. Name one of: crank, cam.",
    ),
    (
        "cam 21 teeth",
        OffsetTooLarge,
        "`cam 21 teeth` is 21 teeth of a wheel that has 40: more than half a turn cannot be told from the other side. "
        "Give the shorter way.",
    ),
    (
        "cam 1 tooth left late",
        OffsetBothSides,
        "`cam 1 tooth left late` names several sides (left, late). Name one: late, early, left, right, up or down.",
    ),
]


@pytest.mark.parametrize(("text", "error", "message"), REFUSED)
def test_what_cannot_be_read_is_refused(text: str, error: type[Exception], message: str) -> None:
    with pytest.raises(error) as caught:
        look(text)
    assert str(caught.value) == message


def test_millimeters_need_a_pitch() -> None:
    with pytest.raises(OffsetNeedsPitch) as caught:
        look("cam 3 mm", ("  pitch: 9.525 mm\n", ""), cut_mm=None)
    assert str(caught.value) == (
        "`cam 3 mm`: a distance becomes teeth by the pitch, and the sheet states none (`drive.pitch`). "
        "Give the offset in teeth or degrees, or write the pitch."
    )


def test_millimeters_are_taken_on_the_pitch_circle() -> None:
    # HAND: 3 mm on 40 · 9.525 / 2π = 60.638 mm are 3 / 60.638 rad = 2.8346° of the camshaft, 5.669° of the crankshaft.
    found = look("cam: 3 mm", cut_mm=None)
    assert found.cam_deg == pytest.approx(2.8346, abs=1e-4)
    assert (
        "at Cam wheel, read on the pitch circle of 60.638 mm (2.3873 in) radius: 2.83° at the camshaft, 5.7° at the "
        "crankshaft" in found.words
    )
    # HAND: a chain's pins lie on 9.525 / (2 · sin 4.5°) = 60.7007 mm: 3 mm are 2.8317° there.
    chain = look("cam: 3 mm", *CHAIN, cut_mm=None)
    assert chain.cam_deg == pytest.approx(2.8317, abs=1e-4)


def test_early_at_the_crankshaft_says_which_way_its_mark_stands() -> None:
    found = look("crank: 3 mm early", cut_mm=None)
    assert (found.timing, found.why_timing) == (
        "early",
        "said of the valves; the mark of Crank wheel then stands behind its place while the camshafts stand at "
        "theirs",
    )
    late = look("crank: 3 mm late", cut_mm=None)
    assert "then stands ahead of its place" in late.why_timing
    # The same as seen by its side: a crankshaft that is behind its mark has its camshafts ahead, and so early.
    assert look("crank: 3 mm behind", cut_mm=None).timing == "early"

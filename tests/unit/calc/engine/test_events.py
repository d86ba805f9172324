"""Valve events: any two figures, contradictions, overlap, the camshaft advanced, the calculator's ways in.

Expected numbers are HAND: 180° of the crankshaft lie between the dead centers, half a crank degree is a cam degree.
"""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.calculator import run
from gudgeon.calc.engine.events import (
    Valve,
    ValveEvents,
    advanced,
    lobe_separation_deg,
    overlap_deg,
    rocker_ratio,
    separation_of_equal_lobes_deg,
    valve_events,
)
from gudgeon.calc.engine.events_errors import (
    DurationImpossible,
    EventsContradict,
    OverlapContradicts,
    TooFewEvents,
)
from gudgeon.calc.errors import NotFinite, NotPositive
from gudgeon.errors import InputError

FIGURES = ("opens_deg", "closes_deg", "duration_deg", "centerline_deg")
INTAKE = {"opens_deg": 12.0, "closes_deg": 48.0, "duration_deg": 240.0, "centerline_deg": 108.0}
# An exhaust opens 46° before bottom and closes 10° after top: 46 + 180 + 10 = 236; 236 / 2 − 10 = 108 before top.
EXHAUST = {"opens_deg": 46.0, "closes_deg": 10.0, "duration_deg": 236.0, "centerline_deg": 108.0}
VALVES: tuple[tuple[Valve, dict[str, float]], ...] = (("intake", INTAKE), ("exhaust", EXHAUST))

angles = st.floats(min_value=-30.0, max_value=90.0)
valves = st.sampled_from(("intake", "exhaust"))


@pytest.mark.parametrize(("valve", "all_of"), VALVES)
@pytest.mark.parametrize("two", list(combinations(FIGURES, 2)))
def test_any_two_figures_give_the_others(
    valve: Valve, all_of: dict[str, float], two: tuple[str, str]
) -> None:
    found = valve_events(valve, **{name: all_of[name] for name in two})
    assert {name: getattr(found, name) for name in FIGURES} == all_of
    assert found.flags == ()


@pytest.mark.parametrize(("valve", "all_of"), VALVES)
def test_all_figures_that_agree_are_taken(valve: Valve, all_of: dict[str, float]) -> None:
    assert valve_events(valve, **all_of).flags == ()


def test_a_minus_is_the_other_side_of_the_dead_center() -> None:
    # Opens 5° after top, closes 35° after bottom: 180 − 5 + 35 = 210; halfway is 105 + 5 = 110° after top.
    late = valve_events("intake", opens_deg=-5.0, closes_deg=35.0)
    assert (late.duration_deg, late.centerline_deg) == (210.0, 110.0)
    early = valve_events("exhaust", opens_deg=40.0, closes_deg=-8.0)
    assert (early.duration_deg, early.centerline_deg) == (212.0, 114.0)
    assert overlap_deg(late, exhaust=early) == -13.0


def test_a_triple_that_contradicts_itself_is_refused_with_its_values() -> None:
    with pytest.raises(EventsContradict) as caught:
        valve_events("intake", opens_deg=12.0, closes_deg=48.0, duration_deg=250.0)
    assert str(caught.value) == (
        "The intake events contradict each other: opening 12° + 180° + 48° to closing is 240°, and the duration "
        "given is 250°. Check the three, and the sign of an event on the other side of its dead center."
    )
    with pytest.raises(EventsContradict) as caught:
        valve_events("exhaust", opens_deg=40.0, closes_deg=-8.0, duration_deg=228.0)
    assert str(caught.value) == (
        "The exhaust events contradict each other: opening 40° + 180° − 8° to closing is 212°, and the duration "
        "given is 228°. Check the three, and the sign of an event on the other side of its dead center."
    )


def test_what_rounding_may_do_is_no_contradiction() -> None:
    found = valve_events("intake", opens_deg=12.0, closes_deg=48.0, duration_deg=241.0, slack_deg=1.5)
    assert found.duration_deg == 240.0
    with pytest.raises(EventsContradict):
        valve_events("intake", opens_deg=12.0, closes_deg=48.0, duration_deg=242.0, slack_deg=1.5)


def test_a_centerline_off_the_middle_is_flagged_and_the_events_count() -> None:
    found = valve_events("exhaust", opens_deg=46.0, closes_deg=10.0, centerline_deg=112.0)
    assert found.centerline_deg == 108.0
    assert found.flags == (
        "The exhaust centerline given, 112°, is not halfway between opening 46° and closing 10°, which is 108°: "
        "the lobe is not symmetric, or one of the figures is wrong.",
    )


def test_one_figure_is_too_few() -> None:
    with pytest.raises(TooFewEvents) as caught:
        valve_events("exhaust", duration_deg=236.0)
    assert str(caught.value) == (
        "Of the exhaust valve only duration is given: two figures are needed. "
        "Give two of opening, closing, duration and centerline."
    )
    with pytest.raises(TooFewEvents) as caught:
        valve_events("intake")
    assert str(caught.value) == (
        "Of the intake valve nothing is given: two figures are needed. "
        "Give two of opening, closing, duration and centerline."
    )


def test_a_valve_that_closes_before_it_opens_is_refused() -> None:
    with pytest.raises(DurationImpossible) as caught:
        valve_events("intake", opens_deg=-100.0, closes_deg=-90.0)
    assert str(caught.value) == (
        "A duration of -10° for the intake valve cannot be: it lies above 0° and below 720°, one round of the "
        "camshaft. Check the events and their signs."
    )
    with pytest.raises(NotFinite):
        valve_events("intake", opens_deg=float("nan"), closes_deg=48.0)


def test_an_unusual_duration_is_flagged() -> None:
    assert valve_events("intake", opens_deg=-30.0, closes_deg=-10.0).flags == (
        "A duration of 140° for the intake valve is outside the usual 150 to 360° (common practice): check the "
        "events and their signs.",
    )


@given(valve=valves, opens=angles, closes=angles, by=st.floats(min_value=-40.0, max_value=40.0))
def test_advanced_and_retarded_by_as_much_is_as_before(
    valve: Valve, opens: float, closes: float, by: float
) -> None:
    before = valve_events(valve, opens_deg=opens, closes_deg=closes)
    back = advanced(advanced(before, by_deg=by), by_deg=-by)
    for name in FIGURES:
        assert getattr(back, name) == pytest.approx(getattr(before, name), abs=1e-9)


@given(valve=valves, opens=angles, closes=angles, by=st.floats(min_value=-40.0, max_value=40.0))
def test_advanced_events_still_belong_together(valve: Valve, opens: float, closes: float, by: float) -> None:
    after = advanced(valve_events(valve, opens_deg=opens, closes_deg=closes), by_deg=by)
    again = valve_events(valve, opens_deg=after.opens_deg, closes_deg=after.closes_deg)
    assert again.duration_deg == pytest.approx(after.duration_deg, abs=1e-9)
    assert again.centerline_deg == pytest.approx(after.centerline_deg, abs=1e-9)


@given(opens=angles, closes=angles, by=st.floats(min_value=-40.0, max_value=40.0))
def test_one_camshaft_for_both_keeps_overlap_and_separation(opens: float, closes: float, by: float) -> None:
    pair = [valve_events(valve, opens_deg=opens, closes_deg=closes) for valve, _ in VALVES]
    after = [advanced(one, by_deg=by) for one in pair]
    assert overlap_deg(after[0], exhaust=after[1]) == pytest.approx(
        overlap_deg(pair[0], exhaust=pair[1]), abs=1e-9
    )
    assert lobe_separation_deg(after[0], exhaust=after[1]) == pytest.approx(
        lobe_separation_deg(pair[0], exhaust=pair[1]), abs=1e-9
    )


@given(opens=angles, closes=angles)
def test_an_intake_and_an_exhaust_are_mirrored_at_top_dead_center(opens: float, closes: float) -> None:
    intake = valve_events("intake", opens_deg=opens, closes_deg=closes)
    mirrored = valve_events("exhaust", opens_deg=closes, closes_deg=opens)
    assert mirrored.centerline_deg == pytest.approx(intake.centerline_deg, abs=1e-9)
    assert mirrored.closes_deg == intake.opens_deg
    assert mirrored.duration_deg == pytest.approx(intake.duration_deg, abs=1e-9)


@given(
    duration=st.floats(min_value=200.0, max_value=320.0), overlap=st.floats(min_value=-20.0, max_value=100.0)
)
def test_the_separation_of_equal_lobes_is_that_of_their_events(duration: float, overlap: float) -> None:
    half = overlap / 2
    intake = valve_events("intake", opens_deg=half, duration_deg=duration)
    exhaust = valve_events("exhaust", closes_deg=half, duration_deg=duration)
    found = separation_of_equal_lobes_deg(duration, overlap_deg=overlap)
    assert found == pytest.approx(lobe_separation_deg(intake, exhaust=exhaust), abs=1e-9)


def test_a_rocker_without_lash_is_the_ratio_of_both_lifts() -> None:
    assert rocker_ratio(12.0, lash_mm=0.0, cam_lift_mm=8.0) == 1.5
    with pytest.raises(NotPositive):
        rocker_ratio(12.0, lash_mm=0.0, cam_lift_mm=0.0)


def test_the_calculator_finds_the_exhaust_from_the_overlap() -> None:
    answer = run("engine.valve-events", {"opening": "12", "closing": "48", "overlap": "22"})
    assert answer["exhaust_closing_deg"] == 10.0
    assert answer["exhaust_duration_deg"] == 240.0
    assert answer["overlap_deg"] == 22.0
    assert answer.flags == (
        "The exhaust duration is not given: it was taken as that of the intake (equal lobes).",
    )
    told = run(
        "engine.valve-events", {"opening": "12", "closing": "48", "overlap": "22", "exhaust_duration": "236"}
    )
    assert told["exhaust_opening_deg"] == 46.0
    assert told.flags == ()


def test_the_calculator_takes_one_valve_alone() -> None:
    answer = run(
        "engine.valve-events", {"exhaust_opening": "46", "exhaust_centerline": "108", "advance": "2"}
    )
    assert answer["exhaust_duration_deg"] == 236.0
    assert answer["exhaust_centerline_deg"] == 110.0
    assert [one.name for one in answer.results] == [
        "exhaust_duration_deg", "exhaust_centerline_deg", "exhaust_opening_deg", "exhaust_closing_deg",
    ]  # fmt: skip


def test_the_calculator_takes_the_mean_of_two_durations() -> None:
    answer = run("engine.valve-events", {"duration": "264", "exhaust_duration": "256", "overlap": "45"})
    assert answer["lobe_separation_deg"] == 107.5  # (260 − 45) / 2
    assert answer.flags == ()


@pytest.mark.parametrize(
    ("given_inputs", "message"),
    [
        (
            {"opening": "12"},
            "Of the intake valve only opening is given: two figures are needed. "
            "Give two of opening, closing, duration and centerline.",
        ),
        (
            {"opening": "12", "closing": "48", "exhaust_closing": "10"},
            "Of the exhaust valve only closing is given: two figures are needed. "
            "Give two of opening, closing, duration and centerline.",
        ),
        (
            {"opening": "12", "closing": "48", "exhaust_duration": "236"},
            "Of the exhaust valve only duration is given: two figures are needed. "
            "Give two of opening, closing, duration and centerline.",
        ),
        (
            {"overlap": "45"},
            "engine.valve-events needs two figures of a valve, or duration and overlap, which is not given. "
            "Add it, like opening=12° closing=48°.",
        ),
    ],
)  # fmt: skip
def test_the_calculator_says_what_is_missing(given_inputs: dict[str, str], message: str) -> None:
    with pytest.raises(InputError) as caught:
        run("engine.valve-events", given_inputs)
    assert str(caught.value) == message


def test_an_overlap_against_the_events_is_refused() -> None:
    both = {"opening": "12", "closing": "48", "exhaust_opening": "46", "exhaust_closing": "10"}
    assert run("engine.valve-events", {**both, "overlap": "22"})["overlap_deg"] == 22.0
    with pytest.raises(OverlapContradicts) as caught:
        run("engine.valve-events", {**both, "overlap": "30"})
    assert str(caught.value) == (
        "An overlap of 30° is given, and the events of both valves make 22° (intake opening + exhaust closing). "
        "Give either the overlap or the events of both."
    )


def test_events_are_values() -> None:
    assert valve_events("intake", **INTAKE) == ValveEvents("intake", 12.0, 48.0, 240.0, 108.0)

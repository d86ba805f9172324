"""Waits: when each is over, what it stops, what is too late, and what comes due after the job."""

import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.always import always
from gudgeon.bench.errors import NotOpen, Unknown
from gudgeon.bench.now import now
from gudgeon.bench.pull_list import card
from gudgeon.bench.ready import ready
from gudgeon.bench.reason import MILESTONES, Reason, when
from gudgeon.bench.timers import Waiting, cold_morning, waits
from gudgeon.bench.wait_errors import (
    ColderThanStated,
    DistanceMissing,
    MinutesMissing,
    NoWaitStated,
    OdometerMissing,
    ReasonMissing,
    TemperatureMissing,
)
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_ready import finish
from tests.unit.sheet.sheets import SMALL

SHEET = SMALL + """\
sealants:
  paste: {name: Gray paste, where: head, open_time: 10 min, cure: 2 h, source: manual p. 12}
  dab: {name: Black dab, where: corners, open_time: 5–8 min, source: manual p. 13}
  bare: {name: Bare tube, where: cover, source: manual p. 14}
waits:
  bleed_down:
    - {from: 15 °C, time: 10 min, source: manual p. 33}
    - {from: 0 °C, time: 40 min, source: manual p. 34}
"""  # fmt: skip


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=SHEET)
    made.read_code()
    return made


def waiting(job: Job, key: str) -> Waiting | None:
    return next((one for one in waits(job.bench()) if one.key == key), None)


def there(job: Job, key: str) -> Waiting:
    found = waiting(job, key)
    assert found is not None
    return found


def reasons(job: Job, milestone: str = "crank") -> list[Reason]:
    return [one for one in ready(job.bench(), milestone=milestone).reasons if one.family == "waiting"]


def later(job: Job, milestone: str = "crank") -> list[Reason]:
    return [one for one in ready(job.bench(), milestone=milestone).later if one.family == "waiting"]


def start(job: Job, key: str = "wait", **said: Any) -> Any:
    return job.record("timer-started", **{"timer": key, "name": "A wait", "task": "fill oil", **said})


def lay(job: Job, sealant: str = "paste", **said: Any) -> Any:
    return job.record("sealant-laid", sealant=sealant, joint="head", **said)


def close(job: Job, *bolts: str) -> None:
    for bolt in bolts or ("1", "3", "2", "4"):
        job.pull(1, bolt)


def test_the_task_is_found_when_the_wait_is_written_down(job: Job) -> None:
    start(job, minutes=90)
    assert job.bench().state.timers["wait"].task == "fill_oil"
    blocked = [
        one for one in (*now(job.bench()).blocked, *now(job.bench()).waiting) if one.task == "fill_oil"
    ]
    assert "A wait, until" in blocked[0].why


def test_a_task_that_the_job_does_not_have_is_refused_with_near_ones(job: Job) -> None:
    with pytest.raises(Unknown) as caught:
        start(job, minutes=90, task="Fill oil up to the mark")
    assert "Fill oil to the mark" in str(caught.value)
    assert job.bench().state.timers == {}


def test_a_bead_be_together_before_one_clock_and_wait_for_the_other(job: Job) -> None:
    said = lay(job)
    laid, by = job.now, job.now + timedelta(minutes=10)
    assert there(job, "paste_head_open").words == f"must be together by {when(by)}, 10 min to go"
    assert there(job, "paste_head_cure").words == "has not begun: it counts from when the joint is together"
    assert f"Gray paste, open time: must be together by {when(by)}, 10 min to go." in said.remarks
    assert (
        card(job.bench(), "head").sealing[0]
        == f"Gray paste, open time: must be together by {when(by)}, 10 min to go"
    )
    close(job)
    assert waiting(job, "paste_head_open") is None
    # HAND: laid at t, the four bolts follow a minute apart, so it is together at t + 4 min; the cure is 2 h from then
    cure = there(job, "paste_head_cure")
    assert cure.ends == laid + timedelta(hours=2, minutes=4)
    assert (cure.mark, cure.task) == ("running", "check_cures")
    job.now = laid + timedelta(hours=2, minutes=3)
    assert len(reasons(job)) == 1
    job.now += timedelta(minutes=2)
    assert reasons(job) == []


def test_a_joint_that_is_not_together_in_time_is_taken_off_again(job: Job) -> None:
    lay(job)
    over = job.now + timedelta(minutes=10)
    close(job, "1", "3", "2")
    job.now += timedelta(minutes=20)
    late = there(job, "paste_head_open")
    words = f"the open time is over since {when(over)}: take it off, clean both faces, lay it anew"
    assert (late.mark, late.words) == ("late", words)
    assert [one.why for one in reasons(job)] == [
        words,
        "has not begun: it counts from when the joint is together",
    ]
    assert reasons(job)[0].about == "timer:paste_head_open"
    assert "gudgeon record sealant paste --joint head" in reasons(job)[0].close_with
    assert f"Gray paste, open time: {words}" in card(job.bench(), "head").sealing


def test_closing_it_too_late_does_not_make_it_good(job: Job) -> None:
    lay(job)
    over = job.now + timedelta(minutes=10)
    job.now += timedelta(minutes=30)
    close(job, "1", "3", "2")
    said = job.pull(1, "4")
    assert there(job, "paste_head_open").words == (
        f"together at {when(job.now)}, and the open time was over since {when(over)}: "
        "take it off, clean both faces, lay it anew"
    )
    assert any(one.startswith("Stop. Gray paste, open time") for one in said.remarks)
    job.record("joint-disturbed", joint="head", why="cleaned, laid anew")
    lay(job)
    close(job)
    assert waiting(job, "paste_head_open") is None


def test_pulls_from_before_the_bead_do_not_close_it(job: Job) -> None:
    close(job)
    lay(job)
    assert there(job, "paste_head_open").mark == "running"
    assert there(job, "paste_head_cure").mark == "unknown"


def test_a_bead_written_down_after_the_joint_was_closed(job: Job) -> None:
    close(job)
    together = job.now
    job.now += timedelta(minutes=3)
    lay(job, minutes_ago=8)
    assert waiting(job, "paste_head_open") is None
    assert there(job, "paste_head_cure").ends == together + timedelta(hours=2)


def test_taking_it_apart_again_needs_a_new_bead(job: Job) -> None:
    lay(job)
    close(job)
    job.now += timedelta(hours=5)
    assert reasons(job) == []
    job.record("joint-disturbed", joint="head", why="wrong gasket")
    assert there(job, "paste_head_open").mark == "late"


def test_a_time_that_the_sheet_does_not_state_is_never_filled_in(job: Job) -> None:
    said = lay(job, "bare")
    assert job.bench().state.timers["bare_head_open"].minutes is None
    assert any(
        "The sheet states no open time and no cure for it, and none is filled in." in one
        for one in said.remarks
    )
    close(job)
    job.now += timedelta(days=30)
    assert [one.why for one in reasons(job)] == [
        "no cure time is known: the sheet states none, and nobody gave one by hand"
    ]
    with pytest.raises(ReasonMissing) as caught:
        lay(job, "bare", cure="24 h")
    assert str(caught.value) == (
        "The cure of 24 h is given by hand and no reason with it. Say what it rests on with --why, like "
        "`printed on the tube`."
    )
    lay(job, "bare", cure="24 h", open="10", why="printed on the tube", minutes_ago=60 * 24 * 30 + 5)
    assert job.bench().state.timers["bare_head_cure"].stated == (
        "24 h, by hand: printed on the tube; the sheet states none"
    )
    assert reasons(job) == []


def test_of_a_range_the_end_that_errs_on_the_safe_side(job: Job) -> None:
    lay(job, "dab")
    assert (
        job.bench().state.timers["dab_head_open"].minutes == 5
    )  # the sheet: 5–8 min, be together before the shorter


def test_a_sealant_that_the_sheet_does_not_have(job: Job) -> None:
    with pytest.raises(Unknown) as caught:
        lay(job, "glue")
    assert str(caught.value) == "`glue` is no sealant here. Known: paste, dab, bare."


@pytest.mark.parametrize(
    ("temperature", "minutes", "celsius"),
    # HAND: from 15 °C the sheet states 10 min, from 0 °C 40 min; 50 °F are 10 °C, 59 °F are 15 °C
    [("20 °C", 10, "20"), ("15 °C", 10, "15"), ("14.9 °C", 40, "14.9"), ("0 °C", 40, "0"), ("50 °F", 40, "10.0"),
     ("59 °F", 10, "15.0")],
)  # fmt: skip
def test_lifters_bleed_down_by_the_temperature(
    job: Job, temperature: str, minutes: int, celsius: str
) -> None:
    said = start(job, wait="bleed-down", temperature=temperature)
    timer, body = job.bench().state.timers["wait"], job.bench().store
    assert body is not None
    assert timer.minutes == minutes
    assert any(f"It waits {minutes} min ({minutes} min from" in one for one in said.remarks)


def test_colder_than_anything_the_sheet_states_is_refused(job: Job) -> None:
    with pytest.raises(ColderThanStated) as caught:
        start(job, wait="bleed-down", temperature="-5 °C")
    assert str(caught.value) == (
        "At -5 °C the sheet states no time in which lifters bleed down: its coldest holds from 0 °C (manual p. 34), and "
        "none is filled in. Warm the engine up to that, find the time in the manual, or give the minutes by hand and "
        "the reason with --why."
    )


def test_a_bleed_down_wants_its_temperature_or_a_reason(job: Job, tmp_path: Path) -> None:
    with pytest.raises(TemperatureMissing):
        start(job, wait="bleed-down")
    with pytest.raises(ReasonMissing):
        start(job, wait="bleed-down", minutes=30)
    start(job, wait="bleed-down", minutes=30, why="the foreman said so")
    (tmp_path / "bare").mkdir()
    bare = make_job(tmp_path / "bare")
    with pytest.raises(NoWaitStated) as caught:
        start(bare, wait="bleed-down", temperature="20 °C")
    assert str(caught.value) == (
        "The sheet states no time in which lifters bleed down, and none is filled in. Write it under `waits:` as "
        "`bleed_down:` with its page, or give the minutes by hand and the reason with --why."
    )


@pytest.mark.parametrize("kind", ["cool-down", "drain", "battery", "other"])
def test_any_other_wait_takes_its_minutes(job: Job, kind: str) -> None:
    with pytest.raises(MinutesMissing) as caught:
        start(job, wait=kind)
    assert str(caught.value) == (
        f"How long it waits is not said. A wait of the kind `{kind}` takes its minutes: "
        "gudgeon record timer KEY MINUTES …"
    )
    start(job, wait=kind, minutes=30)
    assert there(job, "wait").kind == kind


@pytest.fixture
def berlin(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setenv("TZ", "Europe/Berlin")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="the local clock cannot be set here")
@pytest.mark.usefixtures("berlin")
@pytest.mark.parametrize(
    ("since", "morning"),
    [
        # HAND, all in UTC; Berlin is an hour ahead in winter, two in summer. 06:00 there is 05:00 or 04:00 UTC.
        ("2026-03-07T20:00", "2026-03-08T05:00"),  # nine hours to six in the morning
        ("2026-03-07T21:00", "2026-03-08T05:00"),  # eight to the minute
        ("2026-03-07T21:01", "2026-03-09T05:00"),  # a minute short: the morning after
        ("2026-03-07T04:00", "2026-03-08T05:00"),  # at five in the morning
        (
            "2026-03-28T20:30",
            "2026-03-30T04:00",
        ),  # the night in which an hour is missing: only seven and a half
        ("2026-10-24T20:30", "2026-10-25T05:00"),  # the night with an hour twice: eight and a half
    ],
)
def test_the_next_cold_morning(since: str, morning: str) -> None:
    at, then = (datetime.fromisoformat(one).replace(tzinfo=UTC) for one in (since, morning))
    assert cold_morning(at) == then


def test_an_engine_that_was_run_waits_for_another_morning(job: Job) -> None:
    start(job, "morning", wait="cold morning", task="next_morning")
    timer = job.bench().state.timers["morning"]
    assert timer.due_before == "handover"
    first = cold_morning(job.now)
    assert datetime.fromisoformat(timer.ends) - first < timedelta(minutes=1)
    assert [one.what for one in later(job)] == ["A wait"]
    job.now = first - timedelta(hours=2)
    job.record("turned", by="starter", seen="ran for a minute")
    found = there(job, "morning")
    assert found.ends is not None
    assert found.ends >= job.now + timedelta(hours=8)
    assert f"; the starter turned it at {when(job.now)}, so it counts from then" in found.words


def test_a_recall_by_distance_never_stops_a_milestone_and_is_due_when_it_is_reached(job: Job) -> None:
    finish(job)
    start(
        job,
        "recall",
        wait="recall",
        distance="1000 km",
        odometer="84 120 km",
        task="look_again",
    )
    for milestone in MILESTONES:
        assert ready(job.bench(), milestone=milestone).answer == "yes"
    assert [one.why for one in later(job, "handover")] == [
        "due at 85,120 km; the odometer shows 84,120 km, 1,000 km to go"  # HAND: 84120 + 1000
    ]
    job.record("odometer-read", value="85,119.5 km")
    assert later(job)[0].why == "due at 85,120 km; the odometer shows 85,119.5 km, 1 km to go"
    said = job.record("odometer-read", value="85 120 km")
    words = "due NOW: 85,120 km is reached, the odometer shows 85,120 km"
    assert said.remarks == (f"A wait: {words}.",)
    assert (later(job)[0].why, ready(job.bench(), milestone="handover").answer) == (words, "yes")
    assert [(one.mark, one.state) for one in always(job.bench()).timers] == [("due", words)]
    job.record("timer-ended", timer="recall", how="oil changed, clamps tight")
    assert (later(job), always(job.bench()).timers) == ([], ())


def test_miles_and_kilometers_are_compared_exactly(job: Job) -> None:
    start(job, "recall", wait="recall", distance="500 mi", odometer="1000 km", task="look_again")
    timer = job.bench().state.timers["recall"]
    assert (timer.until, timer.unit) == ("1804.672000", "km")  # HAND: 1000 + 500 x 1.609344
    job.record(
        "odometer-read", value="1121.37 mi"
    )  # HAND: 1804.67... km, 8 m short: 1121.37 x 1.609344 = 1804.6701
    assert there(job, "recall").mark == "running"
    job.record("odometer-read", value="1121.372 mi")  # HAND: 1121.372 x 1.609344 = 1804.6733
    assert there(job, "recall").mark == "due"


def test_a_recall_begins_where_the_odometer_stood_last(job: Job) -> None:
    with pytest.raises(OdometerMissing):
        start(job, "recall", wait="recall", distance="600 mi", task="look_again")
    with pytest.raises(DistanceMissing):
        start(job, "recall", wait="recall", task="look_again")
    job.record("odometer-read", value="52,000 mi")
    start(job, "recall", wait="recall", distance="600 mi", task="look_again")
    assert (job.bench().state.timers["recall"].until, job.bench().state.timers["recall"].unit) == (
        "52600",
        "mi",
    )


def test_an_odometer_that_goes_back_is_said_at_once(job: Job) -> None:
    job.record("odometer-read", value="84120 km")
    said = job.record("odometer-read", value="48120 km")
    assert said.remarks == (
        "Look: the odometer went back: 48120 km, after 84120 km. Strike the wrong one, or read it again.",
    )


def test_a_wait_of_the_day_before_yesterday_by_a_wrong_clock(job: Job) -> None:
    start(job, minutes=10)
    started = job.now
    job.now -= timedelta(days=2)
    found = there(job, "wait")
    assert found.mark == "running"
    assert found.words == (
        f"until {when(started + timedelta(minutes=10))}; its start, {when(started)}, lies in the future of this clock: "
        "which of the two is wrong?"
    )


def test_a_wait_that_somebody_ended_is_not_ended_twice(job: Job) -> None:
    start(job, minutes=10)
    job.record("timer-ended", timer="wait", how="dry to the touch")
    with pytest.raises(NotOpen) as caught:
        job.record("timer-ended", timer="wait", how="again")
    assert str(caught.value) == "`wait` is not on the list of what is running. On it: none."


def test_the_wait_for_every_seal_does_not_wait_for_a_recall(job: Job) -> None:
    start(job, "recall", wait="recall", distance="1000 km", odometer="5 km", task="look_again")
    start(job, "battery", wait="battery", minutes=600)
    lines = {one.task: one for one in (*now(job.bench()).blocked, *now(job.bench()).waiting)}
    assert "A wait, until" in lines["check_cures"].why
    assert "due at" not in lines["check_cures"].why


def test_a_wait_that_is_started_again_while_it_runs_says_what_truly_holds(job: Job) -> None:
    """HAND: begun at t for 30 min, again at t + 1 min for 5: the later end counts, t + 30 min, 29 min from then."""
    assert start(job, minutes=30).remarks == ()
    ends = job.now + timedelta(minutes=30)
    (said,) = start(job, minutes=5).remarks
    assert said == (
        f"A wait ran already, and starting it again makes no wait shorter: until {when(ends)}, 29 min to go. If it is "
        "over, say why: gudgeon record timer-ended wait --how …"
    )
    assert there(job, "wait").ends == ends
    assert start(job, minutes=60).remarks == ()
    assert there(job, "wait").ends == job.now + timedelta(minutes=60)

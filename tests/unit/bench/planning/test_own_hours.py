"""His hours as they fall on real days: by the clock on the wall, whatever the clocks do."""

import os
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from gudgeon.bench.context import Bench
from gudgeon.bench.planning.own_hours import old_words, real_hours, said_hours, starts
from tests.unit.bench.benches import Job
from tests.unit.bench.planning.planned import HOURS, planned_job

BERLIN = ZoneInfo("Europe/Berlin")


@pytest.fixture
def berlin() -> Iterator[None]:
    """A machine in a place where the clocks are changed on March 29, 2026 and October 25, 2026."""
    kept = os.environ.get("TZ")
    os.environ["TZ"] = "Europe/Berlin"
    time.tzset()
    yield
    if kept is None:
        del os.environ["TZ"]
    else:
        os.environ["TZ"] = kept
    time.tzset()


def at(bench: Bench, moment: datetime) -> Bench:
    return replace(bench, now=moment)


def spans(bench: Bench, *, days: int, which: str = "own") -> list[tuple[str, str]]:
    """The windows by the clock on the wall."""
    found = real_hours(bench, days=days)
    return [
        (f"{found.clock.at(start):%a %d %H:%M}", f"{found.clock.at(end):%H:%M}")
        for start, end in getattr(found.hours, which)
    ]


def test_a_week_of_hours_begins_with_the_next_quarter(tmp_path: Path) -> None:
    """HAND: begun on Saturday, March 7 at 10:00 UTC and one entry made at 10:01: the next quarter is 10:15."""
    bench = planned_job(tmp_path).bench()
    assert spans(bench, days=8) == [
        ("Sat 07 10:15", "13:00"), ("Sat 07 14:00", "17:00"), ("Sun 08 10:00", "13:00"), ("Tue 10 19:00", "21:00"),
        ("Thu 12 19:00", "21:00"), ("Sat 14 10:00", "13:00"), ("Sat 14 14:00", "17:00"),
    ]  # fmt: skip
    assert spans(bench, days=2, which="early")[-1] == ("Sun 08 10:00", "13:00")
    assert ("Tue 10 19:00", "20:30") in spans(bench, days=8, which="early")
    assert spans(bench, days=2, which="both") == [("Sat 07 10:15", "13:00"), ("Sat 07 14:00", "17:00")]


def test_outside_his_hours_a_plan_starts_with_the_next_ones(tmp_path: Path) -> None:
    bench = planned_job(tmp_path).bench()
    night = datetime(2026, 3, 8, 3, 7, tzinfo=UTC)
    later = night + timedelta(hours=5)
    assert starts(at(bench, night), days=30) == datetime(2026, 3, 8, 10, tzinfo=UTC)
    assert starts(at(bench, later), days=30) == starts(at(bench, night), days=30)
    assert real_hours(at(bench, night), days=30).clock.start == datetime(2026, 3, 8, 10, tzinfo=UTC)


def test_the_book_plans_a_day_otherwise_and_days_off_have_no_hours(tmp_path: Path) -> None:
    job = planned_job(tmp_path, hours=HOURS + "  days_off: [2026-03-12 to 2026-03-14]\n")
    job.record("day-planned", day="2026-03-08", hours=[], why="a birthday")
    job.record("day-planned", day="2026-03-14", hours=["09:00-12:00"])
    job.record("day-planned", day="2026-03-08", hours=["11:00-12:00"], whose="second person")
    bench = job.bench()
    assert spans(bench, days=8)[2:] == [("Tue 10 19:00", "21:00"), ("Sat 14 09:00", "12:00")]
    assert spans(bench, days=8, which="both")[2:] == []
    assert said_hours(bench) == (
        "You: Tuesday 19:00–21:00; Thursday 19:00–21:00; Saturday 10:00–13:00 and 14:00–17:00; Sunday 10:00–13:00.",
        "A second person: Saturday 10:00–17:00.",
        "Days off: 2026-03-12 to 2026-03-14.",
        "No torque and no timing after 20:30, as far as that can be.",
        "Sun Mar 08: no hours (a birthday).",
        "Sun Mar 08 for the second person: 11:00–12:00.",
        "Sat Mar 14: 09:00–12:00.",
    )


def test_hours_keep_the_clock_on_the_wall_when_the_clocks_are_changed(berlin: None, tmp_path: Path) -> None:
    """HAND: on March 29, 2026 two o'clock is three: 01:00 to 05:00 lasts three hours; on October 25 it lasts five."""
    hours = "hours:\n  week: {Sunday: 01:00-05:00, Tuesday: 19:00-21:00}\n"
    bench = planned_job(tmp_path, hours=hours).bench()
    for begins, minutes in (
        (datetime(2026, 3, 28, 12, tzinfo=BERLIN), 180),
        (datetime(2026, 10, 24, 12, tzinfo=BERLIN), 300),
    ):
        found = real_hours(at(bench, begins), days=4)
        (start, end), (tuesday, until) = found.hours.own
        assert end - start == minutes
        assert (found.clock.at(start).hour, found.clock.at(end).hour) == (1, 5)
        assert (found.clock.at(tuesday).hour, found.clock.at(until).hour) == (19, 21)
        assert until - tuesday == 120


def test_an_hour_that_the_change_of_clocks_leaves_out_is_none(berlin: None, tmp_path: Path) -> None:
    """HAND: on March 29, 2026 the clock goes from 01:59 to 03:00: of 01:50 to 02:10 ten minutes are there, of 02:10 to
    02:40 none, and of 02:45 to 04:00 an hour."""
    hours = "hours:\n  week: {Sunday: [01:50-02:10, 02:10-02:40, 02:45-04:00, 05:00-06:00]}\n"
    found = real_hours(
        at(planned_job(tmp_path, hours=hours).bench(), datetime(2026, 3, 28, 12, tzinfo=BERLIN)), days=2
    )
    told = [
        (found.clock.at(a).strftime("%H:%M"), found.clock.at(b).strftime("%H:%M"), b - a)
        for a, b in found.hours.own
    ]
    assert told == [("01:50", "04:00", 70), ("05:00", "06:00", 60)]


def test_without_a_late_hour_every_hour_is_early(tmp_path: Path) -> None:
    hours = real_hours(
        planned_job(tmp_path, hours=HOURS.replace("  late: 20:30\n", "")).bench(), days=20
    ).hours
    assert hours.early == hours.own


def test_hours_after_the_late_one_alone_are_never_early(tmp_path: Path) -> None:
    hours = real_hours(planned_job(tmp_path, hours=HOURS.replace("20:30", "00:00")).bench(), days=20).hours
    assert hours.early == ()


def test_a_plan_never_starts_before_now(tmp_path: Path) -> None:
    job: Job = planned_job(tmp_path)
    bench = job.bench()
    for minutes in range(0, 3000, 37):
        moment = job.now + timedelta(minutes=minutes)
        found = real_hours(at(bench, moment), days=10)
        assert found.clock.start >= moment
        assert found.hours.own[0][0] == 0
        assert found.clock.start == starts(at(bench, moment), days=10)


@pytest.mark.parametrize(
    ("late", "early"),
    [
        ("23:00", [("Sat 07 22:00", "23:00"), ("Sun 08 09:00", "11:00")]),
        ("24:00", [("Sat 07 22:00", "00:00"), ("Sun 08 09:00", "11:00")]),
    ],
)
def test_what_goes_on_over_midnight_from_an_evening_is_late(
    tmp_path: Path, late: str, early: list[tuple[str, str]]
) -> None:
    """HAND: an evening from 22:00 to 01:00 is one evening; the hours of Sunday morning are not of it."""
    hours = f"hours:\n  week: {{Saturday: 22:00-24:00, Sunday: [00:00-01:00, 09:00-11:00]}}\n  late: {late}\n"
    bench = planned_job(tmp_path, hours=hours).bench()
    assert spans(bench, days=2, which="early") == early
    assert any("nor past midnight in hours that go on from an evening" in one for one in said_hours(bench))


def test_hours_after_midnight_by_themselves_and_whole_days_are_not_all_late(tmp_path: Path) -> None:
    """HAND: without an evening before it, half past midnight is early; of days without end the night is late alone."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    alone = planned_job(
        tmp_path / "a", hours="hours:\n  week: {Sunday: 00:00-01:00}\n  late: 23:00\n"
    ).bench()
    assert spans(alone, days=2, which="early") == [("Sun 08 00:00", "01:00")]
    week = "hours:\n  week: {Saturday: 00:00-24:00, Sunday: 00:00-24:00}\n  late: 21:00\n"
    whole = planned_job(tmp_path / "b", hours=week).bench()
    assert spans(whole, days=2, which="early") == [("Sat 07 10:15", "21:00"), ("Sun 08 06:00", "21:00")]


def test_words_of_hours_come_without_signs_that_steer_a_screen_and_cut(tmp_path: Path) -> None:
    job = planned_job(
        tmp_path, hours='hours:\n  evenings: "two \\u202Ea week"\n  weekend: ' + "long " * 400 + "\n"
    )
    job.record("day-planned", day="2026-03-20", why="a\u2066way\u2069")
    first, second = old_words(job.bench())
    assert first == "two a week"
    assert len(second) < 200 and second.endswith("…")
    assert "Fri Mar 20: no hours (a way)." in said_hours(job.bench())

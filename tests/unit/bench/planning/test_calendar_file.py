"""The plan as a calendar file: read back by a library, and held to the rules of RFC 5545."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from icalendar import Calendar, Event

from gudgeon.bench.planning.answer import Mark, PlanAnswer
from gudgeon.bench.planning.calendar_file import MAKER, calendar_file, is_ours
from tests.unit.bench.benches import Job
from tests.unit.bench.planning.planned import asked, planned_job


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    """A job with an order, a promise, a wait that runs, and a task whose title wants escaping."""
    made = planned_job(tmp_path_factory.mktemp("job"))
    made.record("part-ordered", part="Head gasket", supplier="Parts by mail", expected="2026-03-12")
    made.record(
        "timer-started",
        timer="soak",
        name="Penetrating oil; soaking, slowly",
        minutes=600,
        task="exhaust_off",
    )
    made.record("promised", what="Cylinder head", of="shop", on="2026-04-20")
    made.record("task-added", title="Paint: cover, bracket; and a \\ slash", after=["read_code"], minutes=30)
    return made


@pytest.fixture(scope="module")
def answer(job: Job) -> PlanAnswer:
    return asked(job)


@pytest.fixture(scope="module")
def events(answer: PlanAnswer) -> list[Event]:
    return [one for one in Calendar.from_ical(calendar_file(answer)).walk("VEVENT") if isinstance(one, Event)]


def about(events: list[Event], summary: str) -> Event:
    (found,) = [one for one in events if one["SUMMARY"] == summary]
    return found


def test_every_time_at_the_engine_is_an_event_of_its_own_hours(
    answer: PlanAnswer, events: list[Event]
) -> None:
    timed = [one for one in events if str(one["TRANSP"]) == "OPAQUE"]
    assert [(one.decoded("DTSTART"), one.decoded("DTEND")) for one in timed] == [
        (slot.begins.astimezone(UTC), slot.ends.astimezone(UTC)) for slot in answer.slots
    ]
    first = answer.slots[0]
    told = str(timed[0]["DESCRIPTION"])
    assert all(one.title in told for one in first.tasks)
    assert all(need in told for need in first.needs)
    assert str(timed[0]["SUMMARY"]).startswith(f"Engine: {first.tasks[0].title}")
    assert told.endswith("invented engine – not for any real one")


def test_deadlines_are_days_where_a_day_was_promised_and_hours_where_a_clock_runs(
    events: list[Event],
) -> None:
    """HAND: the wait began at 10:03 and lasts 600 min; a day that ends with itself has the next one as its end."""
    part = about(events, "Expected: Head gasket")
    assert (part.decoded("DTSTART"), part.decoded("DTEND")) == (date(2026, 3, 12), date(2026, 3, 13))
    head = about(events, "Promised: Cylinder head")
    assert head.decoded("DTSTART") == date(2026, 4, 20)
    soak = about(events, "Runs out: Penetrating oil; soaking, slowly")
    assert soak.decoded("DTSTART") == datetime(2026, 3, 7, 20, 3, tzinfo=UTC)
    assert "DTEND" not in soak
    assert {str(one["TRANSP"]) for one in (part, head, soak)} == {"TRANSPARENT"}
    assert about(events, "Planned: the first start")


def test_what_the_standard_asks_of_every_event_is_there(answer: PlanAnswer, events: list[Event]) -> None:
    """PRINTED, RFC 5545 3.6 and 3.6.1: PRODID, VERSION 2.0; UID and DTSTAMP, in UTC, in every event; UIDs differ."""
    whole = Calendar.from_ical(calendar_file(answer))
    assert (str(whole["PRODID"]), str(whole["VERSION"])) == (MAKER, "2.0")
    stamp = datetime.fromisoformat(answer.heading.asked).astimezone(UTC)
    assert {one.decoded("DTSTAMP") for one in events} == {stamp}
    uids = [str(one["UID"]) for one in events]
    assert len(uids) == len(set(uids)) > 10
    for one in events:
        if "DTEND" in one:
            assert one.decoded("DTEND") > one.decoded("DTSTART")


def test_lines_end_as_the_standard_says_and_are_no_longer_than_it_allows(answer: PlanAnswer) -> None:
    """PRINTED, RFC 5545 3.1: lines end with CR LF and hold 75 octets at most; 3.3.11: `,`, `;` and `\\` are escaped."""
    raw = calendar_file(answer)
    assert raw.endswith(b"\r\n")
    assert b"\n" not in raw.replace(b"\r\n", b"")
    assert b"\r" not in raw.replace(b"\r\n", b"")
    lines = raw.split(b"\r\n")
    assert max(len(one) for one in lines) <= 75
    for one in lines:
        one.decode("utf-8")  # no letter is cut in two
    unfolded = raw.replace(b"\r\n ", b"").decode("utf-8")
    assert "Penetrating oil\\; soaking\\, slowly" in unfolded
    assert "Paint: cover\\, bracket\\; and a \\\\ slash" in unfolded
    assert unfolded.count("BEGIN:VEVENT") == unfolded.count("END:VEVENT") == unfolded.count("\r\nUID:")


def test_an_event_keeps_its_identity_when_it_moves(job: Job, answer: PlanAnswer) -> None:
    """The same task first in a slot, the same part: another hour is the same event moved."""
    later = [
        replace(slot, begins=slot.begins + timedelta(days=7), ends=slot.ends + timedelta(days=7))
        for slot in answer.slots
    ]
    moved = replace(answer, slots=tuple(later))
    assert uids(moved) == uids(answer)
    other = replace(answer, heading=replace(answer.heading, build="another"))
    assert not set(uids(other)) & set(uids(answer))


def uids(answer: PlanAnswer) -> list[str]:
    return [str(one["UID"]) for one in Calendar.from_ical(calendar_file(answer)).walk("VEVENT")]


def test_words_that_no_calendar_may_hold_do_not_get_into_it(answer: PlanAnswer) -> None:
    odd = Mark(
        "timer",
        datetime(2026, 3, 9, 12, tzinfo=UTC),
        "one\r\nBEGIN:VALARM\x00\x07 two",
        about="a\r\nEND:VEVENT",
    )
    raw = calendar_file(replace(answer, marks=(odd,), slots=()))
    lines = raw.split(b"\r\n")
    assert lines.count(b"END:VEVENT") == 1
    assert b"BEGIN:VALARM" not in lines
    assert not any(byte < 32 and byte not in (10, 13) for byte in raw)
    (event,) = Calendar.from_ical(raw).walk("VEVENT")
    assert "two" in str(event["DESCRIPTION"])


def test_a_plan_without_a_date_still_has_its_deadlines(answer: PlanAnswer) -> None:
    kept = tuple(one for one in answer.marks if one.kind in ("promise", "delivery", "timer"))
    raw = calendar_file(replace(answer, slots=(), marks=kept))
    assert raw.count(b"BEGIN:VEVENT") == 3


def test_what_this_program_wrote_is_known_again(answer: PlanAnswer, tmp_path: Path) -> None:
    assert is_ours(calendar_file(answer))
    assert not is_ours(b"BEGIN:VCALENDAR\r\nPRODID:-//Somebody//Else//EN\r\nEND:VCALENDAR\r\n")
    assert not is_ours(b"a letter")

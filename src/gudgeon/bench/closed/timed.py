"""The proof that it is timed: what it rests on, who turned it by hand, dead and lobe centers, the drive as drawn."""

import re
from collections.abc import Iterator

from gudgeon.bench.closed.model import Drawn, Row, Section, Table
from gudgeon.bench.closed.told import Told, asked, table
from gudgeon.bench.holds import holds_of
from gudgeon.bench.network import job_named
from gudgeon.bench.pictures.drive import drive_picture
from gudgeon.bench.pictures.events import events_picture
from gudgeon.bench.timing.answer import TimingAnswer, events_of, timing
from gudgeon.bench.timing.drive import drive_model
from gudgeon.book.entries import Entry
from gudgeon.book.gates import TIMING_PROOF

ALONE = (
    "This job leaves the timing alone: it asks for no proof of it, and by the book nothing of it came off."
)
_OF_THE_SHEET = re.compile(r"\S+ \([^()]*line \d+, column \d+\): ")
"""What is to be mended in the file of the sheet: who holds the book has no such file."""


def timed(told: Told) -> Section:
    """The proof part by part, every turn by hand, and what the cut did to the timing."""
    answer, locked = asked(lambda: timing(told.bench))
    turned = told.listed("Turned", told.of("turned", "engine-state"))
    if answer is None:
        return Section("timed", "Is it timed?", tables=turned, missing=locked)
    proof = answer.proof
    alone = _left_alone(told)
    why = f": {proof.why_not}" if proof.why_not else ""
    missing = []
    if not alone:
        missing += [f"{one.what}: {one.said}." for one in proof.parts if one.state != "proved"]
        missing += [f"{one.name}: {one.why}." for one in proof.first]
    missing += [f"{one.what}: {one.missing}." for one in answer.centers.lines if one.missing]
    missing += [one for one in answer.missing if not _OF_THE_SHEET.match(one)]
    return Section(
        "timed",
        "Is it timed?",
        said=(
            ALONE if alone else f"The timing is {proof.answer}{why}.",
            *filter(None, [answer.cut, *answer.shifts]),
        ),
        tables=(*(() if alone else _proof(answer)), *_tables(answer), *turned),
        missing=tuple(dict.fromkeys(missing)),
        pictures=tuple(_pictures(told)),
    )


def _left_alone(told: Told) -> bool:
    """Whether the job asks for no proof of the timing, and no entry tells that any of it came off or was locked."""
    bench = told.bench
    asked_for = {one.id for one in holds_of(bench.sheet, job_named(bench.state))}
    if TIMING_PROOF in asked_for or any(one.body.get("hold") == TIMING_PROOF for one in told.entries):
        return False
    return not any(told.of("turned", "engine-state")) and not any(map(_moved, told.entries))


def _moved(one: Entry) -> bool:
    doing = one.body.get("doing")
    sets = (doing.get("sets") or {}) if isinstance(doing, dict) else {}
    return any(sets.get(part) for part in ("belt", "cams", "pins", "holder"))


def _proof(answer: TimingAnswer) -> tuple[Table, ...]:
    parts = (Row((one.what, one.state, one.said)) for one in answer.proof.parts)
    return table("The proof", ("What", "How it stands", "What the book says"), parts)


def _tables(answer: TimingAnswer) -> Iterator[Table]:
    read = (
        Row((one.what, one.words, one.limit, one.verdict, "; ".join(one.notes)))
        for one in answer.centers.lines
        if one.found_deg is not None
    )
    yield from table("Dead and lobe centers, as read", ("What", "Read", "Limit", "Verdict", "Besides"), read)
    events = (
        Row((f"{one.valve} valves", one.opens, one.closes, one.duration, one.centerline, one.source))
        for one in answer.events.lines
    )
    heads = ("Valves", "Open", "Close", "Duration", "Centerline", "Source")
    yield from table("Valve events, by the sheet and after the cut", heads, events)


def _pictures(told: Told) -> Iterator[Drawn]:
    model, _ = asked(lambda: drive_model(told.bench))
    if model is not None:
        yield drive_picture(model)
    found, _ = asked(lambda: events_of(told.bench))
    if found is not None and found.lines:
        yield events_picture(found, engine=told.bench.sheet.engine.name)

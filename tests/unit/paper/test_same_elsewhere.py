"""The same book gives the same print on a machine whose clock runs in another part of the world, and weeks later."""

import time
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta, timezone
from pathlib import Path

import pytest

from gudgeon.bench.closed.ask import closed_book
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.labels.ask import labels
from gudgeon.bench.on_paper.counts_sheet import lists_and_counts
from gudgeon.bench.ready import ready
from gudgeon.bench.shared_page.answer import shared_page
from gudgeon.bench.shared_page.choices import Choices
from gudgeon.paper.labels import labels_pdf
from gudgeon.paper.lists import lists_pdf
from gudgeon.paper.why_not import why_not_pdf
from tests.unit.bench.benches import Job
from tests.unit.paper.cards import job

ASKED: dict[str, Callable[[Bench], object]] = {
    "why not": lambda bench: why_not_pdf(ready(bench, milestone="handover"), size="a4"),
    "lists": lambda bench: lists_pdf(lists_and_counts(bench), size="a4"),
    "labels": lambda bench: labels_pdf(labels(bench)),
    "closed book": lambda bench: (
        closed_book(bench).open,
        closed_book(bench).sections,
        closed_book(bench).lead,
    ),
}


def answered(asked: str, begun: Job) -> object:
    """What is printed of a book that is open, at the hour of the job."""
    bench = open_bench(begun.book, now=begun.now)
    try:
        return ASKED[asked](bench)
    finally:
        bench.store.close()


@pytest.fixture
def begun(tmp_path: Path) -> Job:
    made = job(tmp_path)
    made.record("left-in", item="rod", name="brass rod", where="plug hole 1", due_before="crank")
    made.record("plugged", item="port", name="cap", where="fuel line", due_before="fire")
    made.record("taken-off", group="hose", item="h1", name="heater hose", place="H1", due_before="crank")
    made.record("note", text="a note")
    return made


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="the local clock cannot be set here")
@pytest.mark.parametrize("asked", ASKED)
def test_a_print_is_the_same_in_another_part_of_the_world(
    begun: Job, monkeypatch: pytest.MonkeyPatch, asked: str
) -> None:
    made = []
    for zone in ("America/New_York", "Pacific/Kiritimati"):
        monkeypatch.setenv("TZ", zone)
        time.tzset()
        made.append(answered(asked, begun))
    monkeypatch.undo()
    time.tzset()
    assert made[0] == made[1]


@pytest.mark.parametrize("asked", ASKED)
def test_a_print_is_the_same_weeks_later(begun: Job, asked: str) -> None:
    at_once = answered(asked, begun)
    begun.now += timedelta(days=20, hours=5)
    assert answered(asked, begun) == at_once


def test_a_page_to_share_is_made_on_the_day_of_the_clock_that_wrote_last(begun: Job) -> None:
    """START of the job is ten in the morning by UTC: a quarter past ten is the next day fourteen hours to the east."""
    bench = open_bench(begun.book, now=begun.now)
    east = replace(bench, now=bench.now.astimezone(timezone(timedelta(hours=14))))
    made = {shared_page(one, of="everything", choices=Choices()).evidence.when for one in (bench, east)}
    bench.store.close()
    assert made == {"day 1"}

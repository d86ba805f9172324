"""What is counted as it comes off and as it goes back: bolts by joint and by bag, and the kinds of loose things."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.counted import differences
from gudgeon.bench.network import job_of
from gudgeon.bench.on_paper.of_the_job import joints_of_job
from gudgeon.bench.open_lists import OpenList, open_lists
from gudgeon.bench.recordable_waits import COUNT_GROUPS
from gudgeon.book.state import Tally


@dataclass(frozen=True, slots=True)
class ToCount:
    """One thing that is counted: where it belongs, how many the sheet has, and what the book has of it.

    `off` and `back` are what was counted, else what has a name on the list; empty where nothing is known. `look` says
    where they do not agree.
    """

    what: str
    by_sheet: str
    bag: str
    off: str
    back: str
    look: str = ""


@dataclass(frozen=True, slots=True)
class ListsAndCounts:
    """The four open lists, and everything that is counted."""

    heading: Heading
    job: str
    lists: tuple[OpenList, ...]
    fasteners: tuple[ToCount, ...]
    bags: tuple[ToCount, ...]
    kinds: tuple[ToCount, ...]


def lists_and_counts(bench: Bench) -> ListsAndCounts:
    """What is open now, and what is counted off and back on in this job."""
    opened = open_lists(bench)
    return ListsAndCounts(
        opened.heading, job_of(bench.state).name, opened.lists, tuple(_fasteners(bench)), tuple(_bags(bench)),
        tuple(_kinds(bench)),
    )  # fmt: skip


def _fasteners(bench: Bench) -> Iterator[ToCount]:
    """The fasteners of every joint that the job asks for."""
    for key in joints_of_job(bench)[0]:
        joint = bench.sheet.joints[key]
        yield ToCount(joint.name, str(len(joint.bolt_names)), "", "", "")


def _bags(bench: Bench) -> Iterator[ToCount]:
    """What lies in bags, by the names that the book gave them."""
    for item in bench.state.left_over.values():
        if item.bag or item.of > 1:
            yield ToCount(item.name, "", item.bag, str(item.of), str(item.of - item.off))


def _kinds(bench: Bench) -> Iterator[ToCount]:
    state = bench.state
    groups = dict.fromkeys((*COUNT_GROUPS, *sorted({*state.counts, *state.tallies})))
    for group in groups:
        count, tally = state.counts.get(group), state.tallies.get(group, Tally())
        off = tally.off if tally.off is not None else count.off if count is not None else None
        back = tally.back if tally.back is not None else count.on if count is not None else None
        look = "; ".join(one.why for one in differences(group, count, tally))
        yield ToCount(f"{group}s", "", "", _said(off), _said(back), look)


def _said(number: int | None) -> str:
    return "" if number is None else str(number)

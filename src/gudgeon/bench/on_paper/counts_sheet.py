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

    `off` and `back` are what was counted by hand, empty where nobody has counted; then `off_in_book` and `back_in_book`
    say what the book has of it, thing by thing. `look` says where they do not agree.
    """

    what: str
    by_sheet: str
    bag: str
    off: str
    back: str
    look: str = ""
    off_in_book: str = ""
    back_in_book: str = ""


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
            back = _in_book(item.of - item.off, "back")
            yield ToCount(item.name, "", item.bag, str(item.of), "", back_in_book=back)


def _kinds(bench: Bench) -> Iterator[ToCount]:
    state = bench.state
    groups = dict.fromkeys((*COUNT_GROUPS, *sorted({*state.counts, *state.tallies})))
    for group in groups:
        count, tally = state.counts.get(group), state.tallies.get(group, Tally())
        look = "; ".join(one.why for one in differences(group, count, tally))
        off = _in_book(count.off, "off") if count is not None and tally.off is None else ""
        back = _in_book(count.on, "back") if count is not None and tally.back is None else ""
        yield ToCount(f"{group}s", "", "", _said(tally.off), _said(tally.back), look, off, back)


def _said(number: int | None) -> str:
    return "" if number is None else str(number)


def _in_book(number: int, way: str) -> str:
    """What has a name in the book and came off, or went back; that is no count."""
    return f"{number or 'none'} {way} in the book"

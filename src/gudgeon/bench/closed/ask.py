"""What was done? The whole book, section by section, with what is open before it may be handed over."""

from collections.abc import Callable, Iterator
from importlib import resources

from gudgeon.bench.closed.agreed import agreed
from gudgeon.bench.closed.findings import findings
from gudgeon.bench.closed.first_start import first_start
from gudgeon.bench.closed.identity import identity
from gudgeon.bench.closed.later import later
from gudgeon.bench.closed.let_pass import let_pass
from gudgeon.bench.closed.lists import lists
from gudgeon.bench.closed.model import ClosedBook, OpenGroup, PhotoShown, Section
from gudgeon.bench.closed.parts import parts
from gudgeon.bench.closed.photos import photos
from gudgeon.bench.closed.proofs import proofs
from gudgeon.bench.closed.shop import shop
from gudgeon.bench.closed.tightened import tightened
from gudgeon.bench.closed.timed import timed
from gudgeon.bench.closed.told import Told, hour
from gudgeon.bench.context import Bench, at_its_last_entry
from gudgeon.bench.entries import TASK_KINDS
from gudgeon.bench.ready import Readiness, ready
from gudgeon.book.tell import Tell, silent

QUESTION = "What was done?"
LAST = "handover"

Make = Callable[[Told, Readiness], Section]
SECTIONS: tuple[tuple[str, Make], ...] = (
    ("the engine", lambda told, _: identity(told)),
    ("what was agreed", lambda told, _: agreed(told)),
    ("the findings", lambda told, _: findings(told)),
    ("the machine shop", lambda told, _: shop(told)),
    ("the parts", lambda told, _: parts(told)),
    ("the tightenings", lambda told, _: tightened(told)),
    ("the timing", lambda told, _: timed(told)),
    ("the proofs", lambda told, _: proofs(told)),
    ("the first start", lambda told, _: first_start(told)),
    ("what was accepted", let_pass),
    ("what came off and went back", lambda told, _: lists(told)),
    ("what comes later", later),
)


def closed_book(bench: Bench, *, tell: Tell = silent) -> ClosedBook:
    """The whole book as it stands; it is closed when nothing is open before it is handed over.

    Every entry of the book stands in it: what belongs to no other section is in the last one. It is asked at the hour
    of the last entry, so that the same book is the same print whenever it is made.
    """
    bench = at_its_last_entry(bench)
    told = Told(bench)
    tell("what is open before it is handed over")
    before = ready(bench, milestone=LAST)
    sections = []
    for number, (words, make) in enumerate(SECTIONS, start=1):
        tell(f"{words}: section {number} of {len(SECTIONS)}")
        sections.append(make(told, before))
    tell("the photos, each read to its end")
    shown = photos(told)
    sections.append(_rest(told, sections, shown))
    open_ones = tuple(_open(before))
    return ClosedBook(
        bench.heading(QUESTION),
        not open_ones,
        _lead(told),
        open_ones,
        tuple(sections),
        shown,
        () if shown else ("No photo in the book.",),
        bench.state.count,
        bench.state.head,
        checker(),
    )


def _open(before: Readiness) -> Iterator[OpenGroup]:
    """What is open, family by family."""
    for family in dict.fromkeys(one.family for one in before.reasons):
        own = (one for one in before.reasons if one.family == family)
        yield OpenGroup(family, tuple(f"{one.what} ({one.why})" for one in own))


def _lead(told: Told) -> str:
    first, last = told.entries[0], told.entries[-1]
    count = len(told.entries)
    return (
        f"{count} {'entry' if count == 1 else 'entries'}, from {hour(first.device_time)} to "
        f"{hour(last.device_time)}. Nothing in the book is ever changed or deleted: what was wrong is struck, "
        "with the reason, and stays legible."
    )


def _rest(told: Told, sections: list[Section], photos: tuple[PhotoShown, ...]) -> Section:
    """Every entry that stands nowhere else, so that the whole book is there."""
    shown = {number for one in sections for number in one.entries} | {one.number for one in photos}
    rest = [one for one in told.entries if one.number not in shown]
    return Section(
        "rest",
        "Tasks, and everything else in the book",
        said=("With this every entry of the book stands in one of the sections.",),
        tables=(
            *told.listed("Tasks", (one for one in rest if one.kind in TASK_KINDS)),
            *told.listed("Other entries", (one for one in rest if one.kind not in TASK_KINDS)),
        ),
        missing=() if rest else ("Every entry stands in a section above.",),
    )


def checker() -> tuple[str, ...]:
    """The lines of the program that checks an archive with Python's standard library alone."""
    file = resources.files("gudgeon.bench").joinpath("data/check_archive.txt")
    return tuple(file.read_text(encoding="utf-8").rstrip("\n").split("\n"))

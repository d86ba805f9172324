"""What a large book costs: 50,000 entries in 20 builds, against a bare insert that waits for the same disk.

The machine and its disk differ from day to day, so what is compared is taken in turn within one run, and the medians
of it. `python -m benchmarks.book` writes book.md and ends with 1 when a limit is broken.
"""

import platform
import sys
import tempfile
import time
import uuid
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from gudgeon.bench import chain_read
from gudgeon.bench.context import Bench, clock, open_bench
from gudgeon.bench.now import now
from gudgeon.bench.record import record
from gudgeon.book.address import BookAddress
from gudgeon.book.entries import Draft
from gudgeon.book.fold import fold
from gudgeon.book.opening import open_book
from gudgeon.book.store import Store
from tools.cluster import NoPostgres
from tools.large_books import BUILDS, Job, Kind, fill, in_files, job, on_a_server

RESULTS = Path(__file__).with_name("book.md")
LARGE, SMALL = 50_000, 1_000
ROUNDS, APPENDS = 9, 300
HEAD = """# A large book

Written by `python3 do.py bench`. {large:,} entries in {builds} builds, the invented job over and over: Python {python},
{system}. Medians, taken in turn; a ratio (×) is to the bare insert: one row as long as an entry, synced alike.
The time of the processor is this program's own, without the server's: where the clock shows much more than it, the
machine did other work.

| | SQLite | PostgreSQL | limit | |
| --- | --- | --- | --- | --- |
"""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: what it is of, how it is written, and the most that it may be."""

    title: str
    value: float
    unit: str
    limit: float | None = None

    @property
    def above(self) -> bool:
        return self.limit is not None and self.value > self.limit


@dataclass(frozen=True, slots=True)
class Taken:
    """How long something takes by the clock [s], and how long this process computes for it [s]."""

    clock_s: float
    own_s: float


def taken(work: Callable[[], object]) -> Taken:
    """How long it takes."""
    start, own = time.perf_counter(), time.process_time()
    work()
    return Taken(time.perf_counter() - start, time.process_time() - own)


def in_turn(rounds: int, *works: Callable[[], object]) -> list[Taken]:
    """The medians of each, all of them in every round; one round first to warm the disk."""
    times: list[list[Taken]] = [[] for _ in works]
    for number in range(rounds + 1):
        for work, found in zip(works, times, strict=True):
            one = taken(work)
            if number:
                found.append(one)
    return [
        Taken(median(one.clock_s for one in found), median(one.own_s for one in found)) for found in times
    ]


def reading(address: BookAddress) -> list[Figure]:
    """Opening, the state of one build, and the answer to what to do now."""
    build = f"build {BUILDS - 1}"

    def opening() -> None:
        with open_book(address, clock=clock) as store:
            store.builds()

    with ExitStack() as unread_yet:
        stores = [unread_yet.enter_context(open_book(address, clock=clock)) for _ in range(ROUNDS + 1)]
        opened, folded = in_turn(ROUNDS, opening, lambda: fold(stores.pop().entries(build)))
    bench = open_bench(address, build=build)

    def cold() -> None:
        chain_read.forget()
        now(_asked(address, build))

    unread, read = in_turn(ROUNDS, cold, lambda: now(_asked(address, build)))
    bench.store.close()
    return [
        Figure("opening the book", opened.clock_s * 1e3, "ms", 1000),
        *_both("the state of one build, from its entries", folded, 100),
        *_both("“What do I do now?” of a build not read before", unread, None),
        *_both("“What do I do now?” again", read, 100),
    ]


def _both(title: str, found: Taken, limit_ms: float | None) -> list[Figure]:
    return [
        Figure(title, found.clock_s * 1e3, "ms", limit_ms),
        Figure(f"{title}: the processor", found.own_s * 1e3, "ms", limit_ms),
    ]


def _asked(address: BookAddress, build: str) -> Bench:
    bench = open_bench(address, build=build)
    bench.store.close()
    return bench


def writing(kind: Kind, large: BookAddress, small: BookAddress) -> list[Figure]:
    """One entry into the large book and into the small one, and a bare row, in turn."""
    with open_book(large, clock=clock) as one, open_book(small, clock=clock) as other:
        every = in_turn(APPENDS, kind.bare, _append(one), _append(other))
        bare, long, short = (found.clock_s for found in every)
        acts = in_turn(ROUNDS, kind.bare, _record(large), _record(small))
    return [
        Figure("a bare row", bare * 1e3, "ms"),
        Figure(f"one entry, in a book of {LARGE:,}", long / bare, "×", 3.0),
        Figure(f"one entry, in a book of {SMALL:,}", short / bare, "×", 3.0),
        Figure("the one against the other", long / short, "×", 1.2),
        Figure(f"the whole act of recording, in a build of {LARGE // BUILDS:,}", acts[1].clock_s * 1e3, "ms"),
        Figure(f"the whole act of recording, in a build of {SMALL // BUILDS:,}", acts[2].clock_s * 1e3, "ms"),
    ]


def _append(store: Store) -> Callable[[], object]:
    """A reading more, as a person who has seen the head sends it."""
    body = {
        "item": "bore",
        "place": "cylinder 1, top",
        "value": "81.50",
        "unit": "mm",
        "condition": "as left",
    }
    body |= {"instrument": "dial_gauge", "note": "measured again"}
    seen = [store.head("build 0")]

    def append() -> None:
        at = "2026-03-07T10:00:00+00:00"
        sent = Draft(uuid.uuid4().hex, "reading", body, "build 0", "Ada", "bench", at, basis=seen[0])
        seen[0] = store.append(sent).entry.hash

    return append


def _record(address: BookAddress) -> Callable[[], object]:
    """As a page does it: the book is opened, the entry is written, and what it did is said."""

    def act() -> None:
        bench = open_bench(address, build="build 0")
        record(bench, "note", {"text": "measured again"})
        bench.store.close()

    return act


def measured(kind: Kind, done: Job) -> list[Figure]:
    """Make both books, and every figure of one kind of store."""
    large, small = kind.address("large"), kind.address("small")
    filled = taken(lambda: fill(large, done, entries=LARGE)).clock_s
    fill(small, done, entries=SMALL)
    print(f"{kind.name}: {LARGE:,} entries written in {filled:.0f} s", file=sys.stderr)
    return [*reading(large), *writing(kind, large, small)]


def table(files: Sequence[Figure], server: Sequence[Figure]) -> str:
    """One line for each figure."""
    lines = []
    for place, one in enumerate(files):
        other = server[place] if server else None
        limit = "" if one.limit is None else f"{one.limit:g} {one.unit}"
        verdict = "above" if one.above or (other and other.above) else "within" if limit else ""
        shown = f"{other.value:.3g} {other.unit}" if other else "–"
        lines.append(f"| {one.title} | {one.value:.3g} {one.unit} | {shown} | {limit} | {verdict} |\n")
    return "".join(lines)


def main() -> int:
    """Measure both stores, write the table, and say whether each limit is held."""
    with tempfile.TemporaryDirectory() as name:
        done = job(Path(name) / "job")
        with in_files(done) as kind:
            files = measured(kind, done)
        try:
            with on_a_server(done) as kind:
                server = measured(kind, done)
        except NoPostgres as missing:
            print(f"PostgreSQL is not measured. {missing}", file=sys.stderr)
            server = []
    page = HEAD.format(
        large=LARGE,
        builds=BUILDS,
        python=platform.python_version(),
        system=f"{platform.system()} {platform.machine()}",
    ) + table(files, server)
    RESULTS.write_text(page, "utf-8")
    print(page)
    return int(any(one.above for one in [*files, *server]))


if __name__ == "__main__":
    sys.exit(main())

"""The entries of a build as a list to read, and the verification of the book."""

from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.ready import when
from gudgeon.book.entries import Entry


@dataclass(frozen=True, slots=True)
class EntryLine:
    """One entry, in words."""

    number: int
    id: str
    when: str
    who: str
    kind: str
    what: str
    struck: str


@dataclass(frozen=True, slots=True)
class EntryList:
    """The entries of a build and the head of its chain."""

    heading: Heading
    lines: tuple[EntryLine, ...]
    head: str


@dataclass(frozen=True, slots=True)
class Verified:
    """What the verification of a book found."""

    build: str
    builds: int
    entries: int
    head: str
    problems: tuple[str, ...]


def listed(bench: Bench, *, last: int | None = None) -> EntryList:
    """Every entry, or the last so many."""
    entries = list(bench.store.entries(bench.build))
    chosen = entries[-last:] if last else entries
    lines = tuple(_line(bench, one) for one in chosen)
    return EntryList(bench.heading("What was done?"), lines, bench.state.head)


def _line(bench: Bench, one: Entry) -> EntryLine:
    struck = bench.state.struck.get(one.id)
    return EntryLine(
        one.number,
        one.id,
        when(datetime.fromisoformat(one.device_time)),
        one.who,
        one.kind.replace("-", " "),
        _what(one),
        f"struck: {struck.why}" if struck is not None else "",
    )


_SKIPPED = ("shown", "rests_on", "sheet_path", "kit_path")


def _what(one: Entry) -> str:
    """The body in words: names first, then the rest."""
    shown = [
        str(value)
        for key, value in one.body.items()
        if key not in _SKIPPED and value not in (None, "", True, False)
    ]
    target = one.body.get("shown", {})
    if one.kind == "pull":
        shown.append(f"target {target.get('target', '')}")
    return ", ".join(shown)


def verified(bench: Bench) -> Verified:
    """Check every chain of the book."""
    builds = tuple(bench.store.builds())
    entries = sum(1 for build in builds for _ in bench.store.entries(build))
    problems = tuple(str(problem) for problem in bench.store.verify())
    return Verified(bench.build, len(builds), entries, bench.state.head, problems)

"""What is said at once of a job that was chosen: what it asks for in addition, and what not any more."""

from collections.abc import Iterator, Sequence

from gudgeon.bench.context import Bench
from gudgeon.bench.holds import holds_of
from gudgeon.bench.network import job_named, tasks_of
from gudgeon.book.entries import Entry
from gudgeon.book.state import State

NAMED = 4


def job_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    """What the book asks for since a job was chosen, held against what it asked for before."""
    asked = {name: _asked(bench, state) for name, state in (("before", bench.state), ("now", after))}
    for lead, more, less in (
        ("Asked for in addition", asked["now"], asked["before"]),
        ("Not asked for any more", asked["before"], asked["now"]),
    ):
        tasks = [key for key in more[0] if key not in less[0]]
        proofs = [name for key, name in more[1].items() if key not in less[1]]
        if tasks or proofs:
            counts = " and ".join(filter(None, (_counted(tasks, "task"), _counted(proofs, "proof"))))
            yield f"{lead}: {counts}{_named(proofs)}."


def _asked(bench: Bench, state: State) -> tuple[set[str], dict[str, str]]:
    holds = {one.id: one.name for one in holds_of(bench.sheet, job_named(state))}
    return {one.key for one in tasks_of(bench.sheet, state)}, holds


def _counted(found: Sequence[str], word: str) -> str:
    return f"{len(found)} {word}{'' if len(found) == 1 else 's'}" if found else ""


def _named(names: Sequence[str]) -> str:
    if not names:
        return ""
    more = f"; and {len(names) - NAMED} more" if len(names) > NAMED else ""
    return f": {'; '.join(f'“{one}”' for one in names[:NAMED])}{more}"

"""What is to be said to somebody who asks to begin a task."""

from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.network import tasks_of
from gudgeon.bench.record import find_task
from gudgeon.bench.start import held_back


@dataclass(frozen=True, slots=True)
class AskedToBegin:
    """A task that is asked for: what holds it back, what has to lie on the bench, what can hurt."""

    heading: Heading
    task: str
    title: str
    held_back: tuple[str, ...]
    needs: tuple[str, ...]
    cautions: tuple[str, ...]


def asked_to_begin(bench: Bench, said: str) -> AskedToBegin:
    """The answer to “May I begin it?”."""
    key = find_task(bench, said)
    task = next(one for one in tasks_of(bench.sheet, bench.state) if one.key == key)
    return AskedToBegin(
        bench.heading("May I begin it?"),
        key,
        task.title,
        held_back(bench, key),
        task.needs,
        tuple(f"{one.text} ({one.basis})" for one in task.cautions),
    )

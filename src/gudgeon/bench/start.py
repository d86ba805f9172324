"""Asking to begin a task: an instruction, which is refused while something holds it back. A fact never is."""

from gudgeon.bench.context import Bench
from gudgeon.bench.doing import of_task
from gudgeon.bench.errors import TaskRefused
from gudgeon.bench.gates import refusals, shut
from gudgeon.bench.network import tasks_of, title_of
from gudgeon.bench.record import Recorded, find_task, record, record_many
from gudgeon.bench.standing import Network
from gudgeon.errors import InputError


class NobodyNamed(InputError):
    """An override without the name of whoever answers for it."""

    def __init__(self) -> None:
        super().__init__("Nobody is named who answers for the override. Add --by NAME; it is shown for ever.")


def start(
    bench: Bench,
    said: str,
    *,
    override: str = "",
    by: str = "",
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Begin a task, or refuse it with everything that holds it back; by an override it is begun all the same."""
    task = find_task(bench, said)
    against = held_back(bench, task)
    fields = {"task": task}
    if not against:
        return record(bench, "task-started", fields, entry_id=entry_id, basis=basis)
    title = title_of(task, sheet=bench.sheet, state=bench.state)
    if not override.strip():
        raise TaskRefused(title, against)
    if not by.strip():
        raise NobodyNamed
    abouts = {f"task:{task}": "; ".join(against)} | {
        f"gate:{one.gate}": one.why for one in shut(bench, of_task(bench.sheet, task).acts)
    }
    overrides = [
        ("override", {"about": about, "by": by, "why": override, "shown": shown})
        for about, shown in abouts.items()
    ]
    return record_many(bench, [*overrides, ("task-started", fields)], entry_id=entry_id, basis=basis)


def held_back(bench: Bench, task: str) -> tuple[str, ...]:
    """Everything that holds a task back now; nothing when it may be begun."""
    network = Network(bench, tasks_of(bench.sheet, bench.state))
    if task not in network.tasks:
        return ()
    gates = [one.why for one in refusals(bench, of_task(bench.sheet, task).acts)]
    waits = network.blocked_by(task)
    return tuple(dict.fromkeys([*([waits] if waits and not waits.startswith("gate: ") else []), *gates]))

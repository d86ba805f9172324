"""What a form can offer where something is recorded: names to choose from, and short names it makes itself."""

import re
from collections.abc import Callable, Iterator, Mapping

from gudgeon.bench.context import Bench
from gudgeon.bench.entries import TASK_KINDS
from gudgeon.bench.good import inspect
from gudgeon.bench.holds import IDENTITY, standings
from gudgeon.bench.network import JOBS, job, tasks_of
from gudgeon.bench.passing import of_groups
from gudgeon.bench.ready import all_reasons
from gudgeon.bench.record import OPENS
from gudgeon.bench.standing import Network
from gudgeon.bench.things import things
from gudgeon.bench.which_item import CLOSES
from gudgeon.book.gates import RULES

Choices = tuple[tuple[str, str], ...]
"""Pairs: what is recorded, and its words."""

STATE_WORDS = {
    "running": "in hand",
    "ready": "may be begun",
    "waiting": "waits",
    "blocked": "blocked",
    "done": "done",
}
STATES = tuple(STATE_WORDS)

NAMED_BY_ITSELF = {**dict.fromkeys(OPENS, "item"), "timer-started": "timer"}
"""Kinds whose short name a form need not ask for: it comes from the name in words."""


def choices(bench: Bench, *, kind: str, field: str) -> Choices:
    """What can be chosen for a field of an entry of this kind; nothing where anything may be written."""
    if field == "item" and kind in CLOSES:
        return tuple(_open_items(bench, kind))
    found = _CHOICES.get((kind, field)) or _CHOICES.get(("", field))
    return tuple(found(bench)) if found is not None else ()


def _open_items(bench: Bench, kind: str) -> Iterator[tuple[str, str]]:
    for key, item in getattr(bench.state, CLOSES[kind][0]).items():
        yield key, f"{item.name} ({item.where})" if item.where else item.name


def _joints(bench: Bench) -> Iterator[tuple[str, str]]:
    for key, joint in bench.sheet.joints.items():
        yield key, joint.name


def _holds(bench: Bench) -> Iterator[tuple[str, str]]:
    """Those that do not stand first, in the order of the work."""
    found = [one for one in standings(bench.sheet, bench.state) if one.hold.id != IDENTITY]
    for one in sorted(found, key=lambda one: one.stands):
        yield one.hold.id, one.hold.name + (" (stands)" if one.stands else "")


def _timers(bench: Bench) -> Iterator[tuple[str, str]]:
    for key, timer in bench.state.timers.items():
        if not timer.ended:
            yield key, timer.name


def _sealants(bench: Bench) -> Iterator[tuple[str, str]]:
    for key, sealant in bench.sheet.sealants.items():
        yield key, sealant.name


def _away(bench: Bench) -> Iterator[tuple[str, str]]:
    for part, one in bench.state.shop.items():
        if not one.back:
            yield part, f"{part} (at {one.shop})"


def _not_inside(bench: Bench) -> Iterator[tuple[str, str]]:
    """What could be accepted: readings that are outside or in doubt, and joints."""
    if bench.locked is None:
        for row in inspect(bench).rows:
            if row.verdict in ("outside", "in doubt"):
                words = f"{row.name}, {row.place}".rstrip(", ")
                told = ", ".join(filter(None, (row.reading, row.verdict)))
                yield f"{row.item} {row.place}".strip(), f"{words}: {told}"
    yield from _joints(bench)


def _tools(bench: Bench) -> Iterator[tuple[str, str]]:
    for key, wrench in bench.kit.wrenches.items():
        yield key, wrench.name
    for key, tool in bench.kit.turning.items():
        yield key, tool.name


def _tasks(bench: Bench) -> Iterator[tuple[str, str]]:
    """What is in hand first, then what may be begun, what waits, what is blocked, what is done."""
    network = Network(bench, tasks_of(bench.sheet, bench.state))
    stands = sorted((network.stand(key) for key in network.tasks), key=lambda one: STATES.index(one.where))
    for one in stands:
        yield one.task.key, f"{one.task.title} ({STATE_WORDS[one.where]})"


def _jobs(bench: Bench) -> Iterator[tuple[str, str]]:
    for name in JOBS:
        yield name, job(name).name


def _things(bench: Bench) -> Iterator[tuple[str, str]]:
    for one in things(bench):
        yield one.about, f"{one.name} ({one.family})"


def _open_things(bench: Bench) -> Iterator[tuple[str, str]]:
    """What somebody could let pass: everything that is open, and every gate."""
    told = [one for one in all_reasons(bench) if one.about]
    for one in told:
        yield one.about, f"{one.what} ({one.family})"
    whole = {one.about for one in told}
    for about, words in of_groups(bench).items():
        if about not in whole:
            yield about, words
    for gate, rule in RULES.items():
        yield f"gate:{gate}", f"one act although {rule.why}"


def _breaches(bench: Bench) -> Iterator[tuple[str, str]]:
    for one in bench.state.breaches:
        if one.open:
            yield str(one.order), f"{one.act}, although {one.why}"


_CHOICES: Mapping[tuple[str, str], Callable[[Bench], Iterator[tuple[str, str]]]] = {
    ("", "joint"): _joints,
    ("", "hold"): _holds,
    ("timer-ended", "timer"): _timers,
    ("shop-back", "part"): _away,
    ("accepted", "what"): _not_inside,
    ("override", "about"): _open_things,
    ("inspected", "entry"): _breaches,
    ("pull", "tool"): _tools,
    ("photo", "about"): _things,
    **dict.fromkeys(((kind, "task") for kind in (*TASK_KINDS, "timer-started", "sealant-laid")), _tasks),
    ("sealant-laid", "sealant"): _sealants,
    ("job-chosen", "job"): _jobs,
    **dict.fromkeys(
        (
            *((kind, "task") for kind in ("task-dropped", "task-minutes", "task-order")),
            *((kind, "after") for kind in ("task-added", "task-order")),
            ("task-added", "before"),
        ),
        _tasks,
    ),
}


def short_name(bench: Bench, *, kind: str, name: str) -> str:
    """A short name for something that goes on a list, made from its name in words and not taken yet."""
    plain = re.sub(r"[^a-z0-9]+", "_", name.lower()).strip("_")[:40] or "item"
    taken = bench.state.timers if kind == "timer-started" else getattr(bench.state, OPENS[kind][0])
    if plain not in taken:
        return plain
    return next(made for number in range(2, len(taken) + 3) if (made := f"{plain}_{number}") not in taken)


def hold_asks(bench: Bench, hold: str) -> tuple[str, str]:
    """What to look at for a hold, and what value proves it."""
    found = next((one.hold for one in standings(bench.sheet, bench.state) if one.hold.id == hold), None)
    return (found.ask, found.value) if found is not None else ("", "")

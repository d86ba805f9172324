"""What do I do now? A first short answer: what is in hand, what runs, what is open, what blocks what."""

from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.holds import standings
from gudgeon.bench.progress import progress
from gudgeon.bench.pull_list import bolt_words, card
from gudgeon.bench.ready import left, when


@dataclass(frozen=True, slots=True)
class Running:
    """A timer: what it is for, and when it ends."""

    name: str
    state: str
    due_before: str


@dataclass(frozen=True, slots=True)
class Blocked:
    """Something that has to wait, and for what."""

    what: str
    by: str


@dataclass(frozen=True, slots=True)
class Now:
    """The answer to “What do I do now?”."""

    heading: Heading
    stopped: str
    in_hand: str
    look_first: str
    next: tuple[str, ...]
    running: tuple[Running, ...]
    counts: dict[str, int]
    open: dict[str, tuple[str, ...]]
    blocked: tuple[Blocked, ...]


def now(bench: Bench) -> Now:
    """What the book says is next, running, open and blocked."""
    state = bench.state
    paused = state.paused
    lists = {
        "provisional": state.provisional,
        "left in": state.left_in,
        "plugged": state.plugged,
        "left over": state.left_over,
    }
    following, look_first = _next(bench)
    stopped = ""
    if paused is not None:
        stopped = f"{when(datetime.fromisoformat(paused.time))}. You wanted to: {paused.next_action}"
    return Now(
        heading=bench.heading("What do I do now?"),
        stopped=stopped,
        in_hand=paused.hand if paused is not None else "",
        look_first=look_first,
        next=following,
        running=_running(bench),
        counts={name: len(items) for name, items in lists.items()},
        open={name: tuple(item.name for item in items.values()) for name, items in lists.items()},
        blocked=_blocked(bench),
    )


def _next(bench: Bench) -> tuple[tuple[str, ...], str]:
    """The next pull of the joint that was begun, else the first thing that can be proved."""
    if bench.locked is not None:
        return (bench.locked.message,), ""
    for key, joint in bench.sheet.joints.items():
        found = progress(joint, bench.state.joints.get(key))
        if not found.started or found.complete:
            continue
        shown = card(bench, key)
        step = next((pull for pull in shown.pulls if pull.number == shown.next_pull), None)
        if found.doubts or step is None:
            return (f"{joint.name}: in doubt. {'; '.join(found.doubts)}. {shown.in_doubt}",), shown.look_first
        where = f" ({step.where})" if step.where else ""
        setting = f", set {step.setting}" if step.setting else ""
        text = (
            f"{joint.name}: pull {step.number} of {step.total}, stage {step.stage} of {len(joint.program)}, "
            f"{bolt_words(joint, step.bolt)}{where}: {step.action}, with {step.tool}{setting}"
        )
        return (text, f"The whole list: gudgeon tighten {key}"), shown.look_first
    todo = [one for one in standings(bench.sheet, bench.state) if not one.stands]
    first = [
        f"{one.hold.name}: {one.hold.ask} Then: gudgeon record hold {one.hold.id} VALUE ({one.hold.value})"
        for one in todo[:1]
    ]
    return tuple(first) or ("Nothing is open. Ask: gudgeon ready --for crank",), ""


def _running(bench: Bench) -> tuple[Running, ...]:
    found = []
    for timer in bench.state.timers.values():
        if timer.ended:
            continue
        ends = datetime.fromisoformat(timer.ends)
        over = ends <= bench.now
        words = f"ended {when(ends)}" if over else f"until {when(ends)}, {left(ends, now=bench.now)} to go"
        found.append(Running(timer.name, words, timer.due_before))
    return tuple(found)


def _blocked(bench: Bench) -> tuple[Blocked, ...]:
    """What waits for an unproved hold or a running timer; the nearest ones only."""
    found = {one.hold.id: one for one in standings(bench.sheet, bench.state)}
    lines = []
    for one in found.values():
        by = [
            found[other].hold.name
            for other in one.hold.rests_on
            if other in found and not found[other].stands
        ]
        if not one.stands and by:
            lines.append(Blocked(one.hold.name, "; ".join(by)))
    return tuple(lines)

"""What is always in sight, whatever is asked: how much is open, and what is running."""

from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.provisional import provisional
from gudgeon.bench.reason import left, when


@dataclass(frozen=True, slots=True)
class Wait:
    """A timer that has not been ended: what waits, and until when."""

    timer: str
    name: str
    state: str
    over: bool
    due_before: str


@dataclass(frozen=True, slots=True)
class Always:
    """The four counts and the timers of a build."""

    heading: Heading
    counts: dict[str, int]
    timers: tuple[Wait, ...]


def always(bench: Bench) -> Always:
    """What every page shows at its head."""
    state = bench.state
    counts = {
        "provisional": len(provisional(bench)),
        "left in": len(state.left_in),
        "plugged": len(state.plugged),
        "left over": len(state.left_over),
    }
    return Always(bench.heading("What is open?"), counts, _waits(bench))


def _waits(bench: Bench) -> tuple[Wait, ...]:
    found = []
    for key, timer in bench.state.timers.items():
        if timer.ended:
            continue
        ends = datetime.fromisoformat(timer.ends)
        over = ends <= bench.now
        words = f"ended {when(ends)}" if over else f"until {when(ends)}, {left(ends, now=bench.now)} to go"
        found.append(Wait(key, timer.name, words, over, timer.due_before))
    return tuple(found)

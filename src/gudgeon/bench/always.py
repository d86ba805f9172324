"""What is always in sight, whatever is asked: how much is open, and what is running."""

from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.provisional import provisional
from gudgeon.bench.timers import waits


@dataclass(frozen=True, slots=True)
class Wait:
    """A timer that has not been ended: what waits, and until when; `mark` says how it stands in a word."""

    timer: str
    name: str
    state: str
    over: bool
    due_before: str
    mark: str


@dataclass(frozen=True, slots=True)
class Always:
    """The four counts and the timers of a build; `paper` is the size in his printer, empty where not chosen."""

    heading: Heading
    counts: dict[str, int]
    timers: tuple[Wait, ...]
    paper: str = ""


def always(bench: Bench) -> Always:
    """What every page shows at its head."""
    state = bench.state
    counts = {
        "provisional": len(provisional(bench)),
        "left in": len(state.left_in),
        "plugged": len(state.plugged),
        "left over": len(state.left_over),
    }
    return Always(bench.heading("What is open?"), counts, _waits(bench), bench.kit.paper or "")


def _waits(bench: Bench) -> tuple[Wait, ...]:
    return tuple(
        Wait(one.key, one.name, one.words, one.mark == "over", one.due_before, one.mark)
        for one in waits(bench)
    )

"""Where the job is: which stop point is passed, by the tasks; by what was said where the book tells of no task."""

from collections.abc import Iterable
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.costs.expected import Expected
from gudgeon.bench.costs.model import POINT_WORDS, POINTS, Point
from gudgeon.bench.costs.said import Told
from gudgeon.bench.network import tasks_of
from gudgeon.bench.planning.left import hands_left
from gudgeon.bench.planning.taken import paces
from gudgeon.bench.standing import Network

PHASES: dict[Point, str] = {"diagnosis": "Find out", "strip": "Take apart", "measuring": "Measure"}
"""The phase of the job that ends at a stop point."""


@dataclass(frozen=True, slots=True)
class Where:
    """The last stop point that is passed, how that is known, minutes that are left, and whether it was handed over."""

    point: Point
    words: str
    minutes_left: int
    handed_over: bool

    def passed(self, point: str) -> bool:
        """Whether a stop point is behind."""
        return POINTS.index(point) <= POINTS.index(self.point)


def where(bench: Bench, *, words: Iterable[Expected], told: Iterable[Told]) -> Where:
    """Where the job is now."""
    network = Network(bench, tasks_of(bench.sheet, bench.state))
    by_tasks = _by_tasks(network)
    spoken = [one.due for one in words] + [one.at for one in told]
    by_word: Point = max((point for point in POINTS if point in spoken), key=POINTS.index, default="start")
    ahead = POINTS.index(by_word) > POINTS.index(by_tasks)
    kept = any(one.said for one in network.own.values())
    point = by_word if ahead and not kept else by_tasks
    left = sum(minutes for minutes, _ in hands_left(network, paces=paces(bench)).values())
    over = [key for key, task in network.tasks.items() if task.gate == "handover"]
    said = f"The job stands {POINT_WORDS[point]}{_how(network, point, by_word if ahead else '', kept=kept)}."
    return Where(point, said, left, bool(over) and all(network.own[key].status == "done" for key in over))


def _by_tasks(network: Network) -> Point:
    """The last point of which every task is done; one without any task is passed with the one before it."""
    found: Point = "start"
    before: Point = "start"
    for point, phase in PHASES.items():
        passed = not _open(network, phase) if _has(network, phase) else before == found != "start"
        found = point if passed else found
        before = point
    return found


def _how(network: Network, point: Point, by_word: Point | str, *, kept: bool) -> str:
    """How it is known; where words about costs are ahead of the tasks, that they do not count."""
    if by_word and not kept:
        return ": by what was written down about costs"
    done = _done_words(network, point)
    ahead = [one for one in POINTS[POINTS.index(point) + 1 :] if _open(network, PHASES[one])]
    if not by_word or not ahead:
        return done
    phase = PHASES[ahead[0]]
    count = _open(network, phase)
    tasks = "1 task is" if count == 1 else f"{count} tasks are"
    return (
        f"{done or ', by its tasks'}; a cost is written down as known {POINT_WORDS[by_word]}, and of “{phase}” {tasks} "
        "not done"
    )


def _done_words(network: Network, point: Point) -> str:
    """By which phases a point is passed; nothing for the start."""
    behind = [PHASES[one] for one in POINTS[1 : POINTS.index(point) + 1]]
    some = [phase for phase in behind if _has(network, phase)]
    if not some:
        return ""
    none = f", and the job has none of “{behind[-1]}”" if some[-1] != behind[-1] else ""
    return f": every task of “{some[-1]}” is done{none}"


def _has(network: Network, phase: str) -> bool:
    """Whether the job has any task of a phase."""
    return any(task.phase == phase for task in network.tasks.values())


def _open(network: Network, phase: str) -> int:
    """How many tasks of a phase are not done."""
    return sum(task.phase == phase and not network.finished(key) for key, task in network.tasks.items())

"""When the goal is reached when works, waits and deliveries turn out otherwise, and things go wrong: simulated."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gudgeon.calc.planning.driving import Laid
from gudgeon.calc.planning.estimate import ThreePoint, drawn
from gudgeon.calc.planning.hours import Hours
from gudgeon.calc.planning.placing import NEVER, Placer, Stuck
from gudgeon.calc.planning.rules import BEHIND, View, view_of
from gudgeon.calc.planning.schedule_errors import (
    ChanceImpossible,
    MinutesImpossible,
    PriorityMisshapen,
    SetbackBlocksNothing,
    SpreadOfNothing,
)
from gudgeon.calc.planning.works import Work

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Minutes = NDArray[np.int64]

Points = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Spread:
    """Least, most likely and greatest minutes of a work, of its wait, and of its delivery; nothing: as planned."""

    minutes: Points | None = None
    wait: Points | None = None
    not_before: Points | None = None

    def __post_init__(self) -> None:
        for points in (self.minutes, self.wait, self.not_before):
            if points is not None:
                ThreePoint(*points)


@dataclass(frozen=True, slots=True)
class Setback:
    """What may go wrong: an extra work after what shows it and before what it holds up, with a chance from 0 to 1."""

    key: str
    after: tuple[str, ...]
    before: tuple[str, ...]
    chance: float
    minutes: int
    wait: int = 0
    two_people: bool = False

    def __post_init__(self) -> None:
        if not 0 <= self.chance <= 1:
            raise ChanceImpossible(self.key, self.chance)
        for what, minutes in {"Work": self.minutes, "Wait": self.wait}.items():
            if minutes < 0:
                raise MinutesImpossible(self.key, what, minutes)


@dataclass(frozen=True, slots=True)
class Finishes:
    """When the goal was reached in each trial, in minutes since the plan's start.

    A trial that found no room within the plan counts among `beyond_horizon`; it stands last, and its minute is the
    horizon, or that of the latest other one where a wait ends after the horizon. `hits` says
    in how many trials each setback came, `critical` in what share of those that finished each work, or setback, was in
    the chain that led to the date.
    """

    goal: "Minutes"
    hits: Mapping[str, int]
    critical: Mapping[str, float]
    beyond_horizon: int

    def by(self, share: float) -> int | None:
        """The minute by which a share of the trials had reached the goal; None when that lies beyond the plan."""
        import numpy as np

        place = max(math.ceil(share * len(self.goal)), 1)
        return None if place > len(self.goal) - self.beyond_horizon else int(np.sort(self.goal)[place - 1])


def simulate(
    works: Sequence[Work], *, hours: Hours, goal: str, priority: Sequence[float], generator: "np.random.Generator",
    trials: int = 2000, spreads: Mapping[str, Spread] | None = None, setbacks: Sequence[Setback] = (),
    pace: Points | None = None,
) -> Finishes:  # fmt: skip
    """When a goal is reached in so many trials, each with minutes, deliveries and mishaps of its own.

    Equation:
        each trial: minutes = drawn minutes · drawn pace; setbacks that come are works of the plan; then as in schedule

    Parameters:
        works: the works
        hours: his hours, those of the second person, the early ones [min]
        goal: what is to be reached
        priority: one number for each work, the smallest first, such as a plan found [1]
        generator: where chance comes from; the same seed gives the same finishes
        trials: how many, at least 20 [1]
        spreads: three-point estimates, by the name of the work [min]
        setbacks: what may go wrong
        pace: how slow he is over all, least, most likely, greatest: his estimates err together [1]

    Returns:
        finishes [min], how often each setback came, in what share each work led to the date [1]

    Valid for:
        works that are taken up in the order of the plan, whatever happens; minutes drawn from beta distributions

    Source:
        Van Slyke, Monte Carlo methods and the PERT problem, Operations Research 11 (1963); the hours: schedule.

    Example:
        >>> import numpy as np
        >>> hours = Hours(((0, 60), (1440, 1500)), horizon=2880)
        >>> works = (Work("glue", 20, wait=600), Work("fit", 30, after=("glue",)))
        >>> broken = Setback("stud", after=("glue",), before=("fit",), chance=0.5, minutes=30)
        >>> found = simulate(works, hours=hours, goal="fit", priority=(0, 1), setbacks=(broken,),
        ...                  generator=np.random.default_rng(1), trials=1000)
        >>> found.by(0.3), found.by(0.9), 450 < found.hits["stud"] < 550
        (1470, 1500, True)

    Not covered:
        a better order once something went wrong; what must be done in one go and turns out longer than his longest
        hours is taken as long as these.
    """
    if len(priority) != len(works):
        raise PriorityMisshapen(len(priority), len(works))
    return _Simulation(works, hours, goal, priority, setbacks).run(spreads or {}, pace, generator, trials)


class _Simulation:
    """The works with everything that may go wrong among them, and what is counted over the trials."""

    def __init__(
        self,
        works: Sequence[Work],
        hours: Hours,
        goal: str,
        priority: Sequence[float],
        setbacks: Sequence[Setback],
    ) -> None:
        self.works = with_setbacks(works, setbacks=setbacks)
        self.setbacks = setbacks
        self.view: View = view_of(self.works, hours=hours, goal=goal, deadline=hours.horizon)
        self.goal, self.horizon = self.view.works.goal(goal), hours.horizon
        self.placer = Placer(self.view.works, self.view.calendars)
        ranks = [
            float("-inf") if one.begun else float(rank) for one, rank in zip(works, priority, strict=True)
        ]
        index = self.view.works.index
        self.priority = ranks + [
            min((ranks[index[key]] for key in one.before), default=2 * BEHIND) for one in setbacks
        ]

    def run(
        self,
        spreads: Mapping[str, Spread],
        pace: Points | None,
        generator: "np.random.Generator",
        trials: int,
    ) -> Finishes:
        """Place all trials."""
        import numpy as np

        rows = self._drawn(spreads, pace, generator, trials)
        chances = np.array([one.chance for one in self.setbacks])
        came = generator.random((trials, len(self.setbacks))) < chances
        goals, beyond, led = list[int](), 0, [0] * len(self.works)
        for minutes, waits, released, hit in zip(*rows, came.tolist(), strict=True):
            try:
                placed = self.placer.place(self.priority, minutes=minutes, waits=waits, released=released,
                                           counts=self._counts(hit), stop=self.goal)  # fmt: skip
            except Stuck:
                beyond += 1
                continue
            goals.append(placed.ends[self.goal])
            laid = Laid.of(placed, works=self.view.works, calendars=self.view.calendars)
            for at in {one[0] for one in laid.chain(self.goal)}:
                led[at] += 1
        hits = dict(zip((one.key for one in self.setbacks), came.sum(axis=0).tolist(), strict=True))
        share = {one.key: count / max(trials - beyond, 1) for one, count in zip(self.works, led, strict=True)}
        latest = max([self.horizon, *goals])
        return Finishes(np.array([*goals, *[latest] * beyond], dtype=np.int64), hits, share, beyond)

    def _counts(self, hit: Sequence[bool]) -> list[int]:
        """How many works each has before it: a setback that does not come is left out, and holds nothing up."""
        counts = list(self.placer.counts)
        first = len(self.works) - len(hit)
        for at, came in enumerate(hit, start=first):
            if not came:
                counts[at] += NEVER
                for one in self.view.works.following[at]:
                    counts[one] -= 1
        return counts

    def _drawn(
        self,
        spreads: Mapping[str, Spread],
        pace: Points | None,
        generator: "np.random.Generator",
        trials: int,
    ) -> tuple[Iterator[list[int]], Iterator[list[int]], Iterator[list[int]]]:
        """Minutes, waits and deliveries, a row for each trial."""
        import numpy as np

        for key in spreads:
            if key not in self.view.works.index:
                raise SpreadOfNothing(key)
        works = self.view.works
        factor = drawn([ThreePoint(*(pace or (1.0, 1.0, 1.0)))], random=generator, trials=trials)
        given = (("minutes", works.minutes), ("wait", works.waits), ("not_before", works.released))
        found = []
        for name, planned in given:
            rows = np.tile(np.array(planned, dtype=float), (trials, 1))
            some = {key: getattr(one, name) for key, one in spreads.items() if getattr(one, name) is not None}
            if some:
                columns = [works.index[key] for key in some]
                rows[:, columns] = drawn(
                    [ThreePoint(*one) for one in some.values()], random=generator, trials=trials
                )
            if name == "minutes":
                rows = np.minimum(np.where(rows > 0, np.maximum(rows * factor, 1.0), 0.0), self._longest())
            found.append(iter(np.rint(rows).astype(np.int64).tolist()))
        return found[0], found[1], found[2]

    def _longest(self) -> "Floats":
        """The most minutes that each work can take where it must not be interrupted."""
        import numpy as np

        works = self.view.works
        return np.array([
            float(self.view.calendars[kind].longest) if whole else math.inf
            for kind, whole in zip(works.kinds, works.whole, strict=True)
        ])  # fmt: skip


def with_setbacks(works: Sequence[Work], *, setbacks: Sequence[Setback]) -> tuple[Work, ...]:
    """Works with everything that may go wrong as works among them.

    Equation:
        a setback comes after what shows it, and what it holds up comes after it

    Parameters:
        works: the works
        setbacks: what may go wrong

    Returns:
        the works, and after them one for each setback

    Valid for:
        setbacks of works that are there

    Source:
        HAND.

    Example:
        >>> broken = Setback("stud", after=("off",), before=("on",), chance=0.1, minutes=120)
        >>> found = with_setbacks((Work("off", 10), Work("on", 10)), setbacks=(broken,))
        >>> [(one.key, one.after) for one in found]
        [('off', ()), ('on', ('stud',)), ('stud', ('off',))]

    Not covered:
        whether that leaves an order: see Numbered.of.
    """
    keys = {one.key for one in works}
    held: dict[str, list[str]] = {}
    for one in setbacks:
        for key in one.before:
            if key not in keys:
                raise SetbackBlocksNothing(one.key, key)
            held.setdefault(key, []).append(one.key)
    changed = [replace(one, after=(*one.after, *held[one.key])) if one.key in held else one for one in works]
    extra = [
        Work(one.key, one.minutes, after=one.after, wait=one.wait, two_people=one.two_people)
        for one in setbacks
    ]
    return (*changed, *extra)

"""The best order of works that can be found, and how far it is from the best there can be."""

from bisect import insort
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gudgeon.calc.planning.bound import Bound, lower_bound
from gudgeon.calc.planning.driving import Laid
from gudgeon.calc.planning.hours import Hours
from gudgeon.calc.planning.placing import Placed, Placer, Stuck
from gudgeon.calc.planning.pushed import Pushed
from gudgeon.calc.planning.rules import RULES, View, placeable, priorities, view_of
from gudgeon.calc.planning.schedule import Reason, Schedule
from gudgeon.calc.planning.schedule_errors import TriesTooFew
from gudgeon.calc.planning.works import Work

if TYPE_CHECKING:
    import numpy as np

AIMED, SHAKEN = 0.3, 0.65
"""Of twenty tries six aim at an earlier finish, seven shake a good plan, seven bring one of its works forward."""
PROMISING = 1440
"""A try that comes so near the best, in minutes, is pushed late and early."""
MOST_KEPT = 10
"""So many good plans are kept to start from."""
CHAIN, EVEN = 0.35, 0.5
"""How often a work moved is one that holds the date up; how often an order is read from the starts of its plan."""
WORK, LEAST_TRIES = 60_000, 300
"""Tries are so many for all works together, and at least so many: a short job can be searched more closely."""
SHARP = 0.2
"""How often latest starts are those of the bound, which take longer to find."""
LEAST_NOISE, MOST_NOISE = 0.01, 0.25
"""How far an order is shaken, as a share of its length."""
LATER = (0, 240, 1440, 2880, 7200)
"""How long after the bound a finish is aimed at first [min]."""
AIM = "latest start for the bound"
LEAST_PLACES = 2.0
"""A short order is shaken by so many places nevertheless."""


@dataclass(frozen=True, slots=True)
class Planned:
    """The plan, its proven distance from the best, and how it was found.

    `priority` is the order that gave it, one number for each work; `rule` says where that came from.
    """

    schedule: Schedule
    bound: int
    rule: str
    tries: int
    gap_minutes: int
    priority: tuple[float, ...]


def plan(
    works: Sequence[Work],
    *,
    hours: Hours,
    goal: str,
    trials: int | None = None,
    generator: "np.random.Generator",
) -> Planned:
    """Find the order of works that reaches a goal first, and after that finishes everything first.

    Equation:
        min (finish of the goal, finish of everything), over orders that are placed as in schedule

    Parameters:
        works: the works
        hours: his hours, those of the second person, the early ones [min]
        goal: what is to be reached, such as the first start
        trials: tries beyond the rules; unless told as many as the number of works allows [1]
        generator: where chance comes from; the same seed gives the same plan

    Returns:
        the plan, the bound that no plan beats, and the minutes between them [min]

    Valid for:
        as schedule; when the gap is 0 the plan is proved to be the best

    Source:
        Kolisch and Hartmann, Experimental investigation of heuristics for resource-constrained project scheduling: an
        update, European Journal of Operational Research 174 (2006): rules first, then sampling around the best, and
        pushing the plan late and early again.

    Example:
        >>> import numpy as np
        >>> hours = Hours(((0, 60), (1440, 1500)), horizon=2880)
        >>> works = (Work("tidy", 50), Work("glue", 20, wait=600), Work("fit", 30, after=("glue",)))
        >>> found = plan(works, hours=hours, goal="fit", generator=np.random.default_rng(1))
        >>> found.schedule.goal, found.bound, found.gap_minutes
        (1470, 1470, 0)

    Not covered:
        durations that turn out otherwise: see simulate.
    """
    if trials is None:
        trials = max(LEAST_TRIES, WORK // max(len(works), 1))
    if trials < 0:
        raise TriesTooFew(trials)
    view = view_of(works, hours=hours, goal=goal)
    search = _Search(view, goal=view.works.goal(goal), generator=generator)
    search.by_rules(hours.horizon)
    kept = not search.best.placed.late
    bound = lower_bound(works, hours=hours, goal=goal, at_most=search.best.value[1], keep_late=kept)
    search.improve(bound, trials=trials)
    best = search.best
    laid = Schedule.of(works, view=view, placed=best.placed, goal=goal)
    return Planned(laid, bound, best.rule, search.tries, laid.goal - bound, tuple(best.priority))


@dataclass(frozen=True, slots=True)
class _Try:
    """One order of works and what came of it: late works, finish of the goal, finish of everything; minutes behind."""

    value: tuple[int, int, int]
    behind: int
    placed: Placed
    priority: Sequence[float]
    rule: str

    @property
    def guide(self) -> tuple[int, int, int, int]:
        """By what the search goes on: of the same finish, first what is nearer to a better one."""
        return (*self.value[:2], self.behind, self.value[2])


class _Search:
    """The best try so far, and the ways to the next."""

    def __init__(self, view: View, *, goal: int, generator: "np.random.Generator") -> None:
        self.view, self.goal, self.generator = view, goal, generator
        self.placer = Placer(view.works, view.calendars)
        self.pushed = Pushed(view.works, calendars=view.calendars, goal=goal, needed=view.needed)
        self.needed = sorted(view.needed)
        self.tails = Bound(view.works, view.calendars, goal)
        self.latest: list[int] = []
        """When the hands of each work must end for the bound to be met; nothing while it is not known."""
        self.top: _Try | None = None
        self.good: list[_Try] = []
        self.tries = 0

    @property
    def best(self) -> _Try:
        """The best try; there is one once the rules have been tried."""
        assert self.top is not None
        return self.top

    def by_rules(self, horizon: int) -> None:
        """Try every rule, and each again pushed late and early; refused when none of them finds a place for all."""
        stuck: Stuck | None = None
        for rule in RULES:
            try:
                placed = self._take(priorities(rule, view=self.view), rule)
                self._push(placed, f"{rule}, pushed late and early")
            except Stuck as reason:
                stuck = stuck or reason
        if not self.good:
            assert stuck is not None
            raise Reason(self.view, horizon).of(stuck) from None

    def improve(self, bound: int, *, trials: int) -> None:
        """Shake the best order, move what holds the date up, push late and early, until the bound is met."""
        last = self.tries + trials
        found = self.tails.latest(bound)
        self.latest = found.ends if found is not None else []
        self.good = sorted(
            (replace(one, behind=self._behind(one.placed)) for one in self.good), key=lambda one: one.guide
        )
        self._aim_straight(bound, last=last)
        while self.tries < last and self.best.value[1] > bound:
            way, base = self.generator.random(), self._one_of_the_good()
            try:
                if way < AIMED:
                    placed = self._take(self._aimed(bound), "latest start, shaken")
                elif way < SHAKEN:
                    placed = self._take(self._shaken(base), "a good plan, shaken")
                else:
                    placed = self._take(self._moved(base), "one work brought forward")
                if placed.ends[self.goal] <= self.best.value[1] + PROMISING:
                    self._push(placed, "pushed late and early")
            except Stuck:
                continue

    def _aim_straight(self, bound: int, *, last: int) -> None:
        """Latest starts for a finish at the bound itself, then some hours and days after it, unshaken.

        A chain that needs a second person, or a time long enough, must catch it: only latest starts that are tight say
        which work may not wait for the next evening.
        """
        for later in LATER:
            if self.tries >= last or self.best.value[1] <= bound:
                return
            latest = self.tails.latest(bound + later)
            if latest is None:
                continue
            try:
                placed = self._take(placeable([float(one) for one in latest.starts], view=self.view), AIM)
                self._push(placed, f"{AIM}, pushed late and early")
            except Stuck:
                continue

    def _one_of_the_good(self) -> _Try:
        """One of the best plans, the better ones more often."""
        return self.good[int(len(self.good) * self.generator.random() ** 2)]

    def _take(self, priority: Sequence[float], rule: str) -> Placed:
        """Place by a priority, and keep it when it is among the good ones."""
        self.tries += 1
        placed = self.placer.place(priority)
        value = (len(placed.late), placed.ends[self.goal], max(placed.ends))
        made = _Try(value, self._behind(placed), placed, priority, rule)
        if self.top is None or value < self.top.value:
            self.top = made
        if all(one.guide != made.guide for one in self.good):
            insort(self.good, made, key=lambda one: one.guide)
            del self.good[MOST_KEPT:]
        return placed

    def _behind(self, placed: Placed) -> int:
        """How many minutes its works are behind what the bound asks for, all together.

        Of plans that reach the goal on the same day, this tells which one is nearer to a better day.
        """
        ends, waits = placed.ends, self.view.works.waits
        return sum(
            max(0, end - wait - last) for end, wait, last in zip(ends, waits, self.latest, strict=False)
        )

    def _push(self, placed: Placed, rule: str) -> None:
        """Push a plan late, and place by the starts found."""
        starts = self.pushed.starts(placed.ends, finish=placed.ends[self.goal])
        if starts is not None:
            ranks = [float(starts.get(at, begin)) for at, begin in enumerate(placed.begins)]
            self._take(placeable(ranks, view=self.view), rule)

    def _ranks(self, base: _Try) -> list[float]:
        """A plan as an order: the number of each work by its start, or in the order that gave it."""
        return _numbered(base.placed.begins if self.generator.random() < EVEN else base.priority)

    def _shaken(self, base: _Try) -> list[float]:
        """The order of a plan, every work moved a little."""
        return self._noisy(self._ranks(base), MOST_NOISE)

    def _aimed(self, bound: int) -> list[float]:
        """Latest starts for a finish between the bound and the best, shaken a little."""
        best = self.best.value[1]
        aim = bound + int((best - bound) * self.generator.random() ** 3)
        latest = self.tails.latest(aim) if self.generator.random() < SHARP else None
        starts: Sequence[float] = (
            latest.starts
            if latest is not None
            else priorities("latest start", view=replace(self.view, deadline=aim))
        )
        return self._noisy(_numbered(starts), MOST_NOISE / 2)

    def _noisy(self, ranks: Sequence[float], most: float) -> list[float]:
        """An order with every work moved a little, seldom much."""
        least, most = LEAST_NOISE * len(ranks), max(most * len(ranks), LEAST_PLACES)
        width = least + (most - least) * self.generator.random() ** 2
        noise = self.generator.normal(0.0, width, len(ranks)).tolist()
        return placeable([rank + by for rank, by in zip(ranks, noise, strict=True)], view=self.view)

    def _moved(self, base: _Try) -> list[float]:
        """The order of a plan with one work elsewhere: one that leads to the date earlier, or any one.

        What it needs goes with it. That something else is done later is what often frees an evening with two people.
        """
        ranks, draw = self._ranks(base), self.generator.random
        if draw() < CHAIN:
            laid = Laid.of(base.placed, works=self.view.works, calendars=self.view.calendars)
            chain = laid.chain(self.goal)
            at = chain[int(draw() * len(chain))][0]
            place = ranks[at] - 1 - draw() ** 2 * len(ranks)
        else:
            at = self.needed[int(draw() * len(self.needed))]
            place = draw() * len(ranks) - 0.5
        for one in self.view.works.needed_for(at):
            if ranks[one] > place:
                ranks[one] = place + ranks[one] / len(ranks)
        ranks[at] = place + 0.5
        return placeable(ranks, view=self.view)


def _numbered(by: Sequence[float]) -> list[float]:
    """The place of each work in the order of a value, counted from nothing."""
    ranks = [0.0] * len(by)
    for rank, at in enumerate(sorted(range(len(by)), key=lambda at: by[at])):
        ranks[at] = float(rank)
    return ranks

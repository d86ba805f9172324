"""The works that a goal needs, pushed as late as they go: placed backward, in hours seen in a mirror."""

from collections.abc import Collection, Sequence
from dataclasses import replace

from gudgeon.calc.planning.hours import Calendar
from gudgeon.calc.planning.placing import NEVER, Placer, Stuck
from gudgeon.calc.planning.works import Numbered


class Pushed:
    """Pushes the works that a goal needs; again and again, from other finishes and by other plans."""

    __slots__ = ("calendars", "counts", "goal", "needed", "works")

    def __init__(
        self, works: Numbered, *, calendars: Sequence[Calendar], goal: int, needed: Collection[int]
    ) -> None:
        nothing = [0] * len(works.keys)
        self.works = replace(works, before=works.following, following=works.before, waits=nothing, released=nothing,
                             leads=works.waits)  # fmt: skip
        self.calendars, self.goal, self.needed = calendars, goal, needed
        self.counts = [
            sum(one in needed for one in after) if at in needed else NEVER
            for at, after in enumerate(works.following)
        ]
        self.counts[goal] = 0

    def starts(self, ends: Sequence[int], *, finish: int) -> dict[int, int] | None:
        """The start of each work when those that end last are pushed first; None where the hours do not hold them."""
        mirrored = [one.mirrored(finish) for one in self.calendars]
        placer = Placer(self.works, mirrored)
        try:
            placed = placer.place([-float(one) for one in ends], counts=self.counts)
        except Stuck:
            return None
        return {at: finish - placed.ends[at] for at in self.needed}

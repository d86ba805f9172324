"""Networks of tasks, estimates and lives that cannot be; one class per cause."""

import difflib
from collections.abc import Iterable, Sequence

from gudgeon.errors import InputError, quoted, short

MOST_IN_A_RING = 8
"""So many tasks of a ring are named: a longer ring is told by its first ones."""


class NoTasks(InputError):
    """A network without a task."""

    def __init__(self) -> None:
        super().__init__(
            "No task is given, so there is nothing to plan. Name at least one, with its duration."
        )


class DurationImpossible(InputError):
    """A duration below zero, or none at all."""

    def __init__(self, task: str, duration: float) -> None:
        super().__init__(
            f"Duration {duration:g} of `{short(task)}` cannot be: a task takes 0 or more. "
            "Check the figure and its sign."
        )


class UnknownPredecessor(InputError):
    """A task that is to come after one that does not exist."""

    def __init__(self, task: str, before: str, known: Iterable[str]) -> None:
        names = list(known)
        near = difflib.get_close_matches(before, names, n=1, cutoff=0.5)
        hint = f"Did you mean `{short(near[0])}`? " if near else ""
        super().__init__(
            f"`{short(task)}` is to come after `{short(before)}`, which is no task here. {hint}"
            f"There are: {quoted(names)}."
        )


class DurationMissing(InputError):
    """A task that has a place in the order and no duration."""

    def __init__(self, task: str, known: Iterable[str]) -> None:
        super().__init__(
            f"`{short(task)}` has a place in the order and no duration. Give one; durations are given for: "
            f"{quoted(list(known))}."
        )


class TasksInARing(InputError):
    """Tasks each of which waits for the next, and the last for the first."""

    def __init__(self, ring: Sequence[str]) -> None:
        if len(ring) == 1:
            super().__init__(f"`{short(ring[0])}` waits for itself and could never begin. Take that out.")
            return
        waits = [
            f"`{short(one)}` waits for `{short(other)}`"
            for one, other in zip(ring, [*ring[1:], ring[0]], strict=True)
        ]
        if len(waits) > MOST_IN_A_RING:
            told = f"{', '.join(waits[:MOST_IN_A_RING])}, and so on through {len(ring)} tasks"
        else:
            told = f"{', '.join(waits[:-1])} and {waits[-1]}"
        super().__init__(f"No order can keep this: {told}. Take one of these out.")


class EstimateNotFinite(InputError):
    """NaN or infinity among three estimates."""

    def __init__(self, optimistic: float, likely: float, pessimistic: float) -> None:
        super().__init__(
            f"The estimate {optimistic:g} – {likely:g} – {pessimistic:g} is not of three finite numbers. "
            "Give the least, the most likely and the greatest."
        )


class EstimateNegative(InputError):
    """A task that might take less than nothing."""

    def __init__(self, optimistic: float, likely: float, pessimistic: float) -> None:
        super().__init__(
            f"The estimate {optimistic:g} – {likely:g} – {pessimistic:g} begins below 0, and nothing takes less than "
            "no time. Check the signs."
        )


class EstimateOutOfOrder(InputError):
    """A least above the most likely, or that above the greatest."""

    def __init__(self, optimistic: float, likely: float, pessimistic: float) -> None:
        what = (
            f"the least, {optimistic:g}, lies above the most likely, {likely:g}"
            if optimistic > likely
            else f"the most likely, {likely:g}, lies above the greatest, {pessimistic:g}"
        )
        super().__init__(
            f"The estimate {optimistic:g} – {likely:g} – {pessimistic:g} cannot be: {what}. "
            "Write them in rising order: least, most likely, greatest; they may be equal."
        )


class TrialsTooFew(InputError):
    """A simulation of too few trials to say anything."""

    def __init__(self, trials: int, least: int) -> None:
        super().__init__(
            f"{trials:,} trials tell no distribution: at least {least} are needed. 2,000 to 20,000 are usual."
        )


class PercentOutOfRange(InputError):
    """A percentage that no part of a whole can be."""

    def __init__(self, what: str, percent: float) -> None:
        super().__init__(f"{what} of {percent:g} % cannot be: it lies above 0 and below 100 %.")


class NoTrials(InputError):
    """Percentiles of nothing."""

    def __init__(self) -> None:
        super().__init__("No outcome is given, so no percentile can be told. Give at least one.")


class ChancesNotRising(InputError):
    """Two ages by which parts fail that tell of no rising life."""

    def __init__(self, early_age: float, early_percent: float, late_age: float, late_percent: float) -> None:
        super().__init__(
            f"{early_percent:g} % failed by {early_age:g} and {late_percent:g} % by {late_age:g} cannot both be: "
            "at the later age more have failed. Give two ages that differ, the later with the greater share."
        )


class ShapeOutOfRange(InputError):
    """A shape that no part has."""

    def __init__(self, shape: float, shapes: tuple[float, float]) -> None:
        super().__init__(
            f"Shape {shape:g} of a life cannot be used: it lies from {shapes[0]:g} to {shapes[1]:g}, and of parts from "
            "0.5 to 10 (common practice, no source). Above 1 they wear out, at 1 they fail by chance."
        )


class LifeOver(InputError):
    """An age that no part of this life has reached."""

    def __init__(self, age: float, characteristic: float) -> None:
        super().__init__(
            f"Age {age:g} cannot be reached with a characteristic life of {characteristic:g}: less than one part in "
            "10^299 would be left. Check both; they count in the same unit from new."
        )


class SurvivalImpossible(InputError):
    """A reliability that is no probability, or rises."""

    def __init__(self, age: float, value: float) -> None:
        super().__init__(
            f"Reliability {value:g} at age {age:g} cannot be: it begins at 1, never rises, and stays from 0 to 1."
        )


class TrialsTooMany(InputError):
    """More trials than fit into the memory of a small machine."""

    def __init__(self, trials: int, tasks: int, most: int) -> None:
        super().__init__(
            f"{trials:,} trials of {tasks} task{'' if tasks == 1 else 's'} are too many at once: at most {most:,}. "
            "2,000 to 20,000 are usual."
        )


class UnitNotTaken(InputError):
    """A unit in which neither work nor a life is told."""

    def __init__(self, key: str, written: str, unit: str, known: Iterable[str]) -> None:
        names = list(known)
        near = difflib.get_close_matches(unit, names, n=1, cutoff=0.5)
        hint = f"Did you mean `{near[0]}`? " if near else ""
        super().__init__(
            f"{key}: `{short(written)}` has the unit `{short(unit)}`, which is not taken here. {hint}"
            f"Write one of: {', '.join(names)}; or plain numbers throughout."
        )


class UnitsOfTwoKinds(InputError):
    """A distance set against hours, or hours in use against years."""

    def __init__(self, first: str, kind: str, second: str, other: str) -> None:
        super().__init__(
            f"`{short(first)}` is {kind} and `{short(second)}` is {other}: one cannot be set against the other. "
            "Write all of them in units of one kind."
        )


class TaskUnreadable(InputError):
    """An item of a list that is no task with a duration."""

    def __init__(self, item: str) -> None:
        super().__init__(
            f"`{short(item)}` is no task that can be read. Write its name, its duration, and what it comes after, like "
            "`C 5 h after A, B`, or three estimates, like `C 3-5-7 h after A, B`; tasks apart with semicolons."
        )


class CommaInTask(InputError):
    """A comma within the name of a task, where tasks are apart with semicolons."""

    def __init__(self, item: str, name: str) -> None:
        super().__init__(
            f"`{short(item)}` would be one task called `{short(name)}`, and a name takes no comma: commas part what a "
            "task comes after, semicolons part the tasks. Write tasks like `A 5; B 2`, and a name without the comma."
        )


class FinishNegative(InputError):
    """A time by which all is to be done that lies below nothing."""

    def __init__(self, by: str) -> None:
        super().__init__(
            f"`{short(by)}` cannot be a time by which all is done: it counts from the start, 0 or more. Check its sign."
        )


class TaskTwice(InputError):
    """A task that is listed twice."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"`{short(name)}` is listed twice. Give each task a name of its own, with all that it waits for."
        )


class SharesUnreadable(InputError):
    """A text that does not say how many have failed at two ages."""

    def __init__(self, written: str) -> None:
        super().__init__(
            f"`{short(written)}` does not say how many fail by when. Write two ages with their shares, like "
            "`10 % by 90000 km; 50 % by 150000 km`."
        )

"""What is refused of a plan, one class per cause."""

from collections.abc import Iterable

from gudgeon.errors import InputError, RecordError, short


class WaitForEachOther(InputError):
    """An order of tasks in which none can begin."""

    def __init__(self, first: str, then: str) -> None:
        super().__init__(
            f"“{then}” cannot come after “{first}”: the job has “{first}” wait for it already, so neither could "
            "begin. Leave that order out, or put it the other way round."
        )


class AlreadyOut(InputError):
    """A task is to be left out that is left out."""

    def __init__(self, title: str) -> None:
        super().__init__(
            f"“{title}” is left out already. To take it in again, strike the entry that left it out."
        )


class LeftOut(InputError):
    """A task is named that was left out of the job."""

    def __init__(self, title: str) -> None:
        super().__init__(
            f"“{title}” was left out of this job, so nothing is recorded of it. To take it in again, strike the entry "
            "that left it out."
        )


class AfterItself(InputError):
    """A task is to wait for itself."""

    def __init__(self, title: str) -> None:
        super().__init__(f"“{title}” cannot come after itself. Name a task that is done before it.")


class AfterNothing(InputError):
    """A task is to come after others, and none is named."""

    def __init__(self, title: str) -> None:
        super().__init__(
            f"After what “{title}” is to come is not said. Name a task that is done before it, by words of its title."
        )


class NotThisEngine(InputError):
    """A job about something that the engine has not."""

    def __init__(self, name: str, lacking: Iterable[str]) -> None:
        super().__init__(
            f"The job “{name}” is for an engine with {' and '.join(lacking)}, and by the data sheet this one has none. "
            "Choose another job, or mend the sheet where it is wrong."
        )


class IsAGate(InputError):
    """A task is to be left out before which everything is looked at."""

    def __init__(self, title: str) -> None:
        super().__init__(
            f"“{title}” cannot be left out: before it everything that is open is asked for. What stands against it is "
            "told by gudgeon ready."
        )


class ProvesThere(InputError):
    """A job is to be chosen in which a task that was left out proves something that nothing else proves."""

    def __init__(self, title: str, name: str, holds: Iterable[str]) -> None:
        super().__init__(
            f"“{title}” was left out, and in the job “{name}” it proves {'; '.join(f'“{one}”' for one in holds)}. "
            "Strike the entry that left it out, then choose the job."
        )


class ProvesSomething(InputError):
    """A task is to be left out in which something is proved that nothing else proves."""

    def __init__(self, title: str, holds: Iterable[str]) -> None:
        super().__init__(
            f"“{title}” cannot be left out: in it is proved {'; '.join(f'“{one}”' for one in holds)}, and the engine "
            "may not be started without. Do it, or choose a smaller job that does not touch it."
        )


class DoneAlready(RecordError):
    """A task is to be left out, or a job chosen without it, of which the book says that it was begun."""

    def __init__(self, what: str, titles: Iterable[str]) -> None:
        super().__init__(
            f"{what} cannot be: the book says of {', '.join(f'“{one}”' for one in titles)} that work on it was begun. "
            "Go on with the job that has it; an entry that is wrong can be struck."
        )


class TaskThere(InputError):
    """A task of his own with the words of one that the job has."""

    def __init__(self, title: str) -> None:
        super().__init__(f"The job has “{title}” already. Say what is different about yours.")


class PastPromise(InputError):
    """A promise for a day that is over."""

    def __init__(self, what: str, on: str, today: str) -> None:
        super().__init__(
            f"{short(what)}: {on} as promised is over, today is {today}. Write the day that was promised anew; "
            "if it came, record that it came."
        )


class PastDay(InputError):
    """Hours of a day that is over."""

    def __init__(self, day: str, today: str) -> None:
        super().__init__(
            f"{day} is over, today is {today}: nothing can be planned on it any more. Name today or a day that comes."
        )


class CameAlready(InputError):
    """A promise about something that is here already."""

    def __init__(self, what: str, of: str) -> None:
        came = "came back from the machine shop" if of == "shop" else "came"
        again = (
            "it goes there again, record that it left"
            if of == "shop"
            else "more of it is to come, record the order"
        )
        super().__init__(
            f"{short(what)}: the book says that it {came}, so no day is promised for it. If {again} first."
        )


class NeverSent(InputError):
    """A day on which the machine shop gives back what it does not have and will not get."""

    def __init__(self, what: str) -> None:
        super().__init__(
            f"{short(what)} is not at the machine shop by the book, and no task of the job takes it there, so no day "
            "can be promised for it. Record first that it left: gudgeon record shop-out."
        )


class PromiseInOrder(InputError):
    """A promised day that lies outside the span that was said to be likely."""

    def __init__(self, earliest: str, on: str, latest: str) -> None:
        super().__init__(
            f"{earliest} at the earliest, {on} as promised and {latest} at the latest cannot be: the first is at most "
            "the second, and that at most the third. Look which of them is wrong."
        )


class NoHours(InputError):
    """Hours of a day that cannot be."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"`{short(said)}` are no hours of a day. Write from when to when, like `19:00-21:30`, up to `24:00`, the "
            "earlier first; several are kept apart from each other."
        )


class NoDay(InputError):
    """A day that is none."""

    def __init__(self, said: str) -> None:
        super().__init__(f"`{short(said)}` is no day. Write year, month and day, like `2026-03-07`.")


class MinutesInOrder(InputError):
    """A three-point estimate that is out of order."""

    def __init__(self, low: int, likely: int, high: int) -> None:
        super().__init__(
            f"{low} min at best, {likely} min as a rule and {high} min at worst cannot be: the first is at most the "
            "second, and that at most the third. Look which of them is wrong."
        )


class NotMoney(InputError):
    """An amount that is none."""

    def __init__(self, what: str, said: str) -> None:
        super().__init__(
            f"`{short(said)}` is no amount for “{what}”. Write a number that is not below 0, like `42.50`, without "
            "marks for thousands; the currency stands apart."
        )


class AmountsInOrder(InputError):
    """Three amounts that are out of order."""

    def __init__(self, low: str, likely: str, high: str) -> None:
        super().__init__(
            f"{low} at best, {likely} as a rule and {high} at worst cannot be: the first is at most the second, and "
            "that at most the third. Look which of them is wrong."
        )


class NoChance(InputError):
    """A chance that is none."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"`{short(said)}` is no chance. Write a number above 0 and at most 1, like `0.3`, or in percent, like "
            "`30 %`."
        )

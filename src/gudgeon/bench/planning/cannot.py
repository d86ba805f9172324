"""Why there is no date: which hours are missing, in words, and what to do about it."""

from collections.abc import Callable

from gudgeon.bench.context import Bench
from gudgeon.bench.planning.answer import Gap
from gudgeon.bench.planning.own_hours import RealHours, old_words
from gudgeon.bench.planning.words import hours_words
from gudgeon.calc.planning.schedule_errors import (
    CannotFinish,
    DeliveryTooLate,
    NoWindowLeft,
    NoWindowLongEnough,
    OwnHoursShort,
    SecondPersonShort,
)

WRITE = (
    "Write them into the kit, under hours: the week with its days, like Tuesday: 19:00-21:00, and under second_person "
    "the week of somebody who can help."
)


def no_hours(bench: Bench) -> tuple[Gap, ...]:
    """No hours can be planned with; nothing is invented in their place."""
    words = old_words(bench)
    if words:
        quoted = " and ".join(f"“{one}”" for one in words)
        return (Gap(f"The kit says {quoted} of your hours, and words cannot be planned with.", WRITE),)
    if bench.kit.hours is not None and bench.kit.hours.plannable:
        return (
            Gap(
                "All your hours fall on days off, or on days that the book plans without any.",
                "Take days off out of the kit, or say other hours for a day.",
            ),
        )
    return (Gap("The kit says nothing of your hours.", WRITE),)


def gap_of(error: CannotFinish, title: Callable[[str], str], real: RealHours, *, two_people: bool) -> Gap:
    """What is missing, in words."""
    work, ahead = f"“{title(error.key)}”", f"within the {real.days} days that are planned ahead"
    if isinstance(error, OwnHoursShort):
        return Gap(
            f"Your own hours do not suffice: they are {hours_words(error.short_minutes)} short {ahead}, and {work} "
            "finds no place.",
            "Keep more hours free for the engine, or take tasks out of the job.",
        )
    if isinstance(error, SecondPersonShort) or (two_people and not real.hours.both):
        return Gap(*_second(error, work, ahead, real))
    if isinstance(error, NoWindowLongEnough):
        whose = "that you and the second person share" if two_people else "of yours"
        return Gap(
            f"{work} is done in one go and takes {hours_words(error.minutes)}; the longest hours {whose} are "
            f"{hours_words(error.longest)}.",
            "Keep one longer time free; a single day can be planned otherwise.",
        )
    if isinstance(error, NoWindowLeft):
        return Gap(
            f"{work} is done in one go and takes {hours_words(error.minutes)}; no hours that long are left once it can "
            f"begin, {ahead}.",
            "Keep one more such time free.",
        )
    if isinstance(error, DeliveryTooLate):
        return Gap(
            f"{work} cannot be done {ahead}: “{title(error.late)}” waits for something that comes after your last "
            "hours.",
            "Find it sooner, or keep later hours free.",
        )
    return Gap(f"{work} finds no place {ahead}.", "Keep more hours free for the engine.")


def _second(error: CannotFinish, work: str, ahead: str, real: RealHours) -> tuple[str, str]:
    if not real.second_person:
        return (
            f"{work} takes two people, and the kit says of nobody when they can help.",
            "Write into the kit, under hours and second_person, the week of somebody who can help.",
        )
    if not real.hours.both:
        return (
            f"{work} takes two people, and the second person is never there while you are.",
            "Find hours in which both of you are there; a single day can be planned otherwise.",
        )
    short = hours_words(error.short_minutes) if isinstance(error, SecondPersonShort) else "too"
    return (
        f"{work} takes two people, and the second person is {short} short {ahead}.",
        "Find hours in which both of you are there; a single day can be planned otherwise.",
    )

"""Invented jobs in a garage, drawn at random, and a slow and plain check that a plan keeps every rule."""

import random
from collections.abc import Sequence
from itertools import pairwise

from gudgeon.calc.planning.hours import Hours, Window
from gudgeon.calc.planning.placing import LEAST_PIECE
from gudgeon.calc.planning.schedule import Schedule
from gudgeon.calc.planning.works import Work

DAY = 1440
GRID = 15


def some_hours(chance: random.Random, *, weeks: int) -> Hours:
    """Evenings of some weekdays and most of the weekend; the second person comes on Saturdays and one evening."""
    evenings = sorted(chance.sample(range(5), chance.randint(2, 4)))
    start, length = chance.choice((18, 19)) * 60, chance.choice((120, 150, 180))
    helped, sunday = chance.choice(evenings), chance.random() < 0.6
    own: list[Window] = []
    both: list[Window] = []
    early: list[Window] = []
    for day in range(7 * weeks):
        midnight, weekday = day * DAY, day % 7
        if weekday in evenings:
            slot = (midnight + start, midnight + start + length)
            own.append(slot)
            early.append((slot[0], slot[1] - 60))
            if weekday == helped:
                both.append((slot[0] + 30, slot[1]))
        elif weekday == 5 or (weekday == 6 and sunday):
            slot = (midnight + 9 * 60, midnight + (13 if weekday == 5 else 12) * 60)
            own.append(slot)
            early.append(slot)
            if weekday == 5:
                both.append((slot[0] + 60, slot[1]))
                later = (midnight + 14 * 60, midnight + 17 * 60)
                own.append(later)
                early.append(later)
    return Hours(tuple(own), tuple(both), tuple(early), 7 * weeks * DAY)


def some_works(chance: random.Random, *, count: int) -> tuple[Work, ...]:
    """Works that each come after one to three of the last few; the last one is the goal and needs every loose end."""
    works: list[Work] = []
    for at in range(count - 1):
        near = [one.key for one in works[-8:]]
        many = min(len(near), chance.choice((1, 1, 1, 2, 2, 3)))
        after = tuple(chance.sample(near, many))
        after = after if chance.random() < 0.93 else ()
        wait = 0
        if chance.random() < 0.2:
            wait = chance.choice((60, 240, 720, 1440, 2880)) if chance.random() < 0.8 else 4 * DAY
        works.append(
            Work(
                f"work {at}", chance.choice((15, 15, 30, 30, 45, 60, 60, 90, 120, 180)), after=after, wait=wait,
                not_before=chance.randint(1, 12) * DAY if chance.random() < 0.05 else 0,
                two_people=chance.random() < 0.12, in_one_go=chance.random() < 0.25, not_late=chance.random() < 0.15,
            )
        )  # fmt: skip
    needed = {key for one in works for key in one.after}
    works.append(Work("goal", 30, after=tuple(one.key for one in works if one.key not in needed)))
    return tuple(_that_fit(works))


def _that_fit(works: Sequence[Work]) -> list[Work]:
    """What must be done in one go takes no longer than the shortest early evening, with the second person or without."""
    return [
        Work(
            one.key, min(one.minutes, 60) if one.in_one_go or one.not_late else one.minutes, after=one.after,
            wait=one.wait, not_before=one.not_before, two_people=one.two_people, in_one_go=one.in_one_go,
            not_late=one.not_late,
        )
        for one in works
    ]  # fmt: skip


def some_project(seed: int, *, count: int, weeks: int = 30) -> tuple[tuple[Work, ...], Hours]:
    """Works and hours, the same for the same seed."""
    chance = random.Random(seed)
    return some_works(chance, count=count), some_hours(chance, weeks=weeks)


def broken_rules(found: Schedule, *, works: Sequence[Work], hours: Hours) -> list[str]:
    """What a plan does that it must not, in words."""
    wrong: list[str] = []
    taken: list[Window] = []
    for work in works:
        slots = found.slots[work.key]
        taken += slots
        if sum(end - start for start, end in slots) != work.minutes:
            wrong.append(f"{work.key}: not its minutes")
        begin = slots[0][0] if slots else found.begins[work.key]
        if begin != found.begins[work.key] or begin < work.not_before:
            wrong.append(f"{work.key}: begins too early")
        wrong += [f"{work.key}: before {one} is over" for one in work.after if begin < found.ends[one]]
        if found.ends[work.key] != (slots[-1][1] if slots else begin) + work.wait:
            wrong.append(f"{work.key}: ends at another time")
        if work.in_one_go and len(slots) > 1:
            wrong.append(f"{work.key}: interrupted")
        needed = [hours.own]
        needed += [hours.both] if work.two_people else []
        needed += [hours.early] if work.not_late and work.key not in found.late else []
        for kind in needed:
            wrong += [f"{work.key}: outside its hours" for slot in slots if not _inside(slot, kind)]
        if any(end - start < LEAST_PIECE for start, end in slots[:-1]):
            wrong.append(f"{work.key}: a piece too small")
    taken.sort()
    wrong += ["two works at once" for one, other in pairwise(taken) if one[1] > other[0]]
    return wrong


def _inside(slot: Window, windows: Sequence[Window]) -> bool:
    """Whether every minute of a slot lies in one of the windows; they may touch."""
    covered = sum(max(0, min(slot[1], end) - max(slot[0], start)) for start, end in windows)
    return covered == slot[1] - slot[0]

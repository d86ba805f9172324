"""The date of the first start as a picture: how many of 100 simulated plans reach it in each week."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.bench.planning.answer import Distribution, Week

ROWS_MOST = 14
"""So many weeks have a bar of their own; those before and after them are counted together."""
LEAST_PERCENT = 0.5
"""A week in which less of 100 end has no bar of its own at either end."""


@dataclass(frozen=True, slots=True)
class WeekBar:
    """A week, how many of 100 fall into it, and the same in words; `middle` where half of them are reached."""

    name: str
    percent: float
    said: str
    middle: bool = False


@dataclass(frozen=True, slots=True)
class WeeksPicture:
    """All weeks in order; `most` is the longest bar."""

    title: str
    words: str
    bars: tuple[WeekBar, ...]
    most: float


def weeks_picture(found: Distribution) -> WeeksPicture:
    """The weeks of a distribution that count, and what lies before and after them."""
    ahead = [one for one in found.weeks if one.up_to >= LEAST_PERCENT]
    while ahead and ahead[-1].percent < LEAST_PERCENT:
        ahead.pop()
    shown, hidden = ahead[:ROWS_MOST], ahead[ROWS_MOST:]
    bars = [_bar(one, ahead) for one in shown]
    before = shown[0].up_to - shown[0].percent if shown else 0.0
    if before >= LEAST_PERCENT:
        bars.insert(0, WeekBar("Earlier", before, of_100(before)))
    after = sum(one.percent for one in hidden)
    if after >= LEAST_PERCENT:
        bars.append(WeekBar("Later", after, of_100(after)))
    if found.beyond > 0:
        bars.append(WeekBar("Not in these days", found.beyond, of_100(found.beyond)))
    said = "; ".join(f"{one.name}: {one.said}{', the middle' if one.middle else ''}" for one in bars)
    return WeeksPicture(
        "The first start, week by week", f"Of 100 simulated plans so many reach the first start: {said}.",
        tuple(bars), max((one.percent for one in bars), default=0.0),
    )  # fmt: skip


def of_100(percent: float) -> str:
    """A share in words.

    Example:
        >>> of_100(23.4), of_100(0.2)
        ('23 of 100', 'less than 1 of 100')
    """
    return f"{percent:.0f} of 100" if percent >= LEAST_PERCENT else "less than 1 of 100"


def _bar(one: Week, weeks: Sequence[Week]) -> WeekBar:
    half = next((week for week in weeks if week.up_to >= 50), None)
    return WeekBar(one.words, one.percent, of_100(one.percent), middle=one is half)

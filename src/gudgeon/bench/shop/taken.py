"""What was taken off a head, place by place, by its heights before and after; and whether it was cut askew."""

import math
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.inputs_head import made
from gudgeon.bench.cut.words import mm_as_read
from gudgeon.bench.judging.decision import Value, total
from gudgeon.bench.judging.finding import plus_minus
from gudgeon.bench.measured import Measured, measured_in
from gudgeon.bench.shop.ordered import as_value
from gudgeon.quantity.format import both


@dataclass(frozen=True, slots=True)
class PlaceTaken:
    """One place: its height before and after, what came off there, and its uncertainty."""

    place: str
    before: str
    after: str
    off: str
    uncertainty: str


@dataclass(frozen=True, slots=True)
class Askew:
    """Whether the face lies even now: how much its heights differ, between which places, and what that does.

    `verdict` is `even` where they differ by no more than the gauges may err together, `askew` where by more, and
    `not known` where the error of a gauge is stated by nobody.
    """

    verdict: str
    words: str
    follows: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Taken:
    """The heights of a head before and after: the mean cut as a value [mm], each place, and whether it lies even.

    `unread` are the places of which the height as left is not in the book.
    """

    value: Value | None
    places: tuple[PlaceTaken, ...]
    askew: Askew | None
    unread: tuple[str, ...]


def taken(bench: Bench, key: str) -> Taken:
    """What the heights of the book say was taken off."""
    before, after = (_known(measured_in(bench, key, condition=one)) for one in ("as found", "as left"))
    same = [place for place in before if place in after]
    cut = made(bench)
    value = as_value(cut.known) if cut is not None else None
    places = tuple(_place(one, before[one], after[one]) for one in same)
    unread = tuple(one for one in before if one not in after)
    return Taken(value, places, _askew(bench, before, after), unread)


def _known(read: dict[str, Measured]) -> dict[str, Measured]:
    """What is known at both ends; of two ends the middle goes into a height."""
    return {place: one for place, one in read.items() if math.isfinite(one.low + one.high)}


def spread_words(value: Value) -> str:
    """U of a value, k = 2."""
    return plus_minus(value.u, kind="length_difference") if value.known else "not known"


def _place(place: str, before: Measured, after: Measured) -> PlaceTaken:
    off = total([(1.0, before), (-1.0, after)])
    return PlaceTaken(place, before.text, after.text, mm_as_read((off.low + off.high) / 2), spread_words(off))


def _height(one: Measured) -> float:
    return (one.low + one.high) / 2


def _askew(bench: Bench, before: dict[str, Measured], after: dict[str, Measured]) -> Askew | None:
    """The greatest difference of two heights as left, against what the gauges make of it."""
    if len(after) < 2:
        return None
    high, low = (
        max(after, key=lambda one: _height(after[one])),
        min(after, key=lambda one: _height(after[one])),
    )
    value = total([(1.0, after[high]), (-1.0, after[low])])
    differ = _height(after[high]) - _height(after[low])
    was = f"; as found they differed by {mm_as_read(_differ(before))}" if len(before) > 1 else ""
    said = f"the heights as left differ by {mm_as_read(differ)} ({spread_words(value)}): {high} high, {low} low{was}"
    if not value.known:
        return Askew("not known", f"{said}; how far the gauge may be off is not known", ())
    if differ <= 2 * value.u:
        return Askew("even", f"{said}; that is no more than the gauge may be off", ())
    return Askew("askew", said, tuple(_consequences(bench, differ, low)))


def _differ(read: dict[str, Measured]) -> float:
    heights = [_height(one) for one in read.values()]
    return max(heights) - min(heights)


def _consequences(bench: Bench, differ: float, low: str) -> list[str]:
    cylinder = bench.sheet.cylinder
    area = cylinder.chamber_mouth_area if cylinder is not None else None
    said = []
    if area is not None:
        volume = area.value.middle_in("mm²") * differ / 1000
        said.append(
            f"the chamber nearest to {low} is smaller than the one farthest from it by up to "
            f"{both(volume, kind='volume', decimals=2)}: its cylinder compresses more"
        )
    else:
        said.append(
            "the chambers differ in volume; by how much cannot be told without the mouth area (cylinder: "
            "chamber_mouth_area)"
        )
    if not bench.sheet.lacks("overhead cam"):
        said.append(
            "the camshafts lean with the head: for their timing counts what came off at the end of the drive, not the "
            "mean"
        )
    said.append("ask the shop to set it up again from the datum before anything is put on")
    return said

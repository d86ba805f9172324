"""What was taken off a head, place by place, by its heights before and after; and whether it was cut askew."""

import math
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.inputs_head import made
from gudgeon.bench.cut.words import SAME_MM, mm_as_read
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

    `verdict` is `even` where what came off differs by no more than the gauges may err together, or the heights by no
    more than the sheet lets them; `as before` where the head leaned before and the cut changed nothing of it; `askew`
    where the cut made it lean; `leans` where who made it lean is not known; `not known` where the error of a gauge is
    stated by nobody.
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
    """Whether the cut leaned, by what it changed between two places; what leaned before is no work of the shop."""
    if len(after) < 2:
        return None
    high, low = _ends(after)
    lean = total([(1.0, after[high]), (-1.0, after[low])])
    differ = _middle(lean)
    was = f"; as found they differed by {mm_as_read(_differ(before))}" if len(before) > 1 else ""
    said = f"the heights as left differ by {mm_as_read(differ)} ({spread_words(lean)}): {high} high, {low} low{was}"
    same = [place for place in before if place in after]
    if len(same) < 2:
        return _by_the_lean(bench, lean, said, low)
    most, least = _cut_ends(before, after, same)
    change = total([(1.0, before[most]), (-1.0, after[most]), (-1.0, before[least]), (1.0, after[least])])
    told = (
        f"{said}; what came off differs by {mm_as_read(round(_middle(change), 9))} ({spread_words(change)})"
    )
    if not (lean.known and change.known):
        return Askew("not known", f"{told}; how far the gauge may be off is not known", ())
    leaned = _middle(lean) > 2 * lean.u + SAME_MM
    if _middle(change) <= 2 * change.u + SAME_MM:
        words = f"{told}, no more than the gauge may be off"
        if not leaned:
            return Askew("even", words, ())
        allowed = _allowed(bench, differ)
        return Askew(
            "as before", f"{words}: it leaned before and still does{allowed}, the cut did not make it", ()
        )
    allowed = _allowed(bench, differ)
    if allowed:
        return Askew("even", f"{told}{allowed}", ())
    told = f"{told}, {most} more than {least}"
    if not leaned:
        return Askew("even", f"{told}: the cut took a lean away, the head lies even now", ())
    return Askew("askew", told, tuple(_consequences(bench, differ, low)))


def _by_the_lean(bench: Bench, lean: Value, said: str, low: str) -> Askew:
    """Without heights of two places as found it is known how the head lies, not who made it lie so."""
    if not lean.known:
        return Askew("not known", f"{said}; how far the gauge may be off is not known", ())
    differ = _middle(lean)
    if differ <= 2 * lean.u + SAME_MM:
        return Askew("even", f"{said}; that is no more than the gauge may be off", ())
    allowed = _allowed(bench, differ)
    if allowed:
        return Askew("even", f"{said}{allowed}", ())
    unknown = "whether this cut made it lean is not known: two places were not both read before and after"
    return Askew("leans", said, (*_consequences(bench, differ, low)[:-1], unknown))


def _allowed(bench: Bench, differ: float) -> str:
    """That a head may lean so far, by half the width of what the sheet lets its height be; nothing where it may not."""
    head = bench.sheet.head
    if head is None or head.height is None:
        return ""
    low, high = head.height.value.low_in("mm"), head.height.value.high_in("mm")
    if low is None or high is None or high <= low or differ > (high - low) / 2 + SAME_MM:
        return ""
    source = head.cited(head.height) or "data sheet"
    return f", within the ± {mm_as_read((high - low) / 2)} that the sheet gives the height ({source})"


def _middle(value: Value) -> float:
    return (value.low + value.high) / 2


def _ends(read: dict[str, Measured]) -> tuple[str, str]:
    """The place of the greatest height, and that of the least."""
    return max(read, key=lambda one: _height(read[one])), min(read, key=lambda one: _height(read[one]))


def _cut_ends(before: dict[str, Measured], after: dict[str, Measured], same: list[str]) -> tuple[str, str]:
    """Where most came off, and where least did."""
    off = {place: _height(before[place]) - _height(after[place]) for place in same}
    return max(same, key=lambda one: off[one]), min(same, key=lambda one: off[one])


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
    said.append(
        "ask the shop to set it up again from the face that the order names before anything is put on"
    )
    return said

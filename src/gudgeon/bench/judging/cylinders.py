"""How far cylinders may differ: each against the highest, or against the mean of all."""

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from gudgeon.bench.judging.decision import Terms, Value, total
from gudgeon.bench.judging.finding import Case, Finding, Judged, judge_by, lacks, named, shown_value
from gudgeon.bench.measured import Measured
from gudgeon.sheet.shapes import BetweenCylinders

NEIGHBORS = "two cylinders beside each other are low: look at the gasket between them"


def between_cylinders(case: Case) -> Iterator[Finding]:
    """Every cylinder, among those that were read in the same way: dry with dry, wet with wet."""
    for way, places in _ways(case.places).items():
        read = [case.readings[place] for place in places if place in case.readings]
        missing = [place for place in places if place not in case.readings]
        if len(read) < 2:
            wanted = f"no reading: {named(missing)}" if missing else "one cylinder alone differs from nothing"
            yield lacks(case, wanted, place=way or "all cylinders", covers=[one.place for one in read])
            continue
        mixed = _mixed(read)
        for found in _told(case, list(places), [_one(case, one, read) for one in read], missing):
            yield replace(found, notes=(*found.notes, mixed)) if mixed and found.value is not None else found


def _mixed(read: list[Measured]) -> str:
    """A word where pressures of before the work are set beside those of after it."""
    found = [one.place for one in read if one.condition == "as found"]
    if not found or len(found) == len(read):
        return ""
    return f"read as found only, before the work: {named(found)}; the others as left"


def _ways(places: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """Places that differ by their cylinder only, by what they have in common."""
    found: dict[str, list[str]] = {}
    for place in places:
        found.setdefault(place.partition(", ")[2], []).append(place)
    return {way: tuple(members) for way, members in found.items()}


def _told(case: Case, places: list[str], found: list[Finding], missing: list[str]) -> Iterator[Finding]:
    """What is outside stays outside whatever else is read; what is not may not: the highest may be missing."""
    shape = case.criterion.stated
    of_mean = isinstance(shape, BetweenCylinders) and shape.percent_below_mean is not None
    outside = [one.place for one in found if one.verdict == "outside"]
    neighbors = {
        place
        for one, other in pairwise(places)
        if one in outside and other in outside and len(outside) < len(places)
        for place in (one, other)
    }
    wanted = f"no reading: {named(missing)}"
    for one in found:
        if missing and (of_mean or one.verdict != "outside"):
            yield replace(lacks(case, wanted, place=one.place, covers=one.covers), shown=one.shown, of=one.of)
        else:
            in_line = case.item.kind == "pressure_gauge" and one.place in neighbors
            yield replace(one, notes=(NEIGHBORS,)) if in_line else one
    if missing:
        yield lacks(case, wanted, place=named(missing))


def _one(case: Case, one: Measured, read: list[Measured]) -> Finding:
    shape = case.criterion.stated
    assert isinstance(shape, BetweenCylinders)
    highest = max(read, key=lambda other: (other.high, other.low))
    if shape.limit is not None:
        made = _below_highest(case, one, highest)
    elif shape.percent_of_highest is not None:
        made = _share_of_highest(one, highest)
    else:
        made = _below_mean(one, read)
    found = judge_by(case, made, low=case.criterion.low, high=case.criterion.high)
    if made.of is highest and shape.percent_below_mean is None:
        # It differs from itself by nothing, and that is certain; what was read of it is as uncertain as any.
        u = highest.u / highest.high if made.percent else highest.u
        found = replace(found, value=replace(made.value, u=u))
    return found


def _below_highest(case: Case, one: Measured, highest: Measured) -> Judged:
    if one is highest:
        return Judged(
            one.place, Value(0.0, 0.0, 0.0, one.u_known), ((1.0, one),), f"{one.text}, the highest", one
        )
    terms = ((1.0, highest), (-1.0, one))
    value = total(terms)
    value = replace(value, low=max(0.0, value.low), high=max(0.0, value.high))
    shown = f"{one.text}, {shown_value(value, case.item.kind)} below the highest ({highest.place})"
    return Judged(one.place, value, terms, shown, one)


def _share_of_highest(one: Measured, highest: Measured) -> Judged:
    if one is highest:
        return Judged(
            one.place,
            Value(1.0, 1.0, 0.0, one.u_known),
            ((1.0, one),),
            f"{one.text}, the highest",
            one,
            percent=True,
        )
    from gudgeon.calc.engine.spread import share_of_highest

    low = share_of_highest(one.low, highest=highest.high)
    high = share_of_highest(one.high, highest=highest.low)
    share = share_of_highest(one.high, highest=highest.high)
    # First order: what one and the same gauge errs in proportion cancels in the share.
    terms: Terms = ((1 / highest.high, one), (-share / highest.high, highest))
    budget = total(terms)
    value = Value(low, min(1.0, high), budget.u, budget.known, budget.dof, budget.u_ends)
    shown = f"{one.text}, {_percent(value)} of the highest ({highest.place})"
    return Judged(one.place, value, terms, shown, one, percent=True)


def _below_mean(one: Measured, read: list[Measured]) -> Judged:
    """The mean holds this cylinder too, so that its error goes in with what is left of it."""
    from gudgeon.calc.engine.spread import below_mean

    count = len(read)
    mean = math.fsum((other.low + other.high) / 2 for other in read) / count
    middle = (one.low + one.high) / 2
    share = middle / mean
    terms: Terms = tuple(((share / count - (1.0 if other is one else 0.0)) / mean, other) for other in read)
    budget = total(terms)
    below = below_mean(middle, mean=mean)
    spread = (budget.high - budget.low) / 2
    value = Value(below - spread, below + spread, budget.u, budget.known, budget.dof, budget.u_ends)
    side = "below" if below >= 0 else "above"
    shown = f"{one.text}, {100 * abs(below):.1f} % {side} the mean of {count}"
    return Judged(one.place, value, terms, shown, one, percent=True)


def _percent(value: Value) -> str:
    if abs(value.high - value.low) < 1e-9:
        return f"{100 * value.low:.1f} %"
    return f"{100 * value.low:.1f}–{100 * value.high:.1f} %"

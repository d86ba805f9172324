"""Which grade a reading chooses: one, none, or one of several that the gauge cannot tell apart."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.judging.decision import RISK, Value, decide, inside_as_read, value_of
from gudgeon.bench.judging.finding import Case, Finding
from gudgeon.bench.judging.plain import unread
from gudgeon.bench.judging.ways import Doubt, ways_out
from gudgeon.bench.measured import Measured
from gudgeon.quantity.format import both

EDGE = 1e-9
Ends = tuple[float | None, float | None]


def graded(case: Case) -> Iterator[Finding]:
    """The grade of every place, and of the place that lies highest: where one part serves them all, it decides."""
    ends = _ends(case)
    found = [_grade(case, one, ends) for one in case.readings.values()]
    top = max(case.readings.values(), key=lambda one: one.high, default=None)
    for one, finding in zip(case.readings.values(), found, strict=True):
        if one is top and len(found) > 1 and not case.lacking():
            finding = replace(
                finding, notes=(*finding.notes, "the highest of all: where one part serves all places, it chooses",
                                *_highest_mean(case, ends))
            )  # fmt: skip
        yield finding
    yield from unread(case)


def _ends(case: Case) -> dict[str, Ends]:
    base = BASE_UNIT[case.item.kind]
    return {
        name: (stated.value.low_in(base), stated.value.high_in(base))
        for name, stated in case.item.grades.items()
    }


def _grade(case: Case, one: Measured, ends: Mapping[str, Ends]) -> Finding:
    value = value_of(one)
    possible = _possible(value, ends)
    touching = _on_boundary(value, ends)
    if len(touching) == 2 and case.item.tie:
        return _tied(case, one, touching, possible)
    base = Finding(one.place, "inside", "", one.text, value, one, (one.place,), readings=(one,))
    as_read = [name for name, (low, high) in ends.items() if inside_as_read(value, low=low, high=high)]
    certain = [
        name for name, (low, high) in ends.items()
        if decide(value, low=low, high=high, as_read=case.as_read).verdict == "inside"
    ]  # fmt: skip
    if len(certain) == 1 and (len(possible) == 1 or case.as_read):
        return replace(base, reason=f"grade {certain[0]}")
    if not possible:
        return replace(base, verdict="outside", reason=f"no grade takes it{_between(value, ends)}")
    reason, ways = _doubtful(case, one, as_read, possible, ends)
    return replace(base, verdict="in doubt", reason=reason, ways_out=ways)


def _possible(value: Value, ends: Mapping[str, Ends]) -> list[str]:
    """Every grade that the part may really have: the reading is not proven to lie beyond either end of it.

    Each end by itself: of a grade much narrower than the gauge is uncertain no reading has a chance worth naming.
    """
    found = [
        name
        for name, (low, high) in ends.items()
        if not (_beyond(value, low=low) or _beyond(value, high=high))
    ]
    return found or _together(value, ends)


def _together(value: Value, ends: Mapping[str, Ends]) -> list[str]:
    """Between two grades, each too unlikely by itself, that are not so together."""
    chances = {
        name: decide(value, low=low, high=high).probability_inside for name, (low, high) in ends.items()
    }
    likely = sorted(chances, key=lambda name: -chances[name])[:2]
    if value.step or sum(chances.values()) <= RISK:
        return []
    return [name for name in ends if name in likely]


def _beyond(value: Value, *, low: float | None = None, high: float | None = None) -> bool:
    return (low is not None or high is not None) and decide(value, low=low, high=high).verdict == "outside"


def _on_boundary(value: Value, ends: Mapping[str, Ends]) -> list[str]:
    """The two grades that meet exactly at the reading, the lower one first."""
    if value.step:
        return []
    below = [name for name, (_, high) in ends.items() if high is not None and abs(value.low - high) < EDGE]
    above = [name for name, (low, _) in ends.items() if low is not None and abs(value.low - low) < EDGE]
    return [*below, *above] if len(below) == len(above) == 1 else []


def _tied(case: Case, one: Measured, touching: list[str], possible: list[str]) -> Finding:
    """On the boundary, where the sheet has a rule for it; a rule that says neither is shown, not guessed."""
    lower, upper = touching
    takes = {"higher": upper, "lower": lower}.get(case.item.tie_takes, "")
    reason = f"on the boundary of {lower} and {upper}; the sheet says: {case.item.tie}"
    found = Finding(one.place, "inside", reason, one.text, value_of(one), one, (one.place,), readings=(one,))
    if not takes:
        why = f"{reason}, which names neither"
        return replace(found, verdict="in doubt", reason=why, ways_out=("read the manual's rule again",))
    notes = (
        (f"by the error of the gauge it may be any of {', '.join(possible)}",) if len(possible) > 1 else ()
    )
    return replace(found, reason=f"grade {takes}: {reason}", notes=notes)


def _doubtful(
    case: Case, one: Measured, as_read: list[str], possible: list[str], ends: Mapping[str, Ends]
) -> tuple[str, tuple[str, ...]]:
    if not one.u_known and len(as_read) == 1 and not value_of(one).step:
        reason = f"grade {as_read[0]} as read, but how far the gauge may be off is not known"
    elif len(possible) == 1:
        reason = f"grade {possible[0]}, or none: the gauge cannot tell"
    else:
        names = f"{', '.join(possible[:-1])} and {possible[-1]}"
        reason = f"between grades {names}: measure more finely"
    low, high = _nearest(value_of(one), ends)
    doubt = Doubt(value_of(one), ((1.0, one),), low, high, case.item.kind)
    return reason, tuple(ways_out(case.bench, case.key, doubt))


def _nearest(value: Value, ends: Mapping[str, Ends]) -> Ends:
    """The boundary that the reading lies nearest to, as the limit in doubt."""
    bounds = {end for pair in ends.values() for end in pair if end is not None}
    middle = value.low if value.low == value.high else min(value.low, value.high)
    return None, min(bounds, key=lambda end: min(abs(end - middle), abs(end - value.high)))


def _between(value: Value, ends: Mapping[str, Ends]) -> str:
    below = [name for name, (_, high) in ends.items() if high is not None and high < value.low]
    above = [name for name, (low, _) in ends.items() if low is not None and low > value.high]
    if below and above:
        return f": it lies between {below[-1]} and {above[0]}"
    return f": it lies beyond {(below or above)[-1 if below else 0]}" if below or above else ""


def _highest_mean(case: Case, ends: Mapping[str, Ends]) -> Iterator[str]:
    """Two points of one piston make its height: their mean, and the highest of the means, are said beside it."""
    groups: dict[str, list[Measured]] = {}
    for place, one in case.readings.items():
        groups.setdefault(place.partition(", ")[0], []).append(one)
    if len(groups) < 2 or any(len(members) < 2 for members in groups.values()):
        return
    means = {name: sum((one.low + one.high) / 2 for one in own) / len(own) for name, own in groups.items()}
    name = max(means, key=lambda one: means[one])
    value = Value(means[name], means[name], 0.0, True)
    grades = [grade for grade, (low, high) in ends.items() if inside_as_read(value, low=low, high=high)]
    chosen = " or ".join(grades) or "none"
    yield f"highest mean: {name}, {both(means[name], kind=case.item.kind)}, grade {chosen} as read"

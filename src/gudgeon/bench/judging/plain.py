"""A range, a most or a least at every place by itself."""

import math
from collections.abc import Iterator

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.judging.decision import Value, value_of
from gudgeon.bench.judging.finding import NO_READING, Case, Finding, Judged, judge_by, lacks
from gudgeon.bench.measured import CANNOT, Measured
from gudgeon.sheet.inspections import Characteristic


def each_place(case: Case) -> Iterator[Finding]:
    """Every place that has a reading, judged by itself."""
    for one in case.readings.values():
        yield place(case, one, low=case.criterion.low, high=case.criterion.high)
    yield from unread(case)


def unread(case: Case) -> Iterator[Finding]:
    """The places without a reading."""
    for lacking in case.lacking():
        yield lacks(case, NO_READING, place=lacking)


def place(case: Case, one: Measured, *, low: float | None, high: float | None, note: str = "") -> Finding:
    """One place by the ends of a limit."""
    notes = [note] if note else []
    made = Judged(one.place, value_of(one), ((1.0, one),), one.text, one, notes)
    try:
        return judge_by(case, made, low=low, high=high)
    except CANNOT as error:  # one reading never takes the others with it
        return cannot(case, one, str(error))


def cannot(case: Case, one: Measured, why: str) -> Finding:
    """A reading of which nothing can be made."""
    number = next((it.order for it in case.bench.state.readings.values() if it.entry == one.entry), 0)
    entry = f"entry {number}" if number else "what it is worked out from"
    way = (f"look at it, then: gudgeon strike {number} --why …",) if number else ()
    return Finding(
        one.place, "in doubt", f"{entry} cannot be judged: {why}", entry, covers=(one.place,), ways_out=way
    )


def no_limit(case: Case) -> Iterator[Finding]:
    """Nothing but the range of a new part is stated: where the reading stands against it is said, and no more."""
    for one in case.readings.values():
        yield Finding(
            one.place, "no limit given", against_new(case.item, one), one.text, value_of(one), one, (one.place,),
            readings=(one,),
        )  # fmt: skip
    yield from unread(case)


def against_new(item: Characteristic, one: Measured) -> str:
    """Where a reading stands against the range of a new part."""
    if item.new_range is None:
        return ""
    return "within the new range" if within_new(item, one) else "outside the new range: worn or changed"


def as_new_words(item: Characteristic, one: Measured | Value) -> str:
    """Whether what is inside its wear limit is still as new."""
    if item.new_range is None:
        return ""
    return ", as new" if within_new(item, one) else ", no longer as new"


def within_new(item: Characteristic, one: Measured | Value) -> bool:
    """Whether a reading, as read, lies in the range of a new part."""
    assert item.new_range is not None
    base = BASE_UNIT[item.kind]
    low, high = item.new_range.value.low_in(base), item.new_range.value.high_in(base)
    start = one.low if math.isfinite(one.low) else -math.inf
    return (low is None or start >= low - 1e-9) and (high is None or one.high <= high + 1e-9)

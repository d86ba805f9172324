"""A range, a most or a least at every place by itself."""

from collections.abc import Iterator

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.judging.decision import Value, decide, value_of
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
    words = {
        "": "",
        "inside": "within the new range",
        "outside": "outside the new range: worn or changed",
        "in doubt": "in doubt whether it is within the new range",
    }
    return words[as_new(item, value_of(one))]


def as_new_words(item: Characteristic, one: Measured | Value) -> str:
    """Whether what is inside its wear limit is still as new."""
    words = {
        "": "",
        "inside": ", as new",
        "outside": ", no longer as new",
        "in doubt": ", in doubt whether as new",
    }
    return words[as_new(item, value_of(one) if isinstance(one, Measured) else one)]


def as_new(item: Characteristic, value: Value) -> str:
    """Whether it lies in the range of a new part, by the rule for every limit; empty where none is stated."""
    if item.new_range is None:
        return ""
    base = BASE_UNIT[item.kind]
    low, high = item.new_range.value.low_in(base), item.new_range.value.high_in(base)
    if low is None and high is None:
        return ""
    return decide(value, low=low, high=high, as_read=item.accept == "as read").verdict

"""Is it good? Every characteristic of the sheet with its reading, its limit and a verdict in words."""

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import BASE_UNIT, characteristic
from gudgeon.bench.changed import judged_otherwise
from gudgeon.bench.context import Bench
from gudgeon.bench.measured import CANNOT, Measured, Odd, half_width, measured, odd
from gudgeon.calc.metrology.verdict import Conformity, judge_interval
from gudgeon.kit.model import Kit
from gudgeon.quantity.format import both
from gudgeon.quantity.written import Printed
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic, place_names

RISK = 0.05


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the inspection sheet."""

    item: str
    name: str
    part: str
    place: str
    new_range: str
    wear_limit: str
    required: str
    reading: str
    as_found: str
    condition: str
    gauge: str
    uncertainty: str
    verdict: str
    reason: str
    way_out: str
    source: str


@dataclass(frozen=True, slots=True)
class Inspection:
    """The answer to “Is it good?”."""

    heading: Heading
    rows: tuple[Row, ...]
    counts: dict[str, int]
    rule: str


RULE = (
    "Inside when the chance of being inside is at least 95 %, outside when it is at most 5 %, else in doubt "
    "(ISO 14253-1 and JCGM 106). Permitted errors of gauges count as rectangular; U is twice the standard uncertainty."
)


def inspect(bench: Bench, *, only: str | None = None) -> Inspection:
    """Judge every characteristic, or those of one part or one key."""
    bench.unlock()
    chosen = {
        key: item
        for key, item in bench.sheet.characteristics.items()
        if only is None or only == key or only.lower() in item.part.lower()
    }
    if only is not None and not chosen:
        characteristic(bench.sheet, only)
    rows = tuple(row for key, item in chosen.items() for row in _rows(bench, key, item))
    counts = dict(Counter(row.verdict for row in rows))
    return Inspection(bench.heading("Is it good?"), rows, counts, RULE)


def _rows(bench: Bench, key: str, item: Characteristic) -> Iterator[Row]:
    found, strange = measured(bench, key), odd(bench, key)
    for one in found.values():
        try:
            row = _row(bench, key, item, one)
        except CANNOT as error:
            row = _odd_row(bench, key, item, Odd(one.place, _number(bench, one), str(error)))
        yield row
    for other in strange.values():
        yield _odd_row(bench, key, item, other)
    known = {*found, *strange}
    missing = [place for place in place_names(item) if place not in known] if not item.computed else []
    if missing or not known:
        yield _not_measured(bench, key, item, missing, some=bool(found))


def _base_row(bench: Bench, key: str, item: Characteristic, place: str) -> dict[str, str]:
    def text(figure: Stated | None) -> str:
        return figure.value.text if figure is not None else ""

    stated = item.required or item.wear_limit or item.new_range
    cited = item.cited(stated)
    return {
        "item": key,
        "name": item.name,
        "part": item.part,
        "place": place,
        "new_range": text(item.new_range),
        "wear_limit": text(item.wear_limit),
        "required": text(item.required),
        "source": str(cited) if cited is not None else "",
    }


def _not_measured(bench: Bench, key: str, item: Characteristic, missing: list[str], *, some: bool) -> Row:
    if item.computed:
        names = [bench.sheet.characteristics[name].name for name in item.of]
        place, reason = "", f"worked out from {' and '.join(names)}: readings are missing"
    else:
        named = [place for place in missing if place]
        place = f"{len(missing)} {'more ' if some else ''}places" if len(missing) > 3 else "; ".join(named)
        reason = "no reading in the book"
    way_out = "" if item.computed else f"gudgeon record reading {key}"
    return Row(
        **_base_row(bench, key, item, place), reading="", as_found="", condition="", gauge="", uncertainty="",
        verdict="not measured", reason=reason, way_out=way_out,
    )  # fmt: skip


def _number(bench: Bench, one: Measured) -> int:
    """The number of the entry that a reading comes from; 0 for what is worked out from several."""
    return next((it.order for it in bench.state.readings.values() if it.entry == one.entry), 0)


def _odd_row(bench: Bench, key: str, item: Characteristic, one: Odd) -> Row:
    """A reading that cannot be judged says so in its own row; the others are answered."""
    entry = f"entry {one.number}" if one.number else "what it is worked out from"
    way_out = f"look at it, then: gudgeon strike {one.number} --why …" if one.number else ""
    return Row(
        **_base_row(bench, key, item, one.place), reading=entry, as_found="", condition="", gauge="",
        uncertainty="", verdict="in doubt", reason=f"{entry} cannot be judged: {one.why}", way_out=way_out,
    )  # fmt: skip


def _row(bench: Bench, key: str, item: Characteristic, one: Measured) -> Row:
    verdict, reason, way_out = _verdict(bench.kit, item, one)
    changed = judged_otherwise(bench, item=key, place=one.place)
    if changed:
        reason = "; ".join(filter(None, [reason, f"it was judged otherwise that day: {changed}"]))
    return Row(
        **_base_row(bench, key, item, one.place),
        reading=one.text,
        as_found=one.as_found,
        condition=one.condition,
        gauge=_gauge(bench.kit, one),
        uncertainty=f"± {both(2 * one.u, kind='length_difference', decimals=3)}"
        if one.u_known
        else "not known",
        verdict=verdict,
        reason=reason,
        way_out=way_out,
    )


def _gauge(kit: Kit, one: Measured) -> str:
    """The gauge of a reading, how far it may be off, and who says so."""
    gauge = kit.gauges.get(one.instrument)
    if gauge is None:
        return one.instrument or "not named"
    error, source = half_width(gauge, size_mm=one.low if math.isinf(one.high) else one.high)
    if not source:
        return f"{gauge.name}, its error is not known"
    return f"{gauge.name}, off by at most {both(error, kind='length_difference', decimals=3)} ({source})"


def _verdict(kit: Kit, item: Characteristic, one: Measured) -> tuple[str, str, str]:
    limit, what = (
        (item.required, "what is required") if item.required else (item.wear_limit, "the wear limit")
    )
    if limit is None:
        return "no limit given", _against_new(item, one), ""
    low, high = _ends(limit.value, item.kind)
    found = _judge(one, low, high)
    if found.verdict == "inside" and not one.u_known:
        gauge = (
            "name the gauge with --gauge"
            if one.instrument not in kit.gauges
            else "state its error in the kit"
        )
        return "in doubt", f"inside {what} as read, but how far the gauge may be off is not known", gauge
    if found.verdict != "in doubt":
        worn = _as_new(item, one) if found.verdict == "inside" and item.required is None else ""
        return found.verdict, f"{found.verdict} {what}{worn}", ""
    if one.low != one.high:
        return "in doubt", _interval_words(one, low, high), _finer(one, low, high)
    chance = f"{100 * found.probability_inside:.0f} %"
    return (
        "in doubt",
        f"the chance of being inside is {chance}: the gauge cannot tell",
        _way_out(kit, item, one, low, high),
    )


def _judge(one: Measured, low: float | None, high: float | None) -> Conformity:
    """An end that was not read is open, and proves nothing."""
    start = None if math.isinf(one.low) else one.low
    end = None if math.isinf(one.high) else one.high
    return judge_interval(start, high=end, u=one.u, lower=low, upper=high, risk=RISK)


def _interval_words(one: Measured, low: float | None, high: float | None) -> str:
    if math.isinf(one.high):
        return "only what enters was read: how much more would enter is not known"
    if math.isinf(one.low):
        return "only what does not enter was read: how much less it is, is not known"
    inside = [(low is None or end >= low) and (high is None or end <= high) for end in (one.low, one.high)]
    if inside[0] != inside[1]:
        return "the limit lies between the two ends of what was read"
    return "an end of what was read lies too near the limit for this gauge"


def _ends(figure: Printed, kind: str) -> tuple[float | None, float | None]:
    base = BASE_UNIT[kind]
    return figure.low_in(base), figure.high_in(base)


def _against_new(item: Characteristic, one: Measured) -> str:
    """Where the reading stands against the range of a new part, for information."""
    if item.new_range is None:
        return ""
    return "within the new range" if _within_new(item, one) else "outside the new range: worn or changed"


def _as_new(item: Characteristic, one: Measured) -> str:
    if item.new_range is None:
        return ""
    return ", as new" if _within_new(item, one) else ", no longer as new"


def _within_new(item: Characteristic, one: Measured) -> bool:
    assert item.new_range is not None
    low, high = _ends(item.new_range.value, item.kind)
    return (low is None or one.low >= low - 1e-9) and (high is None or one.high <= high + 1e-9)


def _finer(one: Measured, low: float | None, high: float | None) -> str:
    """The blade that would decide it: far enough from the limit for its own error."""
    if one.place and not one.entry:
        return "measure both parts more finely"
    ways = []
    if high is not None and one.high > high - 1.645 * one.u:
        blade = math.floor((high - 1.645 * one.u) * 100 + 1e-6) / 100
        ways.append(f"a blade of {both(blade, kind='length_difference')} must not enter" if blade > 0 else "")
    if low is not None and one.low < low + 1.645 * one.u:
        blade = math.ceil((low + 1.645 * one.u) * 100 - 1e-6) / 100
        ways.append(f"a blade of {both(blade, kind='length_difference')} must enter")
    return " and ".join(filter(None, ways)) or "no blade of yours decides it: borrow a better gauge"


def _way_out(kit: Kit, item: Characteristic, one: Measured, low: float | None, high: float | None) -> str:
    """A better gauge of his own, or how good a borrowed one must be."""
    base = BASE_UNIT[item.kind]
    distance = min(
        abs(end - limit) for end in (one.low, one.high) for limit in (low, high) if limit is not None
    )
    wanted = distance / 1.645 * math.sqrt(3)
    better = [
        gauge.name
        for gauge in kit.gauges.values()
        if gauge.error is not None
        and gauge.range is not None
        and (gauge.error.first.high_in("mm") or math.inf) <= wanted
        and (gauge.range.low_in(base) or 0.0) <= one.low <= (gauge.range.high_in(base) or 0.0)
    ]
    if better:
        return f"measure again with: {', '.join(better)}"
    if wanted < 0.0005:
        return "it is on the limit: no gauge will decide it; accept it with a reason, or renew"
    return f"none of your gauges decides it: borrow one that is off by at most {both(wanted, kind='length_difference')}"

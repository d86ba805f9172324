"""Rows of the inspection sheet: what a limit found, put into words beside what the sheet says of it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from gudgeon.bench.changed import differences_of
from gudgeon.bench.context import Bench
from gudgeon.bench.gauge_error import permitted
from gudgeon.bench.judging.acceptance import entries_of, let_be
from gudgeon.bench.judging.criteria import Criterion, as_new, difference_kind
from gudgeon.bench.judging.deciding import can_decide
from gudgeon.bench.judging.finding import NO_READING, NOT_MEASURED, Finding, named, plus_minus
from gudgeon.bench.judging.otherwise import judged_then
from gudgeon.bench.measured import Measured, Odd
from gudgeon.kit.model import Kit
from gudgeon.quantity.format import both
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the inspection sheet.

    `criterion` are the words of the limit, `covers` the places that go into the verdict, `count` how many places the
    row stands for. `way_out` is the best of `ways_out`. `accepted` says who lets it be, and why; `rests_on` are the
    entries of the book that were judged.
    """

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
    criterion: str = ""
    at_20: str = ""
    missing: str = ""
    decided_by: str = ""
    accepted: str = ""
    ways_out: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    covers: tuple[str, ...] = ()
    count: int = 1
    rests_on: tuple[str, ...] = ()


WITH_GUARD = "with guard band"


def row_of(bench: Bench, key: str, *, criterion: Criterion | None, found: Finding) -> Row:
    """What one limit says of one place, or of several together."""
    item, of = bench.sheet.characteristics[key], found.of
    reason = _with_change(bench, key, criterion, found)
    readings = found.readings or ((of,) if of is not None else ())
    entries = entries_of(bench, key, limit=criterion, found=found)
    accepted = let_be(bench, key, place=found.place, rests_on=entries)
    notes = [*(note for one in readings for note in one.notes), *found.notes, *accepted.before]
    return Row(
        **_base(bench, key, item, criterion=criterion, place=found.place),
        reading=found.shown,
        as_found=of.as_found if of is not None else "",
        condition=of.condition if of is not None else _condition(readings),
        gauge="; ".join(dict.fromkeys(_gauge(bench.kit, one, kind=item.kind) for one in readings)),
        uncertainty=_uncertainty(item, found),
        verdict=found.verdict,
        reason=reason,
        way_out=found.ways_out[0] if found.ways_out else "",
        at_20=of.at_20 if of is not None else "",
        missing=found.missing,
        decided_by=_decided_by(item, found),
        accepted=accepted.words,
        ways_out=found.ways_out,
        notes=tuple(dict.fromkeys(notes)),
        covers=found.covers,
        rests_on=tuple(sorted(entries)),
    )


def _with_change(bench: Bench, key: str, criterion: Criterion | None, found: Finding) -> str:
    """The reason; and where the sheet or the kit has changed since, and the verdict with it, what it was that day."""
    of = found.of
    if of is None or criterion is None or criterion.shape != "plain":
        return found.reason
    reading = next((one for one in bench.state.readings.values() if one.entry == of.entry), None)
    if reading is None:
        return found.reason
    changed = "; ".join(one.words for one in differences_of(bench, reading))
    if not changed:
        return found.reason
    then = judged_then(reading, item=bench.sheet.characteristics[key], value=of, kit=bench.kit)
    if then in ("", found.verdict):
        return found.reason
    return "; ".join(filter(None, [found.reason, f"it was judged otherwise that day ({then}): {changed}"]))


def _base(
    bench: Bench, key: str, item: Characteristic, *, criterion: Criterion | None, place: str
) -> dict[str, Any]:
    """What the sheet says of the row, whatever was read."""

    def text(figure: Stated | None, stands_for: str) -> str:
        if criterion is not None and criterion.stated is not None and criterion.stands_for == stands_for:
            return criterion.words
        return figure.value.text if figure is not None else ""

    stated = item.required or item.wear_limit or item.new_range
    cited = item.cited(stated)
    new = [item.new_range.value.text] if item.new_range is not None else []
    new += [one.words for one in as_new(bench.sheet, key)]
    return {
        "item": key,
        "name": item.name,
        "part": item.part,
        "place": place,
        "new_range": "; ".join(new),
        "wear_limit": text(item.wear_limit, "wear limit"),
        "required": text(item.required, "required"),
        "source": criterion.source if criterion is not None else str(cited) if cited is not None else "",
        "criterion": criterion.words if criterion is not None else "",
    }


def _condition(readings: Sequence[Measured]) -> str:
    said = dict.fromkeys(one.condition for one in readings)
    return next(iter(said)) if len(said) == 1 else " and ".join(said)


def _uncertainty(item: Characteristic, found: Finding) -> str:
    """U is twice the standard uncertainty, and the head of its column says so."""
    value = found.value
    if value is None:
        return ""
    if not value.known:
        return "not known"
    if found.percent:
        return f"± {200 * value.u:.1f} %"
    return plus_minus(value.u, kind=difference_kind(item.kind))


def _decided_by(item: Characteristic, found: Finding) -> str:
    if found.value is None or found.verdict in (NOT_MEASURED, "no limit given"):
        return ""
    if item.accept == "as read":
        return f"as read: {item.accept_why or 'the sheet says so'}"
    return WITH_GUARD


def _gauge(kit: Kit, one: Measured, *, kind: str) -> str:
    """The gauge of a reading, how far it may be off, and who says so."""
    gauge = kit.gauges.get(one.instrument)
    if gauge is None:
        return one.instrument or "not named"
    error, source = permitted(gauge, kind=kind, value=one.low if math.isinf(one.high) else one.high)
    if not source:
        return f"{gauge.name}, its error is not known"
    of = difference_kind(kind)
    shown = both(error, kind=of, decimals=3 if of == "length_difference" else None)
    return f"{gauge.name}, off by at most {shown} ({source})"


def odd_row(bench: Bench, key: str, one: Odd, *, criterion: Criterion | None) -> Row:
    """A reading that cannot be judged says so in its own row; the others are answered."""
    entry = f"entry {one.number}" if one.number else "what it is worked out from"
    way = f"look at it, then: gudgeon strike {one.number} --why …" if one.number else ""
    entries = frozenset(
        it.entry for it in bench.state.readings.values() if one.number and it.order == one.number
    )
    accepted = let_be(bench, key, place=one.place, rests_on=entries)
    return Row(
        **_base(bench, key, bench.sheet.characteristics[key], criterion=criterion, place=one.place), reading=entry,
        as_found="",
        condition="", gauge="", uncertainty="", verdict="in doubt", reason=f"{entry} cannot be judged: {one.why}",
        way_out=way, ways_out=(way,) if way else (), accepted=accepted.words,
        notes=accepted.before, covers=(one.place,), rests_on=tuple(entries),
    )  # fmt: skip


def unread(
    bench: Bench,
    key: str,
    *,
    limits: Sequence[Criterion],
    missing: Sequence[str],
    why: str = "",
    some: bool = False,
) -> Row:
    """Places that nobody has read yet, in one row, with what can decide there."""
    item = bench.sheet.characteristics[key]
    reason = why or NO_READING
    if item.computed and not some and not why:
        names = [bench.sheet.characteristics[name].name for name in item.of]
        reason = f"worked out from {' and '.join(names)}: readings are missing"
    way = "" if item.computed else f"gudgeon record reading {key}"
    deciding = can_decide(bench, key)
    place = named(missing, more=some)
    base = _base(bench, key, item, criterion=limits[0] if limits else None, place=place)
    base["criterion"] = "; ".join(one.words for one in limits)
    return Row(
        **base, reading="", as_found="", condition="", gauge="", uncertainty="", verdict=NOT_MEASURED, reason=reason,
        way_out=way, missing=reason, ways_out=(way,) if way else (),
        notes=(deciding.words,) if deciding.words else (), count=max(1, len(missing)),
    )  # fmt: skip

"""Readings of one thing as one step: method, gauge, and every place with its U, its limit and the verdict."""

from collections.abc import Iterator, Mapping, Sequence

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.evaluate import findings
from gudgeon.bench.judging.finding import NOT_MEASURED, Finding
from gudgeon.bench.judging.rows import row_of
from gudgeon.bench.measured import CANNOT, Measured, measured, measured_in
from gudgeon.bench.pictures.of import Picture, drawn_from, picture
from gudgeon.bench.shared_page.choices import Choices
from gudgeon.bench.shared_page.hiding import Hiding
from gudgeon.bench.shared_page.model import Rows
from gudgeon.bench.shared_page.tools import each_once, gauge_words, source_words
from gudgeon.book.entries import Entry
from gudgeon.errors import GudgeonError
from gudgeon.quantity.written import parse_amount
from gudgeon.sheet.inspections import Characteristic, place_names

KINDS = ("reading", "face-scanned")
COLUMNS = ("Place", "Read", "U", "Limit", "Verdict")


def reading_words(bench: Bench, key: str, *, condition: str) -> str:
    """What was measured, and in which state of the part."""
    item = bench.sheet.characteristics.get(key)
    return f"Measured: {item.name if item is not None else 'something'}, {condition}"


def reading_facts(
    bench: Bench, readings: Sequence[Entry], *, choices: Choices, hidden: Hiding
) -> tuple[tuple[str, str], ...]:
    """How it is measured, with which gauge, and where the limits are from."""
    item = bench.sheet.characteristics.get(readings[0].body["item"])
    gauges = (gauge_words(bench, one.body["instrument"], choices=choices, hidden=hidden) for one in readings)
    facts = (
        ("How", item.how or "" if item is not None else ""),
        ("With", "; ".join(each_once(gauges))),
        ("Warmth", "; ".join(each_once(map(_warmth, readings)))),
        ("Limits from", limits_from(bench, item)),
    )
    return tuple((name, said) for name, said in facts if said)


def limits_from(bench: Bench, item: Characteristic | None) -> str:
    """The pages on which the limits stand."""
    if item is None:
        return ""
    figures = [one for one in (item.required, item.wear_limit, item.new_range) if one is not None]
    cited = [item.cited(one) for one in figures] or [item.source]
    return "; ".join(each_once(source_words(bench, one) for one in cited))


def _warmth(one: Entry) -> str:
    body = one.body
    part, gauge, unit = (
        body.get(name) for name in ("part_temperature", "gauge_temperature", "temperature_unit")
    )
    said = [f"part at {part} {unit}" if part else "", f"gauge at {gauge} {unit}" if gauge else ""]
    return " and ".join(filter(None, said))


def reading_rows(bench: Bench, readings: Sequence[Entry]) -> Rows | None:
    """The verdicts that rest on these readings; then those of them that no longer count, as they were read."""
    first = readings[0].body
    key, ids = first["item"], {one.id for one in readings}
    if key not in bench.sheet.characteristics or bench.locked is not None:
        return _as_read(bench, readings)
    known = _known(bench, key, first["condition"], readings)
    judged = [
        one
        for one in _judged(bench, key, known)
        if not one[1].readings or ids & {r.entry for r in one[1].readings}
    ]
    rows = [row for row, _ in judged]
    counted = {one.entry for one in known.values()}
    later = [one for one in readings if one.id not in counted and one.kind == "reading"]
    rows += _raw(bench, later)
    return Rows("What was found", COLUMNS, tuple(rows)) if rows else _as_read(bench, readings)


def _known(bench: Bench, key: str, condition: str, readings: Sequence[Entry]) -> Mapping[str, Measured]:
    if readings[0].kind == "face-scanned":
        return measured(bench, key)
    return measured_in(bench, key, condition=condition)


def worked_out_rows(bench: Bench, key: str) -> Rows | None:
    """What follows from readings of other things, like how far a bore is out of round."""
    if bench.locked is not None:
        return None
    rows = tuple(row for row, _ in _judged(bench, key, measured(bench, key)))
    return Rows("What follows", COLUMNS, rows) if rows else None


def worked_out_from(bench: Bench, key: str) -> tuple[str, ...]:
    """What is worked out from readings of a thing, and from nothing that lacks a reading."""
    return tuple(
        other for other, item in bench.sheet.characteristics.items() if item.computed and key in item.of
    )


def _judged(
    bench: Bench, key: str, known: Mapping[str, Measured]
) -> Iterator[tuple[tuple[str, ...], Finding]]:
    item = bench.sheet.characteristics[key]
    for limit, found in findings(bench, key, readings=known):
        if found.verdict == NOT_MEASURED:
            continue
        try:
            row = row_of(bench, key, criterion=limit, found=found)
        except CANNOT:
            continue
        all_of = len(found.covers) > 1 and set(found.covers) == set(place_names(item))
        place = found.place or ("all places" if all_of or not found.covers else "; ".join(found.covers))
        reason = "" if found.reason.startswith(f"{row.verdict} {row.criterion}") else found.reason
        yield (place, row.reading, row.uncertainty, row.criterion, _verdict(row.verdict, reason)), found


def _verdict(verdict: str, reason: str) -> str:
    if not reason or reason == verdict:
        return verdict
    return reason if reason.startswith(verdict) else f"{verdict}: {reason}"


def _as_read(bench: Bench, readings: Sequence[Entry]) -> Rows | None:
    rows = tuple(_raw(bench, readings))
    return Rows("What was read", COLUMNS, rows) if rows else None


def _raw(bench: Bench, readings: Sequence[Entry]) -> Iterator[tuple[str, ...]]:
    for one in readings:
        body = one.body
        if one.kind == "face-scanned":
            yield "whole face", f"{len(body['points'])} points", "", "", ""
            continue
        item = bench.sheet.characteristics.get(body["item"])
        known = item is not None and (not body["place"] or body["place"] in place_names(item))
        unit = body["unit"] if item is not None and _measures(body["unit"], item.kind) else ""
        ends = [
            f"{body['value']} {unit}" if body["value"] is not None else "",
            f"{body['low']} {unit} enters" if body["low"] is not None else "",
            f"{body['high']} {unit} does not enter" if body["high"] is not None else "",
        ]
        why = "struck later: it does not count" if one.id in bench.state.struck else "read again later"
        yield body["place"] if known else "a place", ", ".join(filter(None, ends)), "", "", why


def _measures(unit: str, kind: str) -> bool:
    try:
        return bool(parse_amount(f"1 {unit}", kind=kind))
    except GudgeonError:
        return False


def reading_drawn(bench: Bench, key: str) -> Picture | None:
    """The drawing of a face or a bore; what is only a row of places is a table already."""
    if bench.locked is not None or key not in bench.sheet.characteristics or drawn_from(bench, key) != key:
        return None
    try:
        return picture(bench, key)
    except CANNOT:
        return None


def counted_words(bench: Bench, rows: Sequence[Rows]) -> str:
    """How many verdicts of each kind the tables hold."""
    counts = {"inside": 0, "in doubt": 0, "outside": 0}
    for table in rows:
        for row in table.rows:
            verdict = next((one for one in counts if row[-1].startswith(one)), "")
            if verdict:
                counts[verdict] += 1
    return ", ".join(f"{count} {verdict}" for verdict, count in counts.items() if count)

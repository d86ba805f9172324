"""The verdict at once, while the gauge is still in the hand, and of what the place is judged together with."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from gudgeon.bench.context import Bench
from gudgeon.bench.good import Row, inspect
from gudgeon.bench.running.reasons import listed
from gudgeon.book.entries import Entry
from gudgeon.book.state import State
from gudgeon.sheet.shapes import BetweenCylinders

NO_LIMIT = "no limit given"


def verdict_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    """What every limit says of a place that was just read, each limit once, each place by its name."""
    item, place = entry.body["item"], entry.body.get("place")
    now = replace(bench, state=after)
    found = [
        row
        for row in inspect(now, only=item).rows
        if row.item == item and (place in (None, row.place) or (place in row.covers and _is_told(row)))
    ]
    by_limit: dict[str, list[Row]] = {}
    for row in found:
        if row.verdict == "not measured" and row.missing.startswith("no reading"):
            continue  # the next reading is on its way
        if row.verdict == NO_LIMIT and not row.reason:
            continue  # the sheet limits it nowhere, and has nothing to say of it
        by_limit.setdefault(row.criterion, []).append(row)
    for rows in by_limit.values():
        if place is None or len(rows) == 1:
            for row in rows:
                yield _one(row, place, several=len(found) > 1, named=place is None and len(rows) > 1)
        else:
            yield _together(rows)
    yield from _before_work(now, entry, found)


def _one(row: Row, place: str | None, *, several: bool, named: bool) -> str:
    """One limit of one place, or of what it is judged together with; a verdict among several names whose it is."""
    reason = _reason(row)
    said = f"{row.criterion}: " if several and row.criterion not in reason else ""
    way_out = f" ({row.way_out})" if row.way_out else ""
    if named:  # lines cut from a scan
        said = f"{row.place}, {said}"
    elif place is not None and row.place in row.covers and len(row.covers) > 1:
        return f"{_capital(row.place)}: {said}{reason}{way_out}.".replace("..", ".")
    return f"{said}{_capital(reason)}{way_out}.".replace("..", ".")


def _together(rows: Sequence[Row]) -> str:
    """One limit of several places: the limit once, then each place with its verdict."""
    limit = rows[0].criterion
    parts = [f"{row.place or 'all'} {_reason(row).replace(f' the limit ({limit})', '')}" for row in rows]
    ways = list(dict.fromkeys(row.way_out for row in rows if row.way_out))
    way_out = f" ({'; '.join(ways)})" if ways else ""
    return f"{_capital(limit)}: {'; '.join(parts)}{way_out}.".replace("..", ".")


def _reason(row: Row) -> str:
    return row.reason if row.reason.startswith(row.verdict) else f"{row.verdict}: {row.reason}"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _is_told(row: Row) -> bool:
    """A verdict of several places together is told as soon as it is one; what lines can never prove is not repeated."""
    return row.verdict in ("inside", "outside") or (row.verdict == "in doubt" and not row.missing)


def _before_work(bench: Bench, entry: Entry, rows: Sequence[Row]) -> Iterator[str]:
    """Cylinders that are compared with this one, and were read before the work only."""
    item = bench.sheet.characteristics[entry.body["item"]]
    if entry.body.get("condition") != "as left" or not any(
        isinstance(one, BetweenCylinders) for one in item.limits
    ):
        return
    places = dict.fromkeys(place for row in rows for place in row.covers if len(row.covers) > 1)
    read = bench.state.readings
    found = [one for one in places if (entry.body["item"], one, "as left") not in read]
    if found:
        yield (
            f"Read as found only, before the work, and compared with this one as left: {listed(found)}. Read "
            f"{'it' if len(found) == 1 else 'them'} again: gudgeon record reading {entry.body['item']} --as-left"
        )

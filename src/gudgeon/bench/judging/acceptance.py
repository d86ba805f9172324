"""Who lets a reading be: for what was read when he said so, and for nothing that is read later."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.criteria import Criterion
from gudgeon.bench.judging.finding import Finding
from gudgeon.book.state import Accepted, PartState
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import TwoFaces

if TYPE_CHECKING:
    from gudgeon.bench.judging.rows import Row


@dataclass(frozen=True, slots=True)
class LetBe:
    """Who lets a row be, and why; `before` are those who said it before it was read anew."""

    words: str = ""
    before: tuple[str, ...] = ()


def let_be(bench: Bench, key: str, *, place: str, rests_on: frozenset[str]) -> LetBe:
    """Who lets a place be, or the whole of its characteristic; `rests_on` are the entries of its readings."""
    said = {f"{key} {place}".lower().strip(), key.lower()}
    found = [one for one in bench.state.accepted if one.what.lower().strip() in said]
    standing = [one for one in found if rests_on <= one.covers]
    past = tuple(_past(one) for one in found if one not in standing)
    if not standing:
        return LetBe(before=past)
    last = standing[-1]
    return LetBe(f"accepted by {last.by}, because {last.why}", past)


def _past(one: Accepted) -> str:
    return f"“{one.what}” was accepted before this reading by {one.by}, because {one.why}: it is judged anew"


def stand_and_past(bench: Bench, rows: Iterable["Row"]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Everything that was accepted: what stands, and what was read anew since, or is struck."""
    standing, past, judged = [], [], [row for row in rows if row.rests_on]
    for one in bench.state.accepted:
        words = f"{one.what}: accepted by {one.by}, because {one.why}"
        stands_for = [one.covers.issuperset(row.rests_on) for row in judged if _names(one, row)]
        if any(stands_for) or not stands_for:  # what names no reading is nothing that is read anew
            standing.append(words)
        else:
            past.append(f"{words}; what it stood for has been read anew, or struck")
    return tuple(standing), tuple(past)


def _names(one: Accepted, row: "Row") -> bool:
    return one.what.lower().strip() in {f"{row.item} {row.place}".lower().strip(), row.item.lower()}


def part_names(sheet: DataSheet, key: str) -> frozenset[str]:
    """What a part may be called of which a characteristic is read, in small letters: by it, or in the list of parts."""
    item = sheet.characteristics[key]
    names = {key.lower(), item.name.lower(), item.part.lower()}
    return frozenset(names | {one.lower() for one, part in sheet.parts.items() if part.name.lower() in names})


def part_decided(bench: Bench, key: str, *, rests_on: frozenset[str]) -> bool:
    """Whether it was decided that the part of a characteristic is renewed, or stays as it was read."""
    names = part_names(bench.sheet, key)
    return any(name.lower() in names and _decided(one, rests_on) for name, one in bench.state.parts.items())


def renewed_by(bench: Bench, key: str) -> int | None:
    """The number of the entry by which the part of a characteristic is renewed, where that was said last of it."""
    names = part_names(bench.sheet, key)
    said = [one for name, one in bench.state.parts.items() if name.lower() in names]
    return max(said, key=lambda one: one.decided, default=PartState()).renewed or None


def _decided(one: PartState, rests_on: frozenset[str]) -> bool:
    """What was read before: of a part that is renewed all of it, until the new one is there."""
    if one.decision == "renew" and not one.received:
        return True
    return one.decision in ("renew", "accept") and rests_on <= one.covers


def entries_of(bench: Bench, key: str, *, limit: Criterion | None, found: Finding) -> frozenset[str]:
    """The entries of the book that a finding rests on."""
    readings = (*found.readings, *((found.of,) if found.of is not None else ()))
    read = {entry for one in readings for entry in one.entries}
    return frozenset(read if found.of is not None else {*read, *_scans(bench, key, limit=limit)})


def _scans(bench: Bench, key: str, *, limit: Criterion | None) -> Iterator[str]:
    """The scans of its face that count; of two faces together those of both."""
    other = limit.stated.other if limit is not None and isinstance(limit.stated, TwoFaces) else key
    for name in dict.fromkeys((key, other)):
        scan = bench.state.scans.get((name, "as left")) or bench.state.scans.get((name, "as found"))
        if scan is not None:
            yield scan.entry

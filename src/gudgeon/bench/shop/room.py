"""How much has to come off and how much may, as an order says it: in the shop's words, rounded to the safe side."""

import math
from dataclasses import dataclass
from typing import Literal

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.camshafts import camshafts
from gudgeon.bench.cut.given import GasketGiven, Inputs
from gudgeon.bench.cut.inputs import gather
from gudgeon.bench.cut.laws import Laws
from gudgeon.bench.cut.limits import Bound as CutBound
from gudgeon.bench.cut.limits import Least, Most, least, most
from gudgeon.bench.cut.said import least_said
from gudgeon.bench.cut.words import mm
from gudgeon.bench.judging.decision import Value, decide, value_of
from gudgeon.bench.measured import measured
from gudgeon.bench.shop.found import face_key, face_scan
from gudgeon.quantity.format import number
from gudgeon.sheet.inspections import place_names

Verdict = Literal["room", "nothing to take off", "too little room", "not worked out"]

FINEST_MM = 0.01
"""A shop is not told less than a hundredth."""

DECK = (
    "What may come off the block is not worked out here. What comes off brings every piston up by as much: the gap "
    "between piston and head, the room between valves and pistons and the compression follow it. Work that out from "
    "the piston heights before anything is cut"
)


@dataclass(frozen=True, slots=True)
class Bound:
    """One limit of the cut: what it is, how much it lets come off, and its source."""

    what: str
    most: str
    source: str


@dataclass(frozen=True, slots=True)
class Room:
    """The least that cleans the face up, the most that may come off, and why; `most_off` is that most for the book.

    An empty text is what cannot be told; `missing` says what it takes.
    """

    verdict: Verdict
    least: str
    least_why: str
    least_source: str
    most: str
    most_why: str
    most_source: str
    most_off: str
    assumes: tuple[str, ...] = ()
    bounds: tuple[Bound, ...] = ()
    missing: tuple[str, ...] = ()


def shop_mm(value: float, *, up: bool) -> float:
    """To the hundredth, a least upward and a most downward; what is a hundredth already stays."""
    steps = value / FINEST_MM
    whole = round(steps)
    if abs(steps - whole) > 1e-6:
        whole = math.ceil(steps) if up else math.floor(steps)
    return whole * FINEST_MM


def most_off_text(value: float) -> str:
    """The most as the book keeps it."""
    return f"{number(value, decimals=2)} mm"


def room_of_block(bench: Bench) -> Room:
    """Of a block: what its flatness asks for; how much may come off is not worked out, and said so."""
    key = face_key(bench, part="block")
    if key is None:
        return Room("not worked out", "", "", "", "", DECK, "", "", missing=(DECK,))
    item = bench.sheet.characteristics[key]
    flat = item.wear_limit or item.required
    limit = flat.value.high_in("mm") if flat is not None else None
    source = str(item.cited(flat) or "")
    scan, readings = face_scan(bench, key), measured(bench, key)
    values = [scan.zone()] if scan is not None else [value_of(one) for one in readings.values()]
    if not values or any(math.isinf(one.high) for one in values):
        return Room("not worked out", "", "", "", "", DECK, "", "", missing=(f"{item.name}: not read", DECK))
    worst = max(one.high for one in values)
    flat_now = limit is not None and all(
        decide(one, low=None, high=limit).verdict == "inside" for one in values
    )
    why = f"the face is off by at most {mm(worst)}"
    verdict: Verdict = "nothing to take off" if flat_now else "room"
    least = "" if flat_now else mm(shop_mm(worst, up=True))
    return Room(verdict, least, why, source, "", DECK, "", "", missing=(DECK,))


def room_of_head(bench: Bench) -> Room:
    """Of the head: by the least cut that cleans up, and by every limit of the sheet."""
    inputs = gather(bench)
    need, already, flat = least(inputs), inputs.head.made, _flat_now(bench)
    off = max(0.0, already.value) if already is not None else 0.0
    needed = need.middle_mm if need is not None and flat is None else 0.0
    chosen = _most(bench, inputs, needed)
    told = _least_words(inputs, need, off) if flat is None else flat
    bounds = tuple(_bound(one, off) for one in chosen.most.bounds)
    missing = (*told.missing, *map(str, chosen.most.not_worked_out), *map(str, inputs.contradictions))
    if chosen.most.surely_mm is None:
        unknown = "the most that may come off: the sheet states no limit that can be worked out"
        return Room(
            "not worked out", told.words, told.why, told.source, "", "no limit of the cut is known", "", "",
            told.assumes, bounds, (*missing, unknown),
        )  # fmt: skip
    left = max(0.0, shop_mm(chosen.most.surely_mm - off, up=False))
    enough = left > 0 and left + _SAME >= shop_mm(needed - off, up=False)
    verdict: Verdict = "nothing to take off" if flat is not None else "room" if enough else "too little room"
    why, source = _most_words(chosen, off, enough=enough)
    return Room(
        verdict, told.words, told.why, told.source, mm(left) if enough else "", why, source,
        most_off_text(left) if verdict == "room" else "", told.assumes, bounds, missing,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Told:
    """The least in words: the amount, why, where that stands, and what is missing."""

    words: str
    why: str
    source: str
    missing: tuple[str, ...] = ()
    assumes: tuple[str, ...] = ()


_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class _Chosen:
    """The gasket under which the cut has room, and the limits with it; `others` are those passed over."""

    gasket: GasketGiven | None
    most: Most
    others: tuple[str, ...]


def _most(bench: Bench, inputs: Inputs, need_mm: float) -> _Chosen:
    """The limits with the gasket of the sheet; where the cut has no room with it, with one that can be had."""
    turned = camshafts(bench)
    usual = inputs.cylinder.gasket_thickness
    own = usual.value if usual is not None else 0.0
    near = sorted(inputs.cylinder.gaskets, key=lambda one: abs(one.thickness.value - own))
    listed: list[GasketGiven | None] = [*near] or [None]
    tried = [(one, most(Laws(inputs, turned, one))) for one in listed]
    fits = [pair for pair in tried if (pair[1].surely_mm or 0.0) + _SAME >= need_mm]
    gasket, found = fits[0] if fits else max(tried, key=lambda pair: pair[1].surely_mm or 0.0)
    others = tuple(
        f"with the gasket {one.name}: {_upto(other)}"
        for one, other in tried
        if one is not None and one is not gasket
    )
    return _Chosen(gasket, found, others)


def _upto(found: Most) -> str:
    if found.surely_mm is None or found.binding is None:
        return "no limit known"
    return f"at most {mm(shop_mm(found.surely_mm, up=False))} ({found.binding.what})"


def _flat_now(bench: Bench) -> _Told | None:
    """Why nothing has to come off: the face as read last is flat on all its lines, and the sheet names no pits."""
    key, head = face_key(bench, part="head"), bench.sheet.head
    if key is None or (head is not None and head.pits is not None):
        return None
    item = bench.sheet.characteristics[key]
    flat = item.required or item.wear_limit
    limit = flat.value.high_in("mm") if flat is not None else None
    values = _latest(bench, key)
    if flat is None or limit is None or not values or not _all_read(bench, key):
        return None
    if any(decide(one, low=None, high=limit).verdict != "inside" for one in values):
        return None
    worst = max(one.high for one in values)
    why = f"by its last reading the face is off by at most {mm(worst)}, inside {flat.value.text}"
    return _Told("", why, str(item.cited(flat) or ""))


def _latest(bench: Bench, key: str) -> list[Value]:
    scan = face_scan(bench, key)
    return [scan.zone()] if scan is not None else [value_of(one) for one in measured(bench, key).values()]


def _all_read(bench: Bench, key: str) -> bool:
    if face_scan(bench, key) is not None:
        return True
    return set(place_names(bench.sheet.characteristics[key])) <= set(measured(bench, key))


def _least_words(inputs: Inputs, need: Least | None, off: float) -> _Told:
    if need is None:
        why = "how far the face is off flat as found is not known"
        return _Told("", why, "", (f"the least that cleans up: {why}",))
    value = max(0.0, need.middle_mm - off)
    at_least = "at least " if need.at_least else ""
    why = f"{need.words}, as found" + (f"; {mm(off)} of it is off already" if off > 0 else "")
    return _Told(
        f"{at_least}{mm(shop_mm(value, up=True))}", why, need.source, (), least_said(need, inputs).assumes
    )


def _bound(one: CutBound, off: float) -> Bound:
    """One limit by what it surely lets come off; by the middle of all figures too, where that is another."""
    if one.surely_mm is None:
        text = "any cut keeps it"
    else:
        surely = max(0.0, one.surely_mm - off)
        text = f"{mm(shop_mm(surely, up=False))}" + (" (passed already)" if one.passed else "")
        middle = max(0.0, one.middle_mm - off) if one.middle_mm is not None else None
        if middle is None or shop_mm(middle, up=False) > shop_mm(surely, up=False):
            by = f"{mm(shop_mm(middle, up=False))}" if middle is not None else "no end"
            text += f"; by the middle of all figures {by}"
    return Bound(f"{one.what}: {one.limit}", text, one.source)


def _most_words(chosen: _Chosen, off: float, *, enough: bool) -> tuple[str, str]:
    """Which limit binds, in the words of a shop."""
    binding = chosen.most.binding
    assert binding is not None
    assert binding.surely_mm is not None
    left = mm(max(0.0, shop_mm(binding.surely_mm - off, up=False)))
    gasket = f", with the gasket {chosen.gasket.name}" if chosen.gasket is not None else ""
    words = (
        binding.limit
        if binding.what == "gasket"
        else f"limited by the {binding.what}, {binding.limit}{gasket}"
    )
    if not enough:
        words = f"what has to come off is more than the {left} that surely may: {words}"
        middle = chosen.most.middle_mm
        if middle is not None and shop_mm(middle, up=False) > shop_mm(binding.surely_mm, up=False):
            words += (
                f"; by the middle of all figures it would be {mm(max(0.0, shop_mm(middle - off, up=False)))}"
            )
    return "; ".join([words, *chosen.others]), binding.source

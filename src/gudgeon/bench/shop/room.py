"""How much has to come off and how much may, as an order says it: in the shop's words, rounded to the safe side."""

import math
from dataclasses import dataclass
from typing import Literal

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.camshafts import camshafts
from gudgeon.bench.cut.given import GasketGiven, Inputs
from gudgeon.bench.cut.inputs import gather
from gudgeon.bench.cut.laws import Laws
from gudgeon.bench.cut.limits import HEAD_NOT_LIMITED, Least, Most, least, most
from gudgeon.bench.cut.limits import Bound as CutBound
from gudgeon.bench.cut.said import least_said
from gudgeon.bench.cut.words import mm
from gudgeon.bench.judging.decision import decide
from gudgeon.bench.shop.face_now import FaceNow, came_between, face_now
from gudgeon.bench.shop.found import face_key
from gudgeon.quantity.format import number

Verdict = Literal["room", "nothing to take off", "not read since", "too little room", "not worked out"]

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

    An empty text is what cannot be told; `missing` says what it takes. `off_already` came off before: `most` is on top.
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
    off_already: str = ""

    @property
    def at_most(self) -> str:
        """How much may come off as a shop is told it; nothing where it cannot be told."""
        if not self.most:
            return ""
        more = f"more ({self.off_already} is off already)" if self.off_already else "in all"
        return f"at most {self.most} {more}"


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
    now = face_now(bench, key, part="block")
    values = now.values
    if not values or any(math.isinf(one.high) for one in values):
        since = f" since {now.after}" if now.after else ""
        return Room(
            "not worked out", "", "", "", "", DECK, "", "", missing=(f"{item.name}: not read{since}", DECK)
        )
    worst = max(one.high for one in values)
    flat_now = limit is not None and all(
        decide(one, low=None, high=limit).verdict == "inside" for one in values
    )
    why = f"the face is off by at most {mm(worst)}"
    verdict: Verdict = "nothing to take off" if flat_now else "room"
    least = "" if flat_now else mm(shop_mm(worst, up=True))
    return Room(verdict, least, why, source, "", DECK, "", "", missing=(DECK,))


def room_of_head(bench: Bench) -> Room:
    """Of the head as it goes to the shop now: by the least cut that cleans up, and by every limit of the sheet."""
    inputs, after = gather(bench), came_between(bench, part="head")
    already = inputs.head.made
    off = max(0.0, already.value) if already is not None else 0.0
    told = _told(bench, inputs, off)
    if after and already is None:
        why = f"how much came off before {after} is not known: its height as left is not in the book"
        return Room(
            "not worked out", "", told.why, told.source, "", why, "", "", missing=(*told.missing, why)
        )
    chosen = _most(bench, inputs, told.need_mm, off)
    bounds = tuple(_bound(one, off) for one in chosen.most.bounds)
    missing = (*told.missing, *map(str, chosen.most.not_worked_out), *map(str, inputs.contradictions))
    if chosen.most.surely_mm is None or not inputs.head.limited:
        unknown = "the most that may come off: the sheet states no limit that can be worked out"
        why = "no limit of the cut is known"
        if not inputs.head.limited:
            unknown, why = HEAD_NOT_LIMITED, "how much the head itself may lose is not in the sheet"
        return Room(
            told.verdict or "not worked out", told.words, told.why, told.source, "", why, "", "",
            told.assumes, bounds, (*missing, unknown),
        )  # fmt: skip
    left = max(0.0, shop_mm(chosen.most.surely_mm - off, up=False))
    enough = left > 0 and left + _SAME >= shop_mm(told.need_mm, up=False)
    verdict: Verdict = told.verdict or ("room" if enough else "too little room")
    why, source = _most_words(chosen, off, enough=enough)
    if off > 0:
        why = f"{why}; all counted from the head as it goes to the shop now: {mm(off)} of it came off already"
    return Room(
        verdict, told.words, told.why, told.source, mm(left) if enough else "", why, source,
        most_off_text(left) if verdict == "room" else "", told.assumes, bounds, missing,
        mm(off) if off > 0 else "",
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Told:
    """The least in words: the amount, why, where that stands, and what is missing.

    `need_mm` is the least by what was read, counted from the head as it is now; `verdict` where it is settled by it.
    """

    words: str
    why: str
    source: str
    missing: tuple[str, ...] = ()
    assumes: tuple[str, ...] = ()
    need_mm: float = 0.0
    verdict: Verdict | None = None


def _told(bench: Bench, inputs: Inputs, off: float) -> _Told:
    """What has to come off the face as it is: what was read before the last cut is not used for that."""
    key, need = face_key(bench, part="head"), least(inputs)
    now = face_now(bench, key, part="head") if key is not None else None
    if key is None or now is None:
        return _least_words(inputs, need)
    if now.after and not now.whole:
        lines = ", ".join(now.unread) or "the points of the face"
        why = f"its flatness was read before {now.after}, not all of it after: how flat the face is now is not known"
        missing = f"flatness not read after {now.after}: {lines}"
        return _Told("", why, "", (missing,), verdict="not read since")
    pits = inputs.head.pits
    left = max(0.0, pits.value - off) if pits is not None and now.after else 0.0
    flat = None if left > _SAME or (pits is not None and not now.after) else _flat(bench, key, now)
    if flat is not None:
        return flat
    return _least_as_left(now, left) if now.after else _least_words(inputs, need)


def _least_as_left(now: FaceNow, pits_mm: float) -> _Told:
    """The least by what was read after the last cut, pits that are left of it added."""
    worst = max(now.values, key=lambda one: (one.low, one.high))
    end = worst.high if math.isfinite(worst.high) else worst.low
    middle = (worst.low + end) / 2 + pits_mm
    why = f"as read after {now.after}" + (f", and pits of {mm(pits_mm)} that are left" if pits_mm > 0 else "")
    return _Told(
        _amount(middle, middle + 2 * worst.u, at_least=end < worst.high),
        why,
        "measured in the book",
        (),
        (),
        middle,
    )


def _amount(middle: float, surely: float, *, at_least: bool) -> str:
    """A least as a shop is told it: by what was read, and the sure one where that is more."""
    prefix = "at least " if at_least else ""
    read, sure = shop_mm(middle, up=True), shop_mm(surely, up=True)
    if sure <= read + _SAME:
        return f"{prefix}{mm(read)}"
    return f"{prefix}{mm(read)} by what was read and {mm(sure)} to be sure"


_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class _Chosen:
    """The gasket under which the cut has room, and the limits with it; `others` are those passed over."""

    gasket: GasketGiven | None
    most: Most
    others: tuple[str, ...]


def _most(bench: Bench, inputs: Inputs, need_mm: float, off: float) -> _Chosen:
    """The limits with the gasket of the sheet; where the cut has no room with it, with one that can be had."""
    turned = camshafts(bench)
    usual = inputs.cylinder.gasket_thickness
    own = usual.value if usual is not None else 0.0
    near = sorted(inputs.cylinder.gaskets, key=lambda one: abs(one.thickness.value - own))
    listed: list[GasketGiven | None] = [*near] or [None]
    tried = [(one, most(Laws(inputs, turned, one))) for one in listed]
    fits = [pair for pair in tried if (pair[1].surely_mm or 0.0) - off + _SAME >= need_mm]
    gasket, found = fits[0] if fits else max(tried, key=lambda pair: pair[1].surely_mm or 0.0)
    others = tuple(
        f"with the gasket {one.name}: {_upto(other, off)}"
        for one, other in tried
        if one is not None and one is not gasket
    )
    return _Chosen(gasket, found, others)


def _upto(found: Most, off: float) -> str:
    if found.surely_mm is None or found.binding is None:
        return "no limit known"
    left = max(0.0, shop_mm(found.surely_mm - off, up=False))
    return f"at most {mm(left)} ({found.binding.what})"


def _flat(bench: Bench, key: str, now: FaceNow) -> _Told | None:
    """Why nothing has to come off: the face as it is now is flat on all its lines."""
    item = bench.sheet.characteristics[key]
    flat = item.required or item.wear_limit
    limit = flat.value.high_in("mm") if flat is not None else None
    if flat is None or limit is None or not now.whole:
        return None
    if any(decide(one, low=None, high=limit).verdict != "inside" for one in now.values):
        return None
    worst = max(one.high for one in now.values)
    why = f"by its last reading the face is off by at most {mm(worst)}, inside {flat.value.text}"
    return _Told("", why, str(item.cited(flat) or ""), verdict="nothing to take off")


def _least_words(inputs: Inputs, need: Least | None) -> _Told:
    if need is None:
        why = "how far the face is off flat as found is not known"
        return _Told("", why, "", (f"the least that cleans up: {why}",))
    words = _amount(need.middle_mm, need.surely_mm, at_least=need.at_least)
    assumes = least_said(need, inputs).assumes
    return _Told(words, f"{need.words}, as found", need.source, (), assumes, need.middle_mm)


def _bound(one: CutBound, off: float) -> Bound:
    """One limit by what it surely lets come off; with every figure taken as exact too, where that is another."""
    if one.surely_mm is None:
        text = "any cut keeps it"
    else:
        surely = max(0.0, one.surely_mm - off)
        text = f"{mm(shop_mm(surely, up=False))}" + (" (passed already)" if one.passed else "")
        middle = max(0.0, one.middle_mm - off) if one.middle_mm is not None else None
        if middle is None or shop_mm(middle, up=False) > shop_mm(surely, up=False):
            by = f"{mm(shop_mm(middle, up=False))}" if middle is not None else "no end"
            text += f"; were every figure exact, {by}"
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
            words += f"; were every figure exact, it would be {mm(max(0.0, shop_mm(middle - off, up=False)))}"
    return "; ".join([words, *chosen.others]), binding.source

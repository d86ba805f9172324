"""What must be said with a choice of shims: readings older than the work, the temperature, the last check."""

import re
from collections.abc import Iterator
from datetime import datetime

from gudgeon.bench.context import Bench
from gudgeon.bench.shims.read import Read, ValveRead, as_found_still
from gudgeon.book.state import ShopState
from gudgeon.sheet.drive import ValveGear

_MOVES_THE_CLEARANCE = re.compile(
    r"\b(head|heads|valves?|seats?|cams?|camshafts?|followers?|tappets?|buckets?|rockers?)\b", re.IGNORECASE
)
_NOT_THOSE = re.compile(r"\b(gasket|bolts?|seals?|springs?|covers?)\b", re.IGNORECASE)
_CHANGED = ("rework", "renew")


def measure_again(bench: Bench, known: Read) -> tuple[str, ...]:
    """Which clearances were read before work that moves them."""
    return tuple(_shops(bench, known) or _parts(bench, known))


def remarks(gear: ValveGear, known: Read, *, moved: bool) -> tuple[str, ...]:
    """What holds for any choice: the temperature, a rocker in between, the last check."""
    return tuple(_remarks(gear, known, moved=moved))


def _remarks(gear: ValveGear, known: Read, *, moved: bool) -> Iterator[str]:
    if known.valves:
        at = (
            f"Clearances are set {gear.set_at}"
            if gear.set_at
            else "The sheet does not say how warm clearances are set"
        )
        also = "" if gear.set_at else "; cold is usual (common practice)"
        yield f"{at}{also}: readings taken otherwise do not count here."
    if gear.rocker_ratio is not None and known.valves:
        yield (
            f"A rocker stands between cam and valve (ratio {gear.rocker_ratio.value.text}): a shim under it moves the "
            "clearance by that ratio, which is not counted. Change one valve first, and measure."
        )
    if moved:
        yield "After the work turn the engine by hand, then measure every clearance again and write it as left."


def _shops(bench: Bench, known: Read) -> list[str]:
    """Parts that went to a shop after clearances had been read."""
    said = []
    for part, shop in bench.state.shop.items():
        old = [one for one in known.valves if _before(bench, one, shop)] if _counts(part, known) else []
        if old:
            way = "came back from" if shop.back else "went to"
            whole = len(old) == len(known.valves)
            which = "All clearances were" if whole else f"{len(old)} of {len(known.valves)} clearances were"
            said.append(
                f"{which} read before the {part.lower()} {way} the shop ({shop.shop}): "
                "cut seats, ground valves or a straightened head move them. Measure them again before you "
                "buy or move a shim."
            )
    return said


def _counts(part: str, known: Read) -> bool:
    own = part.lower() in {one.lower() for one in known.parts}
    return not own and bool(_MOVES_THE_CLEARANCE.search(part)) and not _NOT_THOSE.search(part)


def _before(bench: Bench, one: ValveRead, shop: ShopState) -> bool:
    read = next((it.time for it in bench.state.readings.values() if it.entry == one.clearance.entry), "")
    try:
        return datetime.fromisoformat(read) < datetime.fromisoformat(shop.out)
    except (ValueError, TypeError):
        return False


def _parts(bench: Bench, known: Read) -> Iterator[str]:
    """Parts that are reworked or renewed while clearances stand as found."""
    old = list(as_found_still(known.valves))
    names = [
        part for part, one in bench.state.parts.items() if one.decision in _CHANGED and _counts(part, known)
    ]
    if old and names:
        yield (
            f"Decided to be reworked or renewed: {', '.join(names)}. {len(old)} of {len(known.valves)} clearances "
            "were read as found. If that was before the work, measure them again before you buy or move a shim."
        )

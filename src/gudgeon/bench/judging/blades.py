"""Which blades of a set, alone or two together, can still decide a limit, by what is known of the gap already."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from gudgeon.kit.model import Gauge
from gudgeon.quantity.format import both

SAME_MM = 1e-9
NEARLY_MM, NEARLY_SHARE = 0.02, 0.25
"""One blade that lies this much farther from a limit than two together, and no greater share of what is between, is
taken for them: it is handled sooner, and errs less (by hand)."""


@dataclass(frozen=True, slots=True)
class Stack:
    """One blade, or two together, that err together."""

    blades: tuple[float, ...]

    @property
    def thick(self) -> float:
        """How thick it is."""
        return math.fsum(self.blades)

    @property
    def errs(self) -> float:
        """How many times as uncertain as one blade it is."""
        return math.sqrt(len(self.blades))

    @property
    def words(self) -> str:
        """Its blades, as they are taken out of the set."""
        said = " and ".join(both(one, kind="length_difference") for one in self.blades)
        return f"a blade of {said}" if len(self.blades) == 1 else f"blades of {said} together"


@dataclass(frozen=True, slots=True)
class Known:
    """Between what a gap is known to lie [mm], how far a blade has to stay away from a limit, and the limits apart."""

    low: float
    high: float
    band: float
    room: float = math.inf


def stacks(gauge: Gauge | None) -> list[Stack]:
    """The blades of a set and every two of them; of a set whose blades nobody wrote down, one for each hundredth."""
    owned = [blade.middle_in("mm") for blade in gauge.blades] if gauge is not None else []
    if not owned:
        return [Stack((at / 100,)) for at in range(1, 201)]
    return [*(Stack((one,)) for one in owned), *(Stack(pair) for pair in combinations(owned, 2))]


def under(gauge: Gauge | None, most: float, *, known: Known) -> Stack | None:
    """The thickest that proves a gap to be under this when it does not enter, and that is not known to enter."""
    found = [
        one for one in stacks(gauge)
        if known.low + SAME_MM < one.thick < known.high - SAME_MM
        and one.thick <= most - known.band * one.errs + SAME_MM
    ]  # fmt: skip
    return _handiest(
        max(found, key=lambda one: (round(one.thick, 9), -len(one.blades)), default=None), found, known
    )


def over(gauge: Gauge | None, least: float, *, known: Known) -> Stack | None:
    """The thinnest that proves a gap to be over this when it enters, and that is not known not to."""
    found = [
        one for one in stacks(gauge)
        if known.low + SAME_MM < one.thick < known.high - SAME_MM
        and one.thick >= least + known.band * one.errs - SAME_MM
    ]  # fmt: skip
    return _handiest(
        min(found, key=lambda one: (round(one.thick, 9), len(one.blades)), default=None), found, known
    )


def _handiest(sharpest: Stack | None, found: Sequence[Stack], known: Known) -> Stack | None:
    """One blade where it decides nearly as much as the sharpest two together."""
    if sharpest is None or len(sharpest.blades) == 1:
        return sharpest
    nearly = min(NEARLY_MM, NEARLY_SHARE * sharpest.thick, NEARLY_SHARE * known.room) + SAME_MM
    off = {one: abs(one.thick - sharpest.thick) for one in found if len(one.blades) == 1}
    single = min(off, key=lambda one: off[one], default=None)
    return single if single is not None and off[single] <= nearly else sharpest


def blade_ways(gauge: Gauge | None, *, low: float | None, high: float | None, known: Known) -> Iterator[str]:
    """What must enter and what must not, to prove it inside; where nothing can, what proves it outside."""
    if low is not None and high is not None:
        known = replace(known, room=high - low)
    if high is not None and known.high > high - known.band:
        inside, outside = under(gauge, high, known=known), over(gauge, high, known=known)
        on_it = known.low > high - known.band - SAME_MM
        yield from _said(inside, outside=outside, must="must not enter", fails="enters", on_it=on_it)
    if low is not None and known.low < low + known.band:
        inside, outside = over(gauge, low, known=known), under(gauge, low, known=known)
        on_it = known.high < low + known.band + SAME_MM
        yield from _said(inside, outside=outside, must="must enter", fails="does not enter", on_it=on_it)


def _said(
    inside: Stack | None, *, outside: Stack | None, must: str, fails: str, on_it: bool
) -> Iterator[str]:
    if inside is not None:
        yield f"{inside.words} {must}"
        return
    told = ["it is on the limit, and no blade proves it inside"] if on_it else []
    if outside is not None:
        plural = (
            fails
            if len(outside.blades) == 1
            else {"enters": "enter", "does not enter": "do not enter"}[fails]
        )
        told.append(f"if {outside.words} {plural}, it is outside")
    if told:
        yield "; ".join([*told, *(["accept it with a reason, or renew"] if on_it else [])])

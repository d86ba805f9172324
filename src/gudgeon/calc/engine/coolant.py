"""Coolant: where a mix of glycol and water begins to freeze, and how to mix or mend it."""

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from gudgeon.calc.engine.running_errors import (
    ColderThanAny,
    FractionOutside,
    MoreThanHeld,
    NotReached,
    ShareOutside,
    TableUnknown,
    WarmerThanWater,
)
from gudgeon.calc.errors import finite, not_negative, positive
from gudgeon.sources.coolants import FreezingTable, freezing_tables, specific_gravity

if TYPE_CHECKING:
    from scipy.interpolate import PchipInterpolator


@dataclass(frozen=True, slots=True)
class Mixing:
    """What to drain and what to pour in, in L; what is poured in is concentrate, and water beside it."""

    drain_l: float
    concentrate_l: float
    water_l: float


def freezing_table(glycol: str, *, basis: str, name: str = "") -> FreezingTable:
    """The table of freezing points that is followed, or the named one.

    Equation:
        none: a choice

    Parameters:
        glycol: `ethylene` or `propylene`
        basis: how the share of glycol is counted: by `volume` or by `mass`
        name: of the table; empty for the one that is followed

    Returns:
        the table

    Valid for:
        glycol and clean water

    Source:
        ASHRAE 2001 by volume, Melinder 2010 by mass, Lange's Handbook, 15th edition, table 5.13.

    Example:
        >>> freezing_table("ethylene", basis="volume").name
        'ASHRAE'

    Not covered:
        inhibitors and the few percent of water in bought concentrate: the maker's own table comes first.
    """
    fitting = [one for one in freezing_tables() if one.glycol == glycol and one.basis == basis]
    for one in fitting:
        if name in ("", one.name):
            return one
    raise TableUnknown(name, glycol, basis, tuple(one.name for one in fitting))


@lru_cache(maxsize=16)
def _curve(table: FreezingTable) -> "PchipInterpolator":
    from scipy.interpolate import PchipInterpolator

    return PchipInterpolator(table.shares, table.freeze_c)


def freeze_point_c(share: float, *, table: FreezingTable) -> float:
    """Where a mix begins to freeze.

    Equation:
        monotone cubic through the points of the table

    Parameters:
        share: glycol in the mix [1], by volume or by mass as the table counts it
        table: freezing points over the share

    Returns:
        first ice [°C]

    Valid for:
        0 to the last share of the table, 0.6 at most. Between its points within 0.05 K of the fits that the tables
        were read from; those of different authors lie up to 3 K apart where it gets cold

    Source:
        see freezing_table; interpolation after Fritsch and Carlson 1980.

    Example:
        >>> freeze_point_c(0.5, table=freezing_table("ethylene", basis="volume"))
        -37.11

    Not covered:
        slush: the mix bursts nothing until some kelvin below its first ice.
    """
    if not 0 <= finite(share, "Share of glycol") <= table.shares[-1]:
        raise FractionOutside(share, table.shares[-1], table.name)
    return float(_curve(table)(share))


def share_for_freeze_point(freeze_c: float, *, table: FreezingTable) -> float:
    """The least share of glycol that stands a cold.

    Equation:
        freeze_point_c, solved for the share (Brent)

    Parameters:
        freeze_c: the cold to stand [°C]
        table: freezing points over the share

    Returns:
        share of glycol [1], by volume or by mass as the table counts it

    Valid for:
        below 0 °C, down to the end of the table

    Source:
        HAND: the curve falls all the way, so that there is one answer.

    Example:
        >>> round(share_for_freeze_point(-37.11, table=freezing_table("ethylene", basis="volume")), 3)
        0.5

    Not covered:
        see freeze_point_c.
    """
    if finite(freeze_c, "Cold to stand") >= 0:
        raise WarmerThanWater(freeze_c)
    coldest = table.freeze_c[-1]
    if freeze_c < coldest - 1e-9:
        raise ColderThanAny(freeze_c, coldest, table.shares[-1], table.name)
    from scipy.optimize import brentq

    curve, cold = _curve(table), max(freeze_c, float(_curve(table)(table.shares[-1])))
    return float(brentq(lambda share: float(curve(share)) - cold, 0.0, table.shares[-1], xtol=1e-12))


def volume_share(mass_share: float, *, gravity: float) -> float:
    """The share by volume, before mixing, of a share by mass.

    Equation:
        φ = w / (w + G · (1 − w))

    Parameters:
        mass_share: glycol by mass, w [1]
        gravity: specific gravity of the glycol, G [1]

    Returns:
        glycol by volume, each measured by itself at 20 °C, φ [1]

    Valid for:
        0 to 1

    Source:
        HAND: masses over densities. A worked example of a supplier (1000 gal, 30 % by weight, G 1.1155) has 277.6 gal.

    Example:
        >>> round(1000 * volume_share(0.30, gravity=1.1155), 1)
        277.6

    Not covered:
        mixing shrinks the whole by up to 1 %, which this leaves out, as whoever pours from a jug does.
    """
    share = _share(mass_share, "Share by mass")
    heavy = positive(gravity, "Specific gravity", unit="")
    return share / (share + heavy * (1 - share))


def mass_share(volume_share: float, *, gravity: float) -> float:
    """The share by mass of a share by volume.

    Equation:
        w = G · φ / (G · φ + 1 − φ)

    Parameters:
        volume_share: glycol by volume, each measured by itself at 20 °C, φ [1]
        gravity: specific gravity of the glycol, G [1]

    Returns:
        glycol by mass, w [1]

    Valid for:
        0 to 1

    Source:
        HAND: volumes times densities.

    Example:
        >>> round(mass_share(0.2776, gravity=1.1155), 3)
        0.3

    Not covered:
        see volume_share.
    """
    share = _share(volume_share, "Share by volume")
    heavy = positive(gravity, "Specific gravity", unit="") * share
    return heavy / (heavy + 1 - share)


def mixing(
    capacity_l: float, *, residual_l: float, present: float, target: float, added: float = 1.0
) -> Mixing:
    """What to drain and to pour in, so that the full system holds the wanted share.

    Equation:
        glycol wanted = capacity · target; poured = (wanted − residual · present) / added, the rest is water;
        drained first: residual − capacity · (added − target) / (added − present) where it is too thin,
        residual − capacity · target / present where it is too rich

    Parameters:
        capacity_l: the system, full [L]
        residual_l: what is in it now; full or what did not drain [L]
        present: share of glycol in that, by volume [1]
        target: share wanted, by volume [1]
        added: share of glycol in what is poured in, by volume; 1 is undiluted [1]

    Returns:
        to drain, concentrate and water to pour in [L]

    Valid for:
        a system that is stirred before it is drained: warm it with the heater on

    Source:
        HAND: the glycol before and after; volumes taken as adding up.

    Example:
        >>> found = mixing(8.5, residual_l=8.5, present=0.33, target=0.50)
        >>> round(found.drain_l, 4), round(found.concentrate_l, 4), found.water_l
        (2.1567, 2.1567, 0.0)

    Not covered:
        mixing shrinks the whole by up to 1 %: top up with the mix.
    """
    capacity = positive(capacity_l, "Capacity", unit="L")
    residual = not_negative(residual_l, "What is in it", unit="L")
    if residual > capacity:
        raise MoreThanHeld("What is in it,", residual, capacity)
    now, wanted, rich = (
        _share(present, "Share now"),
        _share(target, "Share wanted"),
        _share(added, "Share added"),
    )
    kept = residual / capacity  # all that is in it stays, and the rest is filled with what is poured in
    richest = max(rich, kept * now + (1 - kept) * rich)
    if wanted > richest * (1 + 1e-12):
        raise NotReached(wanted, now, rich, richest)
    drain = 0.0
    if rich > now:
        drain = max(drain, residual - capacity * (rich - wanted) / (rich - now))
    if now > 0:
        drain = max(drain, residual - capacity * wanted / now)
    drain = min(max(drain, 0.0), residual)
    left = residual - drain
    room = capacity - left
    poured = min(max(0.0, (capacity * wanted - left * now) / rich), room) if rich > 0 else 0.0
    return Mixing(drain, poured, room - poured if room - poured > 1e-12 * capacity else 0.0)


def share_after_cycles(
    capacity_l: float, *, drained_l: float, present: float, added: float, cycles: int
) -> float:
    """The share of glycol after draining a part and filling up, so many times.

    Equation:
        c = added + (present − added) · (1 − drained / capacity)^cycles

    Parameters:
        capacity_l: the system, full [L]
        drained_l: drained and filled up each time [L]
        present: share of glycol before, by volume [1]
        added: share of glycol in what is filled up with, by volume [1]
        cycles: how many times [1]

    Returns:
        share of glycol, by volume [1]

    Valid for:
        a system that is stirred each time

    Source:
        HAND: what is left after each time is the same part of what was there.

    Example:
        >>> round(share_after_cycles(7.0, drained_l=3.0, present=0.30, added=0.50, cycles=2), 5)
        0.43469

    Not covered:
        see mixing.
    """
    capacity = positive(capacity_l, "Capacity", unit="L")
    drained = not_negative(drained_l, "Drained", unit="L")
    if drained > capacity:
        raise MoreThanHeld("Drained", drained, capacity)
    now, fresh = _share(present, "Share now"), _share(added, "Share added")
    return fresh + (now - fresh) * (1 - drained / capacity) ** int(not_negative(cycles, "Cycles", unit=""))


def gravity_of(glycol: str) -> float:
    """The specific gravity of a glycol.

    Equation:
        none: looked up

    Parameters:
        glycol: `ethylene` or `propylene`

    Returns:
        mass against the same volume of water, both at 20 °C [1]

    Valid for:
        pure glycol

    Source:
        ASHRAE 1993, as republished by a supplier: 1.1155 and 1.038.

    Example:
        >>> gravity_of("propylene")
        1.038

    Not covered:
        concentrate with inhibitors and some water: up to 2 % heavier.
    """
    return specific_gravity(glycol).value


def _share(value: float, what: str) -> float:
    if not 0 <= finite(value, what) <= 1:
        raise ShareOutside(what, value)
    return value

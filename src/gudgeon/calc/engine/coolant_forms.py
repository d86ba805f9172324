"""The calculator of coolant: from inputs to kernels and back."""

from collections.abc import Mapping

from gudgeon.calc.calculator import Found, Value, Worked
from gudgeon.calc.engine.coolant import (
    freeze_point_c,
    freezing_table,
    gravity_of,
    mass_share,
    mixing,
    share_after_cycles,
    share_for_freeze_point,
    volume_share,
)
from gudgeon.calc.input_errors import GivenBoth, InputNeeded
from gudgeon.calc.reading import figure, maybe, needed, text
from gudgeon.quantity.units import convert
from gudgeon.sources.coolants import FreezingTable, freezing_tables, least_against_corrosion

COOLANT = "engine.coolant"


def coolant(values: Mapping[str, Value]) -> Worked:
    """Works out engine.coolant."""
    glycol, basis = text(values, "glycol"), text(values, "basis")
    named = "" if values["table"] is None else text(values, "table")
    table = freezing_table(glycol, basis=basis, name=named)
    given = maybe(values, "specific_gravity")
    gravity = gravity_of(glycol) if given is None else given
    share = _share(values, table, gravity)
    by_volume = share if basis == "volume" else volume_share(share, gravity=gravity)
    results: dict[str, Found] = {
        "freeze_c": freeze_point_c(share, table=table),
        "volume_share": by_volume,
        "mass_share": mass_share(by_volume, gravity=gravity),
    }
    if maybe(values, "capacity") is not None and values["drain"] is None:
        results |= _mixed(values, by_volume, gravity)
    return Worked(
        results, _flags(table, share, by_volume), shown=_shown(results), understood=_understood(values)
    )


SHARES = ("fraction", "target", "present", "added")
VOLUMES = ("capacity", "residual", "drain")


def _understood(values: Mapping[str, Value]) -> dict[str, str]:
    """Shares in percent and volumes in liters, as they are poured."""
    found = {}
    for key in SHARES:
        value = maybe(values, key)
        if value is not None:
            found[key] = f"{100 * value:g} %"
    for key in VOLUMES:
        value = maybe(values, key)
        if value is not None:
            found[key] = _liters(value)
    return found


def _liters(value: float) -> str:
    return f"{value:.2f} L ({convert(value, frm='L', to='US qt', kind='volume'):.2f} US qt)"


def _shown(results: Mapping[str, Found]) -> dict[str, str]:
    """Shares in percent, volumes in liters and quarts."""
    found: dict[str, str] = {}
    for key, value in results.items():
        if isinstance(value, float) and key.endswith("_share"):
            found[key] = f"{100 * value:.1f} %"
        elif isinstance(value, float) and key.endswith("_l"):
            found[key] = _liters(value)
    return found


def _share(values: Mapping[str, Value], table: FreezingTable, gravity: float) -> float:
    """The share that is asked about, as the table counts it: given, wanted, for a cold, or after draining."""
    ways = [key for key in ("fraction", "target", "guards_to", "drain") if values[key] is not None]
    if len(ways) > 1:
        raise GivenBoth(ways[0], ways[1])
    if not ways:
        raise InputNeeded("fraction, target, guards_to or drain", COOLANT, "fraction='50 %'")
    if ways[0] == "guards_to":
        return share_for_freeze_point(figure(values, "guards_to"), table=table)
    if ways[0] != "drain":
        return figure(values, ways[0])
    after = share_after_cycles(
        needed(values, "capacity", calculator=COOLANT, example="capacity='7 L'"),
        drained_l=figure(values, "drain"),
        present=_by_volume(figure(values, "present"), table.basis, gravity),
        added=_by_volume(figure(values, "added"), table.basis, gravity),
        cycles=int(figure(values, "cycles")),
    )
    return after if table.basis == "volume" else mass_share(after, gravity=gravity)


def _by_volume(share: float, basis: str, gravity: float) -> float:
    return share if basis == "volume" else volume_share(share, gravity=gravity)


def _mixed(values: Mapping[str, Value], target: float, gravity: float) -> dict[str, Found]:
    capacity, residual = figure(values, "capacity"), maybe(values, "residual")
    basis = text(values, "basis")
    found = mixing(
        capacity,
        residual_l=(0.0 if residual is None else residual),
        present=_by_volume(figure(values, "present"), basis, gravity),
        target=target,
        added=_by_volume(figure(values, "added"), basis, gravity),
    )
    return {"drain_l": found.drain_l, "concentrate_l": found.concentrate_l, "water_l": found.water_l}


def _flags(table: FreezingTable, share: float, by_volume: float) -> tuple[str, ...]:
    found = [f"Freezing points: {table.source}."]
    least = least_against_corrosion()
    if by_volume < least.value:
        found.append(
            f"Less than {100 * least.value:.0f} % glycol by volume does not protect against corrosion "
            f"({least.source})."
        )
    for other in freezing_tables():
        same = (other.glycol, other.basis) == (table.glycol, table.basis)
        if same and other is not table and share <= other.shares[-1]:
            there = freeze_point_c(share, table=other)
            found.append(f"Another source has {there:.1f} °C: {other.source}.")
    return tuple(found)

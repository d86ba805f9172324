"""Pressures in bar where the sheet prints bar: a person whose gauge and sheet have bar reads bar."""

from gudgeon.bench.context import Bench
from gudgeon.quantity.format import both, both_ends, in_order, number
from gudgeon.quantity.units import convert
from gudgeon.sheet.figures import Stated


def in_bar(*figures: Stated | None) -> bool:
    """Whether the sheet prints these figures in bar."""
    return any(one is not None and "bar" in one.value.text for one in figures)


def cranking_in_bar(bench: Bench) -> bool:
    """Whether the sheet prints the pressures of the cylinders in bar."""
    after = bench.sheet.after_start
    key = after.cranking_pressure if after is not None else None
    item = bench.sheet.characteristics.get(key) if key is not None else None
    return item is not None and in_bar(item.new_range, item.wear_limit, item.required)


def shown(kpa: float, *, bar: bool) -> str:
    """A pressure in bar and psi, or in kPa and psi."""
    if not bar:
        return both(kpa, kind="pressure_gauge")
    return in_order(f"{number(kpa / 100, decimals=2)} bar", inch=f"{_psi(kpa)} psi")


def shown_ends(low_kpa: float, *, high_kpa: float, bar: bool) -> str:
    """A range of pressures in bar and psi, or in kPa and psi."""
    if not bar:
        return both_ends(low_kpa, high=high_kpa, kind="pressure_gauge")
    low, high = (number(one / 100, decimals=2) for one in (low_kpa, high_kpa))
    return in_order(f"{low}–{high} bar", inch=f"{_psi(low_kpa)}–{_psi(high_kpa)} psi")


def _psi(kpa: float) -> str:
    return number(convert(kpa, frm="kPa", to="psi", kind="pressure_gauge"), decimals=1)

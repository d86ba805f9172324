"""Pressures that are printed for the level of the sea, and the same in the thinner air where he works."""

from dataclasses import replace

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.criteria import Criterion
from gudgeon.bench.judging.decision import decide, value_of
from gudgeon.bench.judging.finding import Finding
from gudgeon.bench.measured import CANNOT, Measured
from gudgeon.quantity.format import both

HERE = "gudgeon running"
AS_PRINTED = "as printed, taken as for the level of the sea"


def shares_of_the_sea(*, pressure_kpa: float, density_kg_per_m3: float) -> tuple[float, float]:
    """What becomes of a pressure that is printed for the level of the sea: by pressures, by densities."""
    from gudgeon.calc.engine.atmosphere import standard_air
    from gudgeon.calc.engine.cranking import at_other_air_kpa

    sea = standard_air(0.0)
    return (
        at_other_air_kpa(1.0, here=pressure_kpa, there=sea.pressure_pa / 1000),
        at_other_air_kpa(1.0, here=density_kg_per_m3, there=sea.density_kg_per_m3),
    )


def verdicts_here(bench: Bench, one: Measured, *, low: float) -> tuple[str, str] | None:
    """What a least cranking pressure says in the air here, by either rule; nothing where the altitude is not known."""
    if bench.kit.altitude is None:
        return None
    from gudgeon.calc.engine.atmosphere import standard_air

    try:
        air = standard_air(bench.kit.altitude.middle_in("mm") / 1000)
    except CANNOT:
        return None
    by_pressure, by_density = (
        decide(value_of(one), low=share * low, high=None).verdict
        for share in shares_of_the_sea(
            pressure_kpa=air.pressure_pa / 1000, density_kg_per_m3=air.density_kg_per_m3
        )
    )
    return by_pressure, by_density


def with_altitude(bench: Bench, key: str, *, criterion: Criterion, found: Finding) -> Finding:
    """A cranking pressure that is not inside as printed, with a word on what it is here; the verdict stays."""
    after = bench.sheet.after_start
    cranking = after is not None and after.cranking_pressure == key
    if not cranking or criterion.shape != "plain" or criterion.low is None or found.of is None:
        return found
    if found.verdict not in ("outside", "in doubt"):
        return found
    here = verdicts_here(bench, found.of, low=criterion.low)
    words = _words(bench, found.verdict, here) if here is not None else ""
    if not words:
        return found
    return replace(found, reason=f"{found.reason}; {words}", ways_out=(*found.ways_out, HERE))


def _words(bench: Bench, printed: str, here: tuple[str, str]) -> str:
    """Where the altitude changes the verdict: how, and by which rule."""
    assert bench.kit.altitude is not None  # else nothing is known of the air here
    altitude = both(bench.kit.altitude.middle_in("mm"), kind="altitude")
    if set(here) == {printed}:
        return ""
    if printed in here:
        return f"at {altitude} the two rules differ: {' and '.join(here)}"
    rule = "by either rule" if len(set(here)) == 1 else "by one of the rules"
    return f"{printed} {AS_PRINTED}, but {here[0]} as it is at {altitude}, {rule}"

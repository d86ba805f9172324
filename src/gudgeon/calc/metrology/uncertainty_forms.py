"""The calculators of uncertainty, repeats and size at 20 °C: from inputs to the kernels and back to results."""

import math
from collections.abc import Mapping

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.input_errors import GivenBoth, InputNeeded, NameUnknown
from gudgeon.calc.metrology.component_forms import Written, read_components, read_correlation
from gudgeon.calc.metrology.propagation import Combined, Component, Expanded, combine, expanded, rounded_down
from gudgeon.calc.metrology.repeats import repeats_needed
from gudgeon.calc.metrology.temperature import Expansion, Temperature, size_at_20
from gudgeon.calc.metrology.uncertainty_errors import CoverageUnclear
from gudgeon.calc.reading import figure, maybe, text
from gudgeon.errors import InputError
from gudgeon.quantity.format import both, number
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import split_amount
from gudgeon.sources.figures import Figure
from gudgeon.sources.tables import MaterialExpansion, material_expansions, other_error

LEAST_FACTOR, MOST_FACTOR = 1.0, 10.0
LITTLE = 0.90
"""Below this, ± 2 u of few readings covers so much less than 95 % that it is said."""


def expanded_uncertainty(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.expanded-uncertainty."""
    written = read_components(text(values, "components"))
    pairs = values["correlation"]
    correlation = read_correlation(pairs, components=written.components) if isinstance(pairs, str) else {}
    probability, factor = _coverage(text(values, "coverage"))
    found = combine(written.components, correlation=correlation)
    wide = expanded(found, probability=probability, factor=factor)
    dof = rounded_down(found.dof)
    return Worked(
        {
            "u": found.u,
            "dof_effective": None if math.isinf(dof) else dof,
            "k": wide.factor,
            "expanded": wide.value,
            "largest": _largest(found),
        },
        flags=_remarks(found, wide, by_factor=probability is None),
        shown={
            "u": _shown(found.u, written),
            "dof_effective": "without end: no component has few"
            if math.isinf(dof)
            else f"{dof:.0f} ({found.dof:.2f} before it is rounded down)",
            "expanded": _shown(wide.value, written),
        },
        units={"u": written.unit, "expanded": written.unit},
    )


def repeats(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.repeats-needed."""
    count = repeats_needed(figure(values, "half_width_over_s"), probability=figure(values, "coverage"))
    return Worked({"repeats": float(count)})


def size(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.size-at-20."""
    flags: list[str] = []
    part_expansion = _part_expansion(values, flags)
    gauge_expansion = _gauge_expansion(values, flags)
    part = Temperature(
        figure(values, "part_temperature"), _temperature_error(values, "part_temperature_error", flags)
    )
    gauge = _gauge_temperature(values, flags)
    found = size_at_20(
        figure(values, "length"),
        part=part,
        part_expansion=part_expansion,
        gauge=gauge,
        gauge_expansion=gauge_expansion,
    )
    components = list(found.components)
    reading = maybe(values, "u_length")
    if reading is None:
        flags.append("The reading itself counts as exact: give u_length to add its uncertainty.")
    else:
        share = found.length_mm / (found.length_mm - found.correction_mm)
        components.append(Component("reading", reading, sensitivity=share))
    return Worked(
        {
            "length_mm": found.length_mm,
            "u_mm": combine(components).u,
            "correction_mm": found.correction_mm,
        },
        flags=tuple(flags),
    )


def _coverage(written: str) -> tuple[float | None, float]:
    """A probability, or the factor to take without one."""
    try:
        value, unit = split_amount(written)
    except InputError:
        raise CoverageUnclear(written) from None
    amount = float(value)
    if unit in ("%", "percent"):
        amount /= 100
    elif unit:
        raise CoverageUnclear(written)
    elif LEAST_FACTOR <= amount <= MOST_FACTOR:
        return None, amount
    if not 0 < amount < 1:
        raise CoverageUnclear(written)
    return amount, 0.0


def _largest(found: Combined) -> str:
    """The cause that counts most, and its share of the variance."""
    name, part = max(found.parts, key=lambda one: one[1])
    return "none" if found.u == 0 else f"{name} ({100 * (part / found.u) ** 2:.0f} % of u²)"


def _remarks(found: Combined, wide: Expanded, *, by_factor: bool) -> tuple[str, ...]:
    remarks = []
    if by_factor and wide.factor == 2 and wide.probability < LITTLE:
        remarks.append(
            f"With so few degrees of freedom ± 2 u covers {100 * wide.probability:.0f} %, not 95 %. "
            "Write coverage=95 % for a factor that does."
        )
    if found.correlated and math.isfinite(found.dof):
        remarks.append(
            "Correlated components count as one cause, with the fewest degrees of freedom among them."
        )
    return tuple(remarks)


def _shown(value: float, written: Written) -> str:
    """Three digits in the unit that was written, and both systems beside it."""
    decimals = max(0, 2 - math.floor(math.log10(value))) if value > 0 else 0
    own = number(value, decimals=min(decimals, 30))
    if written.kind is None:
        return own
    base = written.kind.base
    systems = both(convert(value, frm=written.unit, to=base, kind=written.kind), kind=written.kind)
    return systems if written.unit == base else f"{own} {written.unit} = {systems}"


def _part_expansion(values: Mapping[str, Value], flags: list[str]) -> Expansion:
    own, error = maybe(values, "expansion"), maybe(values, "expansion_error")
    if values["material"] is None:
        if own is None:
            raise InputNeeded("expansion or material", "metrology.size-at-20", "material='aluminum 356'")
        return Expansion(own, _own_error(error, "part", flags))
    if own is not None:
        raise GivenBoth("expansion", "material")
    name = text(values, "material").lower().replace("_", " ")
    known = material_expansions()
    row = next((one for one in known if one.words == name), None)
    if row is None:
        raise NameUnknown("material", text(values, "material"), [one.words for one in known])
    flags.append(f"Part: {_row_words(row)}.")
    return Expansion(row.value, row.error if error is None else error)


def _gauge_expansion(values: Mapping[str, Value], flags: list[str]) -> Expansion:
    own, error = maybe(values, "gauge_expansion"), maybe(values, "gauge_expansion_error")
    if own is not None:
        return Expansion(own, _own_error(error, "gauge", flags))
    row = _gauge_steel()
    flags.append(f"Gauge taken as steel: {_row_words(row)}.")
    return Expansion(row.value, row.error if error is None else error)


def _gauge_steel() -> MaterialExpansion:
    return next(one for one in material_expansions() if one.name == "gauge_steel")


def _own_error(error: float | None, whose: str, flags: list[str]) -> float:
    """The error given with an own figure; without one, that of gauge blocks."""
    if error is not None:
        return error
    row = _gauge_steel()
    shown = both(row.error, kind="expansion")
    flags.append(f"Expansion of the {whose} taken as good to ± {shown}, as of gauge blocks ({row.source}).")
    return row.error


def _row_words(row: MaterialExpansion) -> str:
    shown, error = both(row.value, kind="expansion"), both(row.error, kind="expansion")
    return f"{row.words}, {shown} ± {error}, {row.source}"


def _gauge_temperature(values: Mapping[str, Value], flags: list[str]) -> Temperature | None:
    celsius = maybe(values, "gauge_temperature")
    if celsius is not None:
        return Temperature(celsius, _temperature_error(values, "gauge_temperature_error", flags))
    if values["gauge_temperature_error"] is not None:
        raise InputNeeded("gauge_temperature", "gauge_temperature_error", "gauge_temperature='20 °C'")
    flags.append("The gauge is taken to be as warm as the part: leave both together until they are.")
    return None


def _temperature_error(values: Mapping[str, Value], key: str, flags: list[str]) -> float:
    given = maybe(values, key)
    if given is not None:
        return given
    usual = _thermometer()
    flag = (
        f"Temperatures taken as good to ± {both(usual.value, kind='temperature_difference')}: {usual.source}."
    )
    if flag not in flags:
        flags.append(flag)
    return usual.value


def _thermometer() -> Figure:
    usual = other_error("thermometer", kind="temperature", reading=20.0)
    assert usual is not None  # it stands in instruments.toml
    return usual

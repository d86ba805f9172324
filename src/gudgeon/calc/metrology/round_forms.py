"""The calculators of round forms: from inputs to the kernels and back to results."""

from collections.abc import Iterable, Mapping, Sequence

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.input_errors import InputRefused
from gudgeon.calc.metrology.lobes import HARDLY_SEEN, MOST_NAMED, blind_words, v_block
from gudgeon.calc.metrology.run_out import run_out
from gudgeon.calc.metrology.small_parts import guide_clearance, ring_gap_in_bore
from gudgeon.calc.reading import figure, text
from gudgeon.errors import InputError
from gudgeon.quantity.format import both
from gudgeon.quantity.written import parse_amount

FEW_POINTS = 4
MANY_LINES = 6


def roundness(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.roundness; the kernels load numpy, so they wait until they are needed."""
    import numpy as np

    from gudgeon.calc.metrology import roundness as ways
    from gudgeon.written.points import points_said

    unit = values["unit"]
    points = points_said(
        text(values, "file"),
        columns=("x", "y"),
        unit_said=unit if isinstance(unit, str) else None,
        unit_else="mm",
    )
    work = {
        "minimum-zone": ways.minimum_zone,
        "least-squares": ways.least_squares,
        "circumscribed": ways.circumscribed,
        "inscribed": ways.inscribed,
    }[text(values, "method")]
    found = work(np.column_stack([points.column("x"), points.column("y")]))
    flags = []
    if len(points) < FEW_POINTS:
        flags.append("Three points always lie on a circle: they say nothing of roundness.")
    if not found.surrounded:
        flags.append(
            f"The points leave {found.gap_deg:.0f}° open: the deviation holds for this arc alone, and its center moves "
            "far with a small change of one reading."
        )
    return Worked(
        {
            "deviation_mm": _settled(found.deviation_mm, beside=found.radius_mm),
            "center_x_mm": _settled(found.center_x_mm, beside=found.radius_mm),
            "center_y_mm": _settled(found.center_y_mm, beside=found.radius_mm),
            "radius_mm": found.radius_mm,
            "farthest": _lines(points.lines, found.outer),
            "nearest": _lines(points.lines, found.inner),
            "gap_deg": found.gap_deg,
        },
        flags=tuple(flags),
    )


def over_a_v_block(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.v-block."""
    angle = figure(values, "angle")
    lobes = figure(values, "lobes")
    found = v_block(lobes, angle_deg=angle)
    # The list of what it hardly sees ends at seven: more than that says so by itself.
    more = lobes > MOST_NAMED and found < HARDLY_SEEN
    flags = (f"This V-block hardly sees {lobes:.0f} lobes either.",) if more else ()
    return Worked({"magnification": found, "blind": blind_words("V-block", angle_deg=angle)}, flags)


def gap_of_ring(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.ring-gap-in-bore."""
    other = figure(values, "other_bore")
    found = ring_gap_in_bore(figure(values, "gap"), bore_mm=figure(values, "bore"), other_bore_mm=other)
    return Worked({"gap_mm": found, "gap_per_bore": found / other})


def turned_under_a_dial(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.run-out."""
    readings = _figures(values, "readings", kind="length_difference", unit="mm")
    given = values["angles"] is not None
    angles = (
        _figures(values, "angles", kind="angle", unit="°")
        if given
        else [360.0 * number / len(readings) for number in range(len(readings))]
    )
    found = run_out(readings, angles_deg=angles)
    return Worked(
        {
            "total_mm": found.total_mm,
            "bend_mm": found.bend_mm,
            "eccentricity_mm": found.eccentricity_mm,
            "high_deg": found.high_deg if found.eccentricity_mm else None,
            "form_mm": found.form_mm,
        },
        flags=()
        if found.form_mm <= 2 * found.eccentricity_mm
        else (
            "Most of the swing is form, not run-out: measure the roundness here before taking the shaft as bent.",
        ),
        understood={"readings": "; ".join(both(one, kind="length_difference") for one in readings)}
        | ({"angles": "; ".join(both(one, kind="angle") for one in angles)} if given else {}),
    )


def rocked_valve(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.guide-clearance."""
    found = guide_clearance(
        figure(values, "rock"),
        guide_length_mm=figure(values, "guide_length"),
        height_mm=figure(values, "height"),
    )
    return Worked({"clearance_mm": found})


def _figures(values: Mapping[str, Value], key: str, *, kind: str, unit: str) -> list[float]:
    """The figures of a list that stand apart by semicolons."""
    try:
        return [
            parse_amount(part, kind=kind, default_unit=unit).to(unit)
            for part in text(values, key).split(";")
            if part.strip()
        ]
    except InputError as error:
        raise InputRefused(key, error) from None


def _settled(value: float, *, beside: float) -> float:
    """The value, or zero where it is what rounding leaves of figures as large as that beside it."""
    return value if abs(value) > 1e-13 * beside else 0.0


def _lines(lines: Sequence[int], which: Iterable[int]) -> str:
    """Lines of the file, a few of them by number."""
    numbers = [lines[one] for one in which]
    shown = ", ".join(str(one) for one in numbers[:MANY_LINES])
    return shown if len(numbers) <= MANY_LINES else f"{shown} and {len(numbers) - MANY_LINES} more"

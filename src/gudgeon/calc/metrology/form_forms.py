"""The calculator of flatness: from a file of points to the kernel and back to results."""

from collections.abc import Mapping

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.input_errors import InputRefused
from gudgeon.calc.reading import text
from gudgeon.errors import InputError
from gudgeon.written.points import Points, points_said


def flatness(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.flatness from a file of points."""
    import numpy as np

    from gudgeon.calc.metrology.flatness import flatness as kernel

    points = _points(values, ("x", "y", "z"))
    found = kernel(np.frombuffer(points.flat).reshape(-1, 3))
    upper, lower = ([one + 1 for one in side] for side in (found.upper, found.lower))
    return Worked(
        {
            "minimum_zone_mm": found.minimum_zone_mm,
            "least_squares_mm": found.least_squares_mm,
            "plane": found.plane,
            "contact_points": (*upper, *lower),
            "certificate_gap_mm": found.certificate_gap_mm,
        },
        flags=(*_read_as(points), *found.flags),
        shown={
            "plane": _equation(found.plane),
            "contact_points": f"{_listed(upper)} above; {_listed(lower)} below",
            "certificate_gap_mm": f"{found.certificate_gap_mm:.1e} mm",
        },
    )


def _points(values: Mapping[str, Value], columns: tuple[str, ...]) -> Points:
    said = None if values["unit"] is None else text(values, "unit")
    try:
        return points_said(text(values, "file"), columns=columns, unit_said=said, unit_else="mm")
    except InputError as error:
        if error.place is not None:
            raise
        raise InputRefused("file", error) from None


def _read_as(points: Points) -> tuple[str, ...]:
    """What was done with the file that its owner may not expect."""
    told = []
    if points.unit != "mm":
        told.append(
            f"The figures were read in {'inches' if points.unit == 'in' else points.unit}, and are given in mm."
        )
    if points.left_out:
        told.append(f"Columns left out: {', '.join(points.left_out)}.")
    return tuple(told)


def _equation(plane: tuple[float, float, float] | None) -> str:
    if plane is None:
        return "none: the face stands along z"
    a, b, c = plane
    return f"z = {a:.8f} x {'-' if b < 0 else '+'} {abs(b):.8f} y {'-' if c < 0 else '+'} {abs(c):.5f} mm"


def _listed(numbers: list[int]) -> str:
    return ", ".join(str(one) for one in numbers)

"""What a dial shows on a part that is turned, or pushed to and fro: run-out, bend, end float."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.errors import finite
from gudgeon.calc.metrology.round_errors import AnglesTooFew, AnglesUnpaired, NoPushes


@dataclass(frozen=True, slots=True)
class RunOut:
    """A turn under a dial, parted into how far the part runs beside its axis and what is left as form.

    `total_mm` is what the dial swings; `eccentricity_mm` the distance of center and axis; `high_deg` the angle at which
    the part stands out most by that; `form_mm` what the dial would swing without it; `highest` and
    `lowest` number the two readings that decide the total, from 0.
    """

    total_mm: float
    eccentricity_mm: float
    high_deg: float
    form_mm: float
    highest: int
    lowest: int

    @property
    def bend_mm(self) -> float:
        """How far the axis of a shaft is off at this place: half of what the dial swings."""
        return self.total_mm / 2


@dataclass(frozen=True, slots=True)
class EndFloat:
    """What a dial shows between the two ends of the float, over several pushes."""

    largest_mm: float
    mean_mm: float
    spread_mm: float


def run_out(readings_mm: Sequence[float], *, angles_deg: Sequence[float]) -> RunOut:
    """The total run-out of a turn under a dial, its eccentricity, and what is left as form.

    Equation:
        total = max − min; least squares of m + a · cos φ + b · sin φ: eccentricity √(a² + b²), high at
        atan2(b, a); form = max − min of what is left

    Parameters:
        readings_mm: of the dial, + where the part stands out [mm]
        angles_deg: of the part at each reading [°]

    Returns:
        total, eccentricity, form [mm], the angle of the high place [°], the readings that decide

    Valid for:
        three different angles or more; with three nothing is left as form

    Source:
        HAND: an eccentricity e moves the dial by e · cos(φ − φ₀), so a round part off its axis swings 2 e.

    Example:
        >>> found = run_out([0.00, 0.02, 0.04, 0.02], angles_deg=[0, 90, 180, 270])
        >>> round(found.total_mm, 9), round(found.eccentricity_mm, 9), round(found.high_deg, 6)
        (0.04, 0.02, 180.0)

    Not covered:
        which of the two it is at a bearing: an oval journal swings the dial without being bent.
    """
    if len(readings_mm) != len(angles_deg):
        raise AnglesUnpaired(len(readings_mm), len(angles_deg))
    values = [finite(one, "Reading") for one in readings_mm]
    turned = [math.radians(math.fmod(finite(one, "Angle"), 360.0)) for one in angles_deg]
    different = len({round(math.degrees(one) % 360.0, 6) % 360.0 for one in turned})
    if different < 3:
        raise AnglesTooFew(different)
    along, across, left = _first_harmonic(values, turned)
    rounding = 1e-13 * max(abs(one) for one in values)
    eccentricity, form = math.hypot(along, across), max(left) - min(left)
    return RunOut(
        max(values) - min(values),
        eccentricity if eccentricity > rounding else 0.0,
        math.degrees(math.atan2(across, along)) % 360.0,
        form if different > 3 and form > rounding else 0.0,
        values.index(max(values)),
        values.index(min(values)),
    )


def end_float(pushes_mm: Sequence[tuple[float, float]]) -> EndFloat:
    """End float from a dial at both ends of several pushes.

    Equation:
        float of a push = |reading at one end − reading at the other|; largest, mean, and largest − smallest

    Parameters:
        pushes_mm: for each push, the dial at one end and at the other [mm]

    Returns:
        largest, mean, and spread of the floats [mm]

    Valid for:
        a dial that was not moved between the two readings of a push

    Source:
        HAND: each push by itself, so that a dial that creeps from push to push does not count as float.

    Example:
        >>> found = end_float([(0.00, 0.12), (0.01, 0.14), (0.02, 0.14)])
        >>> round(found.largest_mm, 9), round(found.spread_mm, 9)
        (0.13, 0.01)

    Not covered:
        oil in the bearing, which takes some of the float until it is pushed out.
    """
    if not pushes_mm:
        raise NoPushes
    floats = [abs(finite(there, "Reading") - finite(here, "Reading")) for here, there in pushes_mm]
    return EndFloat(max(floats), math.fsum(floats) / len(floats), max(floats) - min(floats))


def _first_harmonic(values: Sequence[float], turned: Sequence[float]) -> tuple[float, float, list[float]]:
    """The parts along cos φ and sin φ by least squares, and what is left of each reading."""
    count = len(values)
    mean = math.fsum(values) / count
    cosines, sines = [math.cos(one) for one in turned], [math.sin(one) for one in turned]
    # From their means, so that the constant falls out of the equations.
    c = [one - math.fsum(cosines) / count for one in cosines]
    s = [one - math.fsum(sines) / count for one in sines]
    v = [one - mean for one in values]
    cc, ss, cs = _product(c, c), _product(s, s), _product(c, s)
    cv, sv = _product(c, v), _product(s, v)
    turn = cc * ss - cs * cs
    along, across = (cv * ss - sv * cs) / turn, (sv * cc - cv * cs) / turn
    left = [one - along * x - across * y for one, x, y in zip(v, c, s, strict=True)]
    return along, across, left


def _product(first: Sequence[float], second: Sequence[float]) -> float:
    return math.fsum(a * b for a, b in zip(first, second, strict=True))

"""Whether a reading makes sense by the sheet and by its gauge: a slip is asked back, never changed."""

from collections.abc import Sequence

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.errors import FarFromRange
from gudgeon.bench.made_against import shape_figures
from gudgeon.bench.measuring_errors import BelowZero, RepeatsApart
from gudgeon.kit.gauges import Gauge
from gudgeon.quantity.written import Amount, Printed
from gudgeon.sheet.inspections import Characteristic

UNIT = "Is the unit right?"
TEN_FOLD = 9.0
"""Repeats of one place that are this far apart are no repeats."""


def plausible(amount: Amount, of: Characteristic, gauge: Gauge | None) -> None:
    """Ask back when a reading is ten-fold or an inch away from the nearer end of all that the sheet prints of it."""
    base = BASE_UNIT[of.kind]
    value = amount.to(base)
    lows, highs = _ends(of, base)
    if value < 0 and _never_below_zero(of) and min((*lows, *highs), default=0.0) >= 0:
        raise BelowZero(str(amount), f"“{of.name}”", of.method)
    if gauge is not None and gauge.range is not None and not reached(value, of, gauge):
        hint = _slip_of_gauge(value, of, gauge, ends=(lows, highs))
        raise FarFromRange(str(amount), f"the range of the {gauge.name} ({gauge.range.text})", hint)
    if not any((*lows, *highs)):
        return
    least, most = _honest(of, lows, highs)
    slip = _inch_slip(value, lows, highs) if base == "mm" else ""
    apart = bool(lows) and not min(lows) / 3 <= value <= 3 * max((*lows, *highs))
    if (least <= abs(value) <= most or (value == 0 and of.method != "size")) and not (slip and apart):
        return
    raise FarFromRange(
        str(amount),
        f"what the sheet says of it ({_printed(of)[0].text})",
        slip or _digit_slip(value, (*lows, *highs)),
    )


def _never_below_zero(of: Characteristic) -> bool:
    """A size or a gap, unless it is of a kind that runs through 0; heights are read against a zero of their own."""
    return of.method in ("size", "gap") and of.kind not in ("angle", "temperature", "voltage")


def _slip_of_gauge(
    value: float, of: Characteristic, gauge: Gauge, *, ends: tuple[list[float], list[float]]
) -> str:
    """What a gauge cannot have read: the slip that alone would fit the sheet, or else the gauge; else another gauge."""
    base, (lows, highs) = BASE_UNIT[of.kind], ends
    ranges = [(lows, highs)] if any((*lows, *highs)) else []
    if gauge.range is not None and gauge.reads == of.kind:
        low, high = gauge.range.low_in(base), gauge.range.high_in(base)
        ranges += [([low], [high])] if low and high else []  # from 0 on anything would fit
    for least, most in ranges:
        found = (_inch_slip(value, least, most) if base == "mm" else "") or _digit_slip(
            value, (*least, *most)
        )
        if found != UNIT:
            return found
    return "Which gauge was it?"


def reached(value: float, of: Characteristic, gauge: Gauge) -> bool:
    """Whether a gauge reaches a value. Blades are stacked; a gap may be less than the least that a gauge shows."""
    if gauge.range is None or gauge.kind == "feeler blades":
        return True
    if of.kind == gauge.reads:
        low, high = gauge.range.low_in(BASE_UNIT[of.kind]), gauge.range.high_in(BASE_UNIT[of.kind])
        return (low is None or low <= value) and (high is None or value <= high)
    if (of.kind, gauge.reads) == ("length_difference", "length"):
        high = gauge.range.high_in("mm")
        return high is None or abs(value) <= high
    return True


def repeats_agree(name: str, repeated: Sequence[Amount]) -> None:
    """Ask back when readings of one place are ten-fold apart: a digit slipped, or a unit."""
    sizes = [abs(one.to(BASE_UNIT[one.kind.name])) for one in repeated if one.number]
    if len(sizes) > 1 and max(sizes) >= TEN_FOLD * min(sizes):
        least, most = (str(repeated[_place_of(repeated, end)]) for end in (min(sizes), max(sizes)))
        raise RepeatsApart(name, least, most)


def _place_of(repeated: Sequence[Amount], size: float) -> int:
    return next(at for at, one in enumerate(repeated) if abs(one.to(BASE_UNIT[one.kind.name])) == size)


def _printed(of: Characteristic) -> list[Printed]:
    """Everything that the sheet prints of what is read: plain limits, grades, and of lines their limits with shapes."""
    plain = [one.value for one in (of.new_range, of.wear_limit, of.required) if one is not None]
    grades = [one.value for one in of.grades.values()]
    shaped = [
        figure.value
        for path, figure in shape_figures(of).values()
        if of.method == "straightedge lines" and path.rpartition(".")[2] not in _NOT_OF_A_LINE
    ]
    return [*plain, *grades, *shaped]


_NOT_OF_A_LINE = ("over", "per", "span")
"""Figures of a limit that say along what, and not how much."""


def _ends(of: Characteristic, base: str) -> tuple[list[float], list[float]]:
    """The lower and the upper ends of everything that the sheet prints of it."""
    figures = _printed(of)
    lows, highs = [one.low_in(base) for one in figures], [one.high_in(base) for one in figures]
    return [end for end in lows if end is not None], [end for end in highs if end is not None]


def _honest(of: Characteristic, lows: list[float], highs: list[float]) -> tuple[float, float]:
    """Between what an honest reading of a worn part lies: a size is worn a little, a gap less than ten-fold.

    A pressure lies between: pounds taken for kilopascals are off seven-fold, a tired cylinder by less.

    However small a reading is, it is honest where the sheet prints no least.
    """
    most = max(map(abs, (*lows, *highs)))
    if of.method == "size" and of.kind == "length" and min((*lows, *highs)) > 0:
        return min((*lows, *highs)) * 0.7, most * 1.4
    times = 5.0 if of.method == "size" and of.kind != "length" else 9.99
    return max(0.0, min(lows, default=0.0)) / times, most * times


def _inch_slip(value: float, lows: list[float], highs: list[float]) -> str:
    """The words for millimeters taken for inches, or the other way, where that alone would fit the sheet."""
    least, most = min(lows, default=0.0) * 0.9, max((*lows, *highs)) * 1.1
    if least > 0 and least <= value * 25.4 <= most:
        return (
            f"As mm it is {value:.4g} mm, as inches it would be {value * 25.4:.4g} mm. Was it read in inches?"
        )
    if least <= value / 25.4 <= most and value > 0:
        as_mm = f"As inches it is {value:.4g} mm, as mm it would be {value / 25.4:.4g} mm."
        return f"{as_mm} Was it read in millimeters?"
    return ""


def _digit_slip(value: float, ends: tuple[float, ...]) -> str:
    for factor, hint in ((10.0, "Is a digit missing?"), (0.1, "Is a digit too many?")):
        if min(ends) * 0.9 <= value * factor <= max(ends) * 1.1:
            return hint
    return UNIT

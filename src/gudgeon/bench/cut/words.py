"""Figures of a cut in words: a value with its ± in both systems, and whether a limit is kept."""

from gudgeon.bench.cut.known import Known
from gudgeon.quantity.format import both, in_order, number
from gudgeon.quantity.units import convert

SAME_MM = 0.0005
"""What differs by less is the same to any shop, and less than this is nothing."""
FINE_MM = 0.02
"""What is uncertain by less is shown to the thousandth of a millimeter."""
MEANS = (
    "± is the expanded uncertainty (k = 2): about 95 of 100 such statements are true. It follows from the tolerance "
    "that the sheet prints, else from half its last digit, and from the error of the gauges; a limit is kept surely "
    "when all of it lies inside."
)
UNSURE = "the error of a gauge that goes into it is stated nowhere: it is more uncertain than is said"


def mm(value: float) -> str:
    """An amount in both systems, to the hundredth; what is nothing is said as nothing in both, and only that."""
    shown = value if abs(value) >= SAME_MM else 0.0
    return both(shown, kind="length_difference", decimals=3 if 0 < abs(shown) < 0.005 else 2)


def mm_as_read(value: float) -> str:
    """A difference of lengths to the hundredth, and to the thousandth where it is no whole number of hundredths."""
    hundredths = value * 100
    decimals = 2 if abs(hundredths - round(hundredths)) < 0.05 and abs(hundredths) > 0.5 else 3
    return both(value, kind="length_difference", decimals=decimals)


def plus_minus(known: Known, *, kind: str, decimals: int | None = None) -> str:
    """`1.005 ± 0.017 mm (0.0396 ± 0.0007 in)`; without uncertainty the value alone."""
    u = known.expanded
    shown = decimals if decimals is not None else _decimals(u, kind)
    if kind == "volume":
        return _pair(known.value, u, ("cm³", "in³"), (shown, shown + 1), kind)
    if kind in ("length", "length_difference"):
        return _pair(known.value, u, ("mm", "in"), (shown, min(shown + 2, 4)), kind)
    return _one(known.value, u, "°" if kind == "angle" else "", shown)


def _decimals(u: float, kind: str) -> int:
    return 3 if kind in ("length", "length_difference") and 0 < u < FINE_MM else 2


def _pair(value: float, u: float, units: tuple[str, str], decimals: tuple[int, int], kind: str) -> str:
    metric, inch = units
    other = convert(value, frm=metric, to=inch, kind=kind)
    other_u = convert(u, frm=metric, to=inch, kind=kind)
    return in_order(
        _one(value, u, f" {metric}", decimals[0]), inch=_one(other, other_u, f" {inch}", decimals[1])
    )


def _one(value: float, u: float, unit: str, decimals: int) -> str:
    spread = number(u, decimals=decimals)
    middle = number(value, decimals=decimals)
    # What rounds away is not shown as ± 0: it is less than what is shown.
    return f"{middle}{unit}" if float(spread) == 0 else f"{middle} ± {spread}{unit}"


def verdict(known: Known, *, limit: float, upper: bool, measure: str = "") -> str:
    """Whether a limit is kept: inside and outside only with all of the uncertainty on that side."""
    inside = limit - known.value if upper else known.value - limit
    slack = known.expanded + 1e-9
    if inside >= known.expanded - 1e-9:
        return "inside"
    if inside < -slack:
        return "outside"
    return f"in doubt: {measure}" if measure else "in doubt"


def bare(printed: str) -> str:
    """A limit without the word that says on which side it limits."""
    for word in ("min ", "max ", "at least ", "at most "):
        printed = printed.removeprefix(word)
    return printed

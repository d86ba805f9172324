"""Figures for people: sensible digits, both systems of units, never a minus zero.

Which system comes first is the person's own: the bench says it when it opens the kit (`show_first`), for all that
is shown in the same context afterwards. Nothing that is compared or stored depends on it.
"""

import math
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Literal

from gudgeon.quantity.errors import FigureNotFinite
from gudgeon.quantity.kinds import Kind
from gudgeon.quantity.kinds import kind as _kind
from gudgeon.quantity.units import convert


@dataclass(frozen=True, slots=True)
class _Style:
    """How a kind is shown: units of either system and the most decimals of each."""

    metric: str
    inch: str
    decimals: int
    inch_decimals: int


_STYLES: dict[str, _Style] = {
    "length": _Style("mm", "in", 3, 4),
    "length_difference": _Style("mm", "in", 3, 4),
    "distance": _Style("km", "mi", 1, 1),
    "altitude": _Style("m", "ft", 0, 0),
    "angle": _Style("°", "", 2, 0),
    "torque": _Style("N·m", "lbf·ft", 1, 1),
    "energy": _Style("J", "ft·lbf", 1, 1),
    "force": _Style("N", "lbf", 0, 0),
    "mass": _Style("kg", "lb", 3, 3),
    "area": _Style("mm²", "in²", 2, 4),
    "volume": _Style("cm³", "in³", 2, 3),
    "pressure_gauge": _Style("kPa", "psi", 0, 1),
    "pressure_absolute": _Style("kPa", "psi", 1, 2),
    "stress": _Style("MPa", "ksi", 0, 1),
    "temperature": _Style("°C", "°F", 1, 0),
    "temperature_difference": _Style("K", "°F", 1, 0),
    "time": _Style("s", "", 1, 0),
    "ratio": _Style("1", "", 3, 0),
    "number": _Style("1", "", 3, 0),
    "speed": _Style("r/min", "", 0, 0),
    "roughness": _Style("µm", "µin", 2, 0),
    "voltage": _Style("V", "", 2, 0),
    "stiffness": _Style("N/mm", "lbf/in", 0, 0),
    "compliance": _Style("µm/kN", "µin/lbf", 2, 3),
    "bending_stiffness": _Style("N·m²", "lbf·in²", 0, 0),
    "plate_rigidity": _Style("kN·mm", "lbf·in²/in", 0, 0),
    "beam_foundation": _Style("N/mm²", "lbf/in/in", 1, 0),
    "plate_foundation": _Style("N/mm³", "lbf/in³", 2, 0),
    "expansion": _Style("µm/(m·K)", "µin/(in·°F)", 1, 1),
    "density": _Style("kg/m³", "lb/ft³", 1, 2),
}


System = Literal["metric", "inch"]

_SAME = 1e-9  # in the base unit: closer together than anything that is shown
_FIRST: ContextVar[System] = ContextVar("first_system", default="metric")


def show_first(system: System) -> None:
    """From here on, in this context, show figures in this system first."""
    _FIRST.set(system)


def first_system() -> System:
    """The system that the person reads first."""
    return _FIRST.get()


def in_order(metric: str, *, inch: str) -> str:
    """A figure that was put into words in both systems, with the person's first and the other in brackets.

    Example:
        >>> in_order("40 N·m", inch="29.5 lbf·ft")
        '40 N·m (29.5 lbf·ft)'
    """
    first, other = (inch, metric) if _FIRST.get() == "inch" else (metric, inch)
    return f"{first} ({other})"


def units_shown(kind: Kind | str) -> tuple[str, ...]:
    """The units in which a kind is shown, metric before inch; one alone where both systems share it.

    Example:
        >>> units_shown("torque"), units_shown("angle")
        (('N·m', 'lbf·ft'), ('°',))
    """
    style = _STYLES[_kind(kind).name]
    return (style.metric, style.inch) if style.inch else (style.metric,)


def number(value: float, *, decimals: int) -> str:
    """A number with so many decimals, and never a minus zero.

    Example:
        >>> number(-0.0004, decimals=2), number(9.096, decimals=2)
        ('0.00', '9.10')
    """
    if not math.isfinite(value):
        raise FigureNotFinite(str(value))
    text = f"{value:.{decimals}f}"
    return text.removeprefix("-") if not text.strip("-0.") else text


def with_unit(value: float, symbol: str, *, decimals: int) -> str:
    """A number with its unit as it is printed.

    Example:
        >>> with_unit(90.0, "°", decimals=0), with_unit(40.0, "N·m", decimals=1)
        ('90°', '40.0 N·m')
    """
    shown = number(value, decimals=decimals)
    if symbol in ("", "1"):
        return shown
    return f"{shown}{symbol}" if symbol in ("°", "%") else f"{shown} {symbol}"


def both(
    value: float,
    *,
    kind: Kind | str,
    decimals: int | None = None,
    first: System | None = None,
    inch: str = "",
) -> str:
    """A value of the kind's base unit in both systems: the person's (or `first`), the other one in brackets.

    `inch` is the unit of inch and pound that a source prints, where that is not the usual one of the kind.

    Example:
        >>> both(0.05, kind="length_difference"), both(40.0, kind="torque", first="inch")
        ('0.05 mm (0.0020 in)', '29.5 lbf·ft (40 N·m)')
        >>> both(9.0, kind="torque", inch="lbf·in")
        '9 N·m (80 lbf·in)'
    """
    of = _kind(kind)
    style = _STYLES[of.name]
    own = convert(value, frm=of.base, to=style.metric, kind=of)
    shown = _decimals(own, style.decimals) if decimals is None else decimals
    metric = with_unit(own, style.metric, decimals=shown)
    if not style.inch:
        return metric
    symbol = inch or style.inch
    other = convert(value, frm=of.base, to=symbol, kind=of)
    usual = symbol == style.inch
    shown = _inch_decimals(other, shown, style) if usual else _for_digits(other, 2)
    text = with_unit(other, symbol, decimals=shown)
    return f"{text} ({metric})" if (first or _FIRST.get()) == "inch" else f"{metric} ({text})"


def alone(value: float, *, kind: Kind | str, decimals: int) -> str:
    """A value of the kind's base unit in the person's system alone, where both would say too much.

    Example:
        >>> alone(0.27, kind="length_difference", decimals=2)
        '0.27 mm'
    """
    of = _kind(kind)
    style = _STYLES[of.name]
    if _FIRST.get() == "metric" or not style.inch:
        return with_unit(
            convert(value, frm=of.base, to=style.metric, kind=of), style.metric, decimals=decimals
        )
    other = convert(value, frm=of.base, to=style.inch, kind=of)
    return with_unit(other, style.inch, decimals=_inch_decimals(other, decimals, style))


def both_ends(
    low: float, *, high: float, kind: Kind | str, decimals: int | None = None, middle: float | None = None
) -> str:
    """A range in both systems, each unit once; with a middle, `middle (low to high)`.

    Example:
        >>> both_ends(0.08, high=0.09, kind="length_difference", decimals=2)
        '0.08–0.09 mm (0.0031–0.0035 in)'
        >>> both_ends(0.11, high=0.17, kind="length_difference", decimals=2, middle=0.14)
        '0.14 (0.11 to 0.17) mm; 0.0055 (0.0043 to 0.0067) in'
    """
    of = _kind(kind)
    style = _STYLES[of.name]
    ends = [low, high] if middle is None else [middle, low, high]
    metric = [convert(value, frm=of.base, to=style.metric, kind=of) for value in ends]
    shown = max(_decimals(value, style.decimals) for value in metric) if decimals is None else decimals
    parts = [_joined([number(value, decimals=shown) for value in metric], style.metric)]
    if style.inch:
        inch = [convert(value, frm=of.base, to=style.inch, kind=of) for value in ends]
        finest = max(_inch_decimals(value, shown, style) for value in inch)
        parts.append(_joined([number(value, decimals=finest) for value in inch], style.inch))
    if _FIRST.get() == "inch":
        parts.reverse()
    if middle is not None:
        return "; ".join(parts)
    return f"{parts[0]} ({parts[1]})" if len(parts) == 2 else parts[0]


def known_between(low: float, *, high: float, kind: Kind | str, decimals: int | None = None) -> str:
    """What is known to lie between two ends, in both systems; an end that is open is `over` or `under` the other.

    Example:
        >>> known_between(0.05, high=math.inf, kind="length_difference")
        'over 0.05 mm (0.0020 in)'
        >>> known_between(0.05, high=0.05, kind="length_difference")
        '0.05 mm (0.0020 in)'
    """
    if math.isinf(high):
        return f"over {both(low, kind=kind, decimals=decimals)}"
    if math.isinf(low):
        return f"under {both(high, kind=kind, decimals=decimals)}"
    if math.isclose(low, high, rel_tol=0, abs_tol=_SAME):
        return both(high, kind=kind, decimals=decimals)
    return both_ends(low, high=high, kind=kind, decimals=decimals)


def _joined(numbers: list[str], symbol: str) -> str:
    first, *rest = numbers
    text = f"{first} ({rest[0]} to {rest[1]})" if len(rest) == 2 else f"{first}–{rest[0]}"
    return text if symbol in ("", "1") else f"{text}{'' if symbol in ('°', '%') else ' '}{symbol}"


def _decimals(value: float, most: int) -> int:
    """As few decimals as show the value, and never fewer than three digits of it need."""
    text = number(value, decimals=max(most, _for_digits(value, 3)))
    return len(text.rstrip("0").partition(".")[2]) if "." in text else 0


def _inch_decimals(value: float, metric_decimals: int, style: _Style) -> int:
    """The other system shows what the first one shows, neither finer nor coarser by much."""
    if value == 0:
        return 0
    if style.inch == "in":
        wanted = min(max(metric_decimals + 2, 3), style.inch_decimals)
    else:
        wanted = max(style.inch_decimals, min(metric_decimals, style.inch_decimals + 1))
    return max(wanted, _for_digits(value, 2))


def _for_digits(value: float, digits: int) -> int:
    """Decimals that show so many significant digits."""
    if value == 0:
        return 0
    return max(0, digits - 1 - math.floor(math.log10(abs(value))))

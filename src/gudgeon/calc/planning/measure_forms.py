"""Ages, uses and durations as they are written: in the unit of the first that has one; and money, in its currency."""

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.calc.input_errors import InputRefused
from gudgeon.calc.planning.network_errors import UnitNotTaken, UnitsOfTwoKinds
from gudgeon.errors import InputError
from gudgeon.quantity.format import in_order, number
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import split_amount

AND = "\0"
_HOURS = {"min": 1 / 60, "h": 1.0, "d": 24.0, "week": 168.0, "month": 730.5, "year": 8766.0}
"""A year of 365.25 days, and a month of a twelfth of it."""
_SPELLED = {
    "km": ("kilometer", "kilometers", "kilometre", "kilometres"),
    "mi": ("mile", "miles"),
    "min": ("mins", "minute", "minutes"),
    "h": ("hr", "hrs", "hour", "hours"),
    "d": ("day", "days"),
    "week": ("weeks",),
    "month": ("months",),
    "year": ("years", "yr", "yrs"),
}
_SYMBOLS = {word: symbol for symbol, words in _SPELLED.items() for word in (symbol, *words)}
OF_LIFE = {
    "km": "a distance", "mi": "a distance", "min": "time in use", "h": "time in use", "d": "time by the calendar",
    "week": "time by the calendar", "month": "time by the calendar", "year": "time by the calendar",
}  # fmt: skip
OF_WORK = dict.fromkeys(("min", "h", "d", "week"), "time")
_MANY = {"d": "days", "week": "weeks", "month": "months", "year": "years"}


@dataclass(frozen=True, slots=True)
class Scale:
    """The unit in which all that is alike counts; empty where none was written."""

    symbol: str

    def shown(self, value: float) -> str:
        """A figure with its unit; a distance in both systems."""
        if self.symbol in ("km", "mi"):
            km = convert(value, frm=self.symbol, to="km", kind="distance")
            mi, decimals = convert(km, frm="km", to="mi", kind="distance"), 0 if km >= 100 else 1
            return in_order(f"{number(km, decimals=decimals)} km", inch=f"{number(mi, decimals=decimals)} mi")
        return f"{digits(value)} {_MANY.get(self.symbol, self.symbol)}".rstrip()

    def each(self, rate: str) -> str:
        """A figure for one unit."""
        return f"{rate} for each {self.symbol or 'unit of use'}"


def read_alike(texts: Mapping[str, str], *, kinds: Mapping[str, str]) -> tuple[Scale, dict[str, float]]:
    """Figures that are set against each other, all in the unit of the first that has one.

    What stands behind `AND` in a key only tells keys apart: a refusal names what stands before it.
    """
    split = {key: _split(key, text, kinds) for key, text in texts.items()}
    first = next(((texts[key], symbol) for key, (_, symbol) in split.items() if symbol), None)
    if first is None:
        return Scale(""), {key: value for key, (value, _) in split.items()}
    written, unit = first
    found = {}
    for key, (value, symbol) in split.items():
        if symbol and kinds[symbol] != kinds[unit]:
            raise UnitsOfTwoKinds(written, kinds[unit], texts[key], kinds[symbol])
        found[key] = value if not symbol else _in(value, symbol, unit)
    return Scale(unit), found


def digits(value: float) -> str:
    """A figure with four digits that count, or all before the point."""
    return number(value, decimals=0) if abs(value) >= 1000 else f"{value:.4g}"


def money(value: float, *, currency: str) -> str:
    """An amount in its currency."""
    shown = f"{value:,.2f}" if abs(value) >= 0.1 or value == 0 else f"{value:.3g}"
    return f"{shown} {currency}".rstrip()


def percent(share: float) -> str:
    """A share of the whole."""
    return f"{number(100 * share, decimals=1 if share >= 0.01 or share == 0 else 3)} %"


def _split(key: str, text: str, kinds: Mapping[str, str]) -> tuple[float, str]:
    key = key.partition(AND)[0]
    try:
        value, unit = split_amount(text)
    except InputError as error:
        raise InputRefused(key, error) from None
    symbol = _SYMBOLS.get(unit.casefold(), "")
    if unit and symbol not in kinds:
        raise UnitNotTaken(key, text, unit, kinds)
    return float(value), symbol


def _in(value: float, symbol: str, unit: str) -> float:
    if symbol == unit:
        return value
    if symbol in _HOURS:
        return value * _HOURS[symbol] / _HOURS[unit]
    return convert(value, frm=symbol, to=unit, kind="distance")

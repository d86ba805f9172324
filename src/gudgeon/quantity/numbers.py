"""Numbers as people write them: decimals with a point, fractions, mixed numbers; nothing guessed."""

import re
from dataclasses import dataclass
from decimal import Decimal

from gudgeon.quantity.errors import (
    CommaAmbiguous,
    DecimalComma,
    DigitsParted,
    FigureBeyondReason,
    FigureNotFinite,
    FigureUnreadable,
)

MOST_DIGITS = 12  # before or after the point: no figure of an engine has more

# 1 1/2, 1-1/2, 1/2, 0.05, .05, 11.4e-6
NUMBER = r"[-+]?(?:[1-9]\d*[ -]\d+/\d+(?!\.?\d)|\d+/\d+(?!\.?\d)|(?:\d+\.\d*|\.\d+|\d+)(?:[eE][-+]?\d+)?)"
_MIXED = re.compile(r"^([-+]?)([1-9]\d*)[ -](\d+)/(\d+)$")
_FRACTION = re.compile(r"^([-+]?)(\d+)/(\d+)$")
_COMMA = re.compile(r"(?<![\d.,])(\d+)((?:,\d+)+)(\.\d+)?")
_POINTED = re.compile(r"(?<![\d.,])(\d{1,3}(?:\.\d{3})+),(\d+)(?![\d.,])")  # 1.000,5
_PARTED = re.compile(r"(?<![\d./])(\d{1,3})((?: \d{3})+)(\.\d+)?(?![\d/])")
_NOT_FINITE = re.compile(r"(?<![a-z])(nan|inf|infinity|∞)(?![a-z])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Number:
    """A number and one of its last printed digit; zero for a fraction, which is exact."""

    value: Decimal
    step: Decimal


def check_marks(text: str) -> None:
    """Refuse commas and parted thousands, each with what to write instead."""
    if _NOT_FINITE.search(text):
        raise FigureNotFinite(text)
    pointed = _POINTED.search(text)
    if pointed:
        raise DecimalComma(pointed[0], f"{pointed[1].replace('.', '')}.{pointed[2]}")
    comma = _COMMA.search(text)
    if comma:
        whole, groups, tail = comma[1], comma[2].split(",")[1:], comma[3] or ""
        joined = whole + "".join(groups) + tail
        if tail or len(groups) > 1:
            raise DigitsParted(comma[0], joined)
        if len(groups[0]) == 3 and whole.strip("0") and len(whole) <= 3:
            raise CommaAmbiguous(comma[0], f"{whole}.{groups[0]}", joined)
        raise DecimalComma(comma[0], f"{whole}.{groups[0]}")
    parted = _PARTED.search(text)
    if parted:
        raise DigitsParted(parted[0], parted[0].replace(" ", ""))


def read_number(text: str) -> Number:
    """The value of a number that NUMBER matched.

    Example:
        >>> read_number("1 1/2").value, read_number(".050").step
        (Decimal('1.5'), Decimal('0.001'))
    """
    mixed, fraction = _MIXED.match(text), _FRACTION.match(text)
    if mixed:
        sign, whole, over, under = mixed.groups()
    elif fraction:
        sign, over, under = fraction.groups()
        whole = "0"
    else:
        value = Decimal(text.rstrip("."))
        if value and abs(value.adjusted()) > MOST_DIGITS:
            raise FigureBeyondReason(text)
        exponent = value.as_tuple().exponent
        assert isinstance(exponent, int)  # NUMBER matches finite numbers only
        return Number(value, Decimal(1).scaleb(exponent))
    if max(map(len, (whole, over, under))) > MOST_DIGITS:
        raise FigureBeyondReason(text)
    if int(under) == 0 or (mixed and int(over) >= int(under)):
        raise FigureUnreadable(text, "number")
    value = Decimal(whole) + Decimal(over) / Decimal(under)
    return Number(-value if sign == "-" else value, Decimal(0))

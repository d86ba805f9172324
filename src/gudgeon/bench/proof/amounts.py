"""Printed figures as exact numbers with the half digit that printing may hide."""

from dataclasses import dataclass
from fractions import Fraction

from gudgeon.quantity.units import Unit, exactly
from gudgeon.quantity.written import Amount, Span

TOLERANCE_MARKS = ("±", "+/-", "+-")


@dataclass(frozen=True, slots=True)
class Exact:
    """A figure in the base unit of its kind: what is printed, and half of its last digit."""

    value: Fraction
    half: Fraction

    @property
    def low(self) -> Fraction:
        """The least that is printed so."""
        return self.value - self.half

    @property
    def high(self) -> Fraction:
        """The most that is printed so."""
        return self.value + self.half


def exact(amount: Amount) -> Exact:
    """An amount in the base unit of its kind."""
    value = Fraction(amount.number) * amount.unit.factor + amount.unit.offset
    return Exact(value, Fraction(amount.step) / 2 * amount.unit.factor)


def in_unit(value: Fraction, unit: Unit) -> Fraction:
    """A value of the base unit in another one."""
    return (value - unit.offset) / unit.factor


def agrees(one: Exact, *, other: Exact) -> bool:
    """Whether one value can be printed as both."""
    return abs(one.value - other.value) <= one.half + other.half


def apart(one: Exact, *, other: Exact) -> Fraction:
    """By how much two figures differ beyond their rounding."""
    return max(Fraction(0), abs(one.value - other.value) - one.half - other.half)


def ratio(one: Exact, *, other: Exact) -> Fraction:
    """How many times the larger is the smaller; 1 where one of them is zero."""
    if not one.value or not other.value:
        return Fraction(1)
    quotient = abs(one.value / other.value)
    return max(quotient, 1 / quotient)


def number_text(value: Fraction, *, decimals: int) -> str:
    """A number with so many decimals, half away from zero, never a minus zero."""
    scaled = abs(value) * 10**decimals
    whole = int(scaled + Fraction(1, 2))
    digits = f"{whole:0{decimals + 1}d}"
    text = f"{digits[:-decimals]}.{digits[-decimals:]}" if decimals else digits
    return f"-{text}" if value < 0 and whole else text


def with_unit(number: str, unit: Unit) -> str:
    """A number and its unit as they are printed."""
    if unit.symbol == "1":
        return number
    return f"{number}{unit.symbol}" if unit.symbol in ("°", "%") else f"{number} {unit.symbol}"


def shown(amount: Amount) -> str:
    """An amount as it was printed; a fraction as its decimal."""
    return with_unit(f"{amount.number:f}" if amount.step else number_of(amount), amount.unit)


def number_of(amount: Amount) -> str:
    """The number of an amount, without needless zeros where a fraction was printed."""
    if amount.step:
        return f"{amount.number:f}"
    return number_text(Fraction(amount.number), decimals=6).rstrip("0").rstrip(".")


def as_printed(amount: Amount, *, like: Amount) -> str:
    """An amount in the unit of another, with the decimals that one has, and two digits at least."""
    value = exactly(Fraction(amount.number), frm=amount.unit, to=like.unit)
    decimals = like.decimals if like.step else 4
    while value and decimals < 8 and abs(value) * 10**decimals < 10:
        decimals += 1
    return number_text(value, decimals=decimals)


def span_as(span: Span, *, like: Span) -> str:
    """A figure converted into the unit of another, with the digits that one has."""
    pattern = like.low or like.high
    assert pattern is not None  # a span has at least one end
    unit = pattern.unit
    both_toleranced = all(any(mark in one.text for mark in TOLERANCE_MARKS) for one in (span, like))
    if both_toleranced and span.nominal is not None and like.nominal is not None and span.high is not None:
        half = Fraction(span.high.number - span.nominal.number) * span.unit.factor / unit.factor
        middle = as_printed(span.nominal, like=like.nominal)
        return with_unit(f"{middle} ± {number_text(half, decimals=tolerance_decimals(like))}", unit)
    ends = [
        as_printed(end, like=other or pattern)
        for end, other in ((span.low, like.low), (span.high, like.high))
        if end is not None
    ]
    text = " to ".join(ends) if any(end.startswith("-") for end in ends) else "–".join(ends)
    return with_unit(ends[0] if span.single else text, unit)


def tolerance_decimals(span: Span) -> int:
    """Decimals of what stands behind ±."""
    for mark in TOLERANCE_MARKS:
        if mark in span.text:
            digits = span.text.split(mark)[1].strip().split(" ")[0]
            kept = "".join(letter for letter in digits if letter in "0123456789.")
            return len(kept.partition(".")[2])
    return 0

"""Pairs of units: correctly rounded is never an error, a ten-fold slip always is."""

import re
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal
from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from gudgeon.bench.proof.figures import Figure
from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.pairs import check_pair
from gudgeon.quantity.numbers import MOST_DIGITS
from gudgeon.quantity.units import Unit, exactly, units
from gudgeon.quantity.written import parse_printed

KINDS = ("length", "length_difference", "torque", "pressure_gauge", "volume", "force", "mass", "area")


@st.composite
def two_units(draw: st.DrawFn) -> tuple[str, Unit, Unit]:
    """A kind of quantity and two of its units."""
    kind = draw(st.sampled_from(KINDS))
    one, other = draw(st.lists(st.sampled_from(units(kind)), min_size=2, max_size=2, unique=True))
    return kind, one, other


@st.composite
def sizes(draw: st.DrawFn, *, least: int = 1) -> Fraction:
    """A size above zero, from far too small to far too large for an engine."""
    return Fraction(draw(st.integers(least, 10**6)), 10 ** draw(st.integers(0, 6)))


def rounded(value: Fraction, *, digits: int, how: str = ROUND_HALF_UP) -> Decimal:
    """A value with so many significant digits at least, as it would be printed."""
    exact = Decimal(value.numerator) / Decimal(value.denominator)
    decimals = max(0, digits - 1 - exact.adjusted())
    return exact.quantize(Decimal(1).scaleb(-decimals), rounding=how)


def proofread(kind: str, text: str) -> list[Finding]:
    """What the pair check finds in one printed figure."""
    return list(check_pair(Figure(("a",), "A", parse_printed(text, kind=kind), "")))


def shown(number: Decimal, unit: Unit) -> str:
    assume(
        max(map(len, f"{number:f}".split("."))) <= MOST_DIGITS
    )  # more is refused before anything is compared
    return f"{number:f} {unit.symbol}"


@settings(max_examples=400, deadline=None)
@given(two_units(), sizes(), st.integers(1, 5), st.integers(1, 5))
def test_a_pair_correctly_rounded_is_no_error(
    pair: tuple[str, Unit, Unit], value: Fraction, one_digits: int, other_digits: int
) -> None:
    kind, one, other = pair
    first = rounded(value, digits=one_digits)
    second = rounded(exactly(value, frm=one, to=other), digits=other_digits)
    found = proofread(kind, f"{shown(first, one)} ({shown(second, other)})")
    assert [finding for finding in found if finding.grade == "error"] == []


@settings(max_examples=300, deadline=None)
@given(two_units(), sizes(), st.integers(1, 5), st.integers(1, 5))
def test_a_printed_figure_converted_and_rounded_or_cut_off_is_no_error(
    pair: tuple[str, Unit, Unit], value: Fraction, one_digits: int, other_digits: int
) -> None:
    kind, one, other = pair
    first = rounded(value, digits=one_digits)
    converted = exactly(Fraction(first), frm=one, to=other)
    for how in (ROUND_HALF_UP, ROUND_DOWN):
        second = rounded(converted, digits=other_digits, how=how)
        found = proofread(kind, f"{shown(first, one)} ({shown(second, other)})")
        assert [finding.grade for finding in found if finding.grade != "note"] == []


@settings(max_examples=300, deadline=None)
@given(two_units(), sizes(), sizes(), st.integers(2, 5), st.integers(2, 5))
def test_a_range_correctly_rounded_is_no_error(
    pair: tuple[str, Unit, Unit], low: Fraction, more: Fraction, one_digits: int, other_digits: int
) -> None:
    kind, one, other = pair
    ends = (low, low + more)
    first = [rounded(end, digits=one_digits) for end in ends]
    second = [rounded(exactly(end, frm=one, to=other), digits=other_digits) for end in ends]
    assume(first[0] < first[1] and second[0] < second[1])
    text = f"{first[0]:f}–{first[1]:f} {one.symbol} ({second[0]:f}–{second[1]:f} {other.symbol})"
    assert [finding for finding in proofread(kind, text) if finding.grade == "error"] == []


@settings(max_examples=400, deadline=None)
@given(two_units(), sizes(), st.integers(1, 5), st.integers(1, 5), st.sampled_from((-1, 1)), st.booleans())
def test_a_ten_fold_slip_in_either_is_an_error(
    pair: tuple[str, Unit, Unit], value: Fraction, one_digits: int, other_digits: int, slip: int, second: bool
) -> None:
    kind, one, other = pair
    numbers = [
        rounded(value, digits=one_digits),
        rounded(exactly(value, frm=one, to=other), digits=other_digits),
    ]
    numbers[second] = numbers[second].scaleb(slip)
    found = proofread(kind, f"{shown(numbers[0], one)} ({shown(numbers[1], other)})")
    assert [finding.grade for finding in found] == ["error"]


@settings(max_examples=200, deadline=None)
@given(two_units(), sizes(), st.integers(3, 5), st.integers(3, 5), st.sampled_from((-1, 1)), st.booleans())
def test_a_ten_fold_slip_is_called_so(
    pair: tuple[str, Unit, Unit], value: Fraction, one_digits: int, other_digits: int, slip: int, second: bool
) -> None:
    """With three digits on both sides nothing plainer explains it, and what was meant is among the proposals."""
    kind, one, other = pair
    numbers = [
        rounded(value, digits=one_digits),
        rounded(exactly(value, frm=one, to=other), digits=other_digits),
    ]
    meant = numbers[second]
    numbers[second] = meant.scaleb(slip)
    unit = (one, other)[second]
    found = proofread(kind, f"{shown(numbers[0], one)} ({shown(numbers[1], other)})")
    assert "ten-fold slip" in found[0].digit
    proposed = re.findall(re.escape(shown(numbers[second], unit)) + r" for (\S+) ", found[0].digit)
    assert [Decimal(number) for number in proposed] == [meant]

"""What holds for every figure and every unit, whatever the numbers."""

import math
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from gudgeon.errors import InputError
from gudgeon.quantity.format import both, number
from gudgeon.quantity.kinds import KINDS, Kind
from gudgeon.quantity.units import convert, exactly, units
from gudgeon.quantity.written import parse_amount, parse_printed

FINITE = st.floats(min_value=-1e9, max_value=1e9, allow_nan=False)
DECIMAL = st.decimals(min_value=0, max_value=10000, places=3, allow_nan=False)
KIND = st.sampled_from(list(KINDS.values()))


@st.composite
def unit_pairs(draw: st.DrawFn) -> tuple[Kind, str, str]:
    kind = draw(KIND)
    symbols = st.sampled_from([one.symbol for one in units(kind)])
    return kind, draw(symbols), draw(symbols)


@given(FINITE, unit_pairs())
def test_a_conversion_comes_back(value: float, pair: tuple[Kind, str, str]) -> None:
    kind, frm, to = pair
    there = convert(value, frm=frm, to=to, kind=kind)
    back = convert(there, frm=to, to=frm, kind=kind)
    scale = 500.0 if kind.name == "temperature" else 0.0  # zero points lie up to 460° away
    # below 1e-290 a factor of a million leaves fewer digits than a float has
    assert back == pytest.approx(value, rel=1e-14, abs=max(1e-13 * scale, 1e-290))


@given(FINITE, FINITE, unit_pairs())
def test_a_conversion_keeps_the_order(first: float, second: float, pair: tuple[Kind, str, str]) -> None:
    kind, frm, to = pair
    assume(first < second)
    ours = [convert(value, frm=frm, to=to, kind=kind) for value in (first, second)]
    assert ours[0] <= ours[1]


@given(unit_pairs(), st.fractions(-1000, 1000, max_denominator=1000))
def test_a_detour_over_the_base_unit_changes_nothing(pair: tuple[Kind, str, str], value: Fraction) -> None:
    kind, frm, to = pair
    by_symbol = {one.symbol: one for one in units(kind)}
    start, end, base = by_symbol[frm], by_symbol[to], by_symbol[kind.base]
    detour = exactly(exactly(value, frm=start, to=base), frm=base, to=end)
    assert detour == exactly(value, frm=start, to=end)


@given(KIND, st.data(), DECIMAL)
def test_an_amount_reads_back_as_it_is_written(kind: Kind, data: st.DataObject, value: object) -> None:
    unit = data.draw(st.sampled_from(units(kind)))
    amount = parse_amount(f"{value} {unit.symbol}", kind=kind)
    assert (amount.number, amount.unit) == (value, unit)
    again = parse_amount(str(amount), kind=kind)
    assert (again.number, again.unit) == (amount.number, amount.unit)


@given(KIND, st.data(), DECIMAL, DECIMAL)
def test_a_range_holds_its_ends_and_its_middle(kind: Kind, data: st.DataObject, a: object, b: object) -> None:
    unit = data.draw(st.sampled_from(units(kind))).symbol
    low, high = sorted((a, b), key=lambda one: float(str(one)))
    for dash in ("–", "-", " to "):
        found = parse_printed(f"{low}{dash}{high} {unit}", kind=kind)
        assert found.low_in(unit) == float(str(low))
        assert found.high_in(unit) == float(str(high))
        assert float(str(low)) - 1e-9 <= found.middle_in(unit) <= float(str(high)) + 1e-9


@given(st.text(max_size=40), KIND)
def test_any_text_is_a_figure_or_a_refusal(text: str, kind: Kind) -> None:
    try:
        found = parse_printed(text, kind=kind)
    except InputError as error:
        refusal = str(error)
    else:
        assert found.spans
        return
    assert refusal
    assert refusal.count("\n") <= 1


SIGNS = st.text(alphabet="0123456789.,/ -–±+()[]eE°′'\"NmlbfftinkgµPaor tomax<≤", max_size=30)


@given(SIGNS, st.sampled_from(["length", "torque", "angle", "pressure_gauge", "ratio"]))
def test_text_that_looks_like_a_figure_is_one_or_is_refused(text: str, kind: str) -> None:
    try:
        found = parse_printed(text, kind=kind)
    except InputError:
        return
    for span in found.spans:
        ends = [end.number for end in (span.low, span.high) if end is not None]
        assert ends
        assert all(end.is_finite() for end in ends)
        if span.low is not None and span.high is not None:
            assert span.low.to(span.low.unit.symbol) <= span.high.to(span.low.unit.symbol)


@given(st.floats(min_value=-1e6, max_value=1e6), KIND)
def test_what_is_shown_reads_back_close_to_what_was(value: float, kind: Kind) -> None:
    assume(value == 0 or abs(value) > 1e-4)
    shown = both(value, kind=kind)
    found = parse_printed(shown, kind=kind)
    leading = found.first.low
    assert leading is not None
    half = max(0.5 * 10.0**-leading.decimals, 0.0)
    assert leading.to(leading.unit.symbol) == pytest.approx(
        convert(value, frm=kind.base, to=leading.unit.symbol, kind=kind), abs=half * (1 + 1e-9), rel=1e-12
    )


@given(FINITE, st.integers(0, 6))
def test_a_number_shows_no_minus_zero(value: float, decimals: int) -> None:
    shown = number(value, decimals=decimals)
    assert not (shown.startswith("-") and math.isclose(float(shown), 0.0, abs_tol=0.0))
    assert float(shown) == pytest.approx(value, abs=0.5 * 10.0**-decimals * (1 + 1e-9), rel=1e-12)

"""Accounts of any costs: exact where nothing is uncertain, in order where something is, each currency by itself."""

from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.bench.costs.expected import Expected
from gudgeon.bench.costs.ranges import total
from tests.unit.bench.costs.priced import asked, cost, paid, priced_job

CENTS = st.decimals(0, 5000, places=2)


@st.composite
def expected(draw: st.DrawFn) -> Expected:
    low, likely, high = sorted(draw(st.tuples(CENTS, CENTS, CENTS)))
    chance = draw(st.sampled_from((Decimal("0.1"), Decimal("0.5"), Decimal(1))))
    return Expected("head", "head", "shop", low, likely, high, "EUR", chance, "start", "", 1)


@settings(max_examples=30, deadline=None)
@given(st.lists(expected(), max_size=6), expected(), CENTS)
def test_a_range_is_in_order_and_another_cost_makes_nothing_cheaper(
    known: list[Expected], another: Expected, fixed: Decimal
) -> None:
    without = total(fixed, known, first="ab" * 32)
    found = total(fixed, [*known, another], first="ab" * 32)
    for one in (without.range("EUR"), found.range("EUR")):
        assert float(fixed) * 0.995 - 0.5 <= one.low <= one.middle <= one.high
    least = fixed + sum(one.low for one in known if one.chance == 1)
    most = fixed + sum(one.high for one in known)
    assert without.within(most) == 1.0
    if least:
        assert without.within(least - Decimal("0.01")) == 0.0
    for limit in (fixed, most, most + another.likely):
        assert found.within(limit) <= without.within(limit) + 1e-12


@settings(max_examples=8, deadline=None)
@given(st.lists(st.tuples(CENTS, st.sampled_from(("EUR", "USD")), st.booleans()), min_size=1, max_size=5))
def test_what_is_certain_is_summed_exactly_in_each_currency(rows: list[tuple[Decimal, str, bool]]) -> None:
    with TemporaryDirectory() as folder:
        job = priced_job(Path(folder))
        sums: dict[str, Decimal] = {}
        for number, (amount, currency, is_paid) in enumerate(rows):
            cost(job, f"thing {number}", f"{amount:f}", currency=currency)
            if is_paid and amount:
                paid(job, f"thing {number}", f"{amount:f}", currency=currency)
            sums[currency] = sums.get(currency, Decimal(0)) + amount
        found = {one.currency: one for one in asked(job, closing=True).accounts}
        assert set(found) == set(sums)
        for currency, amount in sums.items():
            closing = found[currency].closing
            assert closing is not None
            assert Decimal(closing.expected.removesuffix(f" {currency}").replace(",", "")) == amount

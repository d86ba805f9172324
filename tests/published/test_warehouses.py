"""Warehouses to open: buying with shipping and nothing else. Optima as printed with the problems.

J. E. Beasley, OR-Library: distributing test problems by electronic mail, Journal of the Operational Research Society
41 (1990): problems cap71 to cap74 of uncapacitated warehouse location and their optima, as republished (PRINTED).
The four problems share one table (tests/published/data/warehouse_16x50.txt: a row for each customer, a column for each
warehouse, read in a republished copy of cap71) and differ in what a warehouse costs; warehouse 11 costs nothing.
"""

from decimal import Decimal
from pathlib import Path

import pytest

from gudgeon.calc.planning.purchase import Needed, Offer, Supplier, least_cost

TABLE = Path(__file__).parent / "data" / "warehouse_16x50.txt"
COIN = 10_000  # all figures of the table are whole in ten-thousandths


def coins(text: str) -> int:
    whole = Decimal(text) * COIN
    assert whole == int(whole)
    return int(whole)


@pytest.mark.parametrize(
    ("to_open", "printed"),
    [(7500, "932615.750"), (12500, "977799.400"), (17500, "1010641.450"), (25000, "1034976.975")],
)
def test_the_printed_optimum(to_open: int, printed: str) -> None:
    rows = [line.split() for line in TABLE.read_text(encoding="utf-8").splitlines()]
    warehouses = [
        Supplier(f"w{at}", f"Warehouse {at}", shipping=0 if at == 11 else to_open * COIN)
        for at in range(1, 17)
    ]
    found = least_cost(
        [Needed(f"c{at}", f"Customer {at}") for at in range(len(rows))],
        suppliers=warehouses,
        offers=[
            Offer(f"c{customer}", f"w{at}", coins(cost))
            for customer, row in enumerate(rows)
            for at, cost in enumerate(row, start=1)
        ],
    )
    assert found.proven
    assert found.closed > 0
    assert found.total == coins(printed)

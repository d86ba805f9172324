"""What was spent on the job, and what came back: as it was written down, summed by currency."""

from datetime import datetime
from decimal import Decimal

from gudgeon.bench.context import Bench
from gudgeon.bench.costs.amounts import digits, places_of
from gudgeon.bench.costs.model import Payment, Sum
from gudgeon.bench.reason import when


def payments(bench: Bench) -> tuple[Payment, ...]:
    """Every amount, in the order in which it was written down; all of one currency with the same decimals."""
    places = {
        currency: places_of(Decimal(one.amount) for one in bench.state.money if one.currency == currency)
        for currency in {one.currency for one in bench.state.money}
    }
    return tuple(
        Payment(
            when(datetime.fromisoformat(one.time)),
            one.what,
            digits(Decimal(one.amount), places=places[one.currency]),
            one.currency,
            one.way,
            one.part,
            one.to,
        )
        for one in bench.state.money
    )


def sums(bench: Bench) -> tuple[Sum, ...]:
    """What was spent and what came back, by currency."""
    found: dict[str, dict[str, Decimal]] = {}
    for one in bench.state.money:
        ways = found.setdefault(one.currency, {"spent": Decimal(0), "got back": Decimal(0)})
        ways[one.way] += Decimal(one.amount)
    return tuple(
        Sum(
            currency,
            digits(ways["spent"]),
            digits(ways["got back"]),
            digits(ways["spent"] - ways["got back"]),
        )
        for currency, ways in sorted(found.items())
    )

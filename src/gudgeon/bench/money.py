"""What was spent on the job, and what came back: as it was written down, summed by currency."""

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.reason import when


@dataclass(frozen=True, slots=True)
class Payment:
    """One amount: for what, to whom, which way it went."""

    when: str
    what: str
    amount: str
    currency: str
    way: str
    part: str
    to: str


@dataclass(frozen=True, slots=True)
class Sum:
    """What was spent in one currency, less what came back."""

    currency: str
    spent: str
    back: str
    total: str


@dataclass(frozen=True, slots=True)
class Spending:
    """Every amount, and the sums."""

    heading: Heading
    payments: tuple[Payment, ...]
    sums: tuple[Sum, ...]


def spending(bench: Bench) -> Spending:
    """What the job has cost so far, as far as it was written down."""
    payments = tuple(
        Payment(
            when(datetime.fromisoformat(one.time)),
            one.what,
            one.amount,
            one.currency,
            one.way,
            one.part,
            one.to,
        )
        for one in bench.state.money
    )
    found: dict[str, dict[str, Decimal]] = {}
    for one in bench.state.money:
        ways = found.setdefault(one.currency, {"spent": Decimal(0), "got back": Decimal(0)})
        ways[one.way] += Decimal(one.amount)
    sums = tuple(
        Sum(currency, f"{ways['spent']:f}", f"{ways['got back']:f}", f"{ways['spent'] - ways['got back']:f}")
        for currency, ways in sorted(found.items())
    )
    return Spending(bench.heading("What did it cost?"), payments, sums)

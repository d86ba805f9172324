"""Whether an amount in the book stands for a part already, so that the price of the part is not counted beside it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from gudgeon.bench.costs.expected import Expected
from gudgeon.bench.costs.named import names
from gudgeon.bench.costs.owed import Owed
from gudgeon.bench.costs.said import Approval
from gudgeon.book.plan_state import Order
from gudgeon.book.state import MoneyState


@dataclass(frozen=True, slots=True)
class Covered:
    """What stands for parts: costs that are expected, amounts that were approved, payments of which something is left.

    `orders` are those that stand, without what went back; `owed` is what is not paid of them.
    """

    today: Mapping[str, Expected]
    approved: Mapping[str, Approval]
    payments: Mapping[str, Sequence[MoneyState]]
    orders: Mapping[str, Sequence[Order]]
    owed: Mapping[str, Owed]

    def has(self, key: str, *, name: str) -> bool:
        """Whether any amount stands for a part.

        That of another thing does by its words, as “Gaskets and seals” names every gasket. Its own cost does until
        something of it is ordered for an amount, or paid; its own payments do while nothing of it is ordered: from
        then on the orders say how many were bought, and the rest is still to be paid.
        """
        words = [one.what for other, one in self._expected().items() if other != key or self.counts(key)]
        for other, each in self.payments.items():
            if spent(each) and other != key:
                words += [one.what for one in each]
        of = self.owed.get(key)
        own = of is not None and not of.standing and of.besides and spent(self.payments.get(key, ()))
        return own or any(names(text, part=name) for text in words)

    def counts(self, key: str) -> bool:
        """Whether what was expected or approved of a thing still counts: no order and no payment took its place."""
        one = self._expected().get(key)
        if one is None:
            return False
        of, payments = self.owed.get(key), self.payments.get(key, ())
        paid = any(each.way == "spent" and each.currency == one.currency for each in payments)
        ordered = any(each.amount and each.currency == one.currency for each in self.orders.get(key, ()))
        return not ordered and (not paid or (of is not None and of.gone))

    def _expected(self) -> dict[str, Expected | Approval]:
        agreed = {key: one for key, one in self.approved.items() if one.amount is not None}
        return {**agreed, **{key: one for key, one in self.today.items() if not one.nothing}}


def spent(payments: Sequence[MoneyState]) -> bool:
    """Whether more was spent than came back, in any currency."""
    left: dict[str, Decimal] = {}
    for one in payments:
        amount = Decimal(one.amount) if one.way == "spent" else -Decimal(one.amount)
        left[one.currency] = left.get(one.currency, Decimal(0)) + amount
    return any(amount > 0 for amount in left.values())

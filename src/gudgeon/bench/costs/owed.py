"""What of each order is still to be paid: its payments are laid on the orders of a thing, one by one."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from gudgeon.book.plan_state import Order
from gudgeon.book.state import MoneyState

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Owed:
    """What is not paid of the orders that stand, by the entry of each.

    `open` are those of which it is not written down for how much they were ordered, nor that anything was paid;
    `standing` is whether any order stands, `besides` whether anything was paid that is for none, not even for one that
    went back; `gone` whether all that was ordered and paid went back.
    """

    amounts: Mapping[str, tuple[Decimal, str]]
    open: tuple[str, ...]
    standing: bool
    besides: bool
    gone: bool

    def in_currency(self, currency: str) -> Decimal:
        """What is still to be paid in one currency."""
        return sum((amount for amount, one in self.amounts.values() if one == currency), NOTHING)


@dataclass(slots=True)
class _Bill:
    """One order: what is left of it to pay (None: not said), and whether anything was paid for it."""

    order: Order
    left: Decimal | None
    paid: bool = False

    def takes(self, currency: str) -> bool:
        """Whether a payment in this currency may be for it."""
        if self.left is None:
            return not self.paid
        return self.left > 0 and self.order.currency == currency


def owed(
    orders: Sequence[Order],
    payments: Sequence[MoneyState],
    *,
    numbers: Mapping[str, int],
    here: Collection[str],
    returned: Collection[str],
) -> Owed:
    """What is still to be paid for the orders of one thing; its payments in the order in which they were written down.

    A payment is for the order of which exactly that is left, else for the oldest that was there and is not paid; what
    was paid before anything was ordered is for what was ordered then. An order without an amount takes one payment, and
    is paid. For what is here and was paid in part no more is owed: that is what it cost. What went back is not owed.
    """
    # An order that went back was paid: its money came back.
    ordered = sorted(orders, key=lambda one: one.entry not in returned)
    bills = [_Bill(one, Decimal(one.amount) if one.amount else None) for one in ordered]
    besides = False
    for payment in (one for one in payments if one.way == "spent"):
        number = numbers[payment.entry]
        before = [one for one in bills if numbers[one.order.entry] < number] or bills
        placed = _pay(before, bills, Decimal(payment.amount), currency=payment.currency)
        besides = besides or not placed
    stand = [one for one in bills if one.order.entry not in returned]
    return Owed(
        {
            one.order.entry: (one.left, one.order.currency)
            for one in stand
            if one.left and not (one.paid and one.order.entry in here)
        },
        tuple(one.order.entry for one in stand if one.left is None and not one.paid),
        bool(stand),
        besides,
        bool(orders) and not stand and not besides,
    )


def _pay(before: Sequence[_Bill], bills: Sequence[_Bill], amount: Decimal, *, currency: str) -> bool:
    """Lay a payment on the orders that were there before it, or on a later one that it pays exactly; whether it was."""
    for exact in (before, bills):
        found = next((one for one in exact if one.takes(currency) and one.left == amount), None)
        if found is None and any(one.takes(currency) for one in exact):
            break
        if found is not None:
            found.left, found.paid = NOTHING, True
            return True
    placed = False
    for one in before:
        if amount > 0 and one.takes(currency):
            one.paid = placed = True
            share = amount if one.left is None else min(amount, one.left)
            one.left = None if one.left is None else one.left - share
            amount -= share
    return placed

"""The lines of an account: what was expected, ordered and spent for the same thing, laid over one another."""

from dataclasses import dataclass
from decimal import Decimal

from gudgeon.bench.costs.amounts import exact, spent_words
from gudgeon.bench.costs.expected import Expected
from gudgeon.bench.costs.facts import Facts
from gudgeon.bench.costs.model import LineState
from gudgeon.bench.costs.said import Approval

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Line:
    """One thing in one currency as it stands today.

    `fixed` is what counts for sure, `to_order` what of that is only asked for what is still to be ordered; `drawn` is
    what is still uncertain about it. Both where something came back before anything was spent.
    """

    key: str
    what: str
    of: str
    state: LineState
    fixed: Decimal
    to_order: Decimal
    drawn: Expected | None
    expected: Expected | None
    agreed: Decimal | None
    spent: Decimal | None
    basis: str
    notes: tuple[str, ...]

    @property
    def owed(self) -> Decimal:
        """What of it is agreed, and not paid."""
        return self.fixed - self.to_order - (self.spent or NOTHING) if self.agreed is not None else NOTHING


@dataclass(frozen=True, slots=True)
class _Said:
    """What the book says of one thing in one currency; None where it says nothing."""

    expected: Expected | None
    ordered: Decimal | None
    paid: Decimal | None
    back: Decimal | None
    approval: Approval | None
    allowed: Decimal | None
    price: Decimal | None
    unpaid: Decimal
    gone: bool

    @property
    def spent(self) -> Decimal | None:
        """What was paid, less what came back."""
        if self.paid is None and self.back is None:
            return None
        return (self.paid or NOTHING) - (self.back or NOTHING)

    @property
    def to_order(self) -> Decimal:
        """What is asked for the pieces that are still to be ordered; nothing where somebody said no to them."""
        declined = self.approval is not None and self.approval.answer == "no"
        return NOTHING if self.price is None or declined else self.price

    @property
    def empty(self) -> bool:
        """Whether nothing of it is in this currency."""
        return all(one is None for one in (self.expected, self.ordered, self.spent, self.allowed, self.price))


def lines(found: Facts, currency: str) -> tuple[Line, ...]:
    """The lines of one currency, in the order in which they were first mentioned."""
    made = ((key, _said(found, key, currency)) for key in found.keys)
    return tuple(_line(found, key, one, currency) for key, one in made if not one.empty)


def _said(found: Facts, key: str, currency: str) -> _Said:
    expected, approval, priced = found.today.get(key), found.approved.get(key), found.prices.get(key)
    if expected is not None and (expected.currency != currency or expected.nothing):
        expected = None
    orders = [
        Decimal(one.amount) for one in found.orders.get(key, ()) if one.amount and one.currency == currency
    ]
    known = found.at_price.get(key)
    at_price = [known.money.amount] if known is not None and known.money.currency == currency else []
    orders += at_price
    owed = found.owed.get(key)
    payments = [one for one in found.payments.get(key, ()) if one.currency == currency]
    paid, back = (
        [Decimal(one.amount) for one in payments if one.way == way] for way in ("spent", "got back")
    )
    yes = approval is not None and approval.answer == "yes" and approval.currency == currency
    return _Said(
        expected=expected,
        ordered=sum(orders, NOTHING) if orders else None,
        paid=sum(paid, NOTHING) if paid else None,
        back=sum(back, NOTHING) if back else None,
        approval=approval,
        allowed=approval.amount if approval is not None and yes else None,
        price=priced.money.amount if priced is not None and priced.money.currency == currency else None,
        unpaid=sum(at_price, owed.in_currency(currency) if owed is not None else NOTHING),
        gone=owed is not None and owed.gone,
    )


def _line(found: Facts, key: str, said: _Said, currency: str) -> Line:
    state, fixed, drawn = _standing(said)
    to_order = said.to_order if drawn is None and state != "declined" else NOTHING
    priced = found.prices.get(key)
    return Line(
        key=key,
        what=_called(found, key, said),
        of=_kind(found, key, said),
        state=state,
        fixed=fixed,
        to_order=to_order,
        drawn=drawn,
        expected=said.expected,
        agreed=said.ordered if said.ordered is not None else said.allowed,
        spent=said.spent,
        basis=said.expected.basis
        if said.expected is not None
        else priced.basis
        if priced is not None
        else "",
        notes=tuple(_notes(found, key, said, state, currency)),
    )


def _standing(said: _Said) -> tuple[LineState, Decimal, Expected | None]:
    """How a thing stands, what of it counts for sure, and what is still uncertain.

    What is spent replaces what was expected, unless all of it went back. What is not paid of the orders is still to be
    paid, whatever came back; pieces that are still to be ordered come on top. What came back before anything was spent
    settles nothing.
    """
    spent = said.spent or NOTHING
    if said.paid is not None and not said.gone:
        return "spent", spent + said.unpaid + said.to_order, None
    if said.ordered is not None:
        return "agreed", spent + said.unpaid + said.to_order, None
    if said.approval is not None and said.approval.answer == "no":
        return "declined", spent, None
    if said.expected is not None:
        return "agreed" if said.approval is not None else "expected", spent, said.expected
    if said.allowed is not None:
        return "agreed", said.allowed + spent, None
    return ("expected" if said.price is not None else "spent"), said.to_order + spent, None


def _called(found: Facts, key: str, said: _Said) -> str:
    """What a thing is called: a part as the sheet calls it, else as it was said first."""
    if key in found.names:
        return found.names[key]
    if said.expected is not None:
        return said.expected.what
    if said.approval is not None:
        return said.approval.what
    paid = found.payments.get(key, ())
    return paid[0].what if paid else key


def _kind(found: Facts, key: str, said: _Said) -> str:
    if said.expected is not None and said.expected.of != "other":
        return said.expected.of
    return "part" if key in found.names else "other"


def _notes(found: Facts, key: str, said: _Said, state: LineState, currency: str) -> list[str]:
    """What has to be said of a line: spent against a no, spent where nothing or another currency was expected."""
    notes = []
    other = found.today.get(key)
    if state == "spent" and said.paid is not None:
        if said.approval is not None and said.approval.answer == "no":
            notes.append(f"{said.approval.by} said no to it, and it was paid all the same")
        if other is not None and other.currency != currency and not other.nothing:
            notes.append(
                f"expected in {other.currency} and paid in {currency}, so it stands in both accounts: write 0 for what "
                "was expected once nothing more comes"
            )
        elif said.ordered is None and (unpaid := _unpaid_elsewhere(found, key, currency)):
            notes.append(
                f"ordered in {unpaid} and paid in {currency}, so it stands in both accounts: strike the order, and "
                f"write it down once more with what it came to in {currency}"
            )
        elif (
            all(one is None for one in (said.expected, said.ordered, said.allowed))
            and key not in found.orders
            and not said.gone
        ):
            notes.append("nothing was expected under these words, so it comes on top")
        elif (
            said.expected is not None
            and (said.spent or NOTHING) + said.to_order < said.expected.low
            and not said.ordered
        ):
            notes.append(
                f"less than the {exact(said.expected.low, currency)} expected at best: if more comes, write that down "
                "as a cost of its own"
            )
    if said.paid is not None and (said.spent or NOTHING) < 0:
        more = exact(-(said.spent or NOTHING), currency)
        notes.append(f"{more} more came back than was paid for it: look whether both amounts are right")
    if state == "agreed" and said.approval is not None and said.approval.answer == "no":
        notes.append(f"{said.approval.by} said no to it, and it is ordered all the same")
    if state == "declined" and said.approval is not None:
        notes.append(f"{said.approval.by} said no: it is not in the sum")
    known = found.at_price.get(key)
    if known is not None and known.money.currency == currency:
        notes.append(known.basis)
    if said.paid is not None and said.unpaid:
        notes.append(f"{exact(said.unpaid, currency)} of the order is not paid yet")
    if (said.paid is not None or said.ordered is not None) and said.to_order:
        notes.append(f"{exact(said.to_order, currency)} is asked for what is still to be ordered")
    return notes


def _unpaid_elsewhere(found: Facts, key: str, currency: str) -> str:
    """Another currency in which an order of a thing is not paid; nothing where there is none."""
    owed = found.owed.get(key)
    amounts = owed.amounts.values() if owed is not None else ()
    return next((other for amount, other in amounts if amount and other != currency), "")


def came_to(line: Line, currency: str, *, verb: str) -> str:
    """What a thing of which nothing is uncertain comes to, in words: spent, ordered, asked for the rest."""
    sure = line.fixed - line.to_order
    if line.state == "spent":
        paid = line.spent or NOTHING
        told = [spent_words(paid, currency) + ("" if paid < 0 else " spent")] if paid else []
        told += [f"{exact(sure - paid, currency)} ordered"] if sure > paid else []
    else:
        told = (
            [f"{exact(sure, currency)} {verb}" if sure >= 0 else spent_words(sure, currency)] if sure else []
        )
    told += [f"{exact(line.to_order, currency)} asked for it"] if line.to_order else []
    return " and ".join(told) or f"{exact(NOTHING, currency)} {verb}"

"""What a purchase is made of: parts, suppliers, prices, orders; and the numbers that none of them can have."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from gudgeon.calc.planning.purchase_errors import (
    AmountNegative,
    CountNotPositive,
    CurrenciesMixed,
    NamedTwice,
    NothingToBuy,
    SupplierUnknown,
)


@dataclass(frozen=True, slots=True)
class Needed:
    """A part to buy: how many, and within how many days from the order where it has a date."""

    key: str
    name: str
    quantity: int = 1
    within_days: int | None = None


@dataclass(frozen=True, slots=True)
class Supplier:
    """A supplier: shipping once for an order, free from a value of goods, least value of an order, days until it comes.

    Amounts are in the smallest coin of the currency.
    """

    key: str
    name: str
    shipping: int = 0
    free_from: int | None = None
    least_order: int = 0
    lead_days: int = 0
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Offer:
    """An article of a supplier that serves as a part: the price of a pack, how many are in it.

    Several offers of one supplier for one part are alternatives; one of them is bought.
    """

    part: str
    supplier: str
    price: int
    pack: int = 1
    article: str = ""
    lead_days: int | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One part of an order: so many packs, so many pieces in them, and what they cost."""

    part: str
    article: str
    packs: int
    pieces: int
    cost: int


@dataclass(frozen=True, slots=True)
class Order:
    """What is bought from one supplier: goods, shipping, and the days until the last of it comes."""

    supplier: str
    lines: tuple[Line, ...]
    goods: int
    shipping: int
    lead_days: int

    @property
    def total(self) -> int:
        """Goods and shipping."""
        return self.goods + self.shipping


@dataclass(frozen=True, slots=True)
class Purchase:
    """The cheapest purchase found, and what is known of every other.

    `bound` is what no purchase costs less than: equal to the total where that is proven. `alone` are the purchases
    from one supplier who has everything, the cheapest first. `closed` counts the branches of the proof.
    """

    orders: tuple[Order, ...]
    bound: int
    alone: tuple[Order, ...]
    branches: int
    closed: int

    @property
    def total(self) -> int:
        """Everything, with shipping."""
        return sum(order.total for order in self.orders)

    @property
    def proven(self) -> bool:
        """Whether it is proven that nothing costs less."""
        return self.bound >= self.total

    @property
    def gap(self) -> int:
        """By how much at most another purchase could cost less."""
        return max(0, self.total - self.bound)

    @property
    def lead_days(self) -> int:
        """The days until the last part comes."""
        return max((order.lead_days for order in self.orders), default=0)

    @property
    def next_alone(self) -> Order | None:
        """The cheapest purchase from one supplier that is another one than this; None where nobody else has it all."""
        here = {order.supplier for order in self.orders}
        return next((one for one in self.alone if {one.supplier} != here), None)


def packs(offer: Offer, *, quantity: int) -> int:
    """How many packs of an offer hold so many pieces.

    Equation:
        quantity / pack, rounded up

    Parameters:
        offer: the offer
        quantity: pieces needed [1]

    Returns:
        packs [1]

    Valid for:
        1 piece or more

    Source:
        HAND.

    Example:
        >>> packs(Offer("nuts", "north", 600, pack=5), quantity=8)
        2

    Not covered:
        packs of another size beside them.
    """
    return -(-quantity // offer.pack)


def check_list(needed: Sequence[Needed], *, suppliers: Sequence[Supplier], offers: Sequence[Offer]) -> None:
    """Refuse what no purchase can have, by its name.

    Equation:
        none: comparisons

    Parameters:
        needed: the parts to buy
        suppliers: who sells
        offers: who has which part

    Returns:
        nothing; the first fault is raised

    Valid for:
        any list

    Source:
        HAND: amounts and days are 0 or more, counts 1 or more, one currency, each name once.

    Example:
        >>> check_list([Needed("gasket", "Head gasket")], suppliers=[Supplier("north", "North")], offers=[])

    Not covered:
        whether a part can be had at all: least_cost tells it.
    """
    if not needed:
        raise NothingToBuy
    for what, keys in (("part", [one.key for one in needed]), ("supplier", [one.key for one in suppliers])):
        twice = [key for key in keys if keys.count(key) > 1]
        if twice:
            raise NamedTwice(what, twice[0])
    names = {one.key: one.name for one in needed}
    shops = {one.key for one in suppliers}
    for offer in offers:
        if offer.supplier not in shops:
            raise SupplierUnknown(offer.supplier, names.get(offer.part, offer.part))
    for what, where, value, least in _numbers(needed, suppliers, offers=offers, names=names):
        if value < least:
            raise (CountNotPositive if least else AmountNegative)(what, where, value)
    for shop in suppliers[1:]:
        if shop.currency != suppliers[0].currency:
            raise CurrenciesMixed(suppliers[0].name, suppliers[0].currency, shop.name, shop.currency)


def _numbers(
    needed: Sequence[Needed],
    suppliers: Sequence[Supplier],
    *,
    offers: Sequence[Offer],
    names: Mapping[str, str],
) -> Iterator[tuple[str, str, int, int]]:
    """Every number: what it is, of what, its value, and the least it may be."""
    for one in needed:
        yield "quantity", one.name, one.quantity, 1
        yield "days", one.name, one.within_days or 0, 0
    for shop in suppliers:
        yield "shipping", shop.name, shop.shipping, 0
        yield "value for free shipping", shop.name, shop.free_from or 0, 0
        yield "least order", shop.name, shop.least_order, 0
        yield "lead time", shop.name, shop.lead_days, 0
    shops = {shop.key: shop.name for shop in suppliers}
    for offer in offers:
        where = f"{names.get(offer.part, offer.part)} at {shops[offer.supplier]}"
        yield "price", where, offer.price, 0
        yield "pack", where, offer.pack, 1
        yield "lead time", where, offer.lead_days or 0, 0

"""What the kit says of suppliers, as the purchase reads it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from gudgeon.bench.context import Bench
from gudgeon.bench.part_keys import key_of
from gudgeon.kit.suppliers import Supplier
from gudgeon.quantity.money import Money


@dataclass(frozen=True, slots=True)
class Shop:
    """A supplier: shipping for an order, free from a value of goods on, the least order, days until it comes."""

    key: str
    name: str
    currency: str
    shipping: Decimal
    free_from: Decimal | None
    least: Decimal
    days: int | None


@dataclass(frozen=True, slots=True)
class Offered:
    """What a supplier asks for a pack of a part; `seen` is the hour at which the book says so, empty in the kit."""

    part: str
    shop: str
    price: Money
    pack: int
    days: int | None
    article: str
    seen: str


def kit_shops(bench: Bench) -> Mapping[str, Shop]:
    """The suppliers of the kit, by their keys."""
    return {key: _shop(key, one) for key, one in bench.kit.suppliers.items()}


def _shop(key: str, one: Supplier) -> Shop:
    free, least = one.free_from, one.least_order
    return Shop(
        key, one.name, one.currency, one.shipping.amount, free.amount if free is not None else None,
        least.amount if least is not None else Decimal(0), one.lead.most_days if one.lead is not None else None,
    )  # fmt: skip


def kit_offers(bench: Bench) -> Iterator[Offered]:
    """What the suppliers of the kit ask, part by part; the days are those at the latest."""
    for key, supplier in bench.kit.suppliers.items():
        for part, sold in supplier.sells.items():
            for one in sold.articles:
                lead = one.lead or sold.lead
                days = lead.most_days if lead is not None else None
                yield Offered(
                    key_of(bench.sheet, part), key, one.price, one.pack, days, one.article or "", ""
                )

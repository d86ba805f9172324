"""A part with what it costs by a price that nobody has paid yet."""

from dataclasses import dataclass

from gudgeon.quantity.money import Money


@dataclass(frozen=True, slots=True)
class Priced:
    """A part at a price: of the cheapest purchase, of a supplier of the kit, or as it was seen; `basis` says which."""

    key: str
    name: str
    money: Money
    basis: str

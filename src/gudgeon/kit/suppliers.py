"""Suppliers: what they ask for which part, for shipping, from which value on nothing, and how long they take."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Any

from pydantic import Field, PlainValidator, WithJsonSchema, model_validator

from gudgeon.errors import InputError
from gudgeon.quantity.money import Money, parse_money
from gudgeon.written.fields import Key, Section, Text, refuse
from gudgeon.written.located import Path


def _money(value: Any) -> Money:
    if isinstance(value, Money):
        return value
    text = str(value if value is not None else "").strip()
    if text.startswith(("-", "−", "–")):
        raise refuse(f"`{text}` is below 0. Write what is asked, like `38.50 EUR`.")
    try:
        return parse_money(text)
    except InputError as error:
        raise refuse(error.message) from None


Amount = Annotated[
    Money, PlainValidator(_money), WithJsonSchema({"type": "string", "examples": ["38.50 EUR", "$38.50"]})
]


def _price(value: Any) -> Money:
    money = _money(value)
    if not money.amount:
        raise refuse(
            f"`{money.words}` is no price. Write more than 0, or take the line out where none is known."
        )
    return money


Price = Annotated[
    Money, PlainValidator(_price), WithJsonSchema({"type": "string", "examples": ["38.50 EUR", "$38.50"]})
]
"""What is asked for an article: more than nothing, in the kit as in the book."""


@dataclass(frozen=True, slots=True)
class Lead:
    """How many days from the order until it is there: at best, and at the latest."""

    least_days: int
    most_days: int
    text: str


_LEAD = re.compile(r"(\d{1,3})(?:\s*(?:-|–|to)\s*(\d{1,3}))?\s*(day|week)s?")


def _lead(value: Any) -> Lead:
    if isinstance(value, Lead):
        return value
    text = " ".join(str(value if value is not None else "").split())
    if text == "same day":
        return Lead(0, 0, text)
    found = _LEAD.fullmatch(text)
    if found is None:
        raise refuse(
            f"`{text}` is no time until it comes. Write it like `3 days`, `2-4 days`, `1 week` or `same day`."
        )
    unit = 7 if found[3] == "week" else 1
    least, most = int(found[1]) * unit, int(found[2] or found[1]) * unit
    if most < least:
        raise refuse(f"`{text}` ends before it begins. Write the shorter time first, like `2-4 days`.")
    return Lead(least, most, text)


LeadTime = Annotated[
    Lead,
    PlainValidator(_lead),
    WithJsonSchema({"type": "string", "examples": ["3 days", "2-4 days", "1 week"]}),
]


def _pack(value: Any) -> int:
    text = str(value).strip()
    if not re.fullmatch(r"\d{1,6}", text) or int(text) < 1:
        raise refuse(f"`{value}` is no pack. Write how many pieces are in one, 1 or more.")
    return int(text)


Pack = Annotated[int, PlainValidator(_pack), WithJsonSchema({"type": "integer", "minimum": 1})]


class _PriceAlone:
    """Marks in the schema that a price by itself may stand in place of the fields."""

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        return {"anyOf": [{"type": "string", "examples": ["38.50 EUR"]}, handler(schema)]}


class Sold(Section):
    """What a supplier asks for a part: the price of a pack, and how many are in it.

    A price by itself is one piece. `also` are other articles that serve as well; one of them is bought.
    """

    price: Price
    pack: Pack = 1
    article: Text | None = None
    lead: LeadTime | None = None
    also: tuple[Annotated["Sold", _PriceAlone()], ...] = ()
    note: Text | None = None

    @model_validator(mode="before")
    @classmethod
    def _price_alone(cls, value: Any) -> Any:
        return value if isinstance(value, (dict, Sold)) else {"price": value}

    @property
    def articles(self) -> tuple["Sold", ...]:
        """This one and the others that serve as well."""
        return (self, *self.also)


class Supplier(Section):
    """A supplier: shipping for one order, the value of goods from which it is free, and the least order."""

    name: Text
    shipping: Amount
    free_from: Amount | None = None
    least_order: Amount | None = None
    lead: LeadTime | None = None
    sells: dict[Key, Annotated[Sold, _PriceAlone()]] = Field(default_factory=dict)
    note: Text | None = None

    @property
    def currency(self) -> str:
        """The currency of all its amounts."""
        return self.shipping.currency

    def amounts(self) -> Iterator[tuple[Path, Money]]:
        """Every amount with where it stands below the supplier."""
        for name, amount in (
            ("shipping", self.shipping),
            ("free_from", self.free_from),
            ("least_order", self.least_order),
        ):
            if amount is not None:
                yield (name,), amount
        for part, sold in self.sells.items():
            yield ("sells", part), sold.price
            for number, other in enumerate(sold.also):
                yield ("sells", part, "also", number), other.price


def problems(suppliers: dict[str, Supplier]) -> Iterator[tuple[Path, str]]:
    """What a supplier gets wrong in itself, or beside another: where, and in words."""
    names: dict[str, str] = {}
    for key, one in suppliers.items():
        path: Path = ("suppliers", key)
        for place, amount in one.amounts():
            if amount.currency != one.currency:
                yield (
                    (*path, *place),
                    f"{place[1] if len(place) > 1 else place[0]}: {amount.words} stands beside a shipping in "
                    f"{one.currency}, and the two cannot be added. Write all amounts of a supplier in one currency.",
                )
        if one.free_from is not None and one.shipping.amount == Decimal(0):
            yield (
                (*path, "free_from"),
                f"free_from: shipping from {one.name} is free anyway ({one.shipping.words}). Write what it costs below "
                "that value, or take the line out.",
            )
        other = names.setdefault(one.name.casefold(), key)
        if other != key:
            yield (
                (*path, "name"),
                f"name: {one.name} is also the name of `{other}`. Give each supplier a name of its own.",
            )

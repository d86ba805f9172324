"""A cost of the machine shop that is said in hours: at what the kit says an hour of the shop costs."""

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from gudgeon.errors import InputError, short
from gudgeon.kit.model import Kit

_HOURS = re.compile(r"\s*(\d{1,4}(?:[.,]\d{1,3})?)\s*(?:h|hours?)\s*", re.ASCII | re.IGNORECASE)
AMOUNTS = ("low", "likely", "high")


class HoursOfNoShop(InputError):
    """Hours for something that no machine shop does."""

    def __init__(self, said: str, of: str) -> None:
        super().__init__(
            f"`{short(said)}` is said in hours, and a cost of the kind `{of}` has no rate. Only what the machine shop "
            "does (`shop`) may be said in hours. Write an amount, like `42.50`."
        )


class ShopHourNotSaid(InputError):
    """Hours of the shop where the kit does not say what one costs."""

    def __init__(self, said: str, written: str) -> None:
        there = f"says `{short(written)}`, which is no amount" if written else "does not say it"
        super().__init__(
            f"`{short(said)}` cannot be made an amount: what an hour of the machine shop costs stands in the kit "
            f"(`rates: machine_shop_hour`), and the kit {there}. Write it there, like `60 EUR`, or write an amount "
            "here."
        )


class ShopHourInOther(InputError):
    """Hours of the shop at a rate in another currency."""

    def __init__(self, said: str, rate: str, currency: str) -> None:
        super().__init__(
            f"`{short(said)}` at {rate} an hour, as the kit says, is no amount in {short(currency)}: currencies are "
            "never converted. Write the currency of the kit, or an amount."
        )


def with_hours(kit: Kit, fields: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of a cost with hours made amounts, and the reckoning added to what they rest on."""
    said = {name: str(fields[name]) for name in AMOUNTS if _HOURS.fullmatch(str(fields.get(name, "")))}
    if not said:
        return dict(fields)
    first, of = next(iter(said.values())), str(fields.get("of", "other"))
    if of != "shop":
        raise HoursOfNoShop(first, of)
    rate = kit.rates.machine_shop if kit.rates is not None else None
    if rate is None:
        raise ShopHourNotSaid(first, (kit.rates.machine_shop_hour or "") if kit.rates is not None else "")
    currency = str(fields.get("currency") or rate.currency).strip().upper()
    if currency != rate.currency:
        raise ShopHourInOther(first, rate.words, currency)
    made = {name: f"{(_hours(text) * rate.amount).normalize():f}" for name, text in said.items()}
    hours = " – ".join(dict.fromkeys(f"{_hours(text):f}" for text in said.values()))
    basis = ", ".join(filter(None, [str(fields.get("basis", "")), f"{hours} h at {rate.words} an hour"]))
    return {**fields, **made, "currency": currency, "basis": basis}


def _hours(text: str) -> Decimal:
    found = _HOURS.fullmatch(text)
    assert found is not None
    return Decimal(found[1].replace(",", "."))

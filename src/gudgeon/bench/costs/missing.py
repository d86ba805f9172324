"""What costs something without an amount in the book. It is named and never guessed: the sum is without it."""

import re
from collections.abc import Iterator

from gudgeon.bench.buying.said import said_of_parts
from gudgeon.bench.context import Bench
from gudgeon.bench.costs.covered import spent
from gudgeon.bench.costs.expected import key_of
from gudgeon.bench.costs.facts import Facts
from gudgeon.bench.costs.known_prices import CAME, ORDERED, without_amount
from gudgeon.bench.costs.model import NoCost
from gudgeon.bench.costs.named import names
from gudgeon.bench.on_paper.of_the_job import left_out_words
from gudgeon.bench.shop.ordered import part_name as shop_part

NO_PRICE = "to be bought, and no price or cost of it is written down"
NO_ORDER = f"{ORDERED}, and no price of it is known"
NO_BILL = f"{CAME}, and no price of it is known"
NO_SHOP = "to be worked on at the machine shop, and no cost of it is written down"
NO_TOOL = "the kit lacks it, and no cost of it, bought, hired or borrowed, is written down"
NO_SUPPLIES = "used up by the job, and no cost of supplies is written down"
NO_LIST = "not known what has to be bought"


def missing(bench: Bench, found: Facts) -> tuple[NoCost, ...]:
    """Everything that is known to cost something and has no amount, each thing once."""
    return (*_parts(bench, found), *_shop(bench, found), *_tools(found), *_supplies(found))


def _parts(bench: Bench, found: Facts) -> Iterator[NoCost]:
    of_parts = said_of_parts(bench)
    told = {*found.prices, *found.at_price, *_paid_elsewhere(bench, found)}
    for key, name, _, _, why in without_amount(bench, of_parts, found.covered):
        if key not in told and why == ORDERED:
            told.add(key)
            yield NoCost(name, NO_ORDER)
    if found.to_buy.why_not:
        yield NoCost(
            "Parts, tools and supplies", f"{NO_LIST}. {left_out_words(bench) or found.to_buy.why_not}"
        )
    for name in found.to_buy.unpriced:
        if key_of(bench, name) not in told:
            told.add(key_of(bench, name))
            yield NoCost(name, NO_PRICE)
    for name, why in found.to_buy.no_shipping.items():
        yield NoCost(f"Shipping, {name}", why)
    for key, name, _, _, why in without_amount(bench, of_parts, found.covered):
        if key not in told and why == CAME:
            told.add(key)
            yield NoCost(name, NO_BILL)


def _paid_elsewhere(bench: Bench, found: Facts) -> Iterator[str]:
    """Parts of which a payment says that it is for them, though it belongs to a cost with other words."""
    for thing, each in found.payments.items():
        if spent(each):
            yield from (key for one in each if one.part and (key := key_of(bench, one.part)) != thing)


def _shop(bench: Bench, found: Facts) -> Iterator[NoCost]:
    """Parts at the shop, or decided to go there, that no cost names; a cost may name the part, or the shop."""
    said = [one.what for one in found.today.values() if one.of == "shop" and not one.nothing]
    said += [f"{one.what} {one.to} {one.part}" for each in found.payments.values() for one in each]
    said += [one.what for one in found.approved.values() if one.amount is not None]

    def named(*words: str) -> bool:
        return any(word.casefold() in text.casefold() for word in words if word for text in said)

    for part, shop in bench.state.shop.items():
        if not named(part, shop.shop):
            ordered = shop.ordered.rstrip(".")
            yield NoCost(f"{part}, at {shop.shop}", f"ordered: {ordered}. No cost of it is written down")
    cut = {shop_part(bench, part="head").casefold(), shop_part(bench, part="block").casefold()}
    for part, one in bench.state.parts.items():
        away = any(key.casefold() == part.casefold() for key in bench.state.shop)
        if one.decision == "rework" and part.casefold() in cut and not away and not named(part):
            yield NoCost(part, NO_SHOP)


def _tools(found: Facts) -> Iterator[NoCost]:
    """Tools that the kit lacks and no cost names; the figures of a wrench need not stand in it."""
    for one in found.to_buy.tools:
        short = re.split(r"\s*\d", one.name, maxsplit=1)[0]
        if not any(names(text, part=short) for text in found.texts):
            yield NoCost(f"{one.name[0].upper()}{one.name[1:]}", NO_TOOL)


def _supplies(found: Facts) -> Iterator[NoCost]:
    if not any(one.of == "supplies" for one in found.today.values()):
        yield from (NoCost(one.name, NO_SUPPLIES) for one in found.to_buy.supplies if not one.only_if)

"""Who sells what: the suppliers of the kit, and the prices that the book saw since; the newest word counts."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal

from gudgeon.bench.buying.kit_shops import Offered, Shop, kit_offers, kit_shops
from gudgeon.bench.buying.lines import Need
from gudgeon.bench.buying.model import Asked
from gudgeon.bench.buying.money_words import money_words
from gudgeon.bench.buying.said import SaidOfPart
from gudgeon.bench.context import Bench
from gudgeon.book.plan_state import Price
from gudgeon.quantity.money import Money


@dataclass(frozen=True, slots=True)
class Market:
    """Suppliers by their keys, and what each asks for which part.

    `loose` are prices of suppliers that the kit does not know: they are told, and no purchase is made up with them.
    """

    shops: Mapping[str, Shop]
    offers: tuple[Offered, ...]
    loose: tuple[Offered, ...]
    remarks: tuple[str, ...]

    def of(self, keys: Sequence[str]) -> list[Offered]:
        """The offers for a part; those under its own key before those under that of its family."""
        for key in keys:
            found = [one for one in self.offers if one.part == key]
            if found:
                return found
        return []

    def for_need(self, need: Need) -> list[Offered]:
        """The offers that serve for a need: no article that is known as another grade than the one that is needed."""
        return [one for one in self.of(need.priced_as) if not _other_grade(one.article.lower(), need)]

    def days(self, one: Offered) -> int | None:
        """How long an offer takes to come: by itself, else as all of its supplier."""
        shop = self.shops.get(one.shop)
        return one.days if one.days is not None or shop is None else shop.days

    def name(self, said: str) -> str:
        """What a supplier is called that is named by key or by name."""
        key = shop_key(self.shops, said)
        return self.shops[key].name if key else said


def _other_grade(article: str, need: Need) -> bool:
    """Whether an article is named as another grade: the longest of all the words that it holds counts."""
    named = [word for word in (*need.right, *need.wrong) if word in article]
    return bool(named) and max(named, key=len) in need.wrong


def shop_key(shops: Mapping[str, Shop], said: str) -> str:
    """The key of a supplier of the kit that is named by its key or its name; nothing for any other."""
    text = said.strip().casefold()
    return next((key for key, one in shops.items() if text in (key.casefold(), one.name.casefold())), "")


def market_of(bench: Bench, said: Mapping[str, SaidOfPart]) -> Market:
    """The prices of kit and book together."""
    shops = kit_shops(bench)
    offers = list(kit_offers(bench))
    loose: dict[tuple[str, str], Offered] = {}
    apart: dict[tuple[str, str], Offered] = {}
    for key, of in said.items():
        for price in of.prices:
            shop = shop_key(shops, price.supplier)
            offer = _seen(key, shop or price.supplier, price)
            at = (key, offer.shop.casefold())
            if not shop:
                loose[at] = offer
            elif offer.price.currency != shops[shop].currency:
                apart[at] = offer
            else:
                apart.pop(at, None)
                gone = [one for one in offers if _replaces(offer, one)]
                offers = [*(one for one in offers if one not in gone), _as_long(offer, gone, shops[shop])]
    remarks = [_other_currency(one, shops[one.shop], offers) for one in apart.values()]
    return Market(shops, tuple(offers), tuple(loose.values()), (*remarks, *_unknown(loose.values())))


def _replaces(offer: Offered, other: Offered) -> bool:
    """Whether a price that was seen takes the place of another: of the same article, or of any where none was named."""
    same = (offer.part, offer.shop) == (other.part, other.shop)
    return same and (not offer.article or other.article in ("", offer.article))


def _as_long(offer: Offered, gone: Sequence[Offered], shop: Shop) -> Offered:
    """A price that says nothing of days: it takes as long as what it takes the place of, of several the longest."""
    before = [days for one in gone if (days := one.days if one.days is not None else shop.days) is not None]
    return replace(offer, days=max(before)) if offer.days is None and before else offer


def _seen(key: str, shop: str, price: Price) -> Offered:
    return Offered(
        key,
        shop,
        Money(Decimal(price.price), price.currency),
        price.pack,
        price.days,
        price.article,
        price.time,
    )


def _other_currency(offer: Offered, shop: Shop, offers: Iterable[Offered]) -> str:
    kept = next((one for one in offers if (one.part, one.shop) == (offer.part, offer.shop)), None)
    counts = ""
    if kept is not None:
        whose = f"seen {_seen_on(kept)}" if kept.seen else "of the kit"
        counts = f". What counts there is the price {whose}, {money_words(kept.price)}"
    return (
        f"{shop.name} asks {money_words(offer.price)} for {offer.part.replace('_', ' ')}, and its shipping stands in "
        f"{shop.currency} in the kit: the two are not added, and that price is left out of the purchase{counts}"
    )


def _seen_on(one: Offered) -> str:
    return datetime.fromisoformat(one.seen).strftime("%a %b %d") if one.seen else ""


def _unknown(loose: Iterable[Offered]) -> Iterator[str]:
    names = dict.fromkeys(one.shop for one in loose)
    for name in names:
        yield (
            f"A price was seen at “{name}”, and the kit lists no such supplier: what its shipping costs is not known, "
            "so no purchase is worked out with it. Write it into the kit, among the suppliers"
        )


def asked_for(market: Market, need: Need) -> tuple[Asked, ...]:
    """Everything that is asked for one part, the cheapest piece of each currency first."""
    loose = [one for one in market.loose if one.part in need.priced_as]
    found = sorted(
        (*market.for_need(need), *loose), key=lambda one: (one.price.currency, one.price.amount / one.pack)
    )
    return tuple(
        Asked(
            market.name(one.shop), money_words(one.price), one.pack, days_words(market.days(one)), one.article,
            _seen_on(one),
        )
        for one in found
    )  # fmt: skip


def days_words(days: int | None) -> str:
    """`in 3 days`; nothing where nobody says it."""
    return "" if days is None else "the same day" if days == 0 else f"in {days} day{'' if days == 1 else 's'}"


def cheapest(market: Market, need: Need) -> Money | None:
    """What all that is needed of a part costs at least, shipping apart; in the currency that most offers are in."""
    offers = market.for_need(need)
    if not offers:
        return None
    currencies = [one.price.currency for one in offers]
    most = max(currencies, key=currencies.count)
    return min(
        (
            Money(-(-need.quantity // one.pack) * one.price.amount, most)
            for one in offers
            if one.price.currency == most
        ),
        key=lambda money: money.amount,
    )


def known_price(market: Market, key: str, *, name: str, quantity: int) -> Money | None:
    """The same for a part that is not on the list."""
    need = Need(key, name, "", quantity, "", False, "", "", "", (), (key, name.lower()))
    return cheapest(market, need)

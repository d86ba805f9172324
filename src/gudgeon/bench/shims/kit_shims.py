"""What the kit says of shims: sizes in stock, and what one costs."""

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.shims.errors import PricesDiffer, PriceUnreadable, SizeTwice, StockSizeUnreadable
from gudgeon.calc.engine.lash import NM
from gudgeon.errors import InputError, Place
from gudgeon.quantity.money import Money, money_in
from gudgeon.quantity.written import parse_amount
from gudgeon.written.located import read_yaml

STOCK, PRICE, PRICES = "shims_in_stock", "shim_price", "shim_prices"


@dataclass(frozen=True, slots=True)
class KitShims:
    """Sizes [nm] in stock with how many there are, and prices: of any shim, and of sizes that differ."""

    stock: tuple[tuple[int, int], ...]
    any_price: Money | None
    own_prices: Mapping[int, Money]

    @property
    def currency(self) -> str:
        """The currency of all prices; empty where there is none."""
        known = [self.any_price] if self.any_price is not None else list(self.own_prices.values())
        return known[0].currency if known else ""

    def price(self, size_nm: int) -> Money | None:
        """What a shim of a size costs."""
        return self.own_prices.get(size_nm, self.any_price)

    @property
    def decimals(self) -> int:
        """So many digits behind the point make every price whole."""
        known = [*self.own_prices.values(), *([self.any_price] if self.any_price is not None else [])]
        return max((max(0, -int(one.amount.as_tuple().exponent)) for one in known), default=0)


def kit_shims(bench: Bench) -> KitShims:
    """Everything that the kit says of shims, read; what cannot be read is refused with its line."""
    kit = bench.kit
    stock: dict[int, int] = {}
    for text, count in kit.shims_in_stock.items():
        size = _size(bench, STOCK, text)
        stock[size] = stock.get(size, 0) + count
    any_price = _price(bench, (PRICE,), kit.shim_price) if kit.shim_price is not None else None
    own: dict[int, Money] = {}
    written: dict[int, str] = {}
    for text, price in kit.shim_prices.items():
        size = _size(bench, PRICES, text)
        if size in own:
            raise SizeTwice(PRICES, text, written[size], place=_place(bench, (PRICES, text)))
        own[size], written[size] = _price(bench, (PRICES, text), price), text
        other = any_price or next(iter(own.values()))
        if own[size].currency != other.currency:
            place = _place(bench, (PRICES, text))
            raise PricesDiffer(f"{PRICES}: {text}", own[size].currency, other.currency, place=place)
    return KitShims(tuple(sorted(stock.items())), any_price, own)


def _size(bench: Bench, field: str, text: str) -> int:
    try:
        size = round(parse_amount(text, kind="length").to("mm") * NM)
    except InputError as error:
        raise StockSizeUnreadable(field, text, error.message, place=_place(bench, (field, text))) from None
    if size <= 0:
        raise StockSizeUnreadable(field, text, "it is above 0.", place=_place(bench, (field, text)))
    return size


def _price(bench: Bench, path: tuple[str, ...], text: str) -> Money:
    price = money_in(text)
    if price is None:
        raise PriceUnreadable(": ".join(path), text, place=_place(bench, path))
    return price


def _place(bench: Bench, path: tuple[str, ...]) -> Place:
    """The line of the kit; it is read once more only when something in it is refused."""
    file = bench.papers.kit_file
    return read_yaml(bench.papers.kit_text, file=str(file) if file is not None else "kit").place(path)

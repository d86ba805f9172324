"""What a sheet or a kit says of shims that cannot be; one class per cause, each with its line."""

from gudgeon.errors import InputError, Place, short


class StockSizeUnreadable(InputError):
    """A size in the kit that is no thickness with its unit."""

    def __init__(self, field: str, text: str, reason: str, *, place: Place) -> None:
        super().__init__(
            f"{field}: `{short(text)}` is no thickness of a shim: {reason} Write it with its unit, like `2.30 mm`.",
            place=place,
        )


class PriceUnreadable(InputError):
    """A price in the kit that is no amount with a currency."""

    def __init__(self, field: str, text: str, *, place: Place) -> None:
        super().__init__(
            f"{field}: `{short(text)}` is no price. Write the amount with a point and the currency, like `4.80 EUR`.",
            place=place,
        )


class PricesDiffer(InputError):
    """Prices in two currencies, which cannot be compared."""

    def __init__(self, field: str, currency: str, other: str, *, place: Place) -> None:
        super().__init__(
            f"{field}: a price in {currency} stands beside one in {other}, and which is less cannot be said. "
            "Write all of them in one currency.",
            place=place,
        )


class SizeTwice(InputError):
    """One thickness written in two ways, with prices of its own."""

    def __init__(self, field: str, text: str, other: str, *, place: Place) -> None:
        super().__init__(
            f"{field}: `{short(text)}` is the same thickness as `{short(other)}`. Write each size once.",
            place=place,
        )


class ShimPlacesDiffer(InputError):
    """Clearances and shims that are read at different places."""

    def __init__(self, clearance: str, shim: str, lacking: tuple[str, ...], *, place: Place | None) -> None:
        super().__init__(
            f"The places of `{shim}` are not those of `{clearance}`: it has no {', no '.join(lacking[:4])}. "
            "Give both characteristics the same places, or a clearance finds no shim.",
            place=place,
        )


class WantedCannotBe(InputError):
    """A required clearance that is not above zero."""

    def __init__(self, name: str, text: str, *, place: Place | None) -> None:
        super().__init__(
            f"{name}: the required clearance `{short(text)}` cannot be: it is 0 or more. "
            "Check the figure and its sign.",
            place=place,
        )

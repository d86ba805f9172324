"""Whether words that somebody wrote name a supplier."""

from gudgeon.bench.context import Bench


def names_supplier(bench: Bench, text: str, *, supplier: str) -> bool:
    """Whether a text names a supplier, by the name of an order, or by its name or its key in the kit."""
    said, own = text.casefold(), supplier.strip().casefold()
    known = {name.casefold() for key, shop in bench.kit.suppliers.items() for name in (key, shop.name)
             if own in (key.casefold(), shop.name.casefold())}  # fmt: skip
    return any(name and name in said for name in {*known, own})

"""Purchases that cannot be: nobody sells it, not in time, not at that least order; one class per cause."""

import difflib
from collections.abc import Sequence

from gudgeon.errors import InputError, quoted


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"


def in_days(count: int) -> str:
    """When something comes, counted from the order.

    Equation:
        none: words

    Parameters:
        count: days [1]

    Returns:
        words

    Valid for:
        any count

    Source:
        HAND.

    Example:
        >>> in_days(1), in_days(6)
        ('in 1 day', 'in 6 days')

    Not covered:
        which day that is: whoever knows the day of the order tells it.
    """
    return f"in {_days(count)}"


class NobodySells(InputError):
    """A part that no supplier has."""

    def __init__(self, part: str, key: str, sold: Sequence[str]) -> None:
        near = difflib.get_close_matches(key, sold, n=3, cutoff=0.5)
        hint = f" Under a key like its own, `{key}`, is sold: {quoted(near)}." if near else ""
        super().__init__(
            f"No supplier has {part}.{hint} Write under a supplier what it costs there, or take it off the list."
        )


class NobodyInTime(InputError):
    """A part that comes too late from everywhere."""

    def __init__(self, part: str, within_days: int, *, first: str, when: str) -> None:
        super().__init__(
            f"No supplier has {part} within {_days(within_days)}: {first} is the first, {when}. "
            "Look for another supplier, or ask for the least cost whatever the day."
        )


class LeastOrderNotReached(InputError):
    """A part that only suppliers have whose least order the whole list does not reach."""

    def __init__(self, part: str, suppliers: Sequence[tuple[str, str, str]]) -> None:
        each = "; ".join(
            f"{name} asks for {least} at least, and all it has of the list comes to {most}"
            for name, least, most in suppliers
        )
        super().__init__(
            f"{part} cannot be ordered: {each}. Add to the list what is needed anyway, or find another supplier."
        )


class LeastOrdersExclude(InputError):
    """No way to share the parts out that reaches every least order at once."""

    def __init__(self, suppliers: Sequence[str]) -> None:
        super().__init__(
            f"However the parts are shared out, one of the least orders is not reached: {quoted(suppliers)}. "
            "Add to the list what is needed anyway, or find another supplier."
        )


class NoPurchaseFound(InputError):
    """A search that ended before it knew whether the least orders can be reached at all."""

    def __init__(self, branches: int, suppliers: Sequence[str]) -> None:
        super().__init__(
            f"After {branches:,} branches no purchase is found that reaches the least orders: {quoted(suppliers)}. "
            "Take a supplier off, or add to the list what is needed anyway."
        )


class CurrenciesMixed(InputError):
    """Prices that cannot be added up."""

    def __init__(self, first: str, its: str, second: str, other: str) -> None:
        super().__init__(
            f"{first} asks in {its}, {second} in {other}: which is less cannot be said. Write all prices in one "
            "currency, as your bank would exchange them."
        )


class AmountNegative(InputError):
    """A price, a fee, a limit or a time below zero."""

    def __init__(self, what: str, where: str, value: int) -> None:
        super().__init__(f"The {what} of {where} is {value}, and nothing below 0 can be. Check its sign.")


class CountNotPositive(InputError):
    """A quantity or a pack of nothing."""

    def __init__(self, what: str, where: str, value: int) -> None:
        super().__init__(f"The {what} of {where} is {value}, and it is 1 or more. Count again.")


class NamedTwice(InputError):
    """One name for two things."""

    def __init__(self, what: str, key: str) -> None:
        super().__init__(f"The {what} `{key}` is there twice. Write it once.")


class SupplierUnknown(InputError):
    """A price of a supplier that is not listed."""

    def __init__(self, supplier: str, part: str) -> None:
        super().__init__(f"`{supplier}`, which sells {part}, is not among the suppliers. List it with them.")


class NothingToBuy(InputError):
    """An empty list."""

    def __init__(self) -> None:
        super().__init__("Nothing is on the list to buy. Name at least one part.")

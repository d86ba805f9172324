"""What is used up and what is lacking, as answers."""

from dataclasses import dataclass

from gudgeon.quantity.format import both, in_order, number
from gudgeon.quantity.units import convert

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Supply:
    """Something that is used up: how much, what for, how that was worked out, and by whose word.

    `amount` is empty where it cannot be said; `missing` then names what the sheet lacks. `only_if` is the case in which
    it is needed at all.
    """

    key: str
    name: str
    amount: str
    for_what: str
    how: str
    source: str
    missing: str = ""
    only_if: str = ""


@dataclass(frozen=True, slots=True)
class Lacking:
    """A tool that the job needs and the kit lacks: why, how it is got, before which task.

    `sort` is `wrench`, `gauge` or `tool`; `get` are the ways, the best first: `buy`, `borrow`, `hire`, `make`.
    """

    name: str
    sort: str
    why: str
    get: tuple[str, ...]
    how: str
    before: str
    tasks: tuple[str, ...]


def liters(value_cm3: float) -> str:
    """A volume that is poured, in liters and quarts.

    Example:
        >>> liters(4200.0)
        '4.2 L (4.4 US qt)'
    """
    quarts = convert(value_cm3, frm="cm³", to="US qt", kind="volume")
    return in_order(f"{number(value_cm3 / 1000, decimals=1)} L", inch=f"{number(quarts, decimals=1)} US qt")


def drops(value_cm3: float) -> str:
    """A volume that is squeezed from a tube, in milliliters and fluid ounces.

    Example:
        >>> drops(2.287)
        '2.3 mL (0.08 US fl oz)'
    """
    ounces = convert(value_cm3, frm="cm³", to="US fl oz", kind="volume")
    return in_order(f"{number(value_cm3, decimals=1)} mL", inch=f"{number(ounces, decimals=2)} US fl oz")


def lengths(value_mm: float, *, decimals: int = 0) -> str:
    """A length in both systems."""
    return both(value_mm, kind="length", decimals=decimals)

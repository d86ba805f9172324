"""How old a part is and how parts like it wear out: figures that no part of an engine has are refused."""

from collections.abc import Iterator, Mapping
from decimal import Decimal, InvalidOperation
from typing import Any

from gudgeon.errors import InputError, short

MOST = {"km": Decimal(3_000_000), "mi": Decimal(2_000_000), "months": Decimal(1_200)}
"""No part of an engine runs further or grows older (common practice, no source)."""
SHAPES = (Decimal("0.1"), Decimal(20))
"""Shapes of a Weibull distribution between which figures of wear lie (common practice, no source)."""


class NoSuchUse(InputError):
    """A distance or an age that no part of an engine has."""

    def __init__(self, what: str, said: str, unit: str, *, above: bool) -> None:
        least = "more than 0" if above else "0 or more"
        super().__init__(
            f"{what}: {short(said)} {unit} cannot be. It is {least} and at most {MOST[unit]:,} {unit} (common "
            "practice, no source). Look at the figure and at its unit, and write it again."
        )


class NoSuchShape(InputError):
    """A shape that no wear has."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"A shape of {short(said)} cannot be. It lies between {SHAPES[0]} and {SHAPES[1]} (common practice, no "
            "source): about 1 where a part fails by chance, 2 to 4 where it wears out with age. Look at the figure, "
            "and write it again."
        )


def check_use(kind: str, fields: Mapping[str, Any]) -> None:
    """Refuse a life or an age that cannot be; what is no number at all is refused where it is written."""
    if kind == "part-life":
        shape = _number(fields.get("shape"))
        if shape is not None and not SHAPES[0] <= shape <= SHAPES[1]:
            raise NoSuchShape(str(fields["shape"]))
    for what, said, unit, least in _uses(kind, fields):
        number = _number(said)
        if number is not None and unit in MOST and not least <= number <= MOST[unit]:
            raise NoSuchUse(what, said, unit, above=bool(least))


def _uses(kind: str, fields: Mapping[str, Any]) -> Iterator[tuple[str, str, str, Decimal]]:
    """What is said, in its unit, and from where on it can be: an age may be nothing."""
    nothing, little = Decimal(0), Decimal("1e-9")
    if kind == "part-life":
        for name, what in (("life", "The life of such parts"), ("until", "The time until it is open again")):
            yield what, str(fields.get(name, "")), str(fields.get("unit", "")), little
    if kind == "part-age":
        yield "What it has run", str(fields.get("distance", "")), str(fields.get("unit", "")), nothing
        yield "Its age", str(fields.get("months", "")), "months", nothing


def _number(said: Any) -> Decimal | None:
    try:
        number = Decimal(str(said).strip())
    except InvalidOperation:
        return None
    return number if number.is_finite() else None

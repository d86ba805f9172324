"""Whether a value proves what a hold asks for: of a pressure, nothing is no proof."""

import re
from decimal import Decimal

from gudgeon.bench.holds import Hold
from gudgeon.errors import InputError
from gudgeon.quantity.kinds import KINDS
from gudgeon.quantity.units import is_unit

_AMOUNT = re.compile(r"((?<![\d.,])[-−]?\d+(?:[.,]\d+)?)\s*((?:[^\s\d,;][^\s,;]*)?)", re.ASCII)
_NO_PRESSURE = re.compile(
    r"\b(no|not any|without|zero|nil)\s+([a-z]+\s+){0,2}?pressure\b(?!\s+(drop|loss|lost|fall|problem|leak))"
    r"|\bpressure\W+(none|nil|zero|nothing)\b",
    re.IGNORECASE,
)
"""“No oil pressure”; not “no pressure lost”, nor words in which a number stands."""


class NoneThere(InputError):
    """A proof of a pressure by a value that says that there was none."""

    def __init__(self, name: str, said: str) -> None:
        super().__init__(
            f"{name}: `{said}` is no pressure, and proves nothing. Stop, and find out why there is none. What you saw "
            "can be kept as a note: gudgeon record note TEXT. Nothing was recorded."
        )


def check_value(hold: Hold, said: str) -> None:
    """Refuse a value whose amounts of what has to be there are all nothing or less.

    Without a unit the first number counts. Of words alone only those are weighed that say that no pressure was there.

    Raises:
        NoneThere: the value says that there was none.
    """
    if not hold.above_zero:
        return
    found = [(_number(number), unit) for number, unit in _AMOUNT.findall(said)]
    amounts = [
        number for number, unit in found if unit and is_unit(unit.rstrip("."), of=KINDS[hold.above_zero])
    ]
    amounts = amounts or [number for number, _ in found[:1]]
    none = max(amounts) <= 0 if amounts else _NO_PRESSURE.search(said) is not None
    if none:
        raise NoneThere(hold.name, said)


def _number(text: str) -> Decimal:
    return Decimal(text.replace("−", "-").replace(",", "."))

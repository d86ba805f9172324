"""What an hour is worth: his own, and that of the machine shop."""

import re

from gudgeon.quantity.money import Money, money_in
from gudgeon.written.fields import Section, Text

_AN_HOUR = re.compile(r"\s*(?:/\s*h|(?:an|per|a)\s+h(?:our)?)\s*$", re.IGNORECASE)


class Rates(Section):
    """What an hour is worth, each as an amount like `20 EUR`, for his own account.

    Older kits have free words here. They are shown as words, and nothing is reckoned with them.
    """

    own_hour: Text | None = None
    machine_shop_hour: Text | None = None

    @property
    def own(self) -> Money | None:
        """What an hour of his own is worth; None where it is not said as an amount."""
        return an_hour(self.own_hour)

    @property
    def machine_shop(self) -> Money | None:
        """What an hour of the machine shop costs; None where it is not said as an amount."""
        return an_hour(self.machine_shop_hour)


def an_hour(text: str | None) -> Money | None:
    """The amount of an hour, with or without `an hour` behind it.

    Example:
        >>> an_hour("20 EUR an hour").words, an_hour("20 an hour, for his own account")
        ('20 EUR', None)
    """
    return money_in(_AN_HOUR.sub("", text)) if text is not None else None

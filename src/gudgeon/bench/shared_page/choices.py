"""What of his own goes into a page that is shared: nothing, but for what he names."""

import re
from dataclasses import dataclass

from gudgeon.errors import InputError

PLAIN = {
    "names": "names of people, shops and suppliers",
    "dates": "the dates (else days are counted from the first one)",
    "hours": "the dates and the hours of the day",
    "prices": "prices and sums",
    "numbers": "the engine code as it was read, and the odometer",
    "devices": "names of the devices that wrote",
    "tools": "tools as your kit calls them (else by their kind and range)",
}
"""What is chosen by a word alone, and what that lets in."""
LISTED = ("notes", "photos")
"""What is chosen one by one, by the numbers of the entries."""


class NoSuchChoice(InputError):
    """A word that lets nothing in."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"“{said}” is nothing that can be let into a shared page. What can: {', '.join(PLAIN)}, and by the numbers "
            f"of their entries {' and '.join(f'{one}=12,15' for one in LISTED)}. Nothing was written."
        )


class NotOneByOne(InputError):
    """Words and photos are looked at before they are given away."""

    def __init__(self, said: str, kind: str) -> None:
        super().__init__(
            f"“{said}” is no number of an entry. Words and photos of yours go in one by one, as each may show what is "
            f"nobody's business: {kind}=12,15. Nothing was written."
        )


@dataclass(frozen=True, slots=True)
class Choices:
    """What goes in beside what the sheet, the kit and the entries say by themselves.

    `notes` and `photos` are numbers of entries: those whose own words, or whose photo, go in.
    """

    names: bool = False
    dates: bool = False
    hours: bool = False
    prices: bool = False
    numbers: bool = False
    devices: bool = False
    tools: bool = False
    notes: frozenset[int] = frozenset()
    photos: frozenset[int] = frozenset()


def choices_said(said: str) -> Choices:
    """What `names,hours,notes=12,15,photos=3` lets in.

    Errors: `NoSuchChoice` for a word that is none of them, `NotOneByOne` for words or photos without numbers.

    Example:
        >>> one = choices_said("names, notes=12,15")
        >>> one.names, one.hours, sorted(one.notes)
        (True, False, [12, 15])
    """
    plain: dict[str, bool] = {}
    listed: dict[str, set[int]] = {name: set() for name in LISTED}
    open_list = ""
    for part in filter(None, re.split(r"[,\s]+", said.strip())):
        name, mark, number = part.partition("=")
        if mark or name in LISTED:
            open_list = name if name in LISTED else ""
            if not open_list:
                raise NoSuchChoice(part)
        elif not name.isdecimal():
            open_list = ""
        if open_list:
            text = number if mark else name
            if not text.isdecimal() or len(text) > 9:
                raise NotOneByOne(text, open_list)
            listed[open_list].add(int(text))
        elif name in PLAIN:
            plain[name] = True
        else:
            raise NoSuchChoice(part)
    return Choices(**plain, notes=frozenset(listed["notes"]), photos=frozenset(listed["photos"]))

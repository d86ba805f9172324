"""How many of a part the sheet asks for: `16`, `4 sets`, `two`."""

import re
from dataclasses import dataclass

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NUMBER = re.compile(r"(?P<number>\d{1,4})(?![\d.,/])\s*(?:[×x]\s*)?(?P<of>.*)")


@dataclass(frozen=True, slots=True)
class Count:
    """So many, of what (`sets`); not `known` where the text tells no number, and one is taken."""

    number: int
    of: str
    known: bool


def counted(text: str | None) -> Count:
    """The number that a quantity begins with; a part without one is one."""
    if text is None:
        return Count(1, "", True)
    said = text.strip()
    found = _NUMBER.fullmatch(said)
    if found is not None and int(found["number"]) > 0:
        return Count(int(found["number"]), found["of"].strip(), True)
    first, _, rest = said.partition(" ")
    if first.lower() in _WORDS:
        return Count(_WORDS.index(first.lower()) + 1, rest.strip(), True)
    return Count(1, "", False)

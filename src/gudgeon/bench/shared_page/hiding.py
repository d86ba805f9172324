"""What he wrote himself, without what he did not let in: names, devices, numbers, prices, hours and dates in it."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from gudgeon.bench.shared_page.choices import Choices
from gudgeon.bench.shared_page.written_so import DATE, HOUR, PRICE, as_grouped
from gudgeon.book.entries import Entry

_BY_NAME = ("by", "to", "shop", "supplier")
_ROLES = frozenset(("owner", "hand", "starter", "me", "self", "user", "root"))
"""Words that stand in such a field and name nobody."""


@dataclass(frozen=True, slots=True)
class Hiding:
    """Patterns of what stays out, each with the word that stands in its place."""

    patterns: tuple[tuple[re.Pattern[str], str], ...]

    def words(self, said: str) -> str:
        """A text of his without them; marks and line ends as they are."""
        for pattern, instead in self.patterns:
            said = pattern.sub(instead, said)
        return said


def hiding(entries: Iterable[Entry], choices: Choices) -> Hiding:
    """What has to stay out of texts of these entries."""
    listed = tuple(entries)
    made: list[tuple[re.Pattern[str], str]] = []
    if not choices.numbers:
        shown = _said_in(listed, "odometer-read", "value") | _said_in(listed, "timer-started", "odometer")
        made += [(as_grouped(one), "(number)") for one in sorted(shown, key=len, reverse=True)]
        made += _any_of(_said_in(listed, "identity-read", "code"), "(number)")
    if not choices.names:
        made += _any_of(people(listed), "(name)")
    if not choices.devices:
        made += _any_of({one.device for one in listed}, "(device)")
    if not choices.prices:
        made.append((PRICE, "(price)"))
    if not choices.hours:
        made.append((HOUR, "(hour)"))
    if not (choices.dates or choices.hours):
        made.append((DATE, "(date)"))
    return Hiding(tuple(made))


def people(entries: Iterable[Entry]) -> set[str]:
    """Everybody that entries name: whole names, and the parts of them that begin with a capital."""
    whole = {name for one in entries for name in (one.who, *named_in(one))}
    parts = {part for name in whole for part in re.findall(r"\w{3,}", name) if part[:1].isupper()}
    return {name for name in whole | parts if name.casefold() not in _ROLES}


def named_in(one: Entry) -> Iterator[str]:
    """The people, shops and suppliers that the body of an entry names in fields of their own."""
    for field in _BY_NAME:
        said: Any = one.body.get(field)
        if isinstance(said, str) and said.strip() and said.casefold() not in _ROLES:
            yield said.strip()


def _said_in(entries: Iterable[Entry], kind: str, field: str) -> set[str]:
    return {str(one.body[field]) for one in entries if one.kind == kind and one.body.get(field)}


def _any_of(texts: Iterable[str], instead: str) -> list[tuple[re.Pattern[str], str]]:
    """One pattern for all of them, the longest first; within another word nothing is hidden."""
    longest = sorted(filter(None, (text.strip() for text in texts)), key=lambda text: (-len(text), text))
    if not longest:
        return []
    either = "|".join(re.escape(text).replace(r"\ ", r"\s+") for text in longest)
    return [(re.compile(rf"(?<!\w)(?:{either})(?!\w)", re.IGNORECASE), instead)]

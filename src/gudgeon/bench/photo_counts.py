"""What was counted in photos: the count of a kind is the sum of what each photo shows, and the note says of which.

The book compares the last count as they came off with the last as they went back. So what one photo shows is added to
what others show, and a photo that is counted again replaces its own number.
"""

import re
from dataclasses import dataclass

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.pin_errors import CountedByHand, NotCounted
from gudgeon.bench.pin_items import standing_photo
from gudgeon.bench.record import Recorded, record

MOST = 10_000
"""As many as the book takes."""

_PART = re.compile(r"(\d{1,5}) in photo ([0-9a-f]{8})")
_WAYS = {"off": "as they came off", "back": "as they went back"}


@dataclass(frozen=True, slots=True)
class PhotoCount:
    """How many of a kind one photo shows, among all that were counted that way."""

    group: str
    when: str
    words: str
    here: int
    all: int


def count_in_photo(
    bench: Bench,
    sha: str,
    *,
    group: str,
    when: str,
    count: str,
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Write down how many of a kind a photo shows; together with what the other photos show."""
    photo = standing_photo(bench, sha)
    said = count.strip()
    if not (said.isascii() and said.isdecimal() and len(said) <= 7 and int(said) <= MOST):
        raise NotCounted(count, MOST)
    number, parts = _latest(bench, group, when, but=entry_id)
    if number is not None and sum(parts.values()) != number:
        raise CountedByHand(number, group, _WAYS.get(when, when))
    parts = {**parts, photo.sha[:8]: int(said)}
    note = "; ".join(f"{number} in photo {name}" for name, number in parts.items())
    fields = {"group": group, "when": when, "count": sum(parts.values()), "note": note}
    return record(bench, "counted", fields, entry_id=entry_id, basis=basis)


def counts_in(bench: Bench, sha: str) -> tuple[PhotoCount, ...]:
    """What was counted in a photo, and how many that makes with the others."""
    made = []
    for group in bench.state.tallies:
        for when, words in _WAYS.items():
            number, parts = _latest(bench, group, when)
            here = parts.get(sha[:8])
            if here is not None and number is not None:
                made.append(PhotoCount(group, when, words, here, number))
    return tuple(made)


def _latest(
    bench: Bench, group: str, when: str, *, but: str | None = None
) -> tuple[int | None, dict[str, int]]:
    """The last count of a kind, and what each photo has in it; an entry that is sent again does not see itself."""
    for one in reversed(entries_of(bench)):
        same = one.kind == "counted" and (one.body["group"], one.body["when"]) == (group, when)
        if same and one.id not in bench.state.struck and one.id != but:
            parts = {name: int(number) for number, name in _PART.findall(one.body["note"])}
            return int(one.body["count"]), parts
    return None, {}

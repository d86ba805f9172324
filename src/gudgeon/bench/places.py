"""Places in words: finding the one a person means."""

import re
from collections.abc import Iterable

from gudgeon.bench.errors import Unknown
from gudgeon.sheet.inspections import Characteristic, place_names, stretch_names

_SAY_NOTHING = frozenset(
    ("a", "an", "and", "at", "by", "for", "from", "in", "of", "on", "or", "the", "to", "with")
)
"""Words that stand in many names and tell none of them from another."""


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\s,;:/·()“”]+", text.lower()))


def find_place(item: Characteristic, said: str, *, judged: Iterable[str] = ()) -> str:
    """The place of a characteristic that is meant by `1 top across` or `Cylinder 1, top, across`.

    `judged` are places at which nothing is read and something is judged, like `cylinder 1, top` of two readings.
    """
    names = place_names(item)
    if len(names) == 1 and not said.strip():
        return names[0]
    wanted = _words(said)
    besides = tuple(one for one in dict.fromkeys((*stretch_names(item), *judged)) if one not in names)
    exact = [name for name in (*names, *besides) if _words(name) == wanted]
    if exact:
        return exact[0]
    near: list[str] = []
    for some in (names, besides):  # the whole line is meant where nothing is said of a stretch
        near = near or [name for name in some if wanted and _contains(_words(name), wanted)]
    if len(near) == 1:
        return near[0]
    names = (*names, *besides)
    raise Unknown(f"place of “{item.name}”", said, [f"“{name}”" for name in near or names if name])


def stands_in(text: str, *, said: str) -> bool:
    """Whether the words that were said stand in a text, in this order, and one of them tells what is meant."""
    wanted = _words(said)
    return not _SAY_NOTHING.issuperset(wanted) and _contains(_words(text), wanted)


def _contains(words: tuple[str, ...], wanted: tuple[str, ...]) -> bool:
    """Whether the wanted words stand in the name, in this order."""
    rest = iter(words)
    return all(word in rest for word in wanted)

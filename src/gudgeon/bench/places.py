"""Places in words: finding the one a person means."""

import re

from gudgeon.bench.errors import Unknown
from gudgeon.sheet.inspections import Characteristic, place_names, stretch_names


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\s,;:/·]+", text.lower()))


def find_place(item: Characteristic, said: str) -> str:
    """The place of a characteristic that is meant by `1 top across` or `Cylinder 1, top, across`."""
    names = place_names(item)
    if len(names) == 1 and not said.strip():
        return names[0]
    wanted = _words(said)
    besides = stretch_names(item)
    exact = [name for name in (*names, *besides) if _words(name) == wanted]
    if exact:
        return exact[0]
    near: list[str] = []
    for some in (names, besides):  # the whole line is meant where nothing is said of a stretch
        near = near or [name for name in some if wanted and _contains(_words(name), wanted)]
    if len(near) == 1:
        return near[0]
    names = (*names, *besides)
    raise Unknown(f"place of “{item.name}”", said, [f"“{name}”" for name in near or names])


def stands_in(text: str, *, said: str) -> bool:
    """Whether the words that were said stand in a text, in this order."""
    wanted = _words(said)
    return bool(wanted) and _contains(_words(text), wanted)


def _contains(words: tuple[str, ...], wanted: tuple[str, ...]) -> bool:
    """Whether the wanted words stand in the name, in this order."""
    rest = iter(words)
    return all(word in rest for word in wanted)

"""The thing on an open list that is meant: nothing leaves a list by words that would fit another one as well."""

from collections.abc import Callable, Iterator, Mapping

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.entries import item_names
from gudgeon.bench.errors import NothingNamed, SeveralFit
from gudgeon.bench.places import stands_in
from gudgeon.book.fold_lists import CLOSES as LISTS
from gudgeon.book.state import OpenItem

CLOSES = {
    "provisional-cleared": ("provisional", "provisional"),
    "taken-out": ("left_in", "left in"),
    "opened": ("plugged", "plugged"),
    "refitted": ("left_over", "off the engine"),
}
"""Kinds that close something: the list of the state, and what it is called."""


def which_item(bench: Bench, kind: str, *, said: str) -> str:
    """The key of what is meant by its key, by its place number or bag, or by words of its name.

    The first of these that fits anything counts. What fits nothing that is open stays as it was said. A key is never
    taken for words: what was closed under it is not the next thing whose name holds it. Nor is a number, which means
    a place.

    Raises:
        NothingNamed: where nothing was said.
        SeveralFit: where it fits several things.
    """
    said = said.strip()
    name, words = CLOSES[kind]
    items: Mapping[str, OpenItem] = getattr(bench.state, name)
    if not said:
        raise NothingNamed(words, items)
    if said in items or (LISTS[kind], said) in item_names(entries_of(bench)):
        return said
    for fits in _ways(said):
        found = [key for key, one in items.items() if fits(one)]
        if len(found) > 1:
            raise SeveralFit(words, said, [f"`{key}` ({items[key].name})" for key in found])
        if found:
            return found[0]
    return said


def _ways(said: str) -> Iterator[Callable[[OpenItem], bool]]:
    """How something may be meant, the narrowest first."""
    low = said.casefold()
    yield lambda one: low in (one.where.casefold(), one.bag.casefold())
    yield lambda one: low == one.name.casefold()
    if not said.isdecimal():
        yield lambda one: stands_in(one.name, said=said)

"""Chains as they were read: each head once, and from one head on to the next without the entries before it.

The hash of a head covers every entry before it, so what was read to a head counts for it whatever file or database it
stands in. What is kept is bounded: the states of the last heads, and the entries of a few chains.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from threading import Lock
from types import MappingProxyType
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.fold import Folding
from gudgeon.book.state import State
from gudgeon.book.store import Store

HEADS_MOST = 16
CHAINS_MOST = 4


@dataclass(frozen=True, slots=True)
class Read:
    """A chain as far as one head: where its papers are, which were pinned last, and what it adds up to."""

    opened: Mapping[str, Any]
    sheet: str
    kit: str
    state: State
    entries: tuple[Entry, ...]
    by_id: Mapping[str, Entry]
    """By their ids. Those that came later may be among them, also where a copy from before them was put back since."""
    chain: tuple[str, str]
    """Where it was read, and its build."""


@dataclass(frozen=True, slots=True)
class _Going:
    """The fold of a chain that goes on when its entries do, and how far it has come."""

    folding: Folding
    read: Read


_READ: dict[str, Read] = {}
_GOING: dict[tuple[str, str], _Going] = {}
_READING = Lock()


def read_chain(store: Store, build: str, *, where: str) -> Read:
    """A build of the book at an address, as it stands."""
    known = _READ.get(store.head(build))
    if known is not None:
        return known
    chain = (where, build)
    with _READING:  # whoever waits for the same head finds it read
        known = _READ.get(store.head(build))
        if known is not None:
            return known
        # While it goes on it is nobody's: where that breaks off, half a fold is kept by nobody.
        before = _GOING.pop(chain, None)
        going = _gone_on(before, store, build) if before is not None else None
        if going is None:
            going = _begun(store.entries(build), chain)
        _keep(going)
        return going.read


def forget() -> None:
    """Read every chain anew."""
    with _READING:
        _READ.clear()
        _GOING.clear()


def _gone_on(before: _Going, store: Store, build: str) -> _Going | None:
    """The same chain with the entries that came since; nothing where it is another one, or one of them reaches back."""
    read = before.read
    last = read.entries[-1]
    more = store.entries_after(build, last.number)
    if not more or more[0].prev != last.hash or not before.folding.goes_on(more):
        return None
    sheet, kit = _pinned(more)
    entries = (*read.entries, *more)
    state = before.folding.state()
    now = replace(read, sheet=sheet or read.sheet, kit=kit or read.kit, state=state, entries=entries)
    return _Going(before.folding, now)


def _begun(entries: tuple[Entry, ...], chain: tuple[str, str]) -> _Going:
    opened = next(entry for entry in entries if entry.kind == "build-opened")
    folding = Folding(entries)
    by_id = MappingProxyType(folding.by_id)
    return _Going(folding, Read(opened.body, *_pinned(entries), folding.state(), entries, by_id, chain))


def _pinned(entries: tuple[Entry, ...]) -> tuple[str, str]:
    """The sheet and the kit that were pinned last."""
    sheet = next((entry.sheet for entry in reversed(entries) if entry.sheet), "")
    return sheet, next((entry.kit for entry in reversed(entries) if entry.kit), "")


def _keep(going: _Going) -> None:
    """Kept by the head that was read, which may be later than the one that was looked for."""
    _GOING[going.read.chain] = going
    while len(_GOING) > CHAINS_MOST:
        del _GOING[next(iter(_GOING))]
    _READ[going.read.state.head] = going.read
    heads = [head for head, one in _READ.items() if one.chain in _GOING]
    for head in set(_READ).difference(heads[-HEADS_MOST:]):
        del _READ[head]

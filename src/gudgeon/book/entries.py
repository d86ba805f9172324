"""Entries: what a sender drafts, and what stands in the book."""

import gc
import json
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass, fields
from typing import Any


@dataclass(frozen=True, slots=True)
class Draft:
    """What a sender supplies; the sender makes the id, so that sending twice counts once.

    `basis` is the head of the chain that the sender had seen, empty when it had not looked.
    `sheet` and `kit` are the hashes of the texts it worked from.
    """

    id: str
    kind: str
    body: Mapping[str, Any]
    build: str
    who: str
    device: str
    device_time: str
    basis: str = ""
    sheet: str = ""
    kit: str = ""


@dataclass(frozen=True)
class Entry:
    """An entry as it stands in the book, chained to the one before by `prev`.

    It has no slots, so that what was read can become its fields as a whole: thousands are read for one answer.
    """

    id: str
    number: int
    kind: str
    version: int
    body: dict[str, Any]
    build: str
    who: str
    device: str
    device_time: str
    server_time: str
    basis: str
    sheet: str
    kit: str
    prev: str
    hash: str


def entry_to_dict(entry: Entry) -> dict[str, Any]:
    """An entry as plain data that JSON can carry; its hash covers everything else in it."""
    return asdict(entry)


_HASHED = frozenset(one.name for one in fields(Entry)) - {"hash"}
AT_ONCE = 100
"""How many texts are read as one: each name in them is made once, and a build needs half the memory."""


@contextmanager
def all_to_be_kept() -> Iterator[None]:
    """While many entries are read Python looks for no garbage: all of them are kept, and the looking costs a fifth."""
    looks = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if looks:
            gc.enable()


def entry_from_text(text: str, *, digest: str) -> Entry:
    """An entry from the text that was hashed, and the hash."""
    return _entry(json.loads(text), digest)


def entries_from_rows(rows: Sequence[tuple[str, str]]) -> list[Entry]:
    """A few entries, each from the text that was hashed, and the hash."""
    texts = [text for text, _ in rows]
    found = json.loads(f"[{','.join(texts)}]")
    # A text that is cut short must not run into the next one.
    if len(found) != len(rows) or any(text[:1] != "{" or text[-1:] != "}" for text in texts):
        raise ValueError(f"{len(rows)} texts are not {len(rows)} entries")
    return [_entry(content, digest) for content, (_, digest) in zip(found, rows, strict=True)]


def _entry(content: Any, digest: str) -> Entry:
    if not isinstance(content, dict) or content.keys() != _HASHED:
        raise TypeError(f"an entry has the fields {sorted(_HASHED)}")
    content["hash"] = digest
    entry = object.__new__(Entry)
    object.__setattr__(entry, "__dict__", content)
    return entry

"""Entries: what a sender drafts, and what stands in the book."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
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


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry as it stands in the book, chained to the one before by `prev`."""

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


def entry_from_text(text: str, *, digest: str) -> Entry:
    """An entry from the text that was hashed, and the hash."""
    return Entry(**json.loads(text), hash=digest)

"""Entries: what a sender drafts, and what stands in the book."""

from dataclasses import asdict, dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Draft:
    """What a sender supplies; the sender makes the id, so that sending twice counts once."""

    id: str
    kind: str
    body: dict[str, Any]
    build: str
    who: str
    device: str
    device_time: str
    basis: str
    sheet: str
    kit: str


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry as it stands in the book, chained to the one before."""

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
    """An entry as plain data."""
    return asdict(entry)

"""The stores that keep the contract, each with a place of its own and a way to tamper with it."""

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

from gudgeon.book.entries import Draft
from gudgeon.book.sqlite import open_book
from gudgeon.book.store import Store

NOW = datetime(2026, 3, 7, 10, 0, tzinfo=UTC)


@dataclass(frozen=True)
class Kind:
    """A kind of store: made in a folder, opened by its address, changed behind its back."""

    make: Callable[[Path], str]
    open: Callable[[str], Store]
    tamper: Callable[[str, str], None]


def _make_sqlite(folder: Path) -> str:
    address = folder / "book.gudgeon"
    open_book(address, clock=lambda: NOW, create=True).close()
    return str(address)


def _tamper_sqlite(address: str, statements: str) -> None:
    """Someone who knows SQLite, and takes away what refuses a change."""
    connection = sqlite3.connect(address)
    connection.executescript(f"DROP TRIGGER entry_stays; DROP TRIGGER entry_kept; {statements}")
    connection.close()


KINDS = {
    "SQLite": Kind(_make_sqlite, lambda address: open_book(Path(address), clock=lambda: NOW), _tamper_sqlite),
}


@dataclass(frozen=True)
class Shelf:
    """One book that a test may open as often as it likes."""

    kind: str
    address: str

    def open(self) -> Store:
        return KINDS[self.kind].open(self.address)

    def tamper(self, statements: str) -> None:
        KINDS[self.kind].tamper(self.address, statements)


OPENED = {"name": "van", "engine": "invented", "sheet_path": "sheet.yaml", "kit_path": "kit.yaml"}


def draft(
    kind: str = "note", *, build: str = "van", basis: str = "", entry_id: str = "", **body: Any
) -> Draft:
    """A draft of anything; a note when nothing else is said."""
    if kind == "note" and not body:
        body = {"text": "cold"}
    if kind == "build-opened" and not body:
        body = dict(OPENED)
    at = NOW.isoformat()
    return Draft(entry_id or uuid4().hex, kind, body, build, "Ada", "bench", at, basis)


def pull(stage: int, bolt: str, *, joint: str = "head", basis: str = "") -> Draft:
    """A draft of a pull."""
    fields: dict[str, Any] = {"joint": joint, "stage": stage, "round": 1, "bolt": bolt, "outcome": "done"}
    return draft("pull", basis=basis, **fields)

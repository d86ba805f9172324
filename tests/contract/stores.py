"""The stores that keep the contract, each with a place of its own and a way to tamper with it."""

import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any
from uuid import uuid4

import psycopg

from gudgeon.book.address import book_address
from gudgeon.book.entries import Draft
from gudgeon.book.opening import open_book
from gudgeon.book.store import Store

NOW = datetime(2026, 3, 7, 10, 0, tzinfo=UTC)


def _tamper_sqlite(address: str, statements: str) -> None:
    """Someone who knows SQLite, and takes away what refuses a change."""
    connection = sqlite3.connect(address)
    connection.executescript(f"DROP TRIGGER entry_stays; DROP TRIGGER entry_kept; {statements}")
    connection.close()


def _tamper_postgres(address: str, statements: str) -> None:
    """The owner of the database, who may take away what refuses a change."""
    with psycopg.connect(address, autocommit=True, options="-c search_path=gudgeon") as connection:
        connection.execute("DROP TRIGGER entry_stays ON entry; DROP TRIGGER document_stays ON document")
        connection.execute(statements)


KINDS = {"SQLite": _tamper_sqlite, "PostgreSQL": _tamper_postgres}
"""The kinds of store, and how each is changed behind its back."""


@dataclass(frozen=True)
class Shelf:
    """One book that a test may open as often as it likes."""

    kind: str
    address: str

    def open(self, *, create: bool = False) -> Store:
        return open_book(book_address(self.address), clock=lambda: NOW, create=create)

    def tamper(self, statements: str) -> None:
        KINDS[self.kind](self.address, statements)

    @property
    def whole(self) -> str:
        """What a problem of the whole book is said of."""
        return "the file" if self.kind == "SQLite" else "the database"


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

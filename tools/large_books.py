"""Books to measure: many builds, each as full as the invented job, over and over."""

import sqlite3
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import count, islice
from pathlib import Path
from typing import Any

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import clock
from gudgeon.book.address import BookAddress, book_address
from gudgeon.book.entries import Draft, Entry
from gudgeon.book.opening import open_book
from tools.cluster import Cluster, running

BUILDS = 20
AT_ONCE = 500
CONTENT = "x" * 600
"""About as long as an entry is on the average."""


@dataclass(frozen=True, slots=True)
class Job:
    """The entries of the invented job, and the papers they were made against."""

    folder: Path
    entries: tuple[Entry, ...]
    sheet: str
    kit: str

    def drafts(self, build: str) -> Iterator[Draft]:
        """The build is begun, then the job is done over and over, each time with other things on the lists."""
        first = self.entries[0]
        yield self._draft(first, build, first.body, 0)
        for again in count():
            for joint in sorted({one.body["joint"] for one in self.entries if one.kind == "pull"}):
                apart = replace(first, kind="joint-disturbed")
                yield self._draft(apart, build, {"joint": joint, "why": "taken apart again"}, again)
            for entry in self.entries[1:]:
                body = dict(entry.body)
                if "item" in body and entry.kind != "reading":
                    body["item"] = f"{body['item']}_{again}"
                if entry.kind in ("reading", "pull", "note") or "item" in body or again == 0:
                    yield self._draft(entry, build, body, again)

    def _draft(self, entry: Entry, build: str, body: dict[str, Any], again: int) -> Draft:
        at = datetime.fromisoformat(entry.device_time) + timedelta(minutes=again)
        return Draft(
            uuid.uuid4().hex, entry.kind, body, build, entry.who, entry.device, at.isoformat(),
            sheet=entry.sheet, kit=entry.kit,
        )  # fmt: skip


def job(folder: Path) -> Job:
    """Lay out the invented job, and read it."""
    begun = open_demo(folder, now=clock())
    with open_book(begun.book, clock=clock) as store:
        entries = store.entries(begun.build)
        return Job(folder, entries, store.document(entries[0].sheet), store.document(entries[0].kit))


def fill(address: BookAddress, job: Job, *, entries: int) -> None:
    """A book with so many entries, spread over the builds."""
    with open_book(address, clock=clock, create=True) as store:
        store.put_document(job.sheet, kind="sheet")
        store.put_document(job.kit, kind="kit")
        for number in range(BUILDS):
            drafts = islice(job.drafts(f"build {number}"), entries // BUILDS)
            while some := list(islice(drafts, AT_ONCE)):
                store.append_many(some)


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of store: the addresses of its books by their names, and one synced insert of one row without Gudgeon."""

    name: str
    address: Callable[[str], BookAddress]
    bare: Callable[[], None]


@contextmanager
def in_files(job: Job) -> Iterator[Kind]:
    """Books as files, and a table in a file of the same folder."""
    connection = sqlite3.connect(job.folder / "bare", isolation_level=None)
    for pragma in ("journal_mode = WAL", "synchronous = FULL", "fullfsync = ON"):
        connection.execute(f"PRAGMA {pragma}")
    connection.execute("CREATE TABLE row (place INTEGER PRIMARY KEY, content TEXT)")

    def bare() -> None:
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("INSERT INTO row (content) VALUES (?)", (CONTENT,))
        connection.execute("COMMIT")

    yield Kind("SQLite", lambda name: job.folder / name, bare)
    connection.close()


@contextmanager
def on_a_server(job: Job) -> Iterator[Kind]:
    """Books in databases of a server that is started for it, and a table in a database of the same server."""
    import psycopg

    with running() as server:
        server.run("CREATE DATABASE bare")
        with psycopg.connect(server.address("bare"), autocommit=True) as connection:
            connection.execute("CREATE TABLE row (place bigserial PRIMARY KEY, content text)")

            def bare() -> None:
                connection.execute("INSERT INTO row (content) VALUES (%s)", (CONTENT,))

            yield Kind("PostgreSQL", lambda name: _database(server, name, job), bare)


def _database(server: Cluster, name: str, job: Job) -> BookAddress:
    there = server.run(f"SELECT 1 FROM pg_database WHERE datname = '{name}'")
    if not there:
        server.run(f'CREATE DATABASE "{name}"')
    return book_address(server.address(name))

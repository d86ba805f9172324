"""The book as one SQLite file: WAL, synchronous FULL, explicit transactions, one writer."""

import json
import os
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from gudgeon.book.canonical import canonical, sha256
from gudgeon.book.entries import Draft, Entry
from gudgeon.book.errors import (
    BookBusy,
    BookDamaged,
    BookMissing,
    BookReadOnly,
    BookTooNew,
    DiskRefused,
    DocumentMissing,
    NotABook,
    SameIdOtherContent,
    StrikeRefused,
)
from gudgeon.book.store import Appended

APPLICATION = 0x47554447
FORMAT = 1
_MAGIC = b"SQLite format 3\x00"

_SCHEMA = f"""
BEGIN IMMEDIATE;
CREATE TABLE entry (
    build TEXT NOT NULL, number INTEGER NOT NULL, id TEXT NOT NULL UNIQUE,
    content TEXT NOT NULL, hash TEXT NOT NULL, PRIMARY KEY (build, number)
);
CREATE TABLE document (sha TEXT PRIMARY KEY, kind TEXT NOT NULL, text TEXT NOT NULL);
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;
PRAGMA application_id = {APPLICATION};
PRAGMA user_version = {FORMAT};
COMMIT;
"""


def open_book(path: Path, *, clock: Callable[[], datetime], create: bool = False) -> "SqliteStore":
    """Open a book, or make one where there is none; any other file is left untouched."""
    if path.is_dir():
        raise NotABook(str(path), "it is a folder")
    try:
        fresh = not path.exists() or (create and path.stat().st_size == 0)
        if fresh and not create:
            raise BookMissing(str(path))
        if not fresh:
            _look(path)
    except PermissionError:
        raise NotABook(str(path), "it may not be read") from None
    return SqliteStore(path, clock=clock, fresh=fresh)


def _look(path: Path) -> None:
    """Read the header before SQLite may touch the file: a book, of a known format, and whole."""
    with path.open("rb") as file:
        header = file.read(100)
    if len(header) < 100 or not header.startswith(_MAGIC):
        raise NotABook(str(path), "it is empty" if not header else "it is no SQLite file")
    if int.from_bytes(header[68:72], "big") != APPLICATION:
        raise NotABook(str(path), "it is an SQLite file of another program")
    found = int.from_bytes(header[60:64], "big")
    if found > FORMAT:
        raise BookTooNew(str(path), found, FORMAT)
    page = int.from_bytes(header[16:18], "big") or 65536
    pages = int.from_bytes(header[28:32], "big")
    if not path.with_name(f"{path.name}-wal").exists() and path.stat().st_size < pages * page:
        raise BookDamaged(str(path), f"{path.stat().st_size:,} bytes are there, {pages * page:,} should be")


class SqliteStore:
    """A store on one SQLite file."""

    def __init__(self, path: Path, *, clock: Callable[[], datetime], fresh: bool) -> None:
        self.path = path
        self.clock = clock
        self.may_write = os.access(path.parent, os.W_OK) and (fresh or os.access(path, os.W_OK))
        if fresh and not self.may_write:
            raise BookReadOnly(str(path))
        with self._told():
            self.connection = self._connect()
            self.connection.execute("PRAGMA synchronous = FULL")
            if fresh:
                self.connection.executescript(_SCHEMA)
                self.connection.execute("PRAGMA journal_mode = WAL")
            self.connection.execute("SELECT count(*) FROM document").fetchone()

    def _connect(self) -> sqlite3.Connection:
        """A connection; where the folder may not be written, one that leaves no trace in it."""
        if self.may_write:
            return sqlite3.connect(self.path, timeout=10, isolation_level=None)
        pending = self.path.with_name(f"{self.path.name}-wal").exists()
        mode = "mode=ro" if pending else "mode=ro&immutable=1"
        return sqlite3.connect(f"{self.path.resolve().as_uri()}?{mode}", uri=True, isolation_level=None)

    @contextmanager
    def _told(self) -> Iterator[None]:
        """SQLite's own errors in our words."""
        try:
            yield
        except sqlite3.OperationalError as error:
            why = str(error)
            if "locked" in why or "busy" in why:
                raise BookBusy(str(self.path)) from None
            if "readonly" in why or "read-only" in why:
                raise BookReadOnly(str(self.path)) from None
            raise DiskRefused(str(self.path), why) from None
        except sqlite3.DatabaseError as error:
            raise BookDamaged(str(self.path), str(error)) from None

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        if not self.may_write:
            raise BookReadOnly(str(self.path))
        with self._told():
            self.connection.execute("BEGIN IMMEDIATE")
            try:
                yield
            except BaseException:
                if self.connection.in_transaction:
                    self.connection.execute("ROLLBACK")
                raise
            self.connection.execute("COMMIT")

    def append(self, draft: Draft) -> Appended:
        """Write one entry; it is on disk when this returns."""
        return self.append_many([draft])[0]

    def append_many(self, drafts: Sequence[Draft]) -> tuple[Appended, ...]:
        """Write several entries in one transaction: all of them or none."""
        with self._transaction():
            return tuple(self._append(draft) for draft in drafts)

    def _append(self, draft: Draft) -> Appended:
        from gudgeon.book.chain import content_of, entry_of, same

        there = self.connection.execute(
            "SELECT content, hash FROM entry WHERE id = ?", (draft.id,)
        ).fetchone()
        if there is not None:
            known = entry_of(there[0], digest=there[1])
            if not same(known, draft):
                raise SameIdOtherContent(draft.id)
            return Appended(known, True, ())
        if draft.kind == "strike":
            self._may_strike(draft)
        last = self.connection.execute(
            "SELECT number, hash FROM entry WHERE build = ? ORDER BY number DESC LIMIT 1", (draft.build,)
        ).fetchone()
        number, prev = (last[0] + 1, last[1]) if last else (1, "")
        text = canonical(
            content_of(
                draft, number=number, prev=prev, server_time=self.clock().isoformat(timespec="milliseconds")
            )
        )
        digest = sha256(text)
        self.connection.execute(
            "INSERT INTO entry VALUES (?, ?, ?, ?, ?)", (draft.build, number, draft.id, text, digest)
        )
        since = self._since(draft, prev) if draft.basis and draft.basis != prev else ()
        return Appended(entry_of(text, digest=digest), False, since)

    def _may_strike(self, draft: Draft) -> None:
        target = str(draft.body.get("entry", ""))
        row = self.connection.execute("SELECT build, content FROM entry WHERE id = ?", (target,)).fetchone()
        if row is None or row[0] != draft.build:
            raise StrikeRefused(target, "it is not in this build")
        kind = json.loads(row[1])["kind"]
        if kind == "strike":
            raise StrikeRefused(target, "a strike is not struck")
        if kind == "build-opened":
            raise StrikeRefused(target, "it begins the build")
        if any(one.body["entry"] == target for one in self.entries(draft.build) if one.kind == "strike"):
            raise StrikeRefused(target, "it is struck already")

    def _since(self, draft: Draft, prev: str) -> tuple[Entry, ...]:
        """What came between the state a draft was based on and now."""
        from gudgeon.book.chain import entry_of

        row = self.connection.execute(
            "SELECT number FROM entry WHERE build = ? AND hash = ?", (draft.build, draft.basis)
        ).fetchone()
        if row is None:
            return ()
        rows = self.connection.execute(
            "SELECT content, hash FROM entry WHERE build = ? AND number > ? AND id <> ? ORDER BY number",
            (draft.build, row[0], draft.id),
        ).fetchall()
        return tuple(entry_of(one[0], digest=one[1]) for one in rows)

    def entries(self, build: str) -> tuple[Entry, ...]:
        """Every entry of a build, in order."""
        with self._told():
            rows = self.connection.execute(
                "SELECT content, hash FROM entry WHERE build = ? ORDER BY number", (build,)
            ).fetchall()
        return tuple(Entry(**json.loads(content), hash=digest) for content, digest in rows)

    def builds(self) -> tuple[str, ...]:
        """The builds of the book, the oldest first."""
        with self._told():
            rows = self.connection.execute(
                "SELECT build FROM entry GROUP BY build ORDER BY min(rowid)"
            ).fetchall()
        return tuple(row[0] for row in rows)

    def head(self, build: str) -> str:
        """The hash of the last entry of a build."""
        with self._told():
            row = self.connection.execute(
                "SELECT hash FROM entry WHERE build = ? ORDER BY number DESC LIMIT 1", (build,)
            ).fetchone()
        return row[0] if row else ""

    def put_document(self, text: str, *, kind: str) -> str:
        """Keep a text by its hash; say the hash."""
        sha = sha256(text)
        with self._told():
            known = self.connection.execute("SELECT 1 FROM document WHERE sha = ?", (sha,)).fetchone()
        if known is None:
            with self._transaction():
                self.connection.execute("INSERT OR IGNORE INTO document VALUES (?, ?, ?)", (sha, kind, text))
        return sha

    def document(self, sha: str) -> str:
        """A text by its hash."""
        with self._told():
            row = self.connection.execute("SELECT text FROM document WHERE sha = ?", (sha,)).fetchone()
        if row is None:
            raise DocumentMissing(sha)
        return str(row[0])

    def verify(self) -> tuple[str, ...]:
        """Everything that is wrong with the chains and the pinned texts; nothing when all is well."""
        from gudgeon.book.chain import broken

        problems: list[str] = []
        with self._told():
            sound = self.connection.execute("PRAGMA integrity_check").fetchall()
            problems += [f"the file: {row[0]}" for row in sound if row[0] != "ok"]
            for build in self.builds():
                rows = self.connection.execute(
                    "SELECT number, id, content, hash FROM entry WHERE build = ? ORDER BY number", (build,)
                ).fetchall()
                problems += broken(build, rows)
            for sha, text in self.connection.execute("SELECT sha, text FROM document"):
                if sha256(text) != sha:
                    problems.append(f"pinned text {sha[:8]}: it does not match its hash")
        return tuple(problems)

    def close(self) -> None:
        """Let go of the book."""
        self.connection.close()

"""The book as one SQLite file: write-ahead log, synced before it is acknowledged, one writer, many readers."""

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from gudgeon.book.canonical import sha256
from gudgeon.book.entries import AT_ONCE, Draft, Entry, all_to_be_kept, entries_from_rows, entry_from_text
from gudgeon.book.errors import BookDamaged, DocumentMissing
from gudgeon.book.sqlite_file import FORMAT, commit, connect, look, make, told
from gudgeon.book.store import Appended, Chain, Document, DocumentKind, Problem, Row, TakenOver, pinned

Clock = Callable[[], datetime]


def open_book(path: Path, *, clock: Clock, create: bool = False, wait_s: float = 10.0) -> "SqliteStore":
    """Open a book, or make one where there is none; any other file is left untouched."""
    if create and not path.exists():
        make(path)
    look(path)
    return SqliteStore(path, clock=clock, wait_s=wait_s)


class SqliteStore:
    """A store on one SQLite file."""

    def __init__(self, path: Path, *, clock: Clock, wait_s: float) -> None:
        self.path = path
        self._clock = clock
        self._read: dict[str, tuple[Entry, ...]] = {}
        with told(path):
            self._opened = connect(path, wait_s=wait_s)
            try:
                found = self._opened.connection.execute("SELECT number FROM format").fetchall()
            except BaseException:
                self.close()
                raise
        if found != [(FORMAT,)]:
            self.close()
            raise BookDamaged(str(path), "it does not say its format")

    @property
    def may_write(self) -> bool:
        """Whether entries can be recorded; a book in a read-only folder can still be read."""
        return self._opened.refusal is None

    def __enter__(self) -> Self:
        """The store itself, closed at the end of the block."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Let go of the book."""
        self.close()

    def close(self) -> None:
        """Let go of the book."""
        self._opened.connection.close()
        if self._opened.copy is not None:
            self._opened.copy.cleanup()

    @contextmanager
    def _writing(self) -> Iterator["_Rows"]:
        """One transaction: on disk when the block is left, or as if it had never begun."""
        if self._opened.refusal is not None:
            raise self._opened.refusal
        connection = self._opened.connection
        with told(self.path):
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield _Rows(connection)
                commit(connection, self.path)
            except BaseException:  # Ctrl-C as well: half a transaction is none
                if connection.in_transaction:
                    connection.execute("ROLLBACK")
                raise

    def append(self, draft: Draft) -> Appended:
        """Write one entry; it is on disk when this returns. The same draft twice counts once."""
        return self.append_many([draft])[0]

    def append_many(self, drafts: Iterable[Draft]) -> tuple[Appended, ...]:
        """Write several entries in one transaction: all of them or none."""
        from gudgeon.book.bodies import validated_draft
        from gudgeon.book.chain import add

        sent = [validated_draft(draft) for draft in drafts]
        with self._writing() as rows:
            now = self._clock().isoformat(timespec="milliseconds")
            return tuple(add(rows, one, server_time=now) for one in sent)

    def entries(self, build: str) -> tuple[Entry, ...]:
        """Every entry of a build, in order; those that were read before are there already, as they never change."""
        known = self._read.get(build, ())
        self._read[build] = read = (*known, *self.entries_after(build, known[-1].number if known else -1))
        return read

    def entries_after(self, build: str, number: int) -> tuple[Entry, ...]:
        """The entries of a build with greater numbers, in order."""
        found: list[Entry] = []
        try:
            with told(self.path), all_to_be_kept():
                rows = self._opened.connection.execute(
                    "SELECT content, hash FROM entry WHERE build = ? AND number > ? ORDER BY number",
                    (build, number),
                )
                while some := rows.fetchmany(AT_ONCE):
                    found += entries_from_rows(some)
        except (ValueError, TypeError):
            raise BookDamaged(str(self.path), f"an entry of {build} cannot be read") from None
        return tuple(found)

    def builds(self) -> tuple[str, ...]:
        """The builds of the book, the oldest first."""
        # The plus sign keeps SQLite from reading the whole table only to have it in this order.
        return tuple(row[0] for row in self._all("SELECT build FROM entry WHERE number = 1 ORDER BY +place"))

    def head(self, build: str) -> str:
        """The hash of the last entry of a build; empty before the first."""
        with told(self.path):
            return _Rows(self._opened.connection).last(build)[1]

    def put_document(self, text: str, *, kind: DocumentKind) -> str:
        """Keep a text by its hash; say the hash."""
        sha = pinned(text, kind=kind)
        if not self._all("SELECT 1 FROM document WHERE sha = ?", sha):
            with self._writing():
                self._all("INSERT OR IGNORE INTO document VALUES (?, ?, ?)", sha, kind, text)
        return sha

    def document(self, sha: str) -> str:
        """A text by its hash."""
        rows = self._all("SELECT text FROM document WHERE sha = ?", sha)
        if not rows:
            raise DocumentMissing(sha)
        return str(rows[0][0])

    @contextmanager
    def at_one_moment(self) -> Iterator[None]:
        """What is read in the block is of one moment, whatever others write meanwhile."""
        connection = self._opened.connection
        with told(self.path):
            connection.execute("BEGIN")
            try:
                yield
            finally:
                if connection.in_transaction:
                    connection.execute("COMMIT")

    def chain(self, build: str) -> Chain:
        """The chain of a build as it stands, whether it is in order or not."""
        with told(self.path):
            return Chain(build, _Rows(self._opened.connection).chain(build))

    def documents(self) -> tuple[Document, ...]:
        """Every pinned text, in the order of the hashes."""
        return tuple(Document(*row) for row in self._all("SELECT sha, kind, text FROM document ORDER BY sha"))

    def take_over(self, chains: Sequence[Chain], *, documents: Sequence[Document]) -> tuple[TakenOver, ...]:
        """Take whole chains as they stand, with the texts they were made against: all of them or none."""
        from gudgeon.book.taking_over import refuse_broken, take

        refuse_broken(chains, documents=documents)
        with self._writing() as rows:
            return take(rows, chains, documents)

    def verify(self) -> tuple[Problem, ...]:
        """Everything that is not as it was written; nothing when all is well."""
        from gudgeon.book.chain import broken

        found = [Problem("the file", row[0]) for row in self._all("PRAGMA integrity_check") if row[0] != "ok"]
        shas = set()
        for sha, text in self._all("SELECT sha, text FROM document"):
            shas.add(sha)
            if sha256(text) != sha:
                found.append(Problem(f"pinned text {sha[:8]}", "it does not match its hash"))
        # The builds of all the rows, not only those whose first entry is still there.
        for (build,) in self._all("SELECT build FROM entry GROUP BY build ORDER BY min(place)"):
            found += broken(build, self.chain(build).rows, documents=shas)
        return (*found, *self._rows_lost())

    def _rows_lost(self) -> Iterator[Problem]:
        """Rows are counted as they come, so that a tail or a whole build cut out of the table is missed."""
        came = self._all("SELECT seq FROM sqlite_sequence WHERE name = 'entry'")
        last, there = self._all("SELECT max(place), count(*) FROM entry")[0]
        given = came[0][0] if came else 0
        if (last or 0) != given or there != given:
            yield Problem("the file", f"{given} entries were written, {there} are there")

    def _all(self, statement: str, *values: str) -> list[Any]:
        with told(self.path):
            return self._opened.connection.execute(statement, values).fetchall()


class _Rows:
    """The entries, as adding to a chain needs them inside its transaction."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection

    def find(self, entry_id: str) -> Entry | None:
        row = self._connection.execute("SELECT content, hash FROM entry WHERE id = ?", (entry_id,)).fetchone()
        return entry_from_text(row[0], digest=row[1]) if row else None

    def last(self, build: str) -> tuple[int, str]:
        row = self._connection.execute(
            "SELECT number, hash FROM entry WHERE build = ? ORDER BY number DESC LIMIT 1", (build,)
        ).fetchone()
        return (row[0], row[1]) if row else (0, "")

    def number(self, build: str, *, digest: str) -> int | None:
        row = self._connection.execute(
            "SELECT number FROM entry WHERE hash = ? AND build = ?", (digest, build)
        ).fetchone()
        return row[0] if row else None

    def between(self, build: str, *, after: int, before: int) -> tuple[Entry, ...]:
        rows = self._connection.execute(
            "SELECT content, hash FROM entry WHERE build = ? AND number > ? AND number < ? ORDER BY number",
            (build, after, before),
        ).fetchall()
        return tuple(entry_from_text(text, digest=digest) for text, digest in rows)

    def insert(self, entry: Entry, *, text: str) -> None:
        self._connection.execute(
            "INSERT INTO entry (build, number, id, content, hash) VALUES (?, ?, ?, ?, ?)",
            (entry.build, entry.number, entry.id, text, entry.hash),
        )

    def chain(self, build: str) -> tuple[Row, ...]:
        rows = self._connection.execute(
            "SELECT number, id, content, hash FROM entry WHERE build = ? ORDER BY number", (build,)
        )
        return tuple(rows)

    def builds_of(self, ids: Sequence[str]) -> Mapping[str, str]:
        found: dict[str, str] = {}
        for start in range(0, len(ids), 500):  # as many values as any SQLite takes in one statement
            some = ids[start : start + 500]
            marks = ",".join("?" * len(some))
            found.update(self._connection.execute(f"SELECT id, build FROM entry WHERE id IN ({marks})", some))
        return found

    def keep(self, document: Document) -> None:
        self._connection.execute(
            "INSERT OR IGNORE INTO document VALUES (?, ?, ?)", (document.sha, document.kind, document.text)
        )

    def insert_rows(self, build: str, *, rows: Sequence[Row]) -> None:
        self._connection.executemany(
            "INSERT INTO entry (build, number, id, content, hash) VALUES (?, ?, ?, ?, ?)",
            [(build, *row) for row in rows],
        )

"""The book in a database on a PostgreSQL server: one writer at a time, synced before it is acknowledged."""

import time
from collections.abc import Callable, Container, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import replace
from datetime import datetime
from types import TracebackType
from typing import Any, Self

from psycopg import Cursor
from psycopg.pq import TransactionStatus

from gudgeon.book.address import ServerAddress
from gudgeon.book.canonical import sha256
from gudgeon.book.entries import AT_ONCE, Draft, Entry, all_to_be_kept, entries_from_rows, entry_from_text
from gudgeon.book.errors import BookDamaged, DocumentMissing
from gudgeon.book.postgres_server import Connection, opened, quoted, told, writing
from gudgeon.book.server_errors import OutcomeUnknown
from gudgeon.book.store import Appended, Chain, Document, DocumentKind, Problem, Row, TakenOver, pinned
from gudgeon.errors import InputError

Clock = Callable[[], datetime]


class PostgresStore:
    """A store in the schema `gudgeon` of one database."""

    def __init__(self, address: ServerAddress, *, clock: Clock, create: bool = False, wait_s: float) -> None:
        self.address = address
        self._clock = clock
        self._wait_s = wait_s
        self._read: dict[str, tuple[Entry, ...]] = {}
        self._connection = opened(address, create=create, wait_s=wait_s)

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
        self._connection.close()

    @contextmanager
    def _writing(self, sent: Sequence[Mapping[str, Any]] = ()) -> Iterator["_Rows"]:
        """A transaction, and what adding the drafts asks for already in hand: each way to the server is a wait."""
        asked = _asked(sent, self._connection) if sent else ()
        with writing(self.address, self._connection, wait_s=self._wait_s, asked=asked) as turn:
            rows = _Rows(self._connection, turn.last_words)
            if sent:
                there, last = turn.answers
                rows.ask_no_more(sent, there=there, last=last)
            yield rows

    def append(self, draft: Draft) -> Appended:
        """Write one entry; it is on disk when this returns. The same draft twice counts once."""
        return self.append_many([draft])[0]

    def append_many(self, drafts: Iterable[Draft]) -> tuple[Appended, ...]:
        """Write several entries in one transaction: all of them or none."""
        from gudgeon.book.bodies import validated_draft

        sent = [validated_draft(draft) for draft in drafts]
        done: list[Appended] = []
        try:
            self._add(sent, done)
        except OutcomeUnknown:
            return self._add_again(sent, known={one.entry.id for one in done if one.already})
        return tuple(done)

    def _add(self, sent: Sequence[Mapping[str, Any]], done: list[Appended]) -> None:
        from gudgeon.book.chain import add

        with self._writing(sent) as rows:
            now = self._clock().isoformat(timespec="milliseconds")
            done.extend(add(rows, one, server_time=now) for one in sent)

    def _add_again(self, sent: Sequence[Mapping[str, Any]], *, known: Container[str]) -> tuple[Appended, ...]:
        """After a commit that was not answered: the same entries once more; what was kept counts once."""
        again: list[Appended] = []
        self._connect_again()
        try:
            self._add(sent, again)
        except InputError:  # the server went away again, and whether the first time counts is still not known
            raise OutcomeUnknown(str(self.address)) from None
        # What the unanswered commit had kept was not there before this call.
        return tuple(replace(one, already=one.entry.id in known) for one in again)

    def _connect_again(self) -> None:
        """Wait for a server that went away. A commit that it is still at holds the lock of the writer to its end."""
        self._connection.close()
        for _ in range(_TRIES):
            with suppress(InputError):
                self._connection = opened(self.address, create=False, wait_s=self._wait_s)
                return
            time.sleep(_PAUSE_S)
        raise OutcomeUnknown(str(self.address))

    def entries(self, build: str) -> tuple[Entry, ...]:
        """Every entry of a build, in order; those that were read before are there already, as they never change."""
        known = self._read.get(build, ())
        self._read[build] = read = (*known, *self.entries_after(build, known[-1].number if known else -1))
        return read

    def entries_after(self, build: str, number: int) -> tuple[Entry, ...]:
        """The entries of a build with greater numbers, in order."""
        found: list[Entry] = []
        with told(self.address):
            rows = self._connection.execute(
                "SELECT content, hash FROM gudgeon.entry WHERE build = %s AND number > %s ORDER BY number",
                (build, number),
            )
        try:
            with all_to_be_kept():
                while some := rows.fetchmany(AT_ONCE):
                    found += entries_from_rows(some)
        except (ValueError, TypeError):
            raise BookDamaged(str(self.address), f"an entry of {build} cannot be read") from None
        return tuple(found)

    def builds(self) -> tuple[str, ...]:
        """The builds of the book, the oldest first."""
        return tuple(
            row[0] for row in self._all("SELECT build FROM gudgeon.entry WHERE number = 1 ORDER BY place")
        )

    def head(self, build: str) -> str:
        """The hash of the last entry of a build; empty before the first."""
        with told(self.address):
            return _Rows(self._connection).last(build)[1]

    def put_document(self, text: str, *, kind: DocumentKind) -> str:
        """Keep a text by its hash; say the hash."""
        sha = pinned(text, kind=kind)
        if not self._all("SELECT 1 FROM gudgeon.document WHERE sha = %s", sha):
            with self._writing() as rows:
                rows.keep(Document(sha, kind, text))
        return sha

    def document(self, sha: str) -> str:
        """A text by its hash."""
        rows = self._all("SELECT text FROM gudgeon.document WHERE sha = %s", sha)
        if not rows:
            raise DocumentMissing(sha)
        return str(rows[0][0])

    @contextmanager
    def at_one_moment(self) -> Iterator[None]:
        """What is read in the block is of one moment, whatever others write meanwhile."""
        connection = self._connection
        with told(self.address):
            connection.execute("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY")
            try:
                yield
            finally:
                if connection.info.transaction_status is not TransactionStatus.UNKNOWN:
                    connection.execute("ROLLBACK")

    def chain(self, build: str) -> Chain:
        """The chain of a build as it stands, whether it is in order or not."""
        with told(self.address):
            return Chain(build, _Rows(self._connection).chain(build))

    def documents(self) -> tuple[Document, ...]:
        """Every pinned text, in the order of the hashes."""
        rows = self._all('SELECT sha, kind, text FROM gudgeon.document ORDER BY sha COLLATE "C"')
        return tuple(Document(*row) for row in rows)

    def take_over(self, chains: Sequence[Chain], *, documents: Sequence[Document]) -> tuple[TakenOver, ...]:
        """Take whole chains as they stand, with the texts they were made against: all of them or none."""
        from gudgeon.book.taking_over import refuse_broken, take

        refuse_broken(chains, documents=documents)
        with self._writing() as rows:
            return take(rows, chains, documents)

    def verify(self) -> tuple[Problem, ...]:
        """Everything that is not as it was written; nothing when all is well."""
        if self._connection.info.transaction_status is TransactionStatus.INTRANS:
            return tuple(self._problems())
        with self.at_one_moment():
            return tuple(self._problems())

    def _problems(self) -> Iterator[Problem]:
        from gudgeon.book.chain import broken

        shas = set()
        for one in self.documents():
            shas.add(one.sha)
            if sha256(one.text) != one.sha:
                yield Problem(f"pinned text {one.sha[:8]}", "it does not match its hash")
        # The builds of all the rows, not only those whose first entry is still there.
        for (build,) in self._all("SELECT build FROM gudgeon.entry GROUP BY build ORDER BY min(place)"):
            yield from broken(build, self.chain(build).rows, documents=shas)
        yield from self._rows_lost()

    def _rows_lost(self) -> Iterator[Problem]:
        """Rows are counted as they come, so that a tail or a whole build cut out of the table is missed."""
        came = self._all("SELECT entries FROM gudgeon.written")
        there = self._all("SELECT count(*) FROM gudgeon.entry")[0][0]
        if came != [(there,)]:
            counted = came[0][0] if len(came) == 1 else "an unknown number of"
            yield Problem("the database", f"{counted} entries were written, {there} are there")

    def _all(self, statement: str, *values: str) -> list[Any]:
        with told(self.address):
            return self._connection.execute(statement, values).fetchall()


_TRIES, _PAUSE_S = 25, 0.4
"""How often, and how far apart, a server that went away is asked for again: about ten seconds in all."""


def _asked(sent: Sequence[Mapping[str, Any]], connection: Connection) -> tuple[str, str]:
    """What adding the drafts has to know: the entries with their ids, and the last ones of their builds."""
    ids, builds = (dict.fromkeys(one[name] for one in sent) for name in ("id", "build"))
    last = (
        "(SELECT build, number, hash FROM gudgeon.entry "
        f"WHERE build = {quoted(connection, build)} ORDER BY number DESC LIMIT 1)"
        for build in builds
    )
    there = f"SELECT id, content, hash FROM gudgeon.entry WHERE id IN ({quoted(connection, *ids)})"
    return there, " UNION ALL ".join(last)


class _Rows:
    """The entries, as adding to a chain and taking chains over need them inside a transaction."""

    def __init__(self, connection: Connection, last_words: list[str] | None = None) -> None:
        self._connection = connection
        # What is added goes to the server with the commit, or before it where something is asked in between.
        self._unsaid = [] if last_words is None else last_words
        self._found: dict[str, Entry | None] = {}
        self._last: dict[str, tuple[int, str]] = {}

    def ask_no_more(
        self, sent: Sequence[Mapping[str, Any]], *, there: Sequence[Any], last: Sequence[Any]
    ) -> None:
        """What the server has of the ids and builds of some drafts; while it is locked nobody else changes that."""
        self._found = {one["id"]: None for one in sent}
        self._found |= {name: entry_from_text(text, digest=digest) for name, text, digest in there}
        self._last = {one["build"]: (0, "") for one in sent}
        self._last |= {build: (number, digest) for build, number, digest in last}

    def find(self, entry_id: str) -> Entry | None:
        if entry_id in self._found:
            return self._found[entry_id]
        rows = self._rows("SELECT content, hash FROM gudgeon.entry WHERE id = %s", entry_id)
        return entry_from_text(rows[0][0], digest=rows[0][1]) if rows else None

    def last(self, build: str) -> tuple[int, str]:
        if build in self._last:
            return self._last[build]
        rows = self._rows(
            "SELECT number, hash FROM gudgeon.entry WHERE build = %s ORDER BY number DESC LIMIT 1", build
        )
        return (rows[0][0], rows[0][1]) if rows else (0, "")

    def number(self, build: str, *, digest: str) -> int | None:
        rows = self._rows("SELECT number FROM gudgeon.entry WHERE hash = %s AND build = %s", digest, build)
        return rows[0][0] if rows else None

    def between(self, build: str, *, after: int, before: int) -> tuple[Entry, ...]:
        rows = self._rows(
            "SELECT content, hash FROM gudgeon.entry WHERE build = %s AND number > %s AND number < %s ORDER BY number",
            build, after, before,
        )  # fmt: skip
        return tuple(entry_from_text(text, digest=digest) for text, digest in rows)

    def insert(self, entry: Entry, *, text: str) -> None:
        values = (entry.build, entry.number, entry.id, text, entry.hash)
        said = f"({quoted(self._connection, *values)})"
        self._unsaid.append(f"INSERT INTO gudgeon.entry (build, number, id, content, hash) VALUES {said}")
        if len(self._unsaid) >= AT_ONCE:
            self._say_all()
        self._found[entry.id] = entry
        self._last[entry.build] = (entry.number, entry.hash)

    def chain(self, build: str) -> tuple[Row, ...]:
        return tuple(
            self._rows(
                "SELECT number, id, content, hash FROM gudgeon.entry WHERE build = %s ORDER BY number", build
            )
        )

    def builds_of(self, ids: Sequence[str]) -> Mapping[str, str]:
        return dict(self._rows("SELECT id, build FROM gudgeon.entry WHERE id = ANY(%s)", list(ids)))

    def keep(self, document: Document) -> None:
        self._say(
            "INSERT INTO gudgeon.document (sha, kind, text) VALUES (%s, %s, %s) ON CONFLICT DO NOTHING",
            document.sha,
            document.kind,
            document.text,
        )

    def insert_rows(self, build: str, *, rows: Sequence[Row]) -> None:
        """One statement for all of them, as each statement is counted once."""
        numbers, ids, texts, hashes = ([row[at] for row in rows] for at in range(4))
        self._say(
            "INSERT INTO gudgeon.entry (build, number, id, content, hash) SELECT %s, come.* FROM "
            "unnest(%s::integer[], %s::text[], %s::text[], %s::text[]) AS come",
            build, numbers, ids, texts, hashes,
        )  # fmt: skip

    def _rows(self, statement: str, *values: Any) -> list[Any]:
        return self._say(statement, *values).fetchall()

    def _say(self, statement: str, *values: Any) -> Cursor[Any]:
        self._say_all()
        return self._connection.execute(statement, values)

    def _say_all(self) -> None:
        if self._unsaid:
            self._connection.execute("; ".join(self._unsaid).encode())
            self._unsaid.clear()

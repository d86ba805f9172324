"""The server of a book: connected to, looked at before it may be touched, its errors said in our words."""

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from typing import Any, TypeAlias

import psycopg
from psycopg.conninfo import make_conninfo
from psycopg.pq import Escaping

from gudgeon.book.address import ServerAddress
from gudgeon.book.errors import BookBusy, BookDamaged, BookMissing, BookTooNew, DiskFailed, DiskFull
from gudgeon.book.server_errors import (
    ConnectionLost,
    DatabaseMissing,
    EncodingRefused,
    NoRights,
    NotLetIn,
    OutcomeUnknown,
    PasswordRefused,
    SchemaTaken,
    ServerAway,
    ServerFailed,
    ServerMayForget,
    ServerReadOnly,
)
from gudgeon.errors import InputError

FORMAT = 1
WRITER = 0x47554447
"""The number of the lock that a writer holds; a lock of this kind belongs to one database alone."""

Connection: TypeAlias = "psycopg.Connection[tuple[Any, ...]]"
Rows: TypeAlias = list[tuple[Any, ...]]

_SETTINGS = {
    "client_encoding": "UTF8",
    "application_name": "gudgeon",
    "connect_timeout": "10",
    "keepalives_idle": "15",
    "keepalives_interval": "5",
    "keepalives_count": "3",
}
"""A server that was switched off is noticed within half a minute."""

_SCHEMA = f"""
CREATE TABLE gudgeon.format (number integer NOT NULL);
INSERT INTO gudgeon.format VALUES ({FORMAT});
CREATE TABLE gudgeon.entry (
    place bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    build text COLLATE "C" NOT NULL, number integer NOT NULL, id text COLLATE "C" NOT NULL UNIQUE,
    content text NOT NULL, hash text COLLATE "C" NOT NULL UNIQUE, UNIQUE (build, number)
);
CREATE INDEX build_first ON gudgeon.entry (place) WHERE number = 1;
CREATE TABLE gudgeon.document (sha text COLLATE "C" PRIMARY KEY, kind text NOT NULL, text text NOT NULL);
CREATE TABLE gudgeon.written (entries bigint NOT NULL);
INSERT INTO gudgeon.written VALUES (0);
CREATE FUNCTION gudgeon.count_written() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER
    SET search_path = pg_catalog, pg_temp AS
    $$ BEGIN UPDATE gudgeon.written SET entries = entries + (SELECT count(*) FROM come); RETURN NULL; END $$;
CREATE TRIGGER entry_counted AFTER INSERT ON gudgeon.entry
    REFERENCING NEW TABLE AS come FOR EACH STATEMENT EXECUTE FUNCTION gudgeon.count_written();
CREATE FUNCTION gudgeon.refuse_change() RETURNS trigger LANGUAGE plpgsql AS
    $$ BEGIN RAISE EXCEPTION 'what stands in a book is never changed or deleted'; END $$;
CREATE TRIGGER entry_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON gudgeon.entry
    FOR EACH STATEMENT EXECUTE FUNCTION gudgeon.refuse_change();
CREATE TRIGGER document_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON gudgeon.document
    FOR EACH STATEMENT EXECUTE FUNCTION gudgeon.refuse_change();
CREATE TRIGGER format_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON gudgeon.format
    FOR EACH STATEMENT EXECUTE FUNCTION gudgeon.refuse_change();
CREATE TRIGGER written_stays BEFORE DELETE OR TRUNCATE ON gudgeon.written
    FOR EACH STATEMENT EXECUTE FUNCTION gudgeon.refuse_change();
"""

_LOOK = """
SELECT current_setting('server_encoding'), array(
    SELECT relname::text FROM pg_catalog.pg_class
    WHERE relnamespace = to_regnamespace('gudgeon') AND relkind IN ('r', 'p', 'v', 'm', 'f') ORDER BY relname)
"""
_TABLES = {"document", "entry", "format", "written"}


def connect(address: ServerAddress) -> Connection:
    """A connection on which every statement stands for itself until a transaction is begun by name."""
    given = {"host": address.host, "user": address.user, "password": address.password}
    settings = {
        **_SETTINGS,
        **{name: value for name, value in given.items() if value},
        **dict(address.options),
    }
    try:
        said = make_conninfo(port=address.port, dbname=address.database, **settings)
        # A pooler between us and the server does not keep prepared statements.
        return psycopg.connect(said, autocommit=True, prepare_threshold=None)
    except (psycopg.Error, UnicodeError) as error:
        raise _not_connected(address, error) from None


_NO_CONNECTION: tuple[tuple[str, Callable[[str, str], InputError]], ...] = (
    (
        r"password authentication failed|no password supplied|empty password",
        lambda at, _: PasswordRefused(at),
    ),
    (r'database ".*" does not exist', lambda at, _: DatabaseMissing(at)),
    (r"pg_hba.conf|authentication failed|role .* does not exist|not permitted to log in", NotLetIn),
    (r"permission denied for database", NoRights),
)
"""While a connection is made the server gives no codes, only words; those of another language are handed on."""


def _not_connected(address: ServerAddress, error: Exception) -> InputError:
    shown, why = str(address), _why(address, error)
    if getattr(getattr(error, "pgconn", None), "needs_password", False):
        return PasswordRefused(shown)
    for words, cause in _NO_CONNECTION:
        if re.search(words, why):
            return cause(shown, why)
    return ServerAway(shown, why)


def _why(address: ServerAddress, error: Exception) -> str:
    """The first line of what the server or the driver says, without what is said already, and with no password."""
    said = (str(error).splitlines() or [""])[0]
    said = re.sub(
        r"^connection (failed|is bad): |connection to server (at|on) .*? failed: |FATAL: +", "", said
    )
    return address.without_password(said.rstrip("."))[:300] or type(error).__name__


_CAUSES: dict[str, Callable[[str, str], InputError]] = {
    "55P03": lambda at, _: BookBusy(at),
    "40P01": lambda at, _: BookBusy(at),
    "25006": lambda at, _: ServerReadOnly(at),
    "42501": NoRights,
    "53100": lambda at, _: DiskFull(at),
    "58030": DiskFailed,
    "XX001": BookDamaged,
    "XX002": BookDamaged,
    "42P01": BookDamaged,
    "42703": BookDamaged,
    "3F000": BookDamaged,
    "57P01": ConnectionLost,
    "57P02": ConnectionLost,
    "57P03": ConnectionLost,
    "57P05": ConnectionLost,
    "25P03": ConnectionLost,
}
"""PostgreSQL's own codes (its manual, appendix A), and what they mean here."""


@contextmanager
def told(address: ServerAddress) -> Iterator[None]:
    """The errors of the server and of the way to it in our words."""
    try:
        yield
    except psycopg.IntegrityError:  # a mistake of ours, not of the server
        raise
    except psycopg.Error as error:
        cause = _CAUSES.get(error.sqlstate or "")
        if cause is None and (error.sqlstate is None or error.sqlstate.startswith("08")):
            # Without a code it is not the server that speaks: the way to it is gone.
            cause = ConnectionLost if isinstance(error, psycopg.OperationalError) else None
        if cause is None and isinstance(error, psycopg.OperationalError | psycopg.InternalError):
            cause = ServerFailed
        if cause is None:
            raise
        raise cause(str(address), _why(address, error)) from None


def look(address: ServerAddress, connection: Connection) -> bool:
    """Whether there is a book; refuses what is none, or one of a later format, untouched."""
    shown = str(address)
    with told(address):
        encoding, tables = connection.execute(_LOOK).fetchall()[0]
        if encoding != "UTF8":
            raise EncodingRefused(shown, encoding)
        if not tables:
            return False
        if "format" not in tables:
            raise SchemaTaken(shown, f"it holds {', '.join(tables[:5])}")
        found = connection.execute("SELECT * FROM gudgeon.format").fetchall()
    if len(found) != 1 or len(found[0]) != 1 or not isinstance(found[0][0], int):
        raise BookDamaged(shown, "it does not say its format")
    if found[0][0] > FORMAT:
        raise BookTooNew(shown, found[0][0], FORMAT)
    if not set(tables) >= _TABLES:
        raise BookDamaged(shown, f"its table {min(_TABLES.difference(tables))} is not there")
    return True


def make(address: ServerAddress, connection: Connection, *, wait_s: float) -> None:
    """Make an empty book, whole or not at all; where another program was quicker, that book is the one."""
    with writing(address, connection, wait_s=wait_s):
        if look(address, connection):
            return
        missing = connection.execute("SELECT to_regnamespace('gudgeon') IS NULL").fetchall()[0][0]
        connection.execute(("CREATE SCHEMA gudgeon;" if missing else "") + _SCHEMA)


def opened(address: ServerAddress, *, create: bool, wait_s: float) -> Connection:
    """A connection to a book that is there, or made where there is none."""
    connection = connect(address)
    try:
        if not look(address, connection):
            if not create:
                raise BookMissing(str(address))
            make(address, connection, wait_s=wait_s)
    except BaseException:
        connection.close()
        raise
    return connection


@dataclass(frozen=True, slots=True)
class Turn:
    """The turn of the only writer: what the server answered to the lock, and what is said to it with the commit."""

    answers: list[Rows]
    last_words: list[str]


@contextmanager
def writing(
    address: ServerAddress, connection: Connection, *, wait_s: float, asked: Sequence[str] = ()
) -> Iterator[Turn]:
    """A transaction of the only writer: on the disk of the server when the block is left, or as if never begun.

    Read committed by name: the chain has to be read as it is once the lock is held, and not as it was before.
    What is asked is asked after the lock, on the same way to the server; its rows are given to the block. So is what
    the block leaves to be said last: it goes with the commit, and where it is refused nothing is committed.
    """
    with told(address), _or_not_begun(connection):
        begun = connection.execute(
            "BEGIN ISOLATION LEVEL READ COMMITTED; "
            f"SELECT current_setting('fsync'), set_config('synchronous_commit', 'on', true), "
            f"set_config('lock_timeout', '{max(1, round(wait_s * 1000))}', true), pg_advisory_xact_lock({WRITER}); "
            f"{'; '.join(asked)}".encode()
        )
        settings, *answers = _answers(begun)
        _refuse_to_forget(address, settings[0])
        turn = Turn(answers, [])
        yield turn
    _commit(address, connection, turn.last_words)


@contextmanager
def _or_not_begun(connection: Connection) -> Iterator[None]:
    try:
        yield
    except BaseException:  # Ctrl-C as well: half a transaction is none
        with suppress(psycopg.Error):
            connection.execute("ROLLBACK")
        raise


def quoted(connection: Connection, *values: str | int) -> str:
    """Values as they stand in a statement, one after the other."""
    escape = Escaping(connection.pgconn).escape_literal
    return ", ".join(str(one) if isinstance(one, int) else escape(one.encode()).decode() for one in values)


def _answers(done: "psycopg.Cursor[tuple[Any, ...]]") -> Iterator[Rows]:
    """The rows of each statement that gave any."""
    more: bool | None = True
    while more:
        if (done.statusmessage or "").startswith("SELECT"):
            yield done.fetchall()
        more = done.nextset()


def _refuse_to_forget(address: ServerAddress, settings: Sequence[str]) -> None:
    for name, value in zip(("fsync", "synchronous_commit"), settings, strict=False):
        if value != "on":
            raise ServerMayForget(str(address), f"{name} = {value}")


def _commit(address: ServerAddress, connection: Connection, last_words: Sequence[str]) -> None:
    """Acknowledged is what the server says that it has committed, and nothing else."""
    try:
        with told(address), _or_not_begun(connection):
            done = connection.execute("; ".join([*last_words, "COMMIT"]).encode())
            while done.nextset():
                pass
    except ConnectionLost:
        raise OutcomeUnknown(str(address)) from None
    if done.statusmessage != "COMMIT":
        raise ServerFailed(str(address), "it took the transaction back")

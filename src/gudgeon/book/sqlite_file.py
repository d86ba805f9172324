"""The file of a book: looked at before SQLite may touch it, made whole or not at all, opened without a trace."""

import errno
import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from gudgeon.book.errors import (
    BookBusy,
    BookDamaged,
    BookMissing,
    BookReadOnly,
    BookTooNew,
    BookUnreadable,
    DiskFailed,
    DiskFull,
    FolderMissing,
    LogOfAnother,
    NotABook,
    NotConfirmed,
)
from gudgeon.book.sqlite_handles import connected, content, copied, written_here
from gudgeon.book.sqlite_log import INDEX_BYTES, is_of_another, what_is_wrong
from gudgeon.book.whole_file import in_one_go, take_away
from gudgeon.errors import InputError
from gudgeon.written.replace import name_beside

APPLICATION = 0x47554447
FORMAT = 1
_MAGIC = b"SQLite format 3\x00"
_BEGINNING = 16 * 4096
"""All tables begin within these bytes, and with them the page on which the entries are counted."""

_SCHEMA = f"""
BEGIN IMMEDIATE;
CREATE TABLE format (number INTEGER NOT NULL);
INSERT INTO format VALUES ({FORMAT});
CREATE TABLE entry (
    place INTEGER PRIMARY KEY AUTOINCREMENT,
    build TEXT NOT NULL, number INTEGER NOT NULL, id TEXT NOT NULL UNIQUE,
    content TEXT NOT NULL, hash TEXT NOT NULL UNIQUE, UNIQUE (build, number)
);
CREATE INDEX build_first ON entry (build) WHERE number = 1;
CREATE TABLE document (sha TEXT PRIMARY KEY, kind TEXT NOT NULL, text TEXT NOT NULL);
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;
INSERT INTO sqlite_sequence VALUES ('book:' || lower(hex(randomblob(16))) || ';', 0);
PRAGMA application_id = {APPLICATION};
PRAGMA user_version = {FORMAT};
COMMIT;
"""


@contextmanager
def told(path: Path) -> Iterator[None]:
    """The errors of SQLite and of the system in our words."""
    try:
        yield
    except (sqlite3.ProgrammingError, sqlite3.IntegrityError):  # mistakes of ours, not of the disk
        raise
    except sqlite3.DatabaseError as error:
        raise _refused(path, error) from None
    except OSError as error:
        raise _refused_by_system(path, error) from None
    except UnicodeDecodeError:  # SQLite's own words quote what it found
        raise BookDamaged(str(path), "it holds what is no text") from None


def _refused(path: Path, error: sqlite3.DatabaseError) -> InputError:
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_CORRUPT)
    match code & 0xFF:
        case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
            return BookBusy(str(path))
        case sqlite3.SQLITE_READONLY | sqlite3.SQLITE_PERM:
            return BookReadOnly(str(path))
        case sqlite3.SQLITE_FULL:
            return DiskFull(str(path))
        case sqlite3.SQLITE_IOERR:
            return DiskFailed(str(path), _FAILED.get(code, "it broke off"))
        case sqlite3.SQLITE_CANTOPEN:
            return BookUnreadable(str(path), str(error))
    return BookDamaged(str(path), str(error))


_FAILED = {
    sqlite3.SQLITE_IOERR_READ: "it could not be read",
    sqlite3.SQLITE_IOERR_WRITE: "it took no more",
    sqlite3.SQLITE_IOERR_FSYNC: "it did not confirm what it was given",
    sqlite3.SQLITE_IOERR_DIR_FSYNC: "it did not confirm what it was given",
    sqlite3.SQLITE_IOERR_TRUNCATE: "a file could not be shortened",
    sqlite3.SQLITE_IOERR_SHMSIZE: "there was no room for what SQLite keeps beside the book",
}


def _refused_by_system(path: Path, error: OSError) -> InputError:
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return DiskFull(str(path))
    if error.errno in (errno.EIO, errno.EFBIG):
        return DiskFailed(str(path), error.strerror or "it broke off")
    return BookReadOnly(str(path))


def look(path: Path) -> None:
    """Refuse what is no book, of a later format, or cut short, from its first bytes alone."""
    if not path.exists():
        raise BookMissing(str(path))
    if not path.is_file():
        raise NotABook(str(path), "it is a folder" if path.is_dir() else "it is no file")
    try:
        header = content(path, of=path, most=100)
        size = path.stat().st_size
    except OSError as error:
        raise BookUnreadable(str(path), error.strerror or "refused") from None
    if not header.startswith(_MAGIC):
        raise NotABook(str(path), "it is no SQLite file" if header else "it is empty")
    if len(header) < 100:
        raise BookDamaged(str(path), f"only {size} bytes of it are there")
    if int.from_bytes(header[68:72], "big") != APPLICATION:
        raise NotABook(str(path), "it is an SQLite file of another program")
    found = int.from_bytes(header[60:64], "big")
    if found > FORMAT:
        raise BookTooNew(str(path), found, FORMAT)
    if header[18:20] not in (b"\1\1", b"\2\2"):
        raise BookDamaged(str(path), "its first page is not as it was written")
    page = int.from_bytes(header[16:18], "big")
    should = int.from_bytes(header[28:32], "big") * (65536 if page == 1 else page)
    # Pages that are still in the write-ahead log need not be in the file yet.
    if size < should and not _beside(path, "-wal"):
        raise BookDamaged(str(path), f"{size:,} bytes are there, {should:,} should be")


def make(path: Path) -> None:
    """Make an empty book under another name and give it its name when it is whole and on disk."""
    fresh = name_beside(path)
    try:
        _begin(fresh, path)
        with told(path):
            with closing(sqlite3.connect(fresh, isolation_level=None)) as connection:
                connection.execute("PRAGMA synchronous = FULL")
                connection.executescript(_SCHEMA)
                connection.execute("PRAGMA journal_mode = WAL")
            with in_one_go():
                _name(fresh, path)
                take_away(fresh)
            _sync_names(path)
    finally:
        take_away(fresh)


def _begin(fresh: Path, path: Path) -> None:
    try:
        fresh.touch(mode=0o600, exist_ok=False)
    except (FileNotFoundError, NotADirectoryError):
        raise FolderMissing(str(path.parent)) from None
    except OSError as error:
        raise _refused_by_system(path, error) from None


def _name(fresh: Path, path: Path) -> None:
    """Give the new book its name, unless another program was quicker: then that book is the one."""
    with suppress(FileExistsError):
        try:
            os.link(fresh, path)
        except FileExistsError:
            raise
        except OSError:  # a file system without links
            if path.exists():
                return
            fresh.rename(path)


def _sync_names(path: Path) -> None:
    """The name of the book is on disk, and those of the folders on the way, which may be as new as the book."""
    for folder in path.resolve().parents:
        try:
            handle = os.open(folder, os.O_RDONLY)
        except OSError:  # Windows opens no folders, and some may not be read
            continue
        try:
            os.fsync(handle)
        except OSError as error:
            if error.errno == errno.EIO:  # others: a file system that syncs no folders
                raise
        finally:
            os.close(handle)


@dataclass(frozen=True, slots=True)
class Opened:
    """A connection, why it may not write (where it may not), and the folder of the copy that it reads (if any)."""

    connection: sqlite3.Connection
    refusal: InputError | None = None
    copy: tempfile.TemporaryDirectory[str] | None = None


def connect(path: Path, *, wait_s: float) -> Opened:
    """A connection to a book; where nothing may be written, one that leaves no trace."""
    if not (os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)):
        return _reading(path, wait_s, BookReadOnly(str(path)))
    try:
        return Opened(_writing(path, wait_s))
    except sqlite3.OperationalError as error:
        # On a full disk there is no room for SQLite's memory either; what is in the book can still be shown.
        if error.sqlite_errorcode not in (sqlite3.SQLITE_IOERR_SHMSIZE, sqlite3.SQLITE_FULL):
            raise
    return _reading(path, wait_s, DiskFull(str(path)))


def _writing(path: Path, wait_s: float) -> sqlite3.Connection:
    """A connection that waits for the disk before it says that something is written."""
    with _looked_at(path, wait_s):
        connection = connected(path, mode="mode=rw", wait_s=wait_s, writes=True)
        try:
            connection.execute("SELECT number FROM format").fetchall()  # before anything is changed
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("PRAGMA fullfsync = ON")
        except BaseException:
            connection.close()
            raise
        return connection


@contextmanager
def _looked_at(path: Path, wait_s: float) -> Iterator[None]:
    """Where a log lies beside the book, it is looked at by a connection that cannot take it over.

    The log that this program itself is writing was looked at when it was opened first. Another program that lets go of
    the book as the last one puts its log into it and takes it away: then there is nothing to look at.
    """
    if not _beside(path, "-wal") or written_here(path):
        yield
        return
    looking = connected(path, mode="mode=ro", wait_s=wait_s)
    try:
        with suppress(FileNotFoundError):
            _look_at_log(path, looking=looking)
        yield
    finally:
        looking.close()


def _look_at_log(path: Path, *, looking: sqlite3.Connection) -> None:
    """Refuse a log that is of another book, or damaged; FileNotFoundError where it is gone by now."""
    log = content(_named(path, "-wal"), of=path)
    if is_of_another(log, beginning=content(path, of=path, most=_BEGINNING)):
        raise LogOfAnother(str(path))
    found = looking.execute("PRAGMA quick_check(1)").fetchone()[0]
    index = content(_named(path, "-shm"), of=path, most=INDEX_BYTES)
    wrong = what_is_wrong(log, index=index, name=f"{path.name}-wal")
    if found != "ok" or wrong:
        raise BookDamaged(str(path), wrong or found)


def _reading(path: Path, wait_s: float, refusal: InputError) -> Opened:
    """A connection that writes nothing, neither into the book nor beside it."""
    if not _beside(path, "-wal"):
        return Opened(connected(path, mode="mode=ro&immutable=1", wait_s=wait_s), refusal)
    if _beside(path, "-shm") and isinstance(refusal, BookReadOnly):
        return Opened(connected(path, mode="mode=ro", wait_s=wait_s), refusal)
    # Without its shared memory the log can only be read where that can be made: in a copy.
    copy = tempfile.TemporaryDirectory(prefix="gudgeon-")
    try:
        for rest in ("", "-wal"):
            copied(_named(path, rest), to=Path(copy.name) / f"book{rest}", of=path)
        copied_book = connected(Path(copy.name) / "book", mode="mode=rw", wait_s=wait_s)
        return Opened(copied_book, refusal, copy)
    except BaseException:
        copy.cleanup()
        raise


def _beside(path: Path, rest: str) -> bool:
    """Whether SQLite's log or its memory stands beside the book with something in it."""
    try:
        return _named(path, rest).stat().st_size > 0
    except FileNotFoundError:  # also when another program has just taken it away
        return False


def _named(path: Path, rest: str) -> Path:
    return path.with_name(f"{path.name}{rest}")


def commit(connection: sqlite3.Connection, path: Path) -> None:
    """Put a transaction on disk. Where the disk fails in that, nobody knows whether it is there."""
    try:
        connection.execute("COMMIT")
    except sqlite3.OperationalError as error:
        code = error.sqlite_errorcode
        # A write that is refused leaves the act without its end, and so without effect.
        if code & 0xFF != sqlite3.SQLITE_IOERR or code == sqlite3.SQLITE_IOERR_WRITE:
            raise
        raise NotConfirmed(str(path), _FAILED.get(code, "it broke off")) from None

"""The file of a book: looked at before SQLite may touch it, made whole or not at all, opened without a trace."""

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from shutil import copyfile

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
    NotABook,
)

APPLICATION = 0x47554447
FORMAT = 1
_MAGIC = b"SQLite format 3\x00"

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
        code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_CORRUPT) & 0xFF
        if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
            raise BookBusy(str(path)) from None
        if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM):
            raise BookReadOnly(str(path)) from None
        if code == sqlite3.SQLITE_FULL:
            raise DiskFull(str(path)) from None
        if code == sqlite3.SQLITE_IOERR:
            raise DiskFailed(str(path), str(error)) from None
        if code == sqlite3.SQLITE_CANTOPEN:
            raise BookUnreadable(str(path), str(error)) from None
        raise BookDamaged(str(path), str(error)) from None


def look(path: Path) -> None:
    """Refuse what is no book, of a later format, or cut short, from its first bytes alone."""
    if not path.exists():
        raise BookMissing(str(path))
    if not path.is_file():
        raise NotABook(str(path), "it is a folder" if path.is_dir() else "it is no file")
    try:
        with path.open("rb") as file:
            header = file.read(100)
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
    page = int.from_bytes(header[16:18], "big")
    should = int.from_bytes(header[28:32], "big") * (65536 if page == 1 else page)
    # Pages that are still in the write-ahead log need not be in the file yet.
    if size < should and not _beside(path, "-wal"):
        raise BookDamaged(str(path), f"{size:,} bytes are there, {should:,} should be")


def make(path: Path) -> None:
    """Make an empty book under another name and give it its name when it is whole and on disk."""
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".new", dir=path.parent)
    except FileNotFoundError:
        raise FolderMissing(str(path.parent)) from None
    except OSError:
        raise BookReadOnly(str(path)) from None
    os.close(handle)
    fresh = Path(name)
    try:
        with told(path):
            connection = sqlite3.connect(fresh, isolation_level=None)
            try:
                connection.execute("PRAGMA synchronous = FULL")
                connection.executescript(_SCHEMA)
                connection.execute("PRAGMA journal_mode = WAL")
            finally:
                connection.close()
        _name(fresh, path)
    finally:
        for rest in ("", "-wal", "-shm", "-journal"):
            fresh.with_name(f"{fresh.name}{rest}").unlink(missing_ok=True)


def _name(fresh: Path, path: Path) -> None:
    """Give the new book its name, unless another program was quicker: then that book is the one.

    SQLite puts the name on disk with the first entry, when it syncs the folder of its log.
    """
    with suppress(FileExistsError):
        try:
            os.link(fresh, path)
        except FileExistsError:
            raise
        except OSError:  # a file system without links
            if path.exists():
                return
            fresh.rename(path)


@dataclass(frozen=True, slots=True)
class Opened:
    """A connection, whether it may write, and the folder of the copy that it reads (where it reads one)."""

    connection: sqlite3.Connection
    may_write: bool
    copy: tempfile.TemporaryDirectory[str] | None = None


def connect(path: Path, *, wait_s: float) -> Opened:
    """A connection to a book; where nothing may be written, one that leaves no trace."""
    if os.access(path, os.W_OK) and os.access(path.parent, os.W_OK):
        connection = _open(path, "mode=rw", wait_s=wait_s)
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA fullfsync = ON")
        return Opened(connection, True)
    if not _beside(path, "-wal"):
        return Opened(_open(path, "mode=ro&immutable=1", wait_s=wait_s), False)
    if _beside(path, "-shm"):
        return Opened(_open(path, "mode=ro", wait_s=wait_s), False)
    # Without its shared memory the log can only be read where that can be made: in a copy.
    copy = tempfile.TemporaryDirectory(prefix="gudgeon-")
    for rest in ("", "-wal"):
        copyfile(path.with_name(f"{path.name}{rest}"), Path(copy.name) / f"book{rest}")
    return Opened(_open(Path(copy.name) / "book", "mode=rw", wait_s=wait_s), False, copy)


def _open(path: Path, mode: str, *, wait_s: float) -> sqlite3.Connection:
    uri = f"{path.resolve().as_uri()}?{mode}"
    return sqlite3.connect(uri, uri=True, timeout=wait_s, isolation_level=None)


def _beside(path: Path, rest: str) -> bool:
    """Whether SQLite's log or its memory stands beside the book with something in it."""
    beside = path.with_name(f"{path.name}{rest}")
    return beside.exists() and beside.stat().st_size > 0

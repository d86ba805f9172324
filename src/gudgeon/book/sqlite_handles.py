"""The files of a book, read by us while SQLite has them open in this same program.

A program that closes a file gives up all the locks that it has on it, those of SQLite in its other threads as well:
so says POSIX, and SQLite's manual (“How To Corrupt An SQLite Database File”, section 2.2). Two programs would then
write into one book at once. So what we open of a book that a connection of this program has open stays open as long
as that connection.
"""

import os
import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from threading import RLock

_File = tuple[int, int]
"""A file by its device and its number there, whatever it is called."""
_PIECE = 1024 * 1024


@dataclass(slots=True)
class _Book:
    """A book that connections of this program have open: how many, how many of them write, and our own handles."""

    connections: int = 0
    writing: int = 0
    handles: dict[_File, int] = field(default_factory=dict)


_BOOKS: dict[_File, _Book] = {}
_GUARD = RLock()


class _Counted(sqlite3.Connection):
    """A connection that counts as long as it is open, also where nobody closes it."""

    book: _File | None = None
    writes = False

    def close(self) -> None:
        """Let go of the book."""
        super().close()
        book, self.book = self.book, None
        if book is not None:
            _let_go(book, writes=self.writes)

    def __del__(self, ending: Callable[[], bool] = sys.is_finalizing) -> None:
        if ending():  # nobody counts any more, and SQLite closes what is open
            return
        with suppress(sqlite3.Error):  # it was never opened
            self.close()


def connected(path: Path, *, mode: str, wait_s: float, writes: bool = False) -> sqlite3.Connection:
    """A connection to a book; `writes` where it has looked at the log beside it and may take it over."""
    book = _file(os.stat(path))
    with _GUARD:  # counted before SQLite has any lock, so that none of it is ever given up
        held = _BOOKS.setdefault(book, _Book())
        held.connections += 1
        held.writing += writes
    uri = f"{path.resolve().as_uri()}?{mode}"
    try:
        # One thread uses it at a time, but another one may close what nobody has closed.
        connection = sqlite3.connect(
            uri,
            uri=True,
            timeout=wait_s,
            isolation_level=None,
            check_same_thread=False,
            factory=_Counted,
        )
    except BaseException:
        _let_go(book, writes=writes)
        raise
    connection.book, connection.writes = book, writes
    return connection


def written_here(path: Path) -> bool:
    """Whether a connection of this program writes into a book: then the log beside it is known, and its own."""
    with _GUARD:
        held = _BOOKS.get(_file(os.stat(path)))
        return held is not None and held.writing > 0


def content(path: Path, *, of: Path, most: int | None = None) -> bytes:
    """What is in a file of the book `of`, or the beginning of it."""
    with _opened(path, of=of) as handle:
        return b"".join(_pieces(handle, most))


def copied(path: Path, *, to: Path, of: Path) -> None:
    """Copy a file of the book `of`."""
    with _opened(path, of=of) as handle, to.open("wb") as file:
        file.writelines(_pieces(handle, None))


def _pieces(handle: int, most: int | None) -> Iterator[bytes]:
    os.lseek(handle, 0, os.SEEK_SET)
    left = most
    while left is None or left > 0:
        piece = os.read(handle, _PIECE if left is None else min(_PIECE, left))
        if not piece:
            return
        if left is not None:
            left -= len(piece)
        yield piece


@contextmanager
def _opened(path: Path, *, of: Path) -> Iterator[int]:
    """A file open to be read; nobody connects to a book meanwhile, and a file that SQLite has open stays open."""
    with _GUARD:
        book = _file(os.stat(of))
        held = _BOOKS.setdefault(book, _Book())
        held.connections += 1  # it is let go of with the last connection, or here where there is none
        try:
            known = held.handles.get(_file(os.stat(path)))
            handle = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0)) if known is None else known
            held.handles[_file(os.fstat(handle))] = handle
            yield handle
        finally:
            _let_go(book, writes=False)


def _let_go(book: _File, *, writes: bool) -> None:
    with _GUARD:
        held = _BOOKS[book]
        held.connections -= 1
        held.writing -= writes
        if not held.connections:
            del _BOOKS[book]
            for handle in held.handles.values():
                os.close(handle)


def _file(found: os.stat_result) -> _File:
    return found.st_dev, found.st_ino

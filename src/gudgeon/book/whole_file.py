"""A new file that is there whole and on the disk, or not at all; never in the place of another."""

import os
import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from gudgeon.book.copy_errors import FileRefused, FileThere
from gudgeon.written.replace import name_beside

_RESTS = ("", "-wal", "-shm", "-journal")


@contextmanager
def new_file(path: Path, *, named: Callable[[], None] = lambda: None) -> Iterator[Path]:
    """
    Another name to write under; when the block ends well the file gets its own name, else nothing is left.

    `named` is called with the name given, and nothing comes between.
    """
    if path.exists():
        raise FileThere(str(path))
    fresh = name_beside(path)
    try:
        fresh.touch(mode=0o600, exist_ok=False)
        yield fresh
        _sync(fresh)
        with in_one_go():
            _name(fresh, path)
            named()
            take_away(fresh)
    except OSError as error:
        raise FileRefused(str(path), error.strerror or type(error).__name__) from None
    finally:
        take_away(fresh)


def take_away(fresh: Path) -> None:
    """Take away a file under its first name, and what a database may have put beside it."""
    for rest in _RESTS:
        fresh.with_name(f"{fresh.name}{rest}").unlink(missing_ok=True)


def _sync(fresh: Path) -> None:
    with fresh.open("rb+") as file:
        os.fsync(file.fileno())


def _name(fresh: Path, path: Path) -> None:
    """Give it its name, unless another program was quicker; then put the name on the disk."""
    try:
        os.link(fresh, path)
    except FileExistsError:
        raise FileThere(str(path)) from None
    except OSError:  # a file system without links, like that of most memory sticks
        if path.exists():
            raise FileThere(str(path)) from None
        fresh.rename(path)
    sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """Put the names in a folder on the disk, where the system can do that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


@contextmanager
def in_one_go() -> Iterator[None]:
    """
    Ctrl-C waits until the block is over, and is heard then: for what may not be done without being noted.

    Only the main thread is ever interrupted by it; in any other the block runs as it would without this.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    pressed: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, _: pressed.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        for number in pressed[:1]:
            signal.raise_signal(number)

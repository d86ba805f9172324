"""A new file that is there whole and on the disk, or not at all; never in the place of another."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from gudgeon.book.copy_errors import FileRefused, FileThere

_RESTS = ("", "-wal", "-shm", "-journal")


@contextmanager
def new_file(path: Path) -> Iterator[Path]:
    """Another name to write under; when the block ends well the file gets its own name, else nothing is left."""
    if path.exists():
        raise FileThere(str(path))
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".new", dir=path.parent)
    except OSError as error:
        raise FileRefused(str(path), error.strerror or "refused") from None
    os.close(handle)
    fresh = Path(name)
    try:
        yield fresh
        _sync(fresh)
        _name(fresh, path)
    except OSError as error:
        raise FileRefused(str(path), error.strerror or type(error).__name__) from None
    finally:
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

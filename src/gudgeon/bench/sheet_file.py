"""The data sheet as a file: written only while it is still what the person saw, whole or not at all."""

import hashlib
from collections.abc import Callable
from pathlib import Path
from threading import Lock

from gudgeon.bench.context import Bench
from gudgeon.errors import InputError
from gudgeon.written.errors import FileMissing
from gudgeon.written.located import read_text
from gudgeon.written.replace import replace_text

_WRITING = Lock()


class SheetChanged(InputError):
    """The sheet is no longer the one that was on the screen."""

    def __init__(self, file: str) -> None:
        super().__init__(
            f"{file} has changed since it was shown here, by another page or in the editor. Nothing was written. "
            "Compare with what stands there now, and send it again if it still holds."
        )


class SheetGone(InputError):
    """The sheet is no file any more: only the copy in the book is left."""

    def __init__(self) -> None:
        super().__init__(
            "The file of the data sheet is gone, and the copy pinned in the book is never written. "
            "Put the file back where it was; nothing was written."
        )


def text_hash(text: str) -> str:
    """The hash that pins a text, as the book pins it."""
    return hashlib.sha256(text.encode()).hexdigest()


def sheet_file(bench: Bench) -> Path:
    """Where the sheet of a bench lies."""
    if bench.papers.sheet_file is None:
        raise SheetGone
    return bench.papers.sheet_file


def write_sheet(file: Path, *, made_from: str, change: Callable[[str], str]) -> str:
    """Change the text of a sheet and put it in its place; `made_from` is the hash of what the person saw."""
    with _WRITING:
        try:
            before = read_text(file)
        except FileMissing:
            raise SheetGone from None
        if text_hash(before) != made_from:
            raise SheetChanged(file.name)
        after = change(before)
        if after != before:
            replace_text(file, after)
        return after

"""Loading a data sheet: text -> located data -> model -> what contradicts itself."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from gudgeon.sheet.checks import problems
from gudgeon.sheet.model import DataSheet
from gudgeon.written.check import in_order, read_model
from gudgeon.written.errors import FileRefused
from gudgeon.written.located import Written, read_text, read_yaml


@dataclass(frozen=True, slots=True)
class LoadedSheet:
    """A sheet that holds together, the file it came from, and the hash that pins it."""

    sheet: DataSheet
    written: Written
    sha256: str


def load_sheet(path: str | Path) -> LoadedSheet:
    """Read a sheet from a file; every problem found is told with line and column."""
    return parse_sheet(read_text(path), file=str(path))


def parse_sheet(text: str, *, file: str) -> LoadedSheet:
    """Read a sheet from text; `file` is the name that messages carry."""
    written = read_yaml(text, file=file)
    sheet, found = read_model(DataSheet, written)
    if sheet is not None:
        found = in_order(problems(sheet, written))
    if sheet is None or found:
        raise FileRefused("data sheet", found)
    return LoadedSheet(sheet, written, hashlib.sha256(text.encode()).hexdigest())

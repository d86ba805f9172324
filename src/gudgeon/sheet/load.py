"""Loading a data sheet: text -> located data -> model -> what contradicts itself."""

from dataclasses import dataclass
from pathlib import Path

from gudgeon.sheet.checks import problems
from gudgeon.sheet.model import DataSheet
from gudgeon.written.load import parse
from gudgeon.written.located import Written, read_text


@dataclass(frozen=True, slots=True)
class LoadedSheet:
    """A sheet that holds together, the file it came from, and the hash that pins it."""

    sheet: DataSheet
    written: Written
    sha256: str


def load_sheet(path: str | Path) -> LoadedSheet:
    """Read a sheet from a file; every problem found is told with line and column."""
    return parse_sheet(read_text(path, what="data sheet"), file=str(path))


def parse_sheet(text: str, *, file: str) -> LoadedSheet:
    """Read a sheet from text; `file` is the name that messages carry."""
    return LoadedSheet(*parse(DataSheet, text, file=file, what="data sheet", problems=problems))

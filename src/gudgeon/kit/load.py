"""Loading a kit."""

from dataclasses import dataclass
from pathlib import Path

from gudgeon.kit.checks import problems
from gudgeon.kit.model import Kit
from gudgeon.written.load import parse
from gudgeon.written.located import Written, read_text


@dataclass(frozen=True, slots=True)
class LoadedKit:
    """A kit, the file it came from, and the hash that pins it."""

    kit: Kit
    written: Written
    sha256: str


def load_kit(path: str | Path) -> LoadedKit:
    """Read a kit from a file; every problem found is told with line and column."""
    return parse_kit(read_text(path, what="kit"), file=str(path))


def parse_kit(text: str, *, file: str) -> LoadedKit:
    """Read a kit from text; `file` is the name that messages carry."""
    return LoadedKit(*parse(Kit, text, file=file, what="kit", problems=problems))

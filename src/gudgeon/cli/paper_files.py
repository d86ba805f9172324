"""Where a print goes, of which size, and that it lands whole or not at all."""

import re
from argparse import Namespace
from collections.abc import Callable
from pathlib import Path

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.cli.show import as_json, closing
from gudgeon.errors import InputError
from gudgeon.paper.press import size_for
from gudgeon.paper.words import in_file_name
from gudgeon.written.replace import replace_bytes


class PrintExists(InputError):
    """A file that is there already is not written over unasked."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"{path} exists already and is left as it is. Name another file with --out, or write over it with --over."
        )


def size_of(chosen: Namespace, bench: Bench) -> str:
    """The size of paper: the one asked for, else the one in the kit, else A4."""
    return size_for(chosen.size, chosen=bench.kit.paper)


def file_name(heading: Heading, what: str, *, suffix: str = ".pdf") -> str:
    """A name that every file system takes: the build, and what it is."""
    build = in_file_name(re.sub(r"[^\w-]+", "-", heading.build)).strip("-") or "build"
    return f"{build}-{what}{suffix}"


def path_for(chosen: Namespace, heading: Heading, what: str, *, suffix: str = ".pdf") -> Path:
    """The file asked for, or one of the usual name in the folder asked for, or here; refused before the work."""
    path = Path(chosen.out) if chosen.out else Path()
    path = path / file_name(heading, what, suffix=suffix) if path.is_dir() else path
    refuse_existing(chosen, path)
    return path


def refuse_existing(chosen: Namespace, *paths: Path) -> None:
    """Stop before the first file that is there already, unless asked to write over it."""
    for path in paths:
        if path.exists() and not chosen.over:
            raise PrintExists(str(path))


def write_file(chosen: Namespace, path: Path, content: bytes) -> Path:
    """Put the whole file there in one step, so that no half print is ever sent to a printer."""
    refuse_existing(chosen, path)
    try:
        replace_bytes(path, content)
    except OSError as error:
        error.filename = str(path)  # the one he asked for, not the half one beside it
        raise
    return path


def printed(chosen: Namespace, heading: Heading, what: str, *, make: Callable[[], bytes]) -> int:
    """Write one print and say so; a file that is in the way is refused before it is made."""
    path = path_for(chosen, heading, what)
    return told(chosen, heading, write_file(chosen, path, make()))


def told(chosen: Namespace, heading: Heading, *paths: Path) -> int:
    """Say which files were written."""
    if chosen.json:
        return as_json({"heading": heading, "written": [str(path) for path in paths]})
    for path in paths:
        print(f"Written: {path}")
    closing(heading)
    return 0

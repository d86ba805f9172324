"""From data and a template to a PDF, in a process of its own."""

import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime
from importlib import resources
from pathlib import Path
from typing import Any

from gudgeon.paper.errors import PressFailed, PressMissing, PressTooSlow, PrintTooLarge, SizeUnknown
from gudgeon.paper.typesetter import MISSING
from gudgeon.paper.words import for_paper

SIZES = {"a4": "a4", "letter": "us-letter"}
"""The sizes of paper, and what the templates call them."""

USUAL_SIZE = "a4"

LONGEST_S = 20.0
LARGEST = 40_000_000
"""The most bytes of one print: far above the largest book, and still what a mail takes."""

TYPESETTER = Path(str(resources.files("gudgeon.paper").joinpath("typesetter.py")))


def size_for(asked: str | None, *, chosen: str | None) -> str:
    """The size of paper: the one asked for, else the one chosen in the kit, else A4."""
    return asked or chosen or USUAL_SIZE


def press(
    template: str,
    data: Mapping[str, Any],
    *,
    size: str,
    dated_as: str,
    files: Mapping[str, bytes] | None = None,
    longest_s: float = LONGEST_S,
) -> bytes:
    """Set a template with data; the data is only ever read as data, never as markup.

    `dated_as` is the hour of the last entry (ISO 8601): it dates the file, so that the same book always gives
    the same bytes. `files` are pictures by name; the template reads one as `image("/files/NAME")`. The print keeps
    to PDF/A-2a (ISO 19005-2) where the fonts hold every letter, else it is plain PDF.
    """
    if size not in SIZES:
        raise SizeUnknown(size, known=SIZES)
    sent = {
        "data": {**for_paper(data), "paper": SIZES[size], "dated": _moment(dated_as)},
        "moment": int(datetime.fromisoformat(dated_as).timestamp()),
    }
    with _root(files or {}) as root:
        sent |= {"template": str(root / template), "root": str(root)}
        return _run(json.dumps(sent, ensure_ascii=False).encode("utf-8"), longest_s)


@contextmanager
def _root(files: Mapping[str, bytes]) -> Iterator[Path]:
    """The only folder that the typesetter reads: the templates, and beside them the pictures of this print."""
    with resources.as_file(resources.files("gudgeon.paper").joinpath("templates")) as templates:
        if not files:
            yield templates
            return
        with tempfile.TemporaryDirectory() as folder:
            root = Path(folder)
            for one in templates.glob("*.typ"):
                shutil.copy(one, root)
            (root / "files").mkdir()
            for name, content in files.items():
                (root / "files" / name).write_bytes(content)
            yield root


def _moment(text: str) -> list[int]:
    moment = datetime.fromisoformat(text)
    return [moment.year, moment.month, moment.day, moment.hour, moment.minute, moment.second]


def _run(sent: bytes, longest_s: float) -> bytes:
    """Run the typesetter; what it writes goes through a file, so that its length is known before it is read."""
    with tempfile.TemporaryFile() as printed, tempfile.TemporaryFile() as said:
        try:
            # -P: a file of the folder it is called from is never taken for a library.
            done = subprocess.run(
                [sys.executable, "-P", str(TYPESETTER)],
                input=sent, stdout=printed, stderr=said, timeout=longest_s, check=False,
            )  # fmt: skip
        except subprocess.TimeoutExpired:
            raise PressTooSlow(longest_s) from None
        length = printed.seek(0, 2)
        if length > LARGEST:
            raise PrintTooLarge(length, most=LARGEST)
        printed.seek(0)
        said.seek(0)
        if done.returncode == MISSING:
            raise PressMissing(sys.executable)
        pdf = printed.read()
        if done.returncode != 0 or not pdf.startswith(b"%PDF-"):
            raise PressFailed(_first_words(said.read(4000), done.returncode))
        return pdf


def _first_words(said: bytes, code: int) -> str:
    """What the typesetter said last, short enough for one line."""
    lines = [line.strip() for line in said.decode("utf-8", errors="replace").splitlines() if line.strip()]
    words = lines[-1] if lines and lines[0].startswith("Traceback") else " ".join(lines[:2])
    return words[:200] or f"it ended with code {code} and said nothing"

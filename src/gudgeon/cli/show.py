"""How answers look in the terminal: a heading, tables, and the closing rule."""

import json
import os
import shutil
import sys
import textwrap
import unicodedata
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from gudgeon.bench.answer import RULES, Heading, plain
from gudgeon.book.address import BookAddress, book_address, data_folder


def as_json(answer: Any) -> int:
    """Print an answer as JSON in its stable shape."""
    print(json.dumps(plain(answer), ensure_ascii=False, indent=2))
    return 0


def clean(text: str) -> str:
    """Text that a terminal shows and does not obey: control and direction marks are shown as a dot."""
    return "".join(mark if unicodedata.category(mark) not in ("Cc", "Cf", "Cs") else "·" for mark in text)


def width() -> int:
    """How wide running text may be: the terminal, and never wider than a line that reads well."""
    return min(110, shutil.get_terminal_size((110, 24)).columns)


def say(text: str, *, lead: str = "") -> None:
    """Running text; what runs on stands below where its first line began."""
    print(textwrap.fill(clean(text), width=width(), initial_indent=lead, subsequent_indent=" " * len(lead)))


def point(text: str, *, mark: str = "-") -> None:
    """Running text as one point of a list."""
    say(text, lead=f"  {mark} ")


def heading(shown: Heading) -> None:
    """Which question, which engine, and what must be said with it."""
    print(f"{shown.question}   {shown.engine} · {shown.build}")
    if shown.notice:
        print(f"*** {shown.notice} ***")
    for remark in shown.remarks:
        print(textwrap.fill(f"Note: {remark}", width=width()))
    print()


def closing(shown: Heading) -> None:
    """The rule under every answer."""
    text = RULES + (f" ({shown.notice})" if shown.notice else "")
    print("\n" + textwrap.fill(text, width=width()))


def table(
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    right: Sequence[int] = (),
    most: int = 140,
) -> None:
    """A table with as many columns as have something in them, in a file at most so many letters wide."""
    from rich.box import SIMPLE_HEAD
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    listed = [[str(cell) for cell in row] for row in rows]
    used = [index for index in range(len(columns)) if any(row[index] for row in listed)]
    made = Table(box=SIMPLE_HEAD, show_edge=False, pad_edge=False, padding=(0, 1))
    for index in used:
        made.add_column(columns[index], justify="right" if index in right else "left", overflow="fold")
    for row in listed:
        made.add_row(*(Text(clean(row[index])) for index in used))
    Console(width=None if sys.stdout.isatty() else most, highlight=False).print(made)


def program() -> str:
    """How this program is called from here: `gudgeon` where the shell finds it, else its file."""
    beside = Path(sys.executable).parent / ("gudgeon.exe" if os.name == "nt" else "gudgeon")
    if shutil.which("gudgeon") or not beside.exists():
        return "gudgeon"
    try:
        return str(beside.relative_to(Path.cwd()))
    except ValueError:
        return str(beside)


def book_path(named: str | None) -> BookAddress:
    """The book: by --book, by GUDGEON_BOOK, else in the user's data folder."""
    chosen = named or os.environ.get("GUDGEON_BOOK") or ""
    return book_address(chosen) if chosen else data_folder() / "book.gudgeon"

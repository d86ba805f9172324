"""The invented job: laid out fresh, and all its questions answered at once."""

from argparse import Namespace
from datetime import UTC, datetime
from pathlib import Path

from gudgeon.bench.answer import NOTICE
from gudgeon.bench.begin import DEMO_BUILD, open_demo
from gudgeon.book.address import BookAddress, data_folder
from gudgeon.cli.show import as_json, program

QUESTIONS = (
    ("now",),
    ("tighten", "head"),
    ("judge", "cylinder head"),
    ("cut",),
    ("ready", "--for", "crank"),
)


def demo(chosen: Namespace) -> int:
    """Open a fresh copy of the invented job."""
    folder = Path(chosen.folder).expanduser() if chosen.folder else data_folder() / "demo"
    begun = open_demo(folder, now=datetime.now(UTC).astimezone())
    if chosen.json:
        return as_json(begun)
    print(f"A fresh copy of the invented job lies in {folder} ({begun.entries} entries). *** {NOTICE} ***")
    if begun.kept is not None:
        print(f"What you had recorded in the last one is kept in {begun.kept}")
    if chosen.show:
        _show(begun.book)
    print("\nAsk it yourself:")
    for words in QUESTIONS:
        print(f'  {program()} {_typed(words)} --book "{begun.book}"')
    print(f"Without --book: set GUDGEON_BOOK to {begun.book}")
    return 0


def _show(book: BookAddress) -> None:
    """Answer every question, its arguments read as those of a person are."""
    from gudgeon.cli.main import build_parser, run

    for words in QUESTIONS:
        print(f"\n{'=' * 110}\n$ gudgeon {_typed(words)}\n")
        asked = build_parser().parse_args([*words, "--book", str(book), "--build", DEMO_BUILD])
        run(asked)
        asked.done()
    print(f"\n{'=' * 110}")


def _typed(words: tuple[str, ...]) -> str:
    """The command as a person would type it."""
    return " ".join(f'"{word}"' if " " in word else word for word in words)

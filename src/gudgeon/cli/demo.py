"""The invented job: laid out fresh, and all its questions answered at once."""

from argparse import Namespace
from datetime import UTC, datetime
from pathlib import Path

from gudgeon.bench.answer import NOTICE
from gudgeon.bench.begin import DEMO_BUILD, open_demo
from gudgeon.book.address import data_folder
from gudgeon.cli import cutting, questions
from gudgeon.cli.show import as_json, program

QUESTIONS: tuple[tuple[str, dict[str, str | None]], ...] = (
    ("now", {"all": None}),
    ("tighten", {"joint": "head", "start": None, "loosening": None, "bolts_are": None}),
    ("judge", {"what": "cylinder head"}),
    ("cut", {"off": None, "gasket": None, "picture": None, "order": None, "back": None}),
    ("ready", {"milestone": "crank"}),
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
        for name, more in QUESTIONS:
            print(f"\n{'=' * 110}\n$ gudgeon {_typed(name, more)}\n")
            asked = Namespace(book=str(begun.book), build=DEMO_BUILD, json=False, **more)
            (cutting.cut if name == "cut" else getattr(questions, name))(asked)
            asked.done()
        print(f"\n{'=' * 110}")
    print("\nAsk it yourself:")
    for name, more in QUESTIONS:
        print(f'  {program()} {_typed(name, more)} --book "{begun.book}"')
    print(f"Without --book: set GUDGEON_BOOK to {begun.book}")
    return 0


def _typed(name: str, more: dict[str, str | None]) -> str:
    """The command as a person would type it."""
    words = [value for key, value in more.items() if value and key in ("joint", "what")]
    quoted = [f'"{word}"' if " " in word else word for word in words]
    milestone = more.get("milestone")
    return " ".join([name, *quoted, *(["--for", milestone] if milestone else [])])

"""A program that records acts of a page of text each, says of each what came of it, and sends a refused one again once.

Called with the path of a book in which a build is begun, and how many acts. Each line that it prints holds the number
of an act, the id of its entry, and `done` or the words of the refusal.
"""

import sys
from pathlib import Path

from gudgeon.book.sqlite import open_book
from gudgeon.errors import GudgeonError
from tests.contract.stores import NOW, draft
from tests.contract.writer import say


def main(path: Path, *, count: int) -> None:
    """One act after the other; a refusal is no reason to stop."""
    with open_book(path, clock=lambda: NOW) as store:
        for number in range(count):
            sent = draft(entry_id=f"{number:032x}", text=f"{number} {'x' * 2000}")
            for _ in range(2):
                try:
                    store.append(sent)
                    said = "done"
                except GudgeonError as error:
                    said = str(error)
                say(f"{number} {sent.id} {said}")
                if said == "done":
                    break


if __name__ == "__main__":
    main(Path(sys.argv[1]), count=int(sys.argv[2]))

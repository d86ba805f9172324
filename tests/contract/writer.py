"""A program that writes into a book until it is stopped, and says what has been acknowledged.

Called with the kind of store, its address, its own name and how many to write (0: until it is killed).
With a number it says that it is ready, and waits for a line before it begins.
Each line it prints holds the ids of one acknowledged act: a single entry, or two that belong together.
Where the store refuses to go on, it ends as a command does: with the refusal, and 2.
"""

import sys
import time

from gudgeon.errors import GudgeonError
from tests.contract.stores import Shelf, draft, pull


def main(kind: str, address: str, *, name: str, count: int) -> None:
    """Write single pulls and pairs of notes in turn, each sender going by the head it saw last."""
    with Shelf(kind, address).open() as store:
        if count:
            say("ready")
            sys.stdin.readline()
        number = 0
        while count == 0 or number < count:
            number += 1
            if number % 3 == 0:
                pair = [draft(text=f"{name} {number} {half}") for half in ("first", "second")]
                done = store.append_many(pair)
            else:
                done = (store.append(pull(1 + number % 4, f"{name} {number}", basis=store.head("van"))),)
            say(" ".join(one.entry.id for one in done))
            if count:
                time.sleep(0.002)  # a person is slower; without it one writer is done before the other begins


def say(line: str) -> None:
    """One line, at once."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    try:
        main(sys.argv[1], sys.argv[2], name=sys.argv[3], count=int(sys.argv[4]))
    except GudgeonError as refused:
        sys.stderr.write(f"{refused}\n")
        sys.exit(2)

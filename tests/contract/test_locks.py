"""The locks of SQLite on a book are kept, whatever else this program reads of its files meanwhile.

Provenance of what is expected: PRINTED, SQLite's manual, “How To Corrupt An SQLite Database File”, section 2.2, and
“Write-Ahead Logging”: the journal mode is only changed by whoever has the book for itself alone.
"""

import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

import pytest

from gudgeon.book.opening import open_book
from gudgeon.book.sqlite_file import look
from tests.contract.stores import draft

ALONE = """
import sqlite3, sys
connection = sqlite3.connect(sys.argv[1], timeout=0)
try:
    print(connection.execute("PRAGMA journal_mode = DELETE").fetchone()[0])
except sqlite3.OperationalError as error:
    print(error)
"""
"""Another program that wants the book for itself alone."""

WRITING = """
import sys, uuid
from datetime import UTC, datetime
from pathlib import Path
from gudgeon.book.entries import Draft
from gudgeon.book.opening import open_book
for number in range(int(sys.argv[2])):
    with open_book(Path(sys.argv[1]), clock=lambda: datetime.now(UTC)) as store:
        at = datetime.now(UTC).isoformat()
        store.append(Draft(uuid.uuid4().hex, "note", {"text": f"there {number}"}, "van", "Ada", "bench", at))
"""
"""Another program that writes, and opens the book anew each time."""


def clock() -> datetime:
    return datetime.now(UTC)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "book.gudgeon"
    with open_book(path, clock=clock, create=True) as store:
        store.append(draft("build-opened"))
    return path


def said_by(program: str, *arguments: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", program, *arguments], capture_output=True, text=True, check=True, timeout=60
    )
    return done.stdout.strip()


def test_another_program_can_take_the_book_for_itself_when_nobody_has_it(book: Path) -> None:
    assert said_by(ALONE, str(book)) == "delete"


def test_looking_at_a_book_that_is_open_keeps_its_locks(book: Path) -> None:
    with open_book(book, clock=clock) as store:
        store.append(draft(text="open"))
        look(book)
        open_book(book, clock=clock).close()
        assert said_by(ALONE, str(book)) == "database is locked"
        assert len(store.entries("van")) == 2


def test_what_was_opened_to_look_is_closed_with_the_last_connection(book: Path) -> None:
    handles = Path("/proc/self/fd")
    if not handles.exists():
        pytest.skip("this system does not list the open files of a program")
    before = len(list(handles.iterdir()))
    with open_book(book, clock=clock) as store:
        store.append(draft(text="open"))
        for _ in range(20):
            look(book)
            open_book(book, clock=clock).close()
        assert len(list(handles.iterdir())) < before + 10
    assert len(list(handles.iterdir())) == before


def test_threads_that_open_and_close_and_another_program_write_into_one_book(book: Path) -> None:
    each, threads = 25, 6

    def writing() -> None:
        for number in range(each):
            with open_book(book, clock=clock) as store:
                store.append(draft(text=f"here {number}"))

    working = [Thread(target=writing) for _ in range(threads)]
    for one in working:
        one.start()
    said_by(WRITING, str(book), str(each))
    for one in working:
        one.join()
    with open_book(book, clock=clock) as store:
        assert store.verify() == ()
        assert len(store.entries("van")) == 1 + each * (threads + 1)


def test_programs_that_let_go_of_the_book_in_turn_are_not_refused(book: Path) -> None:
    """Whoever lets go of it last takes the log away, perhaps just when the other one looks at it."""
    each = 300
    both = [
        subprocess.Popen([sys.executable, "-c", WRITING, str(book), str(each)], stderr=subprocess.PIPE)
        for _ in range(2)
    ]
    assert [one.communicate(timeout=300)[1].decode()[-500:] for one in both] == ["", ""]
    with open_book(book, clock=clock) as store:
        assert len(store.entries("van")) == 1 + each * 2

"""Ctrl-C at each single line of what puts files in place: all of it is there, or nothing of it."""

import shutil
import signal
import sys
from collections.abc import Callable
from functools import partial
from itertools import count
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from gudgeon.bench import copies
from gudgeon.bench.verifying import verified, verified_archive
from gudgeon.book import archive_write, photo_copies, sqlite_file, whole_file
from gudgeon.book import copies as book_copies
from gudgeon.book.opening import open_book
from gudgeon.written import replace
from tests.contract.books import PHOTO_SHA, fill
from tests.contract.stores import NOW, Shelf, draft

# What a program that is stopped has open goes with it, and is told by nobody.
pytestmark = pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")

WATCHED = {
    str(module.__file__)
    for module in (archive_write, book_copies, photo_copies, replace, sqlite_file, whole_file)
}


class CtrlC:
    """Ctrl-C is pressed before the line of that number, of the watched modules, is run."""

    def __init__(self, number: int) -> None:
        self.pressed = False
        self._left = number

    def during(self, work: Callable[[], object]) -> bool:
        """Whether the work was stopped."""
        sys.settrace(self._entered)
        try:
            work()
        except KeyboardInterrupt:
            return True
        finally:
            sys.settrace(None)
        return False

    def _entered(self, frame: FrameType, _event: str, _: Any) -> Callable[..., Any] | None:
        return self._line if frame.f_code.co_filename in WATCHED else None

    def _line(self, _frame: FrameType, event: str, _: Any) -> Callable[..., Any]:
        if event == "line" and not self.pressed:
            self._left -= 1
            if self._left < 0:
                self.pressed = True
                signal.raise_signal(signal.SIGINT)
        return self._line


def pressed_at_each_line(work: Callable[[int], object], *, looked_at: Callable[[int, bool], object]) -> int:
    """Do the work again and again, stopped one line later each time, until it comes to its end; how many lines."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)  # also where it was ignored
    try:
        for number in count():
            ctrl_c = CtrlC(number)
            stopped = ctrl_c.during(partial(work, number))
            if not ctrl_c.pressed:
                return number
            looked_at(number, stopped)
    finally:
        signal.signal(signal.SIGINT, before)
    raise AssertionError("unreachable")


def files(folder: Path) -> set[str]:
    return {str(one.relative_to(folder)) for one in folder.rglob("*")}


@pytest.fixture
def book(tmp_path: Path) -> Path:
    shelf = Shelf("SQLite", str(tmp_path / "filled" / "book.gudgeon"))
    (tmp_path / "filled").mkdir()
    shelf.open(create=True).close()
    fill(shelf)
    return Path(shelf.address)


@pytest.fixture
def backup(book: Path, tmp_path: Path) -> Path:
    file = tmp_path / "backup.zip"
    copies.back_up(book, to=str(file), now=NOW)
    return file


def test_a_new_book_with_its_photos(backup: Path, tmp_path: Path) -> None:
    seen = set()

    def place(number: int) -> Path:
        (tmp_path / str(number)).mkdir(exist_ok=True)
        return tmp_path / str(number) / "book.gudgeon"

    def nothing_half(number: int, stopped: bool) -> None:
        there = files(place(number).parent)
        seen.add((bool(there), stopped))
        if there:
            photo = f"book.gudgeon.photos/{PHOTO_SHA}.jpg"
            assert there - {"book.gudgeon-wal", "book.gudgeon-shm"} == {
                "book.gudgeon", "book.gudgeon.photos", photo,
            }, number  # fmt: skip
            assert verified(place(number)).problems == ()

    lines = pressed_at_each_line(
        lambda number: copies.restore(backup, to=place(number)), looked_at=nothing_half
    )
    assert lines > 150
    assert seen == {(False, True), (True, True)}


def test_photos_and_entries_of_a_book_that_is_there(backup: Path, tmp_path: Path) -> None:
    """Never an entry without its photo; without the entries, no photo."""
    (tmp_path / "other").mkdir()
    with open_book(tmp_path / "other" / "book.gudgeon", clock=lambda: NOW, create=True) as store:
        store.append(draft("build-opened", build="tractor"))
    seen = set()

    def place(number: int) -> Path:
        folder = tmp_path / str(number)
        if not folder.exists():
            shutil.copytree(tmp_path / "other", folder)
        return folder / "book.gudgeon"

    def nothing_half(number: int, stopped: bool) -> None:
        path = place(number)
        with open_book(path, clock=lambda: NOW) as store:
            came = len(store.builds()) > 1
        seen.add((came, stopped))
        assert (path.parent / "book.gudgeon.photos" / f"{PHOTO_SHA}.jpg").exists() == came, number
        assert not any(name.endswith(".new") for name in files(path.parent)), number
        assert verified(path).problems == ()

    lines = pressed_at_each_line(
        lambda number: copies.take_in(backup, to=place(number)), looked_at=nothing_half
    )
    assert lines > 150
    assert seen == {(False, True), (True, True)}


def test_an_archive(book: Path, tmp_path: Path) -> None:
    seen = set()

    def folder(number: int) -> Path:
        (tmp_path / str(number)).mkdir(exist_ok=True)
        return tmp_path / str(number)

    def nothing_half(number: int, stopped: bool) -> None:
        there = files(folder(number))
        seen.add((bool(there), stopped))
        if there:
            assert there == {"copy.zip"}, number
            assert verified_archive(folder(number) / "copy.zip").problems == ()

    lines = pressed_at_each_line(
        lambda number: copies.back_up(book, to=str(folder(number) / "copy.zip"), now=NOW),
        looked_at=nothing_half,
    )
    assert lines > 100
    assert seen == {(False, True), (True, True)}


def test_a_text_that_is_replaced(tmp_path: Path) -> None:
    seen = set()

    def path(number: int) -> Path:
        file = tmp_path / str(number) / "sheet.yaml"
        if not file.exists():
            file.parent.mkdir()
            file.write_text("old\n")
        return file

    def nothing_half(number: int, _stopped: bool) -> None:
        seen.add(path(number).read_text())
        assert files(path(number).parent) == {"sheet.yaml"}, number

    lines = pressed_at_each_line(
        lambda number: replace.replace_text(path(number), "new\n"), looked_at=nothing_half
    )
    assert lines > 10
    assert seen == {"old\n"}
    assert path(lines).read_text() == "new\n"

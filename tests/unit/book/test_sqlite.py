"""The file of a book: refused untouched when it is something else, readable where nothing may be written."""

import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from gudgeon.book.errors import (
    BookBusy,
    BookDamaged,
    BookMissing,
    BookReadOnly,
    BookTooNew,
    BookUnreadable,
    DiskFailed,
    DiskFull,
    FolderMissing,
    NotABook,
)
from gudgeon.book.sqlite import SqliteStore, open_book
from tests.contract.stores import draft
from tests.ctrl_c import heard

NOW = datetime(2026, 3, 7, 10, 0, tzinfo=UTC)
POSIX = pytest.mark.skipif(os.name == "nt", reason="rights of folders are tried on POSIX systems only")


def opened(path: Path, *, create: bool = False, wait_s: float = 10.0) -> SqliteStore:
    return open_book(path, clock=lambda: NOW, create=create, wait_s=wait_s)


def begun(path: Path, notes: int = 1) -> Path:
    """A book with a build and some notes."""
    with opened(path, create=True) as store:
        store.append(draft("build-opened"))
        store.append_many(draft() for _ in range(notes))
    return path


def folder(path: Path) -> dict[str, bytes]:
    return {one.name: one.read_bytes() for one in path.iterdir() if one.is_file()}


def foreign(path: Path) -> None:
    connection = sqlite3.connect(path)
    connection.executescript(
        "PRAGMA journal_mode = WAL; CREATE TABLE entry (id); INSERT INTO entry VALUES (1)"
    )
    connection.close()


def newer(path: Path) -> None:
    begun(path)
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA user_version = 2")
    connection.close()


def cut(path: Path) -> None:
    begun(path, notes=200)
    path.write_bytes(path.read_bytes()[:-5000])


def cut_in_its_header(path: Path) -> None:
    begun(path)
    path.write_bytes(path.read_bytes()[:60])


REFUSED: list[tuple[Callable[[Path], object], type[Exception], str]] = [
    (lambda path: path.write_text("hello", "utf-8"), NotABook,
     "{path} is not a book of Gudgeon (it is no SQLite file). It was left untouched; name another file with --book."),
    (lambda path: path.touch(), NotABook,
     "{path} is not a book of Gudgeon (it is empty). It was left untouched; name another file with --book."),
    (lambda path: path.mkdir(), NotABook,
     "{path} is not a book of Gudgeon (it is a folder). It was left untouched; name another file with --book."),
    (foreign, NotABook,
     "{path} is not a book of Gudgeon (it is an SQLite file of another program). "
     "It was left untouched; name another file with --book."),
    (newer, BookTooNew,
     "The book {path} has format 2, this program knows up to 1. It was left untouched; use the newer program."),
    (cut_in_its_header, BookDamaged,
     "The book {path} is damaged (only 60 bytes of it are there). It was left untouched; keep it, "
     "and bring a backup back under another name with `gudgeon book restore`."),
    (lambda path: None, BookMissing,
     "There is no book at {path}. Check the name, or begin one with `gudgeon begin`."),
]  # fmt: skip


@pytest.mark.parametrize(
    ("make", "error", "said"),
    REFUSED,
    ids=[f"{error.__name__} {at}" for at, (_, error, _) in enumerate(REFUSED)],
)
@pytest.mark.parametrize("create", [False, True], ids=["open", "create"])
def test_what_is_no_book_is_refused_and_left_untouched(
    tmp_path: Path, make: Callable[[Path], object], error: type[Exception], said: str, create: bool
) -> None:
    path = tmp_path / "some ?#%41 thing"
    make(path)
    if create and error is BookMissing:
        return
    before = folder(tmp_path)
    with pytest.raises(error) as refused:
        opened(path, create=create)
    assert str(refused.value) == said.format(path=path)
    assert folder(tmp_path) == before


def test_a_book_cut_short_says_what_is_missing(tmp_path: Path) -> None:
    cut(tmp_path / "book")
    before = folder(tmp_path)
    with pytest.raises(BookDamaged, match=r"is damaged \([\d,]+ bytes are there, [\d,]+ should be\)"):
        opened(tmp_path / "book")
    assert folder(tmp_path) == before


def test_a_book_overwritten_in_the_middle_is_damaged(tmp_path: Path) -> None:
    path = begun(tmp_path / "book", notes=200)
    content = bytearray(path.read_bytes())
    content[4096:-4096] = b"\xa5" * (len(content) - 8192)
    path.write_bytes(content)
    with pytest.raises(BookDamaged), opened(path) as store:
        store.entries("van")


def test_a_text_that_is_no_entry_is_damage(tmp_path: Path) -> None:
    path = begun(tmp_path / "book")
    connection = sqlite3.connect(path)
    connection.executescript("DROP TRIGGER entry_stays; UPDATE entry SET content = '{}' WHERE number = 2")
    connection.close()
    with opened(path) as store, pytest.raises(BookDamaged) as refused:
        store.entries("van")
    assert str(refused.value) == (
        f"The book {path} is damaged (an entry of van cannot be read). "
        "It was left untouched; keep it, and bring a backup back under another name with `gudgeon book restore`."
    )


def test_entries_are_neither_changed_nor_deleted_by_chance(tmp_path: Path) -> None:
    connection = sqlite3.connect(begun(tmp_path / "book"))
    with pytest.raises(sqlite3.IntegrityError, match="entries are never changed"):
        connection.execute("UPDATE entry SET number = 9")
    with pytest.raises(sqlite3.IntegrityError, match="entries are never deleted"):
        connection.execute("DELETE FROM entry")
    connection.close()


def test_a_new_book_leaves_nothing_beside_it(tmp_path: Path) -> None:
    begun(tmp_path / "book")
    assert list(folder(tmp_path)) == ["book"]
    with opened(tmp_path / "book", create=True) as store:
        assert len(store.entries("van")) == 2


def test_a_book_in_no_folder(tmp_path: Path) -> None:
    with pytest.raises(FolderMissing) as refused:
        opened(tmp_path / "away" / "book", create=True)
    assert str(refused.value) == (
        f"There is no folder {tmp_path / 'away'} for the book. Make it, or name another place with --book."
    )


def test_entries_are_synced_before_they_are_acknowledged(tmp_path: Path) -> None:
    """`synchronous` 2 is FULL: with a write-ahead log every commit waits for the disk (SQLite's own manual)."""
    with opened(begun(tmp_path / "book")) as store:
        connection = store._opened.connection
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        assert connection.execute("PRAGMA synchronous").fetchone() == (2,)


def test_a_book_held_by_another_program(tmp_path: Path) -> None:
    path = begun(tmp_path / "book")
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with opened(path, wait_s=0.01) as store:
        with pytest.raises(BookBusy) as refused:
            store.append(draft())
        assert str(refused.value) == (
            f"The book {path} is held by another program. Nothing was recorded; try again."
        )
        assert len(store.entries("van")) == 2
        other.execute("ROLLBACK")
        other.close()
        store.append(draft())
        assert len(store.entries("van")) == 3


def test_a_full_disk_loses_nothing(tmp_path: Path) -> None:
    """The file may not grow by a single page, which SQLite reports as it does a full disk."""
    path = begun(tmp_path / "book")
    with opened(path) as store:
        connection = store._opened.connection
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        connection.execute(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(DiskFull) as refused:
            store.append(draft("note", text="x" * 15_000))
        assert str(refused.value) == (
            f"There is no room on the disk of {path}. Nothing was recorded; make room, then try again."
        )
        assert len(store.entries("van")) == 2
        connection.execute("PRAGMA max_page_count = 100000")
        store.append(draft("note", text="x" * 15_000))
    with opened(path) as store:
        assert store.verify() == ()
        assert len(store.entries("van")) == 3


@POSIX
def test_a_disk_that_takes_no_more_bytes_loses_nothing(tmp_path: Path) -> None:
    """In a process of its own, whose files the system keeps from growing beyond 100 kB."""
    path = begun(tmp_path / "book")

    def write() -> str:
        import resource

        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (100_000, 100_000))
        with opened(path) as store:
            try:
                for _ in range(20):
                    store.append(draft("note", text="x" * 15_000))
            except DiskFailed as error:
                return f"{error} {len(store.entries('van'))}"
        return "nothing refused"

    said, _, count = in_a_process(write).rpartition(" ")
    assert said == (
        f"The disk failed while the book {path} was used (it took no more). Nothing was recorded; "
        "look at the disk, then ask again what is in the book."
    )
    with opened(path) as store:
        assert store.verify() == ()
        assert len(store.entries("van")) == int(count)


def in_a_process(act: Callable[[], str], *, as_nobody: bool = False) -> str:
    """What an act says, done in a copy of this process; root gives up its rights first when asked to."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            if as_nobody and os.geteuid() == 0:
                os.setgroups([])
                os.setgid(65534)
                os.setuid(65534)
            said = act()
        except BaseException as error:  # noqa: BLE001 - whatever it is, the test has to see it
            said = f"{type(error).__name__}: {error}"
        os.write(write, said.encode())
        os._exit(0)
    os.close(write)
    with os.fdopen(read, "rb") as pipe:
        said = pipe.read().decode()
    os.waitpid(child, 0)
    return said


@pytest.fixture
def locked() -> Iterator[Path]:
    """A folder that everybody may enter, so that a process without rights can look at it."""
    with TemporaryDirectory() as name:
        path = Path(name)
        path.chmod(0o755)
        yield path
        path.chmod(0o755)


def lock(path: Path) -> None:
    for one in path.iterdir():
        one.chmod(0o444)
    path.chmod(0o555)


def read_and_try_to_write(path: Path) -> str:
    with opened(path) as store:
        count = len(store.entries("van"))
        try:
            store.append(draft())
        except BookReadOnly as error:
            return f"{count} {store.may_write} {error}"
    return "written"


READ_ONLY = (
    " False The book {path} may not be written. Nothing was recorded; "
    "give yourself the right to write the file and its folder."
)


@POSIX
def test_in_a_read_only_folder_a_book_can_be_read(locked: Path) -> None:
    path = begun(locked / "book")
    lock(locked)
    said = in_a_process(lambda: read_and_try_to_write(path), as_nobody=True)
    assert said == "2" + READ_ONLY.format(path=path)
    assert list(folder(locked)) == ["book"]


@POSIX
@pytest.mark.parametrize("left", [("", "-wal"), ("", "-wal", "-shm")], ids=["log", "log and its memory"])
def test_in_a_read_only_folder_entries_in_the_log_are_read_too(
    tmp_path: Path, locked: Path, left: tuple[str, ...]
) -> None:
    """A copy taken while the program ran, put on a stick: the last entries are in the log beside the file."""
    path = begun(tmp_path / "book")
    with opened(path) as store:
        store.append(draft())
        for rest in left:
            (locked / f"book{rest}").write_bytes((tmp_path / f"book{rest}").read_bytes())
    lock(locked)
    said = in_a_process(lambda: read_and_try_to_write(locked / "book"), as_nobody=True)
    assert said == "3" + READ_ONLY.format(path=locked / "book")
    assert sorted(folder(locked)) == sorted(f"book{rest}" for rest in left)


@POSIX
def test_in_a_read_only_folder_no_book_is_made(locked: Path) -> None:
    lock(locked)
    said = in_a_process(lambda: str(opened(locked / "book", create=True)), as_nobody=True)
    assert said == (
        f"BookReadOnly: The book {locked / 'book'} may not be written. Nothing was recorded; "
        "give yourself the right to write the file and its folder."
    )


@POSIX
def test_a_book_that_may_not_be_read(locked: Path) -> None:
    path = begun(locked / "book")
    path.chmod(0o000)
    said = in_a_process(lambda: str(opened(path)), as_nobody=True)
    assert said == (
        f"{BookUnreadable.__name__}: The book {path} cannot be read (Permission denied). "
        "Give yourself the right to read it."
    )


def test_stopped_in_the_middle_nothing_is_written(tmp_path: Path) -> None:
    """Ctrl-C between the entry and its commit."""

    def stopped() -> datetime:
        raise KeyboardInterrupt

    path = begun(tmp_path / "book")
    store = open_book(path, clock=stopped)
    with pytest.raises(KeyboardInterrupt):
        store.append(draft())
    with opened(path) as other:
        other.append(draft())  # nothing is held
        assert len(other.entries("van")) == 3
    store.close()


@POSIX
def test_interrupted_by_a_signal_the_book_is_whole(tmp_path: Path) -> None:
    """Ctrl-C at some moment of a program that writes and writes."""
    path = begun(tmp_path / "book")
    writer = [sys.executable, "-m", "tests.contract.writer", "SQLite", str(path), "Ada", "0"]
    root = Path(__file__).resolve().parents[3]
    with subprocess.Popen(
        writer, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=root, preexec_fn=heard
    ) as process:
        assert process.stdout is not None
        process.stdout.readline()
        process.send_signal(signal.SIGINT)
        process.communicate()
    assert process.returncode != 0
    with opened(path) as store:
        assert store.verify() == ()
        assert len(store.entries("van")) >= 3
    assert list(folder(tmp_path)) == ["book"]

"""A full or failing disk: said in our words, nothing acknowledged is lost, and the same act sent again counts once.

Full is a small file system of its own where we may mount one, and elsewhere a limit that the system sets on the size of
files. Failing calls are made by the tracer, which lets a chosen call fail as the system would.
"""

import os
import resource
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

import pytest

from gudgeon.book.errors import DiskFull
from gudgeon.book.sqlite import SqliteStore, open_book
from tests.contract.stores import NOW, draft
from tests.contract.traced import ROOT, tracer

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="disks are filled on Linux only")

FULL = "There is no room on the disk of {path}. Nothing was recorded; make room, then try again."
FAILED = (
    "The disk failed while the book {path} was used ({why}). Nothing was recorded; "
    "look at the disk, then ask again what is in the book."
)
NOT_CONFIRMED = (
    "The disk failed while something was recorded in the book {path} (it did not confirm what it was given). "
    "It may be in the book or not; look at the disk, then with `gudgeon book show` whether it is there, "
    "before you record it again."
)


def opened(path: Path, *, create: bool = False) -> SqliteStore:
    return open_book(path, clock=lambda: NOW, create=create)


def begun(path: Path) -> Path:
    with opened(path, create=True) as store:
        store.append(draft("build-opened"))
    return path


@dataclass(frozen=True)
class SmallDisk:
    """A file system of 700 kB, and a file that takes up room in it."""

    folder: Path

    @property
    def free(self) -> int:
        found = os.statvfs(self.folder)
        return found.f_bavail * found.f_frsize

    def leave(self, room: int) -> None:
        (self.folder / "something else").write_bytes(b"x" * (self.free - room))

    def make_room(self) -> None:
        (self.folder / "something else").unlink()


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[SmallDisk]:
    """Where we may mount one."""
    folder = tmp_path / "disk"
    folder.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=700k", "tmpfs", str(folder)]
    if os.geteuid() != 0 or subprocess.run(mount, capture_output=True).returncode:
        pytest.skip(
            "a small disk can be mounted by root only; the limit on the size of files is tried instead"
        )
    yield SmallDisk(folder)
    subprocess.run(["umount", str(folder)], check=True)


def test_on_a_disk_that_fills_up_nothing_is_lost(small_disk: SmallDisk) -> None:
    path = begun(small_disk.folder / "book")
    refused = draft(text="the one that finds no room " + "x" * 3000)
    said: list[str] = []

    def fill_up(store: SqliteStore) -> None:
        for number in range(100):
            sent = refused if small_disk.free < 25_000 else draft(text=f"{number} {'x' * 3000}")
            said.append(store.append(sent).entry.id)

    with opened(path) as store:
        small_disk.leave(60_000)
        with pytest.raises(DiskFull) as error:
            fill_up(store)
        assert str(error.value) == FULL.format(path=path)
        assert len(said) >= 1
        assert [one.id for one in store.entries("van")][1:] == said
        small_disk.make_room()
        assert not store.append(refused).already
        assert store.append(refused).already
    with opened(path) as store:
        assert [one.id for one in store.entries("van")][1:] == [*said, refused.id]
        assert store.verify() == ()


@pytest.mark.parametrize("room", [0, 4_096, 16_384, 32_768])
def test_on_a_full_disk_the_book_can_be_read(small_disk: SmallDisk, room: int) -> None:
    """SQLite needs 32 kB for its memory before it opens a book for writing."""
    path = begun(small_disk.folder / "book")
    content = path.read_bytes()
    small_disk.leave(room)
    sent = draft(text="x" * 3000)
    with opened(path) as store:
        assert len(store.entries("van")) == 1
        assert store.verify() == ()
        with pytest.raises(DiskFull) as refused:
            store.append(sent)
        assert str(refused.value) == FULL.format(path=path)
    assert path.read_bytes() == content
    small_disk.make_room()
    with opened(path) as store:
        assert not store.append(sent).already


def test_on_a_full_disk_what_is_in_the_log_is_read_too(small_disk: SmallDisk, tmp_path: Path) -> None:
    """A program was killed, so the last entries are in the log alone, and there is no room beside it."""
    with opened(begun(tmp_path / "book")) as store:
        store.append(draft())
        for rest in ("", "-wal"):
            (small_disk.folder / f"book{rest}").write_bytes((tmp_path / f"book{rest}").read_bytes())
    small_disk.leave(0)
    with opened(small_disk.folder / "book") as store:
        assert len(store.entries("van")) == 2
    small_disk.make_room()
    with opened(small_disk.folder / "book") as store:
        store.append(draft())
        assert len(store.entries("van")) == 3
        assert store.verify() == ()


@pytest.mark.parametrize("room", [0, 4_096, 20_000, 40_000])
def test_on_a_full_disk_no_half_book_is_made(small_disk: SmallDisk, room: int) -> None:
    small_disk.leave(room)
    path = small_disk.folder / "book"
    with pytest.raises(DiskFull) as refused:
        opened(path, create=True)
    assert str(refused.value) == FULL.format(path=path)
    assert [one.name for one in small_disk.folder.iterdir()] == ["something else"]
    small_disk.make_room()
    begun(path)


def gudgeon(book: Path, *arguments: str, limit: int | None = None) -> "subprocess.CompletedProcess[str]":
    """The program as a person runs it, with a limit on the size of files where one is set."""
    program = [sys.executable, "-m", "gudgeon.cli.main", *arguments, "--book", str(book)]

    def limited() -> None:
        if limit is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    return subprocess.run(
        program, cwd=ROOT, capture_output=True, text=True, encoding="utf-8", preexec_fn=limited
    )


def begin(book: Path) -> None:
    papers = [f"--{name}={files('gudgeon.demo') / f'{name}.yaml'}" for name in ("sheet", "kit")]
    done = gudgeon(book, "begin", "van", *papers)
    assert done.returncode == 0, done.stderr


def record_until_refused(
    record: Callable[[str], "subprocess.CompletedProcess[str]"],
) -> tuple[list[str], str]:
    """The notes that were recorded, and the words that refused the next one."""
    kept: list[str] = []
    for number in range(30):
        note = f"note {number} {'x' * 18000}"
        done = record(note)
        if done.returncode:
            assert (done.returncode, done.stdout) == (2, "")
            return kept, done.stderr
        assert done.stdout.startswith("In the book")
        kept.append(note)
    raise AssertionError("nothing was refused")


def notes(book: Path) -> list[str]:
    with opened(book) as store:
        assert store.verify() == ()
        return [one.body["text"] for one in store.entries("van") if one.kind == "note"]


def test_the_terminal_on_a_disk_that_fills_up(small_disk: SmallDisk) -> None:
    book = small_disk.folder / "book"
    begin(book)
    small_disk.leave(130_000)
    kept, said = record_until_refused(lambda note: gudgeon(book, "record", "note", note))
    assert said == FULL.format(path=book) + "\n"
    assert len(kept) >= 2
    assert notes(book) == kept
    assert gudgeon(book, "book", "verify").returncode == 0
    assert gudgeon(book, "now").returncode == 0
    small_disk.make_room()
    assert gudgeon(book, "record", "note", "there is room again").returncode == 0
    assert notes(book) == [*kept, "there is room again"]


def test_the_terminal_where_files_may_not_grow(tmp_path: Path) -> None:
    """The system refuses every byte beyond; it does so for one process, so that others can make room."""
    book = tmp_path / "book"
    begin(book)
    limit = book.stat().st_size + 45_000
    kept, said = record_until_refused(lambda note: gudgeon(book, "record", "note", note, limit=limit))
    assert said == FAILED.format(path=book, why="it took no more") + "\n"
    assert len(kept) >= 2
    assert notes(book) == kept
    assert gudgeon(book, "record", "note", "there is room again").returncode == 0
    assert notes(book) == [*kept, "there is room again"]


@dataclass(frozen=True)
class Came:
    """What a program said of its acts, in turn: the act, and `done` or the words that refused it."""

    said: list[tuple[str, str]]

    @property
    def done(self) -> list[str]:
        return [entry for entry, words in self.said if words == "done"]

    @property
    def refusals(self) -> set[str]:
        return {words for _, words in self.said if words != "done"}


def with_failing(call: str, error: str, book: Path, on: str = "-wal", *, when: str) -> Came:
    """Ten acts, while some calls on a file of the book fail: the `when`th, or with a plus all from there on."""
    inject = ["-e", f"trace={call}", "-e", f"inject={call}:error={error}:when={when}", "-P", f"{book}{on}"]
    program = [sys.executable, "-m", "tests.contract.stubborn", str(book), "10"]
    done = subprocess.run(
        [tracer(), "-f", "-o", os.devnull, *inject, *program],
        cwd=ROOT,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    assert (done.returncode, done.stderr) == (0, "")
    return Came([(line.split()[1], line.split(" ", 2)[2]) for line in done.stdout.splitlines()])


def sent_again_each_counts_once(book: Path, came: Came, *, may_be_there: bool) -> None:
    """What was said is there, what was refused is not (or may be), and all ten sent again are there once."""
    with opened(book) as store:
        there = [one.id for one in store.entries("van")][1:]
        refused = [entry for entry, _ in came.said if entry not in came.done]
        assert [entry for entry in there if entry in came.done] == came.done
        assert may_be_there or not set(there) & set(refused)
        assert store.verify() == ()
        for number in range(10):
            store.append(draft(entry_id=f"{number:032x}", text=f"{number} {'x' * 2000}"))
        ids = [one.id for one in store.entries("van")]
        assert sorted(ids[1:]) == [f"{number:032x}" for number in range(10)]
        assert store.verify() == ()


WRITES = [
    pytest.param(str(when), marks=[] if when in (1, 4, 15, 30) else [pytest.mark.long])
    for when in range(1, 34)
]


@pytest.mark.parametrize("when", WRITES)
@pytest.mark.parametrize(
    "error, words",
    [("EIO", FAILED.replace("{why}", "it took no more")), ("ENOSPC", FULL)],
    ids=["EIO", "ENOSPC"],
)
def test_a_write_that_fails_once(tmp_path: Path, when: str, error: str, words: str) -> None:
    """At any of the writes of an act: the act is refused, and the same one sent again by the same program counts."""
    book = begun(tmp_path / "book")
    came = with_failing("pwrite64", error, book, when=when)
    assert came.refusals == {words.format(path=book)}
    assert len(came.done) == 10
    sent_again_each_counts_once(book, came, may_be_there=False)


@pytest.mark.parametrize("when", ["1+", "4+", "13+", "14+", "32+"])
def test_a_disk_that_takes_no_more_writes(tmp_path: Path, when: str) -> None:
    book = begun(tmp_path / "book")
    came = with_failing("pwrite64", "EIO", book, when=when)
    assert came.refusals == {FAILED.format(path=book, why="it took no more")}
    sent_again_each_counts_once(book, came, may_be_there=False)


@pytest.mark.parametrize("when", ["2", "3", "4", "9"])
def test_an_entry_that_the_disk_did_not_confirm_is_not_acknowledged(tmp_path: Path, when: str) -> None:
    """The first sync is that of the log's own beginning, which belongs to the first act."""
    book = begun(tmp_path / "book")
    came = with_failing("fdatasync", "EIO", book, when=when)
    assert came.refusals == {NOT_CONFIRMED.format(path=book)}
    assert len(came.done) == 10
    assert len(came.said) == 11
    sent_again_each_counts_once(book, came, may_be_there=False)


@pytest.mark.parametrize("when", ["1+", "2+", "5+"])
def test_a_disk_that_confirms_nothing_any_more(tmp_path: Path, when: str) -> None:
    """No entry after that is acknowledged, though some may turn out to be there."""
    book = begun(tmp_path / "book")
    came = with_failing("fdatasync", "EIO", book, when=when)
    assert came.refusals == {NOT_CONFIRMED.format(path=book)}
    assert len(came.done) == max(int(when[0]) - 2, 0)
    sent_again_each_counts_once(book, came, may_be_there=True)


def test_a_disk_that_cannot_be_read(tmp_path: Path) -> None:
    """Nothing is recorded where the entries before it cannot be looked at. SQLite calls a bad spot of a disk damage."""
    book = tmp_path / "book"
    with opened(begun(book)) as store:
        store.append_many(draft(entry_id=f"{number:032x}", text="before") for number in range(1000, 1300))
        before = store.entries("van")
    came = with_failing("pread64", "EIO", book, "", when="8+")
    assert came.refusals == {
        f"The book {book} is damaged (database disk image is malformed). It was left untouched; keep it, "
        "and bring a backup back under another name with `gudgeon book restore`."
    }
    assert came.done == []
    with opened(book) as store:
        assert store.entries("van") == before
        assert store.verify() == ()

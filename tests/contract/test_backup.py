"""A backup is made while others write, is whole or not there, and comes back as it was – never over a book."""

import re
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from gudgeon.bench import copies
from gudgeon.bench.verifying import verified, verified_archive
from gudgeon.book.address import book_address, photos_folder
from gudgeon.book.copy_errors import (
    ArchiveDamaged,
    BookEmpty,
    BookNotInOrder,
    BookThere,
    FileRefused,
    FileThere,
    HeadNotReadable,
    RestIsThere,
)
from gudgeon.book.errors import FolderMissing
from gudgeon.book.opening import open_book
from tests.contract.books import PHOTO, PHOTO_SHA, fill, many, put_photo, rows_of
from tests.contract.stores import NOW, Shelf, draft
from tests.contract.test_crash import start

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(autouse=True)
def _photos_of_databases(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GUDGEON_PHOTOS", str(tmp_path / "photos of the database"))


def backed_up(shelf: Shelf, file: Path) -> copies.Copied:
    return copies.back_up(book_address(shelf.address), to=str(file), now=NOW)


class Acknowledged:
    """The ids that a writing process has said so far, read as they come."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self.process = process
        self._ids: list[str] = []
        self._reader = threading.Thread(target=self._read)
        self._reader.start()

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self._ids += line.split()

    def so_far(self) -> set[str]:
        return set(self._ids)

    def stop(self) -> None:
        self.process.kill()
        self.process.wait()
        self._reader.join()
        for stream in (self.process.stdin, self.process.stdout):
            assert stream is not None
            stream.close()


def test_backups_while_another_process_writes_hold_all_that_was_acknowledged(
    shelf: Shelf, tmp_path: Path
) -> None:
    with shelf.open() as store:
        store.append(draft("build-opened"))
    said = Acknowledged(start(shelf, name="Ada"))
    try:
        while len(said.so_far()) < 20:
            time.sleep(0.01)
        counts = []
        for number in range(6):
            before = said.so_far()
            made = backed_up(shelf, tmp_path / f"{number}.zip")
            counts.append(len(said.so_far()) - len(before))
            found = verified_archive(tmp_path / f"{number}.zip")
            assert (found.problems, found.heads) == ((), made.heads)
            copies.restore(tmp_path / f"{number}.zip", to=tmp_path / f"{number}.gudgeon")
            with open_book(tmp_path / f"{number}.gudgeon", clock=lambda: NOW) as restored:
                entries = restored.entries("van")
                assert restored.verify() == ()
            assert before <= {entry.id for entry in entries}
            assert [entry.number for entry in entries] == list(range(1, made.entries + 1))
    finally:
        said.stop()
    assert sum(counts) > 0, "nothing was written while a backup was made"


def test_a_backup_says_what_is_in_it_and_comes_back_as_it_was(shelf: Shelf, tmp_path: Path) -> None:
    fill(shelf)
    file = tmp_path / "backup.zip"
    made = backed_up(shelf, file)
    rows = rows_of(shelf)
    assert (made.entries, made.builds, made.photos, made.photos_wrong) == (9, {"van": 7, "boat": 2}, 1, {})
    assert made.heads == {build: chain[-1][3] for build, chain in rows.items()}
    assert made.size == file.stat().st_size
    book = tmp_path / "restored.gudgeon"
    taken = copies.restore(file, to=book)
    assert {one.build: one.head for one in taken.builds} == made.heads
    assert rows_of(Shelf("SQLite", str(book))) == rows
    assert (photos_folder(book) / f"{PHOTO_SHA}.jpg").read_bytes() == PHOTO
    assert verified(book).problems == ()
    again = copies.back_up(book, to=str(tmp_path / "again.zip"), now=NOW)
    assert again.sha256 == made.sha256


def test_a_restored_book_is_written_on(shelf: Shelf, tmp_path: Path) -> None:
    fill(shelf)
    backed_up(shelf, tmp_path / "backup.zip")
    copies.restore(tmp_path / "backup.zip", to=tmp_path / "restored.gudgeon")
    with open_book(tmp_path / "restored.gudgeon", clock=lambda: NOW) as store:
        assert store.append(draft(text="and on")).entry.number == 8
        assert store.verify() == ()
    assert sorted(path.name for path in tmp_path.glob("restored*")) == [
        "restored.gudgeon",
        "restored.gudgeon.photos",
    ]


def test_the_file_is_named_after_the_day_where_none_is_named(
    shelf: Shelf, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fill(shelf)
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    now = datetime(2026, 3, 7, 9, 5, 2, tzinfo=UTC)
    address = book_address(shelf.address)
    assert copies.back_up(address, to=None, now=now).file == "gudgeon-backup-20260307-090502.zip"
    (tmp_path / "stick").mkdir()
    made = copies.back_up(address, to=str(tmp_path / "stick"), now=now)
    assert made.file == str(tmp_path / "stick" / "gudgeon-backup-20260307-090502.zip")
    with pytest.raises(FileThere):
        copies.back_up(address, to=None, now=now)
    assert [path.name for path in (tmp_path / "here").iterdir()] == ["gudgeon-backup-20260307-090502.zip"]


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (lambda file: file.unlink(), "it is missing"),
        (lambda file: file.write_bytes(b"another"), "it was altered"),
    ],
    ids=["missing", "altered"],
)
def test_a_photo_that_is_missing_or_altered_is_told_and_holds_up_nothing(
    shelf: Shelf, tmp_path: Path, change: Callable[[Path], object], why: str
) -> None:
    fill(shelf)
    change(put_photo(shelf))
    found = verified(book_address(shelf.address))
    (problem,) = found.problems
    assert re.fullmatch(rf"photo {PHOTO_SHA[:8]}, build van, entry 7 \([0-9a-f]{{8}}\): {why}", problem)
    made = backed_up(shelf, tmp_path / "backup.zip")
    assert (made.photos, made.photos_wrong) == (0, {PHOTO_SHA: why})
    (problem,) = verified_archive(tmp_path / "backup.zip").problems
    assert problem.endswith("it was missing or altered when the archive was written")
    taken = copies.restore(tmp_path / "backup.zip", to=tmp_path / "restored.gudgeon")
    assert taken.photos_missing == (PHOTO_SHA,)
    assert rows_of(Shelf("SQLite", str(tmp_path / "restored.gudgeon"))) == rows_of(shelf)


def test_an_altered_photo_is_put_right_from_a_backup_and_the_other_kept_beside_it(
    shelf: Shelf, tmp_path: Path
) -> None:
    fill(shelf)
    backed_up(shelf, tmp_path / "backup.zip")
    file = put_photo(shelf, b"another")
    assert copies.take_in(tmp_path / "backup.zip", to=book_address(shelf.address)).photos == 1
    assert file.read_bytes() == PHOTO
    assert file.with_name(f"{file.name}.altered").read_bytes() == b"another"


def test_what_lies_about_and_nobody_names_is_told_and_no_problem(shelf: Shelf) -> None:
    fill(shelf)
    photos = photos_folder(book_address(shelf.address))
    (photos / f"{'ab' * 32}.png").write_bytes(b"x")
    with shelf.open() as store:
        text = store.put_document("gudgeon: kit 1\n# never used\n", kind="kit")
    found = verified(book_address(shelf.address))
    assert found.problems == ()
    assert found.notes == (
        "photo abababab lies beside the book and no entry names it",
        f"pinned text {text[:8]} is in the book and no entry was made against it",
    )


def test_a_book_that_is_not_in_order_is_not_copied_as_if_it_were(shelf: Shelf, tmp_path: Path) -> None:
    fill(shelf)
    shelf.tamper("DELETE FROM entry WHERE build = 'boat' AND number = 2")
    with pytest.raises(BookNotInOrder) as caught:
        backed_up(shelf, tmp_path / "backup.zip")
    assert str(caught.value) == (
        f"The book {book_address(shelf.address)} is not as it was written: {shelf.whole}: 9 entries were written, 8 are "
        "there. Nothing was written, so that no copy looks whole that is not; go back to an earlier copy, "
        "and keep this book as it is."
    )
    assert not (tmp_path / "backup.zip").exists()
    # The build to which nothing happened can still leave.
    made = copies.export(book_address(shelf.address), tmp_path / "van.zip", build="van")
    assert (made.entries, verified_archive(tmp_path / "van.zip").problems) == (7, ())


def test_a_strike_of_another_builds_entry_is_found(shelf: Shelf) -> None:
    """Made behind the back of the book, with hashes that match: the chain alone holds."""
    fill(shelf)
    with shelf.open() as store:
        target = store.entries("boat")[1].id
        own = store.entries("van")[1]
    text = f'"entry":"{own.id}"'
    shelf.tamper(
        f"UPDATE entry SET content = replace(content, '{text}', '\"entry\":\"{target}\"') WHERE build = 'van' AND number = 3"
    )
    problems = verified(book_address(shelf.address)).problems
    said = [problem.split(": ", 1)[1] for problem in problems]
    assert said == [
        "its content does not match its hash",
        "it strikes an entry that is not before it",
        "it strikes an entry of the build boat",
    ]


def test_an_empty_book_is_no_backup(shelf: Shelf, tmp_path: Path) -> None:
    with pytest.raises(BookEmpty) as caught:
        backed_up(shelf, tmp_path / "backup.zip")
    assert (
        str(caught.value)
        == f"The book {book_address(shelf.address)} holds no build yet. Nothing was written."
    )


def test_a_place_that_cannot_be_written(shelf: Shelf, tmp_path: Path) -> None:
    fill(shelf)
    place = tmp_path / "none" / "backup.zip"
    with pytest.raises(FileRefused) as caught:
        backed_up(shelf, place)
    assert str(caught.value) == (
        f"{place} cannot be written (No such file or directory). Nothing is left of it; name another place."
    )


# Restoring


@pytest.fixture
def backup(tmp_path: Path) -> Path:
    """A backup of a filled book."""
    shelf = Shelf("SQLite", str(tmp_path / "filled.gudgeon"))
    shelf.open(create=True).close()
    fill(shelf)
    backed_up(shelf, tmp_path / "backup.zip")
    return tmp_path / "backup.zip"


def test_never_over_a_book(backup: Path, shelf: Shelf) -> None:
    with shelf.open() as store:
        store.append(draft("build-opened", build="other"))
    before = rows_of(shelf)
    place = book_address(shelf.address)
    with pytest.raises(BookThere) as caught:
        copies.restore(backup, to=place)
    assert str(caught.value) == (
        f"There is a book at {place} already; it was left as it is, and nothing was written. "
        "Name a place where there is none with --book NEW."
    )
    assert rows_of(shelf) == before


def test_into_a_database_without_a_book(backup: Path, database: str) -> None:
    taken = copies.restore(backup, to=book_address(database))
    assert [(one.build, one.added) for one in taken.builds] == [("van", 7), ("boat", 2)]
    assert verified(book_address(database)).problems == ()
    with pytest.raises(BookThere):
        copies.restore(backup, to=book_address(database))


def test_not_over_another_file_nor_beside_the_log_of_an_earlier_book(backup: Path, tmp_path: Path) -> None:
    """SQLite would read such a log into the restored book."""
    other = tmp_path / "notes.txt"
    other.write_bytes(b"months of work")
    with pytest.raises(BookThere):
        copies.restore(backup, to=other)
    assert other.read_bytes() == b"months of work"
    book = tmp_path / "new.gudgeon"
    (tmp_path / "new.gudgeon-wal").write_bytes(b"frames")
    with pytest.raises(RestIsThere) as caught:
        copies.restore(backup, to=book)
    assert str(caught.value) == (
        f"There is no book at {book}, but {book}-wal of an earlier one is still there and may hold entries of it. "
        "Nothing was written; move it away, or name another place with --book NEW."
    )
    assert not book.exists()
    with pytest.raises(FolderMissing):
        copies.restore(backup, to=tmp_path / "none" / "book.gudgeon")


def test_a_damaged_backup_leaves_nothing_behind(backup: Path, tmp_path: Path) -> None:
    content = bytearray(backup.read_bytes())
    place = content.index(b"entries.jsonl") + 400
    content[place] ^= 0xFF
    backup.write_bytes(content)
    before = sorted(tmp_path.iterdir())
    with pytest.raises(ArchiveDamaged):
        copies.restore(backup, to=tmp_path / "new.gudgeon")
    assert sorted(tmp_path.iterdir()) == before


@pytest.mark.parametrize("fails", ["writing the book", "photo 1 of 1"])
def test_a_restore_that_is_stopped_leaves_nothing_behind(backup: Path, tmp_path: Path, fails: str) -> None:
    before = sorted(tmp_path.iterdir())

    def stop(words: str) -> None:
        if words == fails:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        copies.restore(backup, to=tmp_path / "new.gudgeon", tell=stop)
    assert sorted(tmp_path.iterdir()) == before


RESTORE = """\
import sys
from pathlib import Path
from gudgeon.bench.copies import restore
def tell(words):
    print(words, flush=True)
restore(Path(sys.argv[1]), to=Path(sys.argv[2]), tell=tell)
print("restored", flush=True)
"""


def killed_while_it_restores(file: Path, book: Path, *, after: float) -> bool:
    """Kill a restore so long after it began to write; whether it had said that it was done."""
    child = subprocess.Popen(
        [sys.executable, "-c", RESTORE, str(file), str(book)], stdout=subprocess.PIPE, text=True, encoding="utf-8", cwd=ROOT
    )  # fmt: skip
    assert child.stdout is not None
    for line in child.stdout:
        if line == "writing the book\n":
            break
    time.sleep(after)
    child.kill()
    rest = child.stdout.read()
    child.stdout.close()
    child.wait()
    return "restored\n" in rest


def test_killed_at_any_moment_a_restore_leaves_a_whole_book_or_none(tmp_path: Path) -> None:
    shelf = Shelf("SQLite", str(tmp_path / "filled.gudgeon"))
    shelf.open(create=True).close()
    many(shelf, 800)
    backed_up(shelf, tmp_path / "backup.zip")
    expected = rows_of(shelf)
    ends = []
    for number in range(10):
        book = tmp_path / f"{number}.gudgeon"
        done = killed_while_it_restores(tmp_path / "backup.zip", book, after=0.04 * number)
        ends.append(book.exists())
        assert book.exists() or not done
        if book.exists():
            assert rows_of(Shelf("SQLite", str(book))) == expected
        else:  # and the same once more is not held up by what the killed one left
            copies.restore(tmp_path / "backup.zip", to=book)
            assert verified(book).problems == ()
    assert not ends[0], "it was never killed before it was done"


# A head from a printed page


def test_a_head_from_a_page_says_how_far_the_book_has_come(shelf: Shelf) -> None:
    fill(shelf)
    address = book_address(shelf.address)
    early = rows_of(shelf)["van"][3][3]
    found = verified(address, against=f" {early[:12].upper()} ").against
    assert found is not None
    assert (found.found, found.build, found.number, found.after) == (True, "van", 4, 3)
    other = verified(address, against=early, build="boat").against
    assert other is not None
    assert not other.found
    nowhere = verified(address, against="0" * 64).against
    assert nowhere is not None
    assert not nowhere.found


@pytest.mark.parametrize("said", ["", "3f", "0123456789ag", "0" * 65, "not a head"])
def test_a_head_that_cannot_be_one(shelf: Shelf, said: str) -> None:
    fill(shelf)
    with pytest.raises(HeadNotReadable) as caught:
        verified(book_address(shelf.address), against=said)
    assert str(caught.value) == (
        f"`{said}` is no head of a chain: on a printed page it is 12 to 64 of the signs 0 to 9 and a to f. "
        "Nothing was compared; read it again."
    )

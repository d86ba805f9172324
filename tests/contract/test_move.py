"""A book moves from file to database and back, entry for entry; nothing is written over and nothing is cut off."""

from pathlib import Path

import pytest

from gudgeon.bench import copies
from gudgeon.bench.context import open_bench
from gudgeon.bench.moved import moved_remarks
from gudgeon.bench.verifying import verified
from gudgeon.book.address import BookAddress, book_address, photos_folder
from gudgeon.book.copy_errors import BuildsThere, StillWritten
from tests.contract.books import PHOTO, PHOTO_SHA, fill, many, rows_of
from tests.contract.stores import NOW, Shelf, draft


@pytest.fixture(autouse=True)
def _photos_of_databases(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GUDGEON_PHOTOS", str(tmp_path / "photos of the database"))


@pytest.fixture
def book(tmp_path: Path) -> Shelf:
    """A filled book in a file."""
    shelf = Shelf("SQLite", str(tmp_path / "old.gudgeon"))
    shelf.open(create=True).close()
    fill(shelf)
    return shelf


def address_of(shelf: Shelf) -> BookAddress:
    return book_address(shelf.address)


def test_from_file_to_database_and_back_entry_for_entry(book: Shelf, database: str, tmp_path: Path) -> None:
    server, back = Shelf("PostgreSQL", database), Shelf("SQLite", str(tmp_path / "back.gudgeon"))
    before, file = rows_of(book), Path(book.address).read_bytes()
    there = copies.move(address_of(book), to=address_of(server), now=NOW)
    assert [(one.build, one.entries, one.added) for one in there.builds] == [("van", 7, 7), ("boat", 2, 2)]
    assert (there.photos, there.photos_wrong, there.marker) == (1, {}, f"{book.address}.moved.txt")
    assert rows_of(server) == before
    returned = copies.move(address_of(server), to=address_of(back), now=NOW)
    assert (returned.photos, returned.marker) == (1, "")
    assert rows_of(back) == before
    for shelf in (book, server, back):
        assert verified(address_of(shelf)).problems == ()
        assert (photos_folder(address_of(shelf)) / f"{PHOTO_SHA}.jpg").read_bytes() == PHOTO
    assert Path(book.address).read_bytes() == file
    with server.open() as store, back.open() as other:
        assert store.documents() == other.documents()
        assert store.append(draft(text="and on")).entry.number == 8


def test_five_thousand_entries_there_and_back(database: str, tmp_path: Path) -> None:
    book, server = Shelf("SQLite", str(tmp_path / "book.gudgeon")), Shelf("PostgreSQL", database)
    book.open(create=True).close()
    many(book, 5_000)
    back = Shelf("SQLite", str(tmp_path / "back.gudgeon"))
    copies.move(address_of(book), to=address_of(server), now=NOW)
    copies.move(address_of(server), to=address_of(back), now=NOW)
    rows = rows_of(back)
    assert rows == rows_of(book)
    assert len(rows["van"]) == 5_000


def test_beside_other_builds_and_never_over_one(book: Shelf, shelf: Shelf) -> None:
    with shelf.open() as store:
        store.append(draft("build-opened", build="bike"))
    copies.move(address_of(book), to=address_of(shelf), now=NOW)
    before = rows_of(shelf)
    assert list(before) == ["bike", "van", "boat"]
    with pytest.raises(BuildsThere) as caught:
        copies.move(address_of(book), to=address_of(shelf), now=NOW)
    assert str(caught.value) == (
        f"In {address_of(shelf)} there is `van`, `boat` already. They are the same there to the last entry. Nothing was "
        "moved; name a place without them, or take over what is new with `gudgeon book export` and `gudgeon book import`."
    )
    with shelf.open() as store:
        store.append(draft(text="only there"))
    longer = rows_of(shelf)
    with pytest.raises(BuildsThere) as caught:
        copies.move(address_of(book), to=address_of(shelf), now=NOW)
    assert "They are not the same there." in str(caught.value)
    assert rows_of(shelf) == longer


def test_not_onto_itself(book: Shelf) -> None:
    with pytest.raises(BuildsThere):
        copies.move(address_of(book), to=address_of(book), now=NOW)
    assert moved_remarks(address_of(book)) == ()


def test_what_is_written_while_it_moves_is_not_left_behind(book: Shelf, shelf: Shelf) -> None:
    """Another person writes into the old book after it was read, and again while the rest follows."""
    wrote: list[str] = []

    def somebody_writes(words: str) -> None:
        if words == "writing the book" and len(wrote) < 3:
            with book.open() as store:
                wrote.append(store.append(draft(text=f"meanwhile {len(wrote)}")).entry.id)

    moved = copies.move(address_of(book), to=address_of(shelf), now=NOW, tell=somebody_writes)
    rows = rows_of(shelf)
    assert rows == rows_of(book)
    assert [row[1] for row in rows["van"][-3:]] == wrote
    assert [(one.build, one.entries) for one in moved.builds] == [("van", 10), ("boat", 2)]


def test_a_move_that_never_ends_is_said(book: Shelf, shelf: Shelf) -> None:
    def somebody_writes(words: str) -> None:
        if words == "writing the book":
            with book.open() as store:
                store.append(draft())

    with pytest.raises(StillWritten) as caught:
        copies.move(address_of(book), to=address_of(shelf), now=NOW, tell=somebody_writes)
    assert str(caught.value) == (
        f"Others write into {address_of(book)} faster than it can be moved. What it held before is in "
        f"{address_of(shelf)}, the last entries are not. Let them stop, then take over the rest with "
        "`gudgeon book export` and `gudgeon book import`."
    )
    old, new = rows_of(book)["van"], rows_of(shelf)["van"]
    assert new == old[: len(new)]
    assert moved_remarks(address_of(book)) == ()


def test_a_move_that_is_stopped_leaves_nothing_there(book: Shelf, tmp_path: Path) -> None:
    before = sorted(tmp_path.iterdir())

    def stop(words: str) -> None:
        if words == "writing the book":
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        copies.move(address_of(book), to=tmp_path / "new.gudgeon", now=NOW, tell=stop)
    assert sorted(tmp_path.iterdir()) == before


def test_a_photo_that_is_missing_is_told(book: Shelf, shelf: Shelf, tmp_path: Path) -> None:
    (photos_folder(address_of(book)) / f"{PHOTO_SHA}.jpg").unlink()
    moved = copies.move(address_of(book), to=address_of(shelf), now=NOW)
    assert moved.photos_wrong == {PHOTO_SHA: "it is missing"}
    assert rows_of(shelf) == rows_of(book)


def test_the_old_book_says_with_every_answer_that_it_was_moved(demo: Path, tmp_path: Path) -> None:
    new = tmp_path / "new.gudgeon"
    copies.move(demo, to=new, now=NOW)
    with open_bench(demo).store:
        remarks = open_bench(demo).heading("What was done?").remarks
    said = (
        f"The book book.gudgeon was moved to {new} on 2026-03-07. What is recorded here is missing there; "
        "book.gudgeon.moved.txt says more."
    )
    assert remarks[0] == said
    assert all("was moved" not in remark for remark in open_bench(new).heading("What was done?").remarks)
    (tmp_path / "job" / "book.gudgeon.moved.txt").unlink()
    assert all("was moved" not in remark for remark in open_bench(demo).heading("What was done?").remarks)


def test_in_a_database_sheet_and_kit_are_found_where_it_is_said_and_nowhere_by_chance(
    demo: Path, database: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another sheet.yaml lies where the program happens to stand: it is not the one of this engine."""
    moved = copies.move(demo, to=book_address(database), now=NOW)
    assert moved.papers == str(demo.parent)
    (tmp_path / "sheet.yaml").write_text("gudgeon: sheet 1\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    bench = open_bench(book_address(database))
    with bench.store:
        assert bench.papers.remarks == (
            "The data sheet sheet.yaml is gone; the copy pinned in the book is used.",
            "The kit kit.yaml is gone; the copy pinned in the book is used.",
        )
    monkeypatch.setenv("GUDGEON_PAPERS", moved.papers)
    bench = open_bench(book_address(database))
    with bench.store:
        assert bench.papers.remarks == ()
        assert bench.papers.sheet_file == demo.parent / "sheet.yaml"


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """The book of the invented job."""
    from gudgeon.bench.begin import open_demo

    open_demo(tmp_path / "job", now=NOW)
    return tmp_path / "job" / "book.gudgeon"

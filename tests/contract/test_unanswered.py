"""The way to the server breaks while something is recorded: it is kept once, or not at all, or it is said not to be known.

A go-between stands on the way, and cuts it at the word that it is told to wait for.
"""

import socket
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread

import pytest

from gudgeon.bench import copies
from gudgeon.book import postgres
from gudgeon.book.address import book_address
from gudgeon.book.opening import open_book
from gudgeon.book.server_errors import ConnectionLost, OutcomeUnknown
from gudgeon.book.store import Store
from tests.contract.books import PHOTO_SHA, fill
from tests.contract.stores import NOW, Shelf, draft
from tools.cluster import Cluster

BEGIN, COMMIT = b"BEGIN ISOLATION LEVEL", b"COMMIT\0"


class GoBetween:
    """Hands everything on between programs and a server, until a program says the word at which it cuts the way."""

    def __init__(self, folder: Path, server: Path) -> None:
        self.address = f"postgresql://postgres@/bench?host={folder}"
        self._server = str(server / ".s.PGSQL.5432")
        self._door = socket.socket(socket.AF_UNIX)
        self._door.bind(str(folder / ".s.PGSQL.5432"))
        self._door.listen()
        self._lines: list[socket.socket] = []
        self._mute: set[socket.socket] = set()
        self.cut_at = b""
        self.hands_on = True
        """Whether the server still hears the word at which the way is cut."""
        self.opens_again = True
        Thread(target=self._let_in, daemon=True).start()

    def _let_in(self) -> None:
        with suppress(OSError):
            while True:
                program, _ = self._door.accept()
                server = socket.socket(socket.AF_UNIX)
                self._lines += [program, server]
                if self._lines[2:] and not self.opens_again:
                    end(program)
                    continue
                server.connect(self._server)
                for one, other in ((program, server), (server, program)):
                    Thread(target=self._hand_on, args=(one, other), daemon=True).start()

    def _hand_on(self, one: socket.socket, other: socket.socket) -> None:
        with suppress(OSError):
            while said := one.recv(65536):
                if self.cut_at and self.cut_at in said:
                    self.cut_at = b""
                    self._mute.add(other)
                    if not self.hands_on:
                        break
                elif one in self._mute:
                    break  # the server has done it, and its answer is lost
                other.sendall(said)
        end(one)
        end(other)

    def close(self) -> None:
        for line in (self._door, *self._lines):
            end(line)


def end(line: socket.socket) -> None:
    with suppress(OSError):
        line.shutdown(socket.SHUT_RDWR)
    line.close()


@pytest.fixture
def in_database(database: str) -> Shelf:
    """A book with one build begun, reached directly."""
    shelf = Shelf("PostgreSQL", database)
    with shelf.open(create=True) as store:
        store.append(draft("build-opened"))
    return shelf


@pytest.fixture
def between(cluster: Cluster, monkeypatch: pytest.MonkeyPatch) -> Iterator[GoBetween]:
    monkeypatch.setattr(postgres, "_PAUSE_S", 0.01)
    with TemporaryDirectory(prefix="gudgeon-way-") as name:
        way = GoBetween(Path(name), cluster.folder)
        yield way
        way.close()


@pytest.fixture
def far(in_database: Shelf, between: GoBetween) -> Iterator[Store]:
    """The same book, reached by way of the go-between."""
    with open_book(book_address(between.address), clock=lambda: NOW) as store:
        yield store


def ids(shelf: Shelf) -> list[str]:
    with shelf.open() as store:
        assert store.verify() == ()
        return [entry.id for entry in store.entries("van")[1:]]


@pytest.mark.parametrize("hands_on", [True, False], ids=["kept", "not kept"])
def test_a_commit_without_an_answer_is_asked_about(
    in_database: Shelf, between: GoBetween, far: Store, hands_on: bool
) -> None:
    """Whether the server had kept them or not: both are there, once, and the caller need not know."""
    pair = [draft(text="one"), draft(text="two")]
    between.cut_at, between.hands_on = COMMIT, hands_on
    done = far.append_many(pair)
    assert between.cut_at == b"", "the way was not cut"
    assert [(one.entry.id, one.already) for one in done] == [(one.id, False) for one in pair]
    assert ids(in_database) == [one.id for one in pair]
    assert far.append(pair[0]).already


def test_what_was_there_before_is_still_said_to_have_been_there(
    in_database: Shelf, between: GoBetween, far: Store
) -> None:
    old, new = draft(text="old"), draft(text="new")
    far.append(old)
    between.cut_at = COMMIT
    assert [one.already for one in far.append_many([old, new])] == [True, False]
    assert ids(in_database) == [old.id, new.id]


@pytest.mark.parametrize("hands_on", [True, False], ids=["kept", "not kept"])
def test_a_server_that_cannot_be_asked_leaves_it_unknown_and_sent_again_it_counts_once(
    in_database: Shelf, between: GoBetween, far: Store, hands_on: bool
) -> None:
    sent = draft()
    between.cut_at, between.hands_on, between.opens_again = COMMIT, hands_on, False
    with pytest.raises(OutcomeUnknown) as caught:
        far.append(sent)
    assert str(caught.value) == (
        f"The connection to the book {book_address(between.address)} was lost while this was being recorded, and the server cannot be "
        "asked. Whether it is in the book is not known: when the server runs again, look with "
        "`gudgeon book show --last 5` before you record it again. (A form of a page may be sent again: it counts once.)"
    )
    assert ids(in_database) == ([sent.id] if hands_on else [])
    with in_database.open() as store:
        assert store.append(sent).already == hands_on
    assert ids(in_database) == [sent.id]


@pytest.mark.parametrize("hands_on", [True, False], ids=["heard", "not heard"])
def test_cut_before_it_was_to_be_kept_nothing_is_recorded(
    in_database: Shelf, between: GoBetween, far: Store, hands_on: bool
) -> None:
    between.cut_at, between.hands_on = BEGIN, hands_on
    with pytest.raises(ConnectionLost) as caught:
        far.append_many([draft(text="one"), draft(text="two")])
    assert str(caught.value).endswith("Nothing was recorded; look whether its server runs, then try again.")
    assert ids(in_database) == []


@pytest.mark.parametrize("hands_on", [True, False], ids=["kept", "not kept"])
def test_photos_stay_where_entries_may_name_them(
    database: str, between: GoBetween, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, hands_on: bool
) -> None:
    """A photo that no entry names is harmless; one that is named and missing is not."""
    monkeypatch.setenv("GUDGEON_PHOTOS", str(tmp_path / "photos of the database"))
    other = Shelf("SQLite", str(tmp_path / "other.gudgeon"))
    other.open(create=True).close()
    fill(other)
    archive = tmp_path / "all.zip"
    copies.export(book_address(other.address), archive)
    shelf = Shelf("PostgreSQL", database)
    with shelf.open(create=True) as store:
        store.append(draft("build-opened", build="tractor"))
    between.cut_at, between.hands_on = COMMIT, hands_on
    with pytest.raises(OutcomeUnknown):
        copies.take_in(archive, to=book_address(between.address))
    assert between.cut_at == b"", "the way was not cut"
    assert list((tmp_path / "photos of the database").rglob(f"{PHOTO_SHA}.jpg"))
    with shelf.open() as store:
        assert ("boat" in store.builds()) == hands_on

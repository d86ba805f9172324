"""What was acknowledged is on the disk, not only in the memory of the system: the power may be cut at any moment.

The calls of a real program are traced, and done again on a disk that keeps only what was synced (disk.py). The same
looks are taken at a program that does not wait for the disk, and there they must find that entries are lost.
"""

import os
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files
from itertools import count
from pathlib import Path

import pytest

from gudgeon.book.sqlite import open_book
from gudgeon.errors import GudgeonError
from tests.contract.disk import Disk, by_chance
from tests.contract.stores import NOW
from tests.contract.traced import Call, Replay, trace

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="calls are traced on Linux only")
ACTS = 30


def filled(folder: Path, waits: str) -> list[Call]:
    """The calls of a program that makes a book in a new place and writes into it."""
    (folder / "disk").mkdir()
    program = [sys.executable, "-m", "tests.contract.filler", str(folder / "disk" / "book"), str(ACTS), waits]
    return trace(program, folder / "trace", folder)


@pytest.fixture(scope="module")
def synced(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, list[Call]]:
    folder = tmp_path_factory.mktemp("synced")
    return str(folder / "disk"), filled(folder, "FULL")


@pytest.fixture(scope="module")
def unsynced(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, list[Call]]:
    folder = tmp_path_factory.mktemp("unsynced")
    return str(folder / "disk"), filled(folder, "OFF")


@dataclass
class Moment:
    """A moment at which the power may be cut: what had been said until then, and whether it was said just now."""

    disk: Disk
    said: list[str]
    at_once: bool


def moments(traced: tuple[str, list[Call]]) -> Iterator[Moment]:
    folder, made = traced
    disk = Disk(folder)
    said: list[str] = []
    for line in Replay(disk).steps(made):
        said += line.split()
        yield Moment(disk, said, bool(line))


def unsynced_when_said(traced: tuple[str, list[Call]]) -> list[list[str]]:
    """For each line that was said, what was not synced then; the book as it was filed away is not an act."""
    return [found for moment in moments(traced) if moment.at_once and (found := moment.disk.unsynced())]


class Found:
    """The books that are found after cuts, each opened as anybody would; the same files are looked at once."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.seen: dict[tuple[tuple[str, bytes], ...], tuple[str, list[str]]] = {}
        self._numbers = count()

    def after(self, files: dict[str, bytes]) -> tuple[str, list[str]]:
        """What is wrong with the book, and the ids of its entries."""
        key = tuple(files.items())
        if key not in self.seen:
            self.seen[key] = self._look(files)
        return self.seen[key]

    def _look(self, files: dict[str, bytes]) -> tuple[str, list[str]]:
        place = self.folder / str(next(self._numbers))
        place.mkdir(parents=True)
        for path, content in files.items():
            (place / Path(path).name).write_bytes(content)
        book = place / "book"
        if not book.exists():
            return "there is no book", []
        (place / "book-shm").write_bytes(os.urandom(40_000))
        try:
            with open_book(book, clock=lambda: NOW) as store:
                entries = store.entries("van") if store.builds() else ()
                wrong = [str(one) for one in store.verify()]
        except GudgeonError as error:
            return str(error), []
        firsts = {one.body["text"].split()[0] for one in entries if " first " in one.body.get("text", "")}
        seconds = {one.body["text"].split()[0] for one in entries if " second " in one.body.get("text", "")}
        if firsts != seconds:
            wrong.append(f"half of {firsts ^ seconds} is there")
        return "; ".join(wrong), [one.id for one in entries]


def lost(said: list[str], files: dict[str, bytes], found: Found) -> list[str]:
    """What a cut took that had been said, and whatever else is wrong with the book that was left."""
    wrong, ids = found.after(files)
    gone = [entry for entry in said if entry not in set(ids)]
    if wrong and (said or wrong != "there is no book"):
        gone.append(wrong)
    return gone


def test_every_entry_is_synced_before_it_is_acknowledged(synced: tuple[str, list[Call]]) -> None:
    assert unsynced_when_said(synced) == []
    assert sum(moment.at_once for moment in moments(synced)) == 1 + ACTS


def test_a_program_that_does_not_wait_for_the_disk_is_found_out(unsynced: tuple[str, list[Call]]) -> None:
    found = unsynced_when_said(unsynced)
    assert len(found) > ACTS // 2
    assert all(any(path.endswith(("book", "book-wal")) for path in paths) for paths in found)


def test_the_trace_holds_what_the_check_is_about(synced: tuple[str, list[Call]]) -> None:
    """Log, book and folder are synced, and the log was copied into the book more than once."""
    folder, made = synced
    synced_files = [call.file() for call in made if call.name in ("fsync", "fdatasync")]
    assert synced_files.count(f"{folder}/book-wal") >= 1 + ACTS
    assert synced_files.count(f"{folder}/book") > 3
    assert folder in synced_files


def test_the_name_of_a_new_book_is_synced_before_anything_is_acknowledged(
    synced: tuple[str, list[Call]],
) -> None:
    """By Gudgeon itself: other builds of SQLite may leave the folder to the system."""
    folder, made = synced
    about = [(call.name, call.file()) for call in made]
    linked = next(at for at, call in enumerate(made) if call.name == "link")
    first_write = next(at for at, call in enumerate(made) if call.file() == f"{folder}/book-wal")
    assert ("fsync", folder) in about[linked:first_write]
    assert ("fsync", str(Path(folder).parent)) in about[linked:first_write]


def test_a_power_cut_at_every_acknowledgement_loses_nothing(
    synced: tuple[str, list[Call]], tmp_path: Path
) -> None:
    found = Found(tmp_path)
    gone = [lost(moment.said, moment.disk.cut(), found) for moment in moments(synced) if moment.at_once]
    assert [one for one in gone if one] == []
    assert len(found.seen) == 1 + ACTS


def cut_everywhere(traced: tuple[str, list[Call]], found: Found, *, every: int, chances: int) -> None:
    """Between any two calls, on a disk that had kept nothing, something or everything of what was not synced."""
    for number, moment in enumerate(moments(traced)):
        if number % every and not moment.at_once:
            continue
        by = [by_chance(chances * number + one) for one in range(chances)]
        for keeps in (lambda: False, *by, lambda: True):
            gone = lost(moment.said, moment.disk.cut(keeps), found)
            assert gone == [], f"cut after call {number}: {gone[-1]}"
    assert len(found.seen) > 3 * ACTS


def test_a_power_cut_between_two_acknowledgements_loses_nothing(
    synced: tuple[str, list[Call]], tmp_path: Path
) -> None:
    cut_everywhere(synced, Found(tmp_path), every=4, chances=1)


@pytest.mark.long
def test_a_power_cut_at_any_moment_loses_nothing(synced: tuple[str, list[Call]], tmp_path: Path) -> None:
    cut_everywhere(synced, Found(tmp_path), every=1, chances=3)


def test_without_waiting_for_the_disk_a_power_cut_loses_entries(
    unsynced: tuple[str, list[Call]], tmp_path: Path
) -> None:
    """So the cuts above would show it."""
    found = Found(tmp_path)
    gone = [
        bool(lost(moment.said, moment.disk.cut(), found)) for moment in moments(unsynced) if moment.at_once
    ]
    assert gone.count(True) > ACTS // 2


def gudgeon(folder: Path, *arguments: str) -> list[Call]:
    """The calls of the program as a person runs it."""
    program = [sys.executable, "-m", "gudgeon.cli.main", *arguments]
    return trace(program, folder / "trace", folder)


def test_the_terminal_says_nothing_that_a_power_cut_could_take_back(tmp_path: Path) -> None:
    """Begun, then recorded twice, each by a process of its own, in a folder that is made on the way."""
    (tmp_path / "disk").mkdir()
    book = tmp_path / "disk" / "new folder" / "book"
    papers = [f"--{name}={files('gudgeon.demo') / f'{name}.yaml'}" for name in ("sheet", "kit")]
    disk = Disk(str(tmp_path / "disk"))
    acts = [["begin", "van", *papers], ["record", "note", "cold"], ["record", "note", "warm"]]
    for number, act in enumerate(acts, start=1):
        found = Found(tmp_path / str(number))
        said = False
        for line in Replay(disk).steps(gudgeon(tmp_path, *act, "--book", str(book))):
            said = said or line.startswith(("In the book", "Begun"))
            wrong, ids = found.after(disk.cut())
            assert len(ids) >= (number if said else number - 1), wrong
            assert wrong == "" or not ids
        assert said

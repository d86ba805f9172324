"""Copies of the book: backup and restore, export and import, moving to another place."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from gudgeon.bench.context import clock, open_store
from gudgeon.bench.errors import NoSuchBuild
from gudgeon.bench.moved import mark_moved
from gudgeon.book import copies
from gudgeon.book.address import BookAddress, papers_folder
from gudgeon.book.archive_read import ReadArchive
from gudgeon.book.copies import Book, Taken
from gudgeon.book.store import TakenOver
from gudgeon.book.tell import Tell, silent


@dataclass(frozen=True, slots=True)
class Copied:
    """An archive that was written, and read back to its end; photos that are not in it, by their hashes."""

    file: str
    sha256: str
    size: int
    entries: int
    builds: Mapping[str, int]
    heads: Mapping[str, str]
    photos: int
    photos_wrong: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class TakenIn:
    """Builds that are in a book now, from an archive."""

    file: str
    sha256: str
    place: str
    builds: tuple[TakenOver, ...]
    photos: int
    photos_missing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MovedTo:
    """Builds that are in the new place, and how the old book says so.

    `papers` is the folder at which the paths of sheets and kits began, where they no longer begin there by themselves.
    """

    left: str
    place: str
    builds: tuple[TakenOver, ...]
    photos: int
    photos_wrong: Mapping[str, str]
    marker: str
    papers: str


def back_up(book: BookAddress, *, to: str | None, now: datetime, tell: Tell = silent) -> Copied:
    """Write the whole book into one new file; others may go on writing meanwhile."""
    name = f"gudgeon-backup-{now:%Y%m%d-%H%M%S}.zip"
    file = Path(to).expanduser() if to else Path(name)
    return export(book, file / name if file.is_dir() else file, tell=tell)


def export(book: BookAddress, file: Path, *, build: str | None = None, tell: Tell = silent) -> Copied:
    """Write a book, or one build of it, into one new file."""
    with open_store(book) as store:
        if build is not None and build not in store.builds():
            raise NoSuchBuild(build, store.builds())
        read, photos = copies.export(Book(book, store), file, build=build, tell=tell)
    contents = read.contents
    return Copied(
        str(file),
        read.sha,
        read.size,
        contents.entries,
        {chain.build: len(chain.rows) for chain in contents.chains},
        contents.heads,
        len(contents.photos),
        dict(photos.wrong),
    )


def restore(file: Path, *, to: BookAddress, tell: Tell = silent) -> TakenIn:
    """Make a new book of a backup or an export; never over one that is there."""
    copies.refuse_taken(to, clock=clock)  # before the reading, which takes its time
    read = copies.read_whole(file, tell=tell)
    return _taken_in(read, file, to, copies.restore(read, file=file, to=to, clock=clock, tell=tell))


def take_in(file: Path, *, to: BookAddress, tell: Tell = silent) -> TakenIn:
    """Take the builds of an export or a backup into a book."""
    read = copies.read_whole(file, tell=tell)
    return _taken_in(read, file, to, copies.take_in(read, file=file, to=to, clock=clock, tell=tell))


def _taken_in(read: ReadArchive, file: Path, to: BookAddress, taken: Taken) -> TakenIn:
    return TakenIn(str(file), read.sha, str(to), taken.builds, taken.photos, read.contents.missing)


def move(book: BookAddress, *, to: BookAddress, now: datetime, tell: Tell = silent) -> MovedTo:
    """Take the whole book to another place; the old one stays as it was, and says that it was moved."""
    with open_store(book) as store:
        moved = copies.move(Book(book, store), to=to, clock=clock, tell=tell)
    marker = mark_moved(book, str(to), at=now)
    return MovedTo(
        str(book),
        str(to),
        moved.taken.builds,
        moved.taken.photos,
        dict(moved.photos_wrong),
        str(marker or ""),
        _papers_left(book, to),
    )


def _papers_left(book: BookAddress, to: BookAddress) -> str:
    old, new = papers_folder(book), papers_folder(to)
    if old is None or (new is not None and new.resolve() == old.resolve()):
        return ""
    return str(old.resolve())


def entries_in(builds: Sequence[TakenOver]) -> int:
    """How many entries these builds have."""
    return sum(one.entries for one in builds)

"""Copies of a book: all of it or one build to an archive, from an archive, from one store to another."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from gudgeon.book.address import BookAddress, data_folder, photos_folder
from gudgeon.book.archive import Contents, named_photos, named_texts
from gudgeon.book.archive_read import ReadArchive, read_archive
from gudgeon.book.archive_write import write_archive
from gudgeon.book.copy_errors import (
    ArchiveDamaged,
    BookEmpty,
    BookNotInOrder,
    BookThere,
    BuildsThere,
    FileThere,
    RestIsThere,
    StillWritten,
    some_of,
)
from gudgeon.book.errors import BookMissing, FolderMissing, NotConfirmed
from gudgeon.book.opening import open_book
from gudgeon.book.photo_copies import (
    FoundPhotos,
    Pieces,
    find_photos,
    from_archive,
    from_places,
    photos_put,
)
from gudgeon.book.server_errors import OutcomeUnknown
from gudgeon.book.store import Chain, Store, TakenOver
from gudgeon.book.taking_over import not_in_order
from gudgeon.book.tell import Tell
from gudgeon.book.whole_file import in_one_go, new_file

Clock = Callable[[], datetime]
_ROUNDS = 5


@dataclass(frozen=True, slots=True)
class Book:
    """A book that is open, and where it is."""

    address: BookAddress
    store: Store


@dataclass(frozen=True, slots=True)
class Taken:
    """Builds that are in a book now, and how many photos were new beside it."""

    builds: tuple[TakenOver, ...]
    photos: int


@dataclass(frozen=True, slots=True)
class Moved:
    """What is in the new place, and the photos that could not be taken along."""

    taken: Taken
    photos_wrong: Mapping[str, str]


def contents_of(book: Book, *, build: str | None, tell: Tell) -> tuple[Contents, FoundPhotos]:
    """A book, or one build of it, as it is at one moment; refused where it is not in order."""
    tell("reading the book")
    with book.store.at_one_moment():
        builds = book.store.builds() if build is None else (build,)
        chains = tuple(book.store.chain(one) for one in builds)
        documents = book.store.documents()
        tell("checking the book")
        found = book.store.verify() if build is None else tuple(not_in_order(chains, documents=documents))
    if found:
        raise BookNotInOrder(str(book.address), found)
    if not chains:
        raise BookEmpty(str(book.address))
    bare = Contents(chains, (), (), ())
    entries = [entry for build in bare.read for entry in build]
    texts = set().union(*named_texts(entries).values())
    photos = find_photos(photos_folder(book.address), named=named_photos(entries), tell=tell)
    contents = bare.with_papers(
        documents=tuple(one for one in documents if one.sha in texts),
        photos=tuple(one.name for one in photos.places),
        missing=tuple(sorted(photos.wrong)),
    )
    return contents, photos


def export(
    book: Book, file: Path, *, build: str | None = None, tell: Tell
) -> tuple[ReadArchive, FoundPhotos]:
    """Write a book, or one build of it, into one new archive."""
    if file.exists():
        raise FileThere(str(file))
    contents, photos = contents_of(book, build=build, tell=tell)
    return write_archive(file, contents, photos=photos.places, tell=tell), photos


def read_whole(file: Path, *, tell: Tell) -> ReadArchive:
    """Read an archive from which something is to be taken: refused where anything in it is wrong."""
    read = read_archive(file, tell=tell)
    if read.problems:
        raise ArchiveDamaged(str(file), some_of(read.problems))
    return read


def restore(read: ReadArchive, *, file: Path, to: BookAddress, clock: Clock, tell: Tell) -> Taken:
    """Make a new book of an archive, where there is none."""
    refuse_taken(to, clock=clock)
    with from_archive(file, names=read.contents.photos) as photos:
        return _new_book(to, read.contents, photos, clock, tell)


def take_in(read: ReadArchive, *, file: Path, to: BookAddress, clock: Clock, tell: Tell) -> Taken:
    """Take the builds of an archive into a book; where there is none, one is made."""
    with from_archive(file, names=read.contents.photos) as photos:
        if not _is_there(to, clock=clock):
            return _new_book(to, read.contents, photos, clock, tell)
        with open_book(to, clock=clock) as store:
            return _take(store, to, read.contents, photos, tell)


def move(book: Book, *, to: BookAddress, clock: Clock, tell: Tell) -> Moved:
    """Take all builds to another place, until there is no entry that is only in the old one."""
    contents, photos = contents_of(book, build=None, tell=tell)
    put = from_places(photos.places)
    if not _is_there(to, clock=clock):
        first = _new_book(to, contents, put, clock, tell)
    else:
        with open_book(to, clock=clock) as store:
            _refuse_builds(store, str(to), contents.chains)
            first = _take(store, to, contents, put, tell)
    taken, photo_count = first, first.photos
    for _ in range(_ROUNDS):
        if _heads(book.store) == contents.heads:
            break
        contents, photos = contents_of(book, build=None, tell=tell)
        with open_book(to, clock=clock) as store:
            taken = _take(store, to, contents, from_places(photos.places), tell)
        photo_count += taken.photos
    else:
        raise StillWritten(str(book.address), to=str(to))
    return Moved(Taken(taken.builds, photo_count), photos.wrong)


def _heads(store: Store) -> dict[str, str]:
    with store.at_one_moment():
        return {build: store.head(build) for build in store.builds()}


def _refuse_builds(store: Store, place: str, chains: Sequence[Chain]) -> None:
    there = [chain for chain in chains if chain.build in store.builds()]
    if there:
        same = all(store.head(chain.build) == chain.head for chain in there)
        raise BuildsThere(place, [chain.build for chain in there], same=same)


def _is_there(address: BookAddress, *, clock: Clock) -> bool:
    """Whether there is a book; anything else at its place is refused as what it is."""
    if isinstance(address, Path):
        return address.exists()
    try:
        open_book(address, clock=clock).close()
    except BookMissing:
        return False
    return True


def refuse_taken(address: BookAddress, *, clock: Clock) -> None:
    """Refuse a place at which a book is, or what SQLite would take for the log of the new one."""
    if not isinstance(address, Path):
        if _is_there(address, clock=clock):
            with open_book(address, clock=clock) as store:
                if store.builds():
                    raise BookThere(str(address))
        return
    if address.exists() or address.is_symlink():
        raise BookThere(str(address))
    for rest in ("-wal", "-shm", "-journal"):
        if address.with_name(f"{address.name}{rest}").exists():
            raise RestIsThere(str(address), rest=f"{address}{rest}")
    if not address.parent.is_dir() and address.parent != data_folder():
        raise FolderMissing(str(address.parent))


def _new_book(
    address: BookAddress, contents: Contents, photos: Mapping[str, Pieces], clock: Clock, tell: Tell
) -> Taken:
    """A new book: a file gets its name when everything is in it and on the disk, a database in one transaction."""
    refuse_taken(address, clock=clock)
    if not isinstance(address, Path):
        with open_book(address, clock=clock, create=True) as store:
            return _take(store, address, contents, photos, tell)
    address.parent.mkdir(
        parents=True, exist_ok=True
    )  # the data folder of a machine on which nothing was done yet
    with (
        photos_put(photos_folder(address), photos, tell=tell) as put,
        _new_book_file(address, put.stay) as fresh,
    ):
        fresh.unlink()
        tell("writing the book")
        with open_book(fresh, clock=clock, create=True) as store:
            taken = store.take_over(contents.chains, documents=contents.documents)
        return Taken(taken, len(put.new))


@contextmanager
def _new_book_file(address: Path, named: Callable[[], None]) -> Iterator[Path]:
    try:
        with new_file(address, named=named) as fresh:
            yield fresh
    except FileThere:
        raise BookThere(str(address)) from None


def _take(
    store: Store, address: BookAddress, contents: Contents, photos: Mapping[str, Pieces], tell: Tell
) -> Taken:
    """Photos first: an entry never names one that has still to come."""
    with photos_put(photos_folder(address), photos, tell=tell) as put:
        tell("writing the book")
        with in_one_go():
            try:
                taken = store.take_over(contents.chains, documents=contents.documents)
            except (NotConfirmed, OutcomeUnknown):  # the entries may be in the book
                put.stay()
                raise
            put.stay()
        return Taken(taken, len(put.new))

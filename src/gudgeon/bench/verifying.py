"""Is the book as it was written? Of a book, and of an export without any book."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from gudgeon.bench.context import open_store
from gudgeon.bench.errors import NoSuchBuild
from gudgeon.book.address import BookAddress, photos_folder
from gudgeon.book.archive import entries_of, named_photos, named_texts
from gudgeon.book.archive_read import read_archive
from gudgeon.book.copy_errors import ArchiveDamaged, HeadNotReadable
from gudgeon.book.entries import Entry
from gudgeon.book.fold import fold
from gudgeon.book.photo_copies import find_photos, photos_lying_in
from gudgeon.book.store import Chain
from gudgeon.book.tell import Tell, silent

_HEAD = re.compile("[0-9a-f]{12,64}")


@dataclass(frozen=True, slots=True)
class Against:
    """Where a head that was noted elsewhere stands in a chain, and how many entries came after it."""

    head: str
    found: bool
    build: str
    number: int
    after: int


@dataclass(frozen=True, slots=True)
class Verified:
    """What the verification found: every chain with its head, what is wrong, what is worth knowing."""

    place: str
    entries: int
    heads: dict[str, str]
    problems: tuple[str, ...]
    notes: tuple[str, ...] = ()
    against: Against | None = None


def verified(
    book: BookAddress, *, against: str | None = None, build: str | None = None, tell: Tell = silent
) -> Verified:
    """Check every chain of a book, its photos and what it adds up to; its sheet and kit are not needed for it."""
    head = _head(against)
    with open_store(book) as store:
        tell("checking the chains")
        with store.at_one_moment():
            chains = tuple(store.chain(one) for one in store.builds())
            documents = store.documents()
            problems = [str(one) for one in store.verify()]
    read = _read(chains)
    problems += [*_foreign(read), *_not_added_up(read, tell)]
    named = _named_photos(read)
    photos = find_photos(photos_folder(book), named=named, tell=tell)
    problems += [f"photo {sha[:8]}, {_where(read, sha)}: {what}" for sha, what in photos.wrong.items()]
    notes = [
        f"photo {sha[:8]} lies beside the book and no entry names it"
        for sha in photos_lying_in(photos_folder(book))
        if sha not in named
    ]
    texts = {sha for entries in read.values() for shas in named_texts(entries).values() for sha in shas}
    notes += [
        f"pinned text {one.sha[:8]} is in the book and no entry was made against it"
        for one in documents
        if one.sha not in texts
    ]
    return _answer(str(book), chains, problems, notes, _stands(head, chains, build))


def verified_archive(
    file: Path, *, against: str | None = None, build: str | None = None, tell: Tell = silent
) -> Verified:
    """Check an export or a backup by itself: its files, its chains, its tables, its photos."""
    head = _head(against)
    try:
        archive = read_archive(file, tell=tell)
    except ArchiveDamaged as error:
        return Verified(str(file), 0, {}, (error.message,))
    problems = [str(one) for one in archive.problems]
    chains = archive.contents.chains
    read = _read(chains)
    problems += [*_foreign(read), *_not_added_up(read, tell)]
    problems += [
        f"photo {sha[:8]}, {_where(read, sha)}: it was missing or altered when the archive was written"
        for sha in archive.contents.missing
    ]
    notes = [f"SHA-256 of the file: {archive.sha}"]
    return _answer(str(file), chains, problems, notes, _stands(head, chains, build))


def _answer(
    place: str,
    chains: Sequence[Chain],
    problems: Sequence[str],
    notes: Sequence[str],
    against: Against | None,
) -> Verified:
    entries = sum(len(chain.rows) for chain in chains)
    heads = {chain.build: chain.head for chain in chains}
    return Verified(place, entries, heads, tuple(problems), tuple(notes), against)


def _head(said: str | None) -> str:
    """A head as it was typed off a page, where one was given."""
    if said is None:
        return ""
    head = "".join(said.split()).lower()
    if not _HEAD.fullmatch(head):
        raise HeadNotReadable(said)
    return head


def _stands(head: str, chains: Sequence[Chain], build: str | None) -> Against | None:
    """Where a head stands; the chain alone cannot show that its end was cut off, a head noted elsewhere can."""
    if build is not None and build not in [chain.build for chain in chains]:
        raise NoSuchBuild(build, [chain.build for chain in chains])
    if not head:
        return None
    for chain in chains:
        if build in (None, chain.build):
            for number, _, _, digest in chain.rows:
                if digest.startswith(head):
                    return Against(head, True, chain.build, number, len(chain.rows) - number)
    return Against(head, False, build or "", 0, 0)


def _read(chains: Sequence[Chain]) -> dict[str, tuple[Entry, ...]]:
    """The entries of the builds that can be read; of the others the chain has told already."""
    found = {}
    for chain in chains:
        try:
            found[chain.build] = entries_of(chain)
        except (ValueError, TypeError, RecursionError):
            continue
    return found


def _foreign(read: Mapping[str, Sequence[Entry]]) -> Iterator[str]:
    """Strikes that reach into another build."""
    home = {entry.id: build for build, entries in read.items() for entry in entries}
    for build, entries in read.items():
        for entry in entries:
            target = entry.body.get("entry", "") if isinstance(entry.body, dict) else ""
            if entry.kind == "strike" and home.get(str(target), build) != build:
                where = f"build {build}, entry {entry.number} ({entry.id[:8]})"
                yield f"{where}: it strikes an entry of the build {home[target]}"


def _not_added_up(read: Mapping[str, Sequence[Entry]], tell: Tell) -> Iterator[str]:
    """Builds whose entries, each as it should be, cannot be added up to a state."""
    for build, entries in read.items():
        tell(f"adding up {build}")
        try:
            fold(entries)
        except (ValueError, TypeError, LookupError, AttributeError, ArithmeticError) as error:
            yield f"build {build}: its entries cannot be added up ({type(error).__name__}: {error})"


def _named_photos(read: Mapping[str, Sequence[Entry]]) -> dict[str, str]:
    try:
        return named_photos(entry for entries in read.values() for entry in entries)
    except (KeyError, TypeError):  # bodies of which the chain has told
        return {}


def _where(read: Mapping[str, Sequence[Entry]], sha: str) -> str:
    """The first entry that names a photo."""
    return next(
        f"build {build}, entry {entry.number} ({entry.id[:8]})"
        for build, entries in read.items()
        for entry in entries
        if entry.kind == "photo" and entry.body.get("sha") == sha
    )

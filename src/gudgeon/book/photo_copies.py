"""Photos as copies need them: found by their hash, looked at before they are taken, put in place whole."""

import hashlib
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from gudgeon.book.archive_read import open_archive, pieces
from gudgeon.book.copy_errors import FileRefused, FileThere, PhotoChanged
from gudgeon.book.tell import Tell
from gudgeon.book.whole_file import in_one_go, new_file, sync_folder

_CHUNK = 1024 * 1024
Pieces = Callable[[], Iterator[bytes]]
"""Gives the content of a photo, piece by piece."""


@dataclass(frozen=True, slots=True)
class PhotoPlace:
    """Where the photo lies that is called so in an archive."""

    name: str
    file: Path


@dataclass(frozen=True, slots=True)
class FoundPhotos:
    """Photos that are there as they were taken, and what is to be said of the others, by their hashes."""

    places: tuple[PhotoPlace, ...]
    wrong: Mapping[str, str]


def find_photos(folder: Path, *, named: Mapping[str, str], tell: Tell) -> FoundPhotos:
    """Look for the photos that entries name, by hash, and read each to its end."""
    lying = photos_lying_in(folder)
    places, wrong = [], {}
    for number, (sha, name) in enumerate(sorted(named.items()), start=1):
        tell(f"looking at photo {number} of {len(named)}")
        file = lying.get(sha)
        why = wrong_with(file, sha=sha)
        if why:
            wrong[sha] = why
        elif file is not None:
            places.append(PhotoPlace(name, file))
    return FoundPhotos(tuple(places), wrong)


MISSING = "it is missing"


def wrong_with(file: Path | None, *, sha: str) -> str:
    """What is wrong with a photo, read to its end; nothing when it is as it was taken."""
    if file is None:
        return MISSING
    try:
        same = _hash_of(_of_file(file)) == sha
    except FileNotFoundError:
        return MISSING
    except OSError as error:
        return f"it cannot be read ({error.strerror or type(error).__name__})"
    return "" if same else "it was altered"


def photos_lying_in(folder: Path) -> dict[str, Path]:
    """The files of a folder that are called after a hash."""
    if not folder.is_dir():
        return {}
    return {
        file.stem: file
        for file in sorted(folder.iterdir())
        if len(file.stem) == 64 and set(file.stem) <= set("0123456789abcdef") and file.is_file()
    }


def _of_file(file: Path) -> Iterator[bytes]:
    with file.open("rb") as opened:
        while piece := opened.read(_CHUNK):
            yield piece


def _hash_of(content: Iterable[bytes]) -> str:
    digest = hashlib.sha256()
    for piece in content:
        digest.update(piece)
    return digest.hexdigest()


class PutPhotos:
    """The photos that were put into a folder and not there before; they stay once what names them is in the book."""

    def __init__(self) -> None:
        self.new: list[Path] = []
        self._stay = False

    def stay(self) -> None:
        """From now on an entry may name them: whatever happens, they are not taken away."""
        self._stay = True

    def taken_away(self) -> None:
        """Take them away again, unless they stay."""
        for file in () if self._stay else self.new:
            file.unlink(missing_ok=True)


@contextmanager
def photos_put(folder: Path, contents: Mapping[str, Pieces], *, tell: Tell) -> Iterator[PutPhotos]:
    """Put photos into a folder, each whole; those that were new are taken away if the block ends before they stay."""
    made = not folder.exists()
    put = PutPhotos()
    try:
        for number, (name, content) in enumerate(sorted(contents.items()), start=1):
            tell(f"photo {number} of {len(contents)}")
            with in_one_go():
                if put_photo(folder, name, content):
                    put.new.append(folder / name)
        yield put
    except BaseException:
        put.taken_away()
        if made:
            with suppress(OSError):  # something else lies in it by now, or it was never made
                folder.rmdir()
        raise


def put_photo(folder: Path, name: str, content: Pieces) -> bool:
    """Whether the photo was not there before; one that was altered there is put right. On disk when this returns."""
    try:
        _make(folder)
        file, sha = folder / name, name.partition(".")[0]
        if file.is_file():
            if _hash_of(_of_file(file)) == sha:
                _settled(file)
                return False
            file.rename(file.with_name(f"{name}.altered"))
    except OSError as error:
        raise FileRefused(str(folder), error.strerror or type(error).__name__) from None
    with (
        suppress(FileThere),
        new_file(file) as fresh,
    ):  # put there by another program meanwhile: then it is there
        digest = hashlib.sha256()
        with fresh.open("wb") as opened:
            for piece in content():
                digest.update(piece)
                opened.write(piece)
        fresh.chmod(0o644)  # others of the garage may look at it
        if digest.hexdigest() != sha:
            raise PhotoChanged(name)
        return True
    return False


def _make(folder: Path) -> None:
    """The folder, its own name on the disk too."""
    if not folder.is_dir():
        folder.mkdir(parents=True, exist_ok=True)
        for above in list(folder.parents)[:2]:
            sync_folder(above)


def _settled(file: Path) -> None:
    """Put a file on the disk that was left by a program which may not have come so far."""
    with suppress(OSError), file.open("rb") as opened:  # some systems sync only what is open to be written
        os.fsync(opened.fileno())
    sync_folder(file.parent)


def from_places(places: Iterable[PhotoPlace]) -> dict[str, Pieces]:
    """The photos of a folder, ready to be put into another."""
    return {one.name: partial(_of_file, one.file) for one in places}


@contextmanager
def from_archive(path: Path, *, names: Iterable[str]) -> Iterator[dict[str, Pieces]]:
    """The photos of an archive that has been looked at, ready to be put into a folder."""
    with open_archive(path) as archive:
        infos = {name: archive.getinfo(f"photos/{name}") for name in names}
        yield {name: partial(pieces, path, archive, info) for name, info in infos.items()}

"""The folder of photos beside a book: each file named by the hash of its content."""

import os
import re
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path

from gudgeon.book.archive import PHOTO_ENDINGS
from gudgeon.book.copy_errors import FileRefused
from gudgeon.book.photo_copies import MISSING, put_photo, wrong_with
from gudgeon.book.picture_errors import PhotoNotKept
from gudgeon.book.pictures import CONTENT_TYPES, Picture, picture_type

_SHA = re.compile("[0-9a-f]{64}")
_SEEN: dict[tuple[str, str], tuple[int, ...]] = {}
"""How a file looked from outside when its content was as its name says; a program that changes it changes that too."""
_SEEN_MOST = 20_000


def keep_picture(folder: Path, picture: Picture) -> Path:
    """Keep a photo, the same one once; it is on disk under its name when this returns."""
    name = f"{picture.sha}.{picture.ending}"
    try:
        put_photo(folder, name, lambda: iter((picture.content,)))
    except FileRefused as error:
        raise PhotoNotKept(str(folder), error.why) from None
    except OSError as error:
        raise PhotoNotKept(str(folder), error.strerror or type(error).__name__) from None
    return folder / name


def photo_file(folder: Path, sha: str) -> Path | None:
    """The file of a photo; nothing where it does not lie in the folder, or where no hash was named."""
    if not _SHA.fullmatch(sha):
        return None
    files = (folder / f"{sha}.{ending}" for ending in PHOTO_ENDINGS.values())
    return next((file for file in files if file.is_file()), None)


def photo_content(folder: Path, sha: str) -> tuple[bytes, str] | None:
    """A photo that is as it was taken, and the type of its content; nothing for one that is missing or altered."""
    file = photo_file(folder, sha)
    if file is None:
        return None
    try:
        content = file.read_bytes()
    except OSError:
        return None
    found = picture_type(content)
    if found is None or sha256(content).hexdigest() != sha:
        return None
    return content, CONTENT_TYPES[PHOTO_ENDINGS[found]]


def photos_wrong(folder: Path, *, named: Iterable[str], proofs: Iterable[str]) -> dict[str, str]:
    """What is wrong with photos, by their hashes: those that prove something are read, the others only looked for."""
    wanted, wrong = set(named) | set(proofs), dict[str, str]()
    if not wanted:
        return wrong
    try:
        lying = {name.partition(".")[0] for name in os.listdir(folder)}
    except FileNotFoundError:
        return dict.fromkeys(sorted(wanted), MISSING)
    except OSError as error:
        return dict.fromkeys(sorted(wanted), f"it cannot be read ({error.strerror or type(error).__name__})")
    wrong |= dict.fromkeys(sorted(wanted - lying), MISSING)
    for sha in sorted(set(proofs) & lying):
        why = _read_once(folder, sha)
        if why:
            wrong[sha] = why
    return wrong


def _read_once(folder: Path, sha: str) -> str:
    """What is wrong with a photo; read again only where something outside it has changed."""
    file = photo_file(folder, sha)
    key, looks = (str(file), sha), _looks(file)
    if looks and _SEEN.get(key) == looks:
        return ""
    why = wrong_with(file, sha=sha)
    if not why and looks:
        if len(_SEEN) >= _SEEN_MOST:
            _SEEN.clear()
        _SEEN[key] = looks
    return why


def _looks(file: Path | None) -> tuple[int, ...]:
    try:
        seen = file.stat() if file is not None else None
    except OSError:
        return ()
    return (seen.st_ino, seen.st_size, seen.st_mtime_ns, seen.st_ctime_ns) if seen is not None else ()

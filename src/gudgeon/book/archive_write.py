"""Writing an archive: whole or not at all, and the same bytes for the same builds."""

import hashlib
import zipfile
import zlib
from pathlib import Path

from gudgeon.book.archive import CHECKSUMS, MEBIBYTE, STORED_FROM, Contents, checksums, time_of, written_files
from gudgeon.book.archive_read import ReadArchive, read_archive
from gudgeon.book.copy_errors import PhotoChanged
from gudgeon.book.photo_copies import PhotoPlace
from gudgeon.book.tell import Tell
from gudgeon.book.whole_file import new_file


def write_archive(
    path: Path, contents: Contents, *, photos: tuple[PhotoPlace, ...], tell: Tell
) -> ReadArchive:
    """Write an archive under another name, read it back to its end, and only then give it its name."""
    with new_file(path) as fresh:
        _write(fresh, contents, photos, tell)
        read = read_archive(fresh, tell=tell, written=contents)
        if read.contents != contents or read.problems:
            raise AssertionError("an archive does not hold what was written into it")
    return read


def _write(fresh: Path, contents: Contents, photos: tuple[PhotoPlace, ...], tell: Tell) -> None:
    when = time_of(contents)
    shas: list[tuple[str, str]] = []

    def put(name: str, content: bytes, *, packed: int) -> None:
        info = zipfile.ZipInfo(name, when)
        info.create_system = 3  # whatever system it is written on, the bytes are the same
        info.external_attr = 0o100644 << 16
        archive.writestr(info, content, compress_type=packed, compresslevel=6)
        shas.append((name, hashlib.sha256(content).hexdigest()))

    with zipfile.ZipFile(fresh, "w") as archive:
        for name, content in written_files(contents):
            tell(f"writing {name}")
            put(name, content, packed=_way(content))
        for number, photo in enumerate(photos, start=1):
            tell(f"writing photo {number} of {len(photos)}")
            content = photo.file.read_bytes()
            put(f"photos/{photo.name}", content, packed=zipfile.ZIP_STORED)
            if shas[-1][1] != photo.name.partition(".")[0]:
                raise PhotoChanged(str(photo.file))
        sums = checksums(shas)
        put(CHECKSUMS, sums, packed=_way(sums))


def _way(content: bytes) -> int:
    """Packed, but for what would shrink so far that a reader has to take it for a trap."""
    if len(content) > MEBIBYTE and len(zlib.compress(content, 1)) * STORED_FROM < len(content):
        return zipfile.ZIP_STORED
    return zipfile.ZIP_DEFLATED

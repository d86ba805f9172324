"""Reading an archive that comes from anywhere: nothing in it is believed before it was looked at.

Names, kinds and sizes are looked at first, from the list at the end of the archive; then every file is read in
pieces, and never more of it than was said there. Nothing is written here.
"""

import hashlib
import json
import re
import stat
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gudgeon import __version__
from gudgeon.book import archive as form
from gudgeon.book.archive import Contents
from gudgeon.book.copy_errors import (
    ArchiveDamaged,
    ArchiveMissing,
    ArchiveTooLarge,
    ArchiveTooNew,
    ArchiveUnsafe,
    NotAnArchive,
)
from gudgeon.book.store import Chain, Document, DocumentKind, Problem, Row
from gudgeon.book.taking_over import not_in_order
from gudgeon.book.tell import Tell

_CHUNK = form.MEBIBYTE
_SUM_LINE = re.compile(r"([0-9a-f]{64})  ([^\n]+)")


@dataclass(frozen=True, slots=True)
class ReadArchive:
    """What was read out of an archive, what is wrong with it, and the hash of the file itself."""

    contents: Contents
    problems: tuple[Problem, ...]
    sha: str
    size: int


def read_archive(path: Path, *, tell: Tell, written: Contents | None = None) -> ReadArchive:
    """Read an archive to its end; refused where it cannot be read, else with everything that is wrong with it.

    What holds exactly the contents that were `written` into it, and checked before, is not checked a second time.
    """
    with open_archive(path) as archive:
        listed = _looked_at(path, archive)
        about = _about(path, _text(path, archive, listed[form.ABOUT]))
        refuse_strange(path, archive)
        sums = _checksums(path, _text(path, archive, listed[form.CHECKSUMS]))
        held = _Held(path, archive, listed, tell)
        problems = [*_other_files(listed, sums), *_wrong_sums(held, sums)]
        chains = tuple(_chain(path, held, one) for one in about["builds"])
        documents = tuple(_documents(path, held))
    photos = tuple(sorted(name.removeprefix("photos/") for name in listed if name.startswith("photos/")))
    contents = Contents(chains, documents, photos, tuple(about["missing_photos"]))
    if contents == written and not problems:
        return ReadArchive(contents, (), *_file(path))
    tell("checking the chains")
    wrong = [*_not_as_said(about, contents), *not_in_order(chains, documents=documents)]
    if not wrong and not problems:  # else nothing can be worked out from it
        wrong = [*_not_named(contents), *_not_worked_out(contents, about, held.shas)]
    return ReadArchive(contents, (*problems, *wrong), *_file(path))


def _file(path: Path) -> tuple[str, int]:
    """Hash and size of the archive itself."""
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while piece := file.read(_CHUNK):
            digest.update(piece)
    return digest.hexdigest(), path.stat().st_size


@contextmanager
def open_archive(path: Path) -> Iterator[zipfile.ZipFile]:
    """The archive, with every way in which reading it can fail in our words."""
    if not path.exists():
        raise ArchiveMissing(str(path))
    if not path.is_file():
        raise NotAnArchive(str(path), "it is a folder" if path.is_dir() else "it is no file")
    try:
        archive = zipfile.ZipFile(path)
    except zipfile.BadZipFile:
        with path.open("rb") as file:
            begins = file.read(4)
        if begins == b"PK\x03\x04":
            raise ArchiveDamaged(str(path), "its end is missing, it was cut off") from None
        raise NotAnArchive(str(path), "it is no zip file" if begins else "it is empty") from None
    except (OSError, ValueError, NotImplementedError) as error:
        raise NotAnArchive(str(path), str(error)) from None
    try:
        with archive:
            yield archive
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError) as error:
        raise ArchiveDamaged(str(path), f"it cannot be read to its end ({error})") from None


def _looked_at(path: Path, archive: zipfile.ZipFile) -> dict[str, zipfile.ZipInfo]:
    """The files by their names, looked at before anything of them is unpacked."""
    infos = archive.infolist()
    if len(infos) > form.MOST_FILES:
        raise ArchiveTooLarge(str(path), f"it holds {len(infos):,} files", f"{form.MOST_FILES:,}")
    for what, most, sizes in (
        ("it", form.MOST_IN_ALL, [info.file_size for info in infos]),
        (
            "what it says of entries, sheets and kits",
            form.MOST_KEPT,
            [info.file_size for info in infos if _is_kept(info.filename)],
        ),
    ):
        if sum(sizes) > most:
            raise ArchiveTooLarge(str(path), f"{what} unpacks to {sum(sizes):,} bytes", f"{most:,}")
    if 16 * form.MEBIBYTE < sum(info.file_size for info in infos) > path.stat().st_size * form.MOST_TIMES:
        raise ArchiveUnsafe(str(path), f"it unpacks to more than {form.MOST_TIMES} times its size")
    listed: dict[str, zipfile.ZipInfo] = {}
    for info in infos:
        if info.filename in listed:
            raise ArchiveUnsafe(str(path), f"it holds {_shown(info.filename)} twice")
        if info.flag_bits & 0x1:
            raise ArchiveUnsafe(str(path), f"{_shown(info.filename)} in it is encrypted")
        listed[info.filename] = info
    for name in (form.ABOUT, form.CHECKSUMS):
        if name not in listed:
            raise NotAnArchive(str(path), f"there is no {name} in it")
    return listed


def refuse_strange(path: Path, archive: zipfile.ZipFile) -> None:
    """Refuse files of other names, kinds, ways of packing and sizes than a book writes."""
    for info in archive.infolist():
        shown = _shown(info.orig_filename)
        if info.orig_filename != info.filename or not form.NAMES.fullmatch(info.filename):
            raise ArchiveUnsafe(str(path), f"{shown} in it is no name of a file of an export")
        if stat.S_IFMT(info.external_attr >> 16) not in (0, stat.S_IFREG):
            raise ArchiveUnsafe(str(path), f"{shown} in it is no plain file")
        if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise ArchiveUnsafe(str(path), f"{shown} in it is packed in another way")
        most = _most(info.filename)
        if info.file_size > most:
            raise ArchiveTooLarge(str(path), f"{shown} in it has {info.file_size:,} bytes", f"{most:,} there")
        if form.MEBIBYTE < info.file_size > info.compress_size * form.MOST_TIMES:
            raise ArchiveUnsafe(
                str(path), f"{shown} in it unpacks to more than {form.MOST_TIMES} times its size"
            )


def _most(name: str) -> int:
    if name.startswith("photos/"):
        return form.MOST_PHOTO_BYTES
    if name.startswith("build-"):
        return form.MOST_ENTRIES_BYTES
    return form.MOST_TEXT_BYTES


def _is_kept(name: str) -> bool:
    """Whether the content of a file is needed whole, and not only its hash."""
    return name.endswith((".jsonl", ".yaml"))


def _shown(name: str) -> str:
    """A name from elsewhere, short and without signs that a terminal obeys."""
    plain = "".join(mark if mark.isprintable() else "·" for mark in name)
    return f"`{plain[:80]}…`" if len(plain) > 80 else f"`{plain}`"


class _Held:
    """The files of an archive: each is read once, hashed, and kept where it is needed again."""

    def __init__(
        self, path: Path, archive: zipfile.ZipFile, listed: Mapping[str, zipfile.ZipInfo], tell: Tell
    ) -> None:
        self.shas: dict[str, str] = {}
        self.kept: dict[str, bytes] = {}
        for number, (name, info) in enumerate(sorted(listed.items()), start=1):
            tell(f"reading file {number} of {len(listed)}")
            keep = _is_kept(name)
            digest, parts = hashlib.sha256(), []
            for part in pieces(path, archive, info):
                digest.update(part)
                if keep:
                    parts.append(part)
            self.shas[name] = digest.hexdigest()
            if keep:
                self.kept[name] = b"".join(parts)


def pieces(path: Path, archive: zipfile.ZipFile, info: zipfile.ZipInfo) -> Iterator[bytes]:
    """A file in pieces, and never more of it than was said."""
    total = 0
    with archive.open(info) as file:
        while part := file.read(_CHUNK):
            total += len(part)
            if total > info.file_size:
                raise ArchiveUnsafe(str(path), f"{_shown(info.filename)} in it is longer than it says")
            yield part
    if total != info.file_size:
        raise ArchiveDamaged(str(path), f"{_shown(info.filename)} in it is shorter than it says")


def _text(path: Path, archive: zipfile.ZipFile, info: zipfile.ZipInfo) -> str:
    if info.file_size > form.MOST_TEXT_BYTES:
        raise ArchiveTooLarge(
            str(path),
            f"{_shown(info.filename)} in it has {info.file_size:,} bytes",
            f"{form.MOST_TEXT_BYTES:,} there",
        )
    return _decoded(path, info.filename, b"".join(pieces(path, archive, info)))


def _decoded(path: Path, name: str, content: bytes) -> str:
    try:
        return content.decode()
    except UnicodeDecodeError:
        raise ArchiveDamaged(str(path), f"{_shown(name)} in it is no text in UTF-8") from None


def _about(path: Path, text: str) -> dict[str, Any]:
    """What the archive says of itself, in the shape that is expected; a later format is told apart."""
    try:
        said = json.loads(text)
        if said["gudgeon"] != "book" or type(said["format"]) is not int:
            raise ValueError
    except (ValueError, TypeError, KeyError, RecursionError):
        raise NotAnArchive(str(path), f"its {form.ABOUT} says nothing of a book") from None
    if said["format"] > form.FORMAT:
        raise ArchiveTooNew(str(path), said["format"], form.FORMAT)
    if said["format"] != form.FORMAT or not _shape_is_right(said):
        raise ArchiveDamaged(str(path), f"its {form.ABOUT} is not as it is written")
    return dict(said)


def _shape_is_right(said: Mapping[str, Any]) -> bool:
    if set(said) != {"gudgeon", "format", "program", "builds", "missing_photos"}:
        return False
    builds, missing = said["builds"], said["missing_photos"]
    if not isinstance(builds, list) or not builds or not isinstance(missing, list):
        return False
    if not all(isinstance(sha, str) and re.fullmatch("[0-9a-f]{64}", sha) for sha in missing):
        return False
    for number, one in enumerate(builds, start=1):
        if not isinstance(one, dict) or {key: type(value) for key, value in one.items()} != {
            "folder": str, "name": str, "entries": int, "head": str,
        }:  # fmt: skip
            return False
        if one["folder"] != form.folder_of(number):
            return False
    return len({one["name"] for one in builds}) == len(builds)


def _checksums(path: Path, text: str) -> dict[str, str]:
    sums: dict[str, str] = {}
    for line in text.splitlines():
        found = _SUM_LINE.fullmatch(line)
        if found is None or found[2] in sums:
            raise ArchiveDamaged(str(path), f"its {form.CHECKSUMS} is not as it is written")
        sums[found[2]] = found[1]
    return sums


def _other_files(listed: Mapping[str, object], sums: Mapping[str, str]) -> Iterator[Problem]:
    there = set(listed) - {form.CHECKSUMS}
    for name in sorted(set(sums) - there):
        yield Problem(_shown(name), "it is missing")
    for name in sorted(there - set(sums)):
        yield Problem(_shown(name), f"{form.CHECKSUMS} does not name it")


def _wrong_sums(held: _Held, sums: Mapping[str, str]) -> Iterator[Problem]:
    for name, sha in sorted(held.shas.items()):
        if sums.get(name, sha) != sha:
            yield Problem(_shown(name), "it does not match its checksum")
        folder, _, file = name.partition("/")
        if folder in ("photos", "sheets", "kits") and file.partition(".")[0] != sha:
            yield Problem(_shown(name), "its content does not match the hash in its name")


def _chain(path: Path, held: _Held, said: Mapping[str, Any]) -> Chain:
    name = f"{said['folder']}/entries.jsonl"
    if name not in held.kept:
        raise ArchiveDamaged(str(path), f"{_shown(name)} in it is missing")
    lines = held.kept.pop(name).split(b"\n")
    if lines.pop() != b"":
        raise ArchiveDamaged(str(path), f"the last line of {_shown(name)} is cut off")
    return Chain(
        said["name"], tuple(_row(path, name, number, line) for number, line in enumerate(lines, start=1))
    )


def _row(path: Path, name: str, number: int, line: bytes) -> Row:
    """One line: the text that was hashed stands in it as it is, and is cut out, never written anew."""
    where = f"line {number} of `{name}`"
    if len(line) > form.MOST_LINE_BYTES:
        raise ArchiveTooLarge(
            str(path), f"{where} has {len(line):,} bytes", f"{form.MOST_LINE_BYTES:,} a line"
        )
    end = len(line) - len(form.LINE_END) - 64
    text = line[len(form.LINE_START) : end - len(form.LINE_MIDDLE)]
    digest = line[end : end + 64]
    if line != b"".join((form.LINE_START, text, form.LINE_MIDDLE, digest, form.LINE_END)):
        raise ArchiveDamaged(str(path), f"{where} is no entry with its hash")
    try:
        said = json.loads(text)
        found = (said["number"], said["id"], text.decode(), digest.decode("ascii"))
        if type(found[0]) is not int or type(found[1]) is not str:
            raise TypeError
    except (ValueError, TypeError, KeyError, RecursionError):
        raise ArchiveDamaged(str(path), f"{where} is no entry with its hash") from None
    return found


def _documents(path: Path, held: _Held) -> Iterator[Document]:
    """The pinned texts, each once, in the order of their hashes."""
    kinds: tuple[DocumentKind, ...] = ("sheet", "kit")
    found: dict[str, Document] = {}
    for kind in kinds:
        for name, content in held.kept.items():
            if name.startswith(f"{kind}s/"):
                sha = name.partition("/")[2].removesuffix(".yaml")
                found.setdefault(sha, Document(sha, kind, _decoded(path, name, content)))
    yield from (found[sha] for sha in sorted(found))


def _not_as_said(about: Mapping[str, Any], contents: Contents) -> Iterator[Problem]:
    for said, chain in zip(about["builds"], contents.chains, strict=True):
        if said["entries"] != len(chain.rows):
            yield Problem(
                f"build {chain.build}", f"{said['entries']} entries should be there, {len(chain.rows)} are"
            )
        elif said["head"] != chain.head:
            yield Problem(f"build {chain.build}", "its head is not the one that the archive says")


def _not_named(contents: Contents) -> Iterator[Problem]:
    """Photos and texts: no entry lacks one that should be there, and none is there that no entry names."""
    entries = [entry for entries in contents.read for entry in entries]
    photos = form.named_photos(entries)
    there = set(contents.photos)
    for sha, name in sorted(photos.items()):
        if (name in there) == (sha in contents.missing):
            yield Problem(f"photo {sha[:8]}", "an entry names it, and it is missing")
    for name in sorted(there - set(photos.values())):
        yield Problem(f"photo {name[:8]}", "no entry names it")
    for sha in sorted(set(contents.missing) - set(photos)):
        yield Problem(f"photo {sha[:8]}", "it is said to be missing, and no entry names it")


def _not_worked_out(
    contents: Contents, about: Mapping[str, Any], shas: Mapping[str, str]
) -> Iterator[Problem]:
    """Tables and words have to say what the entries say; those of another program's version are not compared."""
    if about["program"] != __version__:
        return
    expected = {name: hashlib.sha256(content).hexdigest() for name, content in form.written_files(contents)}
    there = {
        name: sha for name, sha in shas.items() if not name.startswith("photos/") and name != form.CHECKSUMS
    }
    for name in sorted(expected.keys() | there.keys()):
        if expected.get(name) != there.get(name):
            yield Problem(_shown(name), "it does not say what the entries say")

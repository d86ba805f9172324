"""The folder of photos: each under the hash of its content, whole and on disk before anything speaks of it.

Hashes are those of the system's own SHA-256.
"""

import errno
import os
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import pytest

from gudgeon.book import photo_copies, photo_folder, whole_file
from gudgeon.book.photo_folder import keep_picture, photo_content, photo_file, photos_wrong
from gudgeon.book.picture_errors import PhotoNotKept
from gudgeon.book.pictures import clean_picture
from tests.unit.book.photos import JPEG, PNG, WEBP

PICTURE = clean_picture(JPEG)


def not_kept(folder: Path, why: str) -> str:
    return (
        f"The photo cannot be kept in {folder} ({why}). Nothing was written, neither there nor into the book; make room "
        "there, or look at the rights of the folder, then record it again."
    )


@pytest.mark.parametrize(("content", "ending", "kind"), [
    (JPEG, "jpg", "image/jpeg"), (PNG, "png", "image/png"), (WEBP, "webp", "image/webp"),
])  # fmt: skip
def test_a_photo_lies_under_the_hash_of_its_content(
    tmp_path: Path, content: bytes, ending: str, kind: str
) -> None:
    folder = tmp_path / "book.gudgeon.photos"
    picture = clean_picture(content)
    file = keep_picture(folder, picture)
    assert file == folder / f"{sha256(picture.content).hexdigest()}.{ending}"
    assert [one.name for one in folder.iterdir()] == [file.name]
    assert photo_file(folder, picture.sha) == file
    assert photo_content(folder, picture.sha) == (picture.content, kind)


def test_the_same_photo_twice_is_one_file(tmp_path: Path) -> None:
    first = keep_picture(tmp_path, PICTURE)
    before = first.stat()
    assert keep_picture(tmp_path, clean_picture(JPEG)) == first
    assert first.stat().st_ino == before.st_ino
    assert first.stat().st_mtime_ns == before.st_mtime_ns
    assert len(list(tmp_path.iterdir())) == 1


def test_an_altered_file_is_put_right_by_the_same_photo_and_kept_aside(tmp_path: Path) -> None:
    file = keep_picture(tmp_path, PICTURE)
    file.write_bytes(b"other")
    keep_picture(tmp_path, PICTURE)
    assert file.read_bytes() == PICTURE.content
    assert (tmp_path / f"{file.name}.altered").read_bytes() == b"other"


def test_it_is_on_disk_under_its_name_before_it_is_said_to_be(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The content is synced, then it gets its name, then the folder is synced, and the folder above it for a new one."""
    steps: list[str] = []
    folder = tmp_path / "photos"
    sync, link = os.fsync, os.link

    def synced(handle: int) -> None:
        steps.append(f"sync {Path(os.readlink(f'/proc/self/fd/{handle}')).name.split('.')[-1]}")
        sync(handle)

    def linked(old: Path, new: Path) -> None:
        steps.append("name")
        link(old, new)

    monkeypatch.setattr(os, "fsync", synced)
    monkeypatch.setattr(os, "link", linked)
    keep_picture(folder, PICTURE)
    assert steps == [
        f"sync {tmp_path.name}",
        f"sync {tmp_path.parent.name}",
        "sync new",
        "name",
        "sync photos",
    ]
    steps.clear()
    keep_picture(folder, PICTURE)  # whoever put it there may not have come so far
    assert steps == ["sync jpg", "sync photos"]


def _full(*_: object) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


@pytest.mark.parametrize("place", ["_sync", "_name"])
def test_a_full_disk_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, place: str) -> None:
    monkeypatch.setattr(whole_file, place, _full)
    with pytest.raises(PhotoNotKept) as refused:
        keep_picture(tmp_path, PICTURE)
    assert str(refused.value) == not_kept(tmp_path, "No space left on device")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_none_is_refused(tmp_path: Path) -> None:
    taken = tmp_path / "photos"
    taken.write_text("a file")
    with pytest.raises(PhotoNotKept) as refused:
        keep_picture(taken, PICTURE)
    assert str(refused.value) == not_kept(taken, "File exists")
    assert taken.read_text() == "a file"


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="rights stop nobody here")
def test_a_folder_without_rights_is_refused(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(PhotoNotKept) as refused:
            keep_picture(tmp_path, PICTURE)
    finally:
        tmp_path.chmod(0o700)
    assert str(refused.value) == not_kept(tmp_path, "Permission denied")


def _gone(file: Path) -> None:
    file.unlink()


def _one_bit(file: Path) -> None:
    content = bytearray(file.read_bytes())
    content[-5] ^= 1
    file.write_bytes(content)


def _other_picture(file: Path) -> None:
    file.write_bytes(clean_picture(PNG).content)


def _empty(file: Path) -> None:
    file.write_bytes(b"")


def _folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (_gone, "it is missing"),
        (_one_bit, "it was altered"),
        (_other_picture, "it was altered"),
        (_empty, "it was altered"),
        (_folder, "it is missing"),
    ],
)
def test_what_is_wrong_is_found_and_not_shown(
    tmp_path: Path, change: Callable[[Path], None], why: str
) -> None:
    file, sha = keep_picture(tmp_path, PICTURE), PICTURE.sha
    assert photos_wrong(tmp_path, named=[sha], proofs=[sha]) == {}
    change(file)
    assert photos_wrong(tmp_path, named=[sha], proofs=[sha]) == {sha: why}
    assert photo_content(tmp_path, sha) is None


def test_a_photo_put_back_is_right_again(tmp_path: Path) -> None:
    file, sha = keep_picture(tmp_path, PICTURE), PICTURE.sha
    file.unlink()
    assert photos_wrong(tmp_path, named=[sha], proofs=[sha]) == {sha: "it is missing"}
    keep_picture(tmp_path, PICTURE)
    assert photos_wrong(tmp_path, named=[sha], proofs=[sha]) == {}


def test_an_alteration_that_keeps_size_and_time_is_found(tmp_path: Path) -> None:
    file, sha = keep_picture(tmp_path, PICTURE), PICTURE.sha
    assert photos_wrong(tmp_path, named=[], proofs=[sha]) == {}
    seen = file.stat()
    _one_bit(file)
    os.utime(file, ns=(seen.st_atime_ns, seen.st_mtime_ns))
    assert photos_wrong(tmp_path, named=[], proofs=[sha]) == {sha: "it was altered"}


def test_a_file_that_looks_as_before_is_not_read_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    keep_picture(tmp_path, PICTURE)
    read = []
    found = photo_copies.wrong_with

    def counted(file: Path | None, *, sha: str) -> str:
        read.append(sha)
        return found(file, sha=sha)

    monkeypatch.setattr(photo_folder, "wrong_with", counted)
    for _ in range(3):
        assert photos_wrong(tmp_path, named=[PICTURE.sha], proofs=[PICTURE.sha]) == {}
    assert read == [PICTURE.sha]


def test_a_folder_that_is_not_there_has_none(tmp_path: Path) -> None:
    folder = tmp_path / "none"
    assert photos_wrong(folder, named=["0" * 64], proofs=[]) == {"0" * 64: "it is missing"}
    assert photos_wrong(folder, named=[], proofs=[]) == {}
    (tmp_path / "file").write_text("x")
    wrong = photos_wrong(tmp_path / "file", named=["0" * 64], proofs=[])
    assert wrong == {"0" * 64: "it cannot be read (Not a directory)"}


@pytest.mark.parametrize(
    "sha", ["", ".", "..", "../book.gudgeon", "/etc/passwd", "0" * 63, "G" * 64, "0" * 64 + "\n"]
)
def test_nothing_but_a_hash_reaches_the_folder(tmp_path: Path, sha: str) -> None:
    assert photo_file(tmp_path, sha) is None
    assert photo_content(tmp_path, sha) is None

"""Photos of pages: told by their content, kept once, never read from outside their folder.

What is taken of a photo, and what is refused, is tried with the photos of the book. The name of a photo is checked with the
system's own SHA-256.
"""

import hashlib
from pathlib import Path

import pytest

from gudgeon.bench.sheet_file import SheetChanged, text_hash
from gudgeon.bench.sheet_photos import (
    AddedPhoto,
    PageNotNamed,
    add_photo,
    is_there,
    keep_photo,
    page_photo,
)
from gudgeon.book.picture_errors import NotAPhoto, PhotoNotKept
from gudgeon.sheet.load import load_sheet
from gudgeon.sheet.write import NoSuchSource
from tests.unit.bench.photos import JPEG, NO_PHOTOS, PNG, WEBP, kept
from tests.unit.book.photos import LATITUDE, with_place
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    file = tmp_path / "sheet.yaml"
    file.write_text(SMALL, encoding="utf-8")
    return file


def add(sheet: Path, content: bytes, *, source: str = "manual", page: str = "p. 4") -> AddedPhoto:
    made_from = text_hash(sheet.read_text(encoding="utf-8"))
    return add_photo(sheet, content, source=source, page=page, made_from=made_from, name="photo")


@pytest.mark.parametrize(("content", "kind"), [(JPEG, "jpg"), (PNG, "png"), (WEBP, "webp")])
def test_a_photo_is_kept_beside_the_sheet_under_its_own_hash(sheet: Path, content: bytes, kind: str) -> None:
    added = add(sheet, content, page="49")
    assert added.photo == f"photos/{hashlib.sha256(kept(content)).hexdigest()[:16]}.{kind}"
    assert (sheet.parent / added.photo).read_bytes() == kept(content)
    loaded = load_sheet(sheet).sheet
    assert loaded.sources["manual"].photos == {"p. 49": added.photo}
    shown = page_photo(sheet, loaded, name=added.photo.removeprefix("photos/"))
    assert shown is not None
    assert shown.content == kept(content)
    assert shown.content_type == {"jpg": "image/jpeg", "png": "image/png", "webp": "image/webp"}[kind]


@pytest.mark.parametrize("name", NO_PHOTOS)
def test_what_is_no_photo_is_refused_whatever_its_name(sheet: Path, name: str) -> None:
    with pytest.raises(
        NotAPhoto, match="JPEG, PNG or WebP of at most 30 MB and 80 megapixels; nothing was written"
    ):
        keep_photo(sheet, NO_PHOTOS[name], name=name)
    assert not (sheet.parent / "photos").exists()
    assert sheet.read_text(encoding="utf-8") == SMALL


def test_the_same_photo_twice_is_stored_once(sheet: Path) -> None:
    first, second = add(sheet, JPEG, page="p. 4"), add(sheet, JPEG, page="p. 5")
    assert first.photo == second.photo
    assert len(list((sheet.parent / "photos").iterdir())) == 1
    assert load_sheet(sheet).sheet.sources["manual"].photos == {"p. 4": first.photo, "p. 5": first.photo}


def test_a_new_photo_of_a_page_says_which_was_there(sheet: Path) -> None:
    first = add(sheet, JPEG)
    assert first.before == ""
    assert add(sheet, JPEG).before == ""
    assert add(sheet, PNG).before == first.photo


def test_a_damaged_photo_is_mended_by_the_same_photo(sheet: Path) -> None:
    added = add(sheet, JPEG)
    (sheet.parent / added.photo).write_bytes(b"\xff\xd8\xff half")
    keep_photo(sheet, JPEG)
    assert (sheet.parent / added.photo).read_bytes() == kept(JPEG)


def test_the_place_where_it_was_taken_is_left_behind(sheet: Path) -> None:
    added = add(sheet, with_place("JPEG"))
    assert LATITUDE.encode() not in (sheet.parent / added.photo).read_bytes()


def test_a_folder_that_takes_no_photo_leaves_the_sheet_as_it_is(sheet: Path) -> None:
    (sheet.parent / "photos").write_text("no folder")
    with pytest.raises(PhotoNotKept) as refused:
        add(sheet, JPEG)
    assert str(refused.value) == (
        f"The photo cannot be kept in {sheet.parent / 'photos'} (File exists). Nothing was written, neither there nor "
        "into the book; make room there, or look at the rights of the folder, then record it again."
    )
    assert sheet.read_text(encoding="utf-8") == SMALL


def test_a_refused_page_leaves_no_photo_behind(sheet: Path) -> None:
    with pytest.raises(NoSuchSource):
        add(sheet, JPEG, source="other")
    with pytest.raises(PageNotNamed):
        add(sheet, JPEG, page="  ")
    with pytest.raises(SheetChanged):
        add_photo(sheet, JPEG, source="manual", page="p. 4", made_from=text_hash("something else"))
    assert not (sheet.parent / "photos").exists()


@pytest.mark.parametrize(
    "name",
    ["sheet.yaml", "../sheet.yaml", "..%2fsheet.yaml", "/etc/hostname", "", ".", "0123456789abcdef.jpg"],
)
def test_only_a_photo_that_the_sheet_names_is_shown(sheet: Path, name: str) -> None:
    add(sheet, JPEG)
    assert page_photo(sheet, load_sheet(sheet).sheet, name=name) is None


def test_a_missing_photo_and_a_link_out_of_the_folder_show_nothing(sheet: Path) -> None:
    added = add(sheet, JPEG)
    loaded, photo = load_sheet(sheet).sheet, sheet.parent / added.photo
    name = added.photo.removeprefix("photos/")
    photo.unlink()
    assert not is_there(sheet, photo=added.photo)
    assert page_photo(sheet, loaded, name=name) is None
    outside = sheet.parent / "outside.jpg"
    outside.write_bytes(JPEG)
    try:
        photo.symlink_to(outside)
    except OSError:
        pytest.skip("This system lets nobody make such a file.")
    assert page_photo(sheet, loaded, name=name) is None


def test_a_file_that_turned_into_something_else_is_not_shown(sheet: Path) -> None:
    added = add(sheet, JPEG)
    (sheet.parent / added.photo).write_bytes(NO_PHOTOS["page.svg"])
    assert page_photo(sheet, load_sheet(sheet).sheet, name=added.photo.removeprefix("photos/")) is None

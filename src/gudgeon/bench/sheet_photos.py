"""Photos of the manual's pages: kept beside the sheet, named by their content, shown with what cites them.

They are checked and written anew as the photos of the book are.
"""

from dataclasses import dataclass
from pathlib import Path

from gudgeon.bench.sheet_file import write_sheet
from gudgeon.book.archive import MOST_PHOTO_BYTES, PHOTO_ENDINGS
from gudgeon.book.picture_errors import PhotoNotKept
from gudgeon.book.pictures import CONTENT_TYPES, clean_picture, picture_type
from gudgeon.errors import InputError
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.write import NoSuchSource, put_photo
from gudgeon.written.located import read_yaml
from gudgeon.written.replace import replace_bytes

FOLDER = "photos"


class PageNotNamed(InputError):
    """A photo of a page that nobody named."""

    def __init__(self) -> None:
        super().__init__("The photo belongs to no page yet. Name the page as figures cite it, like `p. 49`.")


@dataclass(frozen=True, slots=True)
class AddedPhoto:
    """A photo that is now named in the sheet, and the one that was named for the page before."""

    photo: str
    source: str
    page: str
    before: str


@dataclass(frozen=True, slots=True)
class PagePhoto:
    """A photo that the sheet names: its content, or that it is not in the folder."""

    name: str
    content_type: str
    content: bytes


def page_words(page: str) -> str:
    """A page as it is cited: a bare number becomes `p. 49`."""
    said = " ".join(page.split())
    return f"p. {said}" if said.isdigit() else said


def keep_photo(sheet: Path, content: bytes, *, name: str = "") -> str:
    """Keep a photo beside the sheet, the same one once; returns how the sheet names it."""
    picture = clean_picture(content, name=name)
    folder = sheet.resolve().parent / FOLDER
    file = folder / f"{picture.sha[:16]}.{picture.ending}"
    try:
        folder.mkdir(exist_ok=True)
        if not file.is_file() or file.read_bytes() != picture.content:
            replace_bytes(file, picture.content)
    except OSError as error:
        raise PhotoNotKept(str(folder), error.strerror or type(error).__name__) from None
    return f"{FOLDER}/{file.name}"


def add_photo(
    sheet: Path, content: bytes, *, source: str, page: str, made_from: str, name: str = ""
) -> AddedPhoto:
    """Keep a photo and name it in the sheet for a page of one of its sources."""
    added = AddedPhoto("", source, page_words(page), "")

    def change(text: str) -> str:
        nonlocal added
        after, added = with_photo(text, sheet, content, source=source, page=page, name=name)
        return after

    write_sheet(sheet, made_from=made_from, change=change)
    return added


def with_photo(
    text: str, sheet: Path, content: bytes, *, source: str, page: str, name: str = ""
) -> tuple[str, AddedPhoto]:
    """The text with a photo named in it, which is kept beside the sheet; a refusal leaves no photo behind."""
    cited = page_words(page)
    if not cited:
        raise PageNotNamed
    sources = read_yaml(text, file=sheet.name).data.get("sources")
    known = sources if isinstance(sources, dict) else {}
    if source not in known:
        raise NoSuchSource(source, known)
    photos = known[source].get("photos") if isinstance(known[source], dict) else None
    before = str(photos.get(cited, "")) if isinstance(photos, dict) else ""
    photo = keep_photo(sheet, content, name=name)
    after = put_photo(text, file=sheet.name, source=source, page=cited, photo=photo)
    return after, AddedPhoto(photo, source, cited, before if before != photo else "")


def page_photo(file: Path | None, sheet: DataSheet, *, name: str) -> PagePhoto | None:
    """A photo by its file name, if the sheet names it and it lies in the folder; nothing for any other name."""
    named = {photo for book in sheet.sources.values() for photo in book.photos.values()}
    if file is None or f"{FOLDER}/{name}" not in named:
        return None
    folder = (file.resolve().parent / FOLDER).resolve()
    photo = (folder / name).resolve()
    if photo.parent != folder or not photo.is_file() or photo.stat().st_size > MOST_PHOTO_BYTES:
        return None
    content = photo.read_bytes()
    found = picture_type(content)
    return PagePhoto(name, CONTENT_TYPES[PHOTO_ENDINGS[found]], content) if found is not None else None


def is_there(file: Path | None, *, photo: str) -> bool:
    """Whether a photo that the sheet names lies in the folder."""
    return file is not None and bool(photo) and (file.resolve().parent / photo).is_file()

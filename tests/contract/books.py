"""Books with something of everything in them, and what lies beside them."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from gudgeon.book.address import book_address, photos_folder
from gudgeon.book.entries import Draft
from tests.contract.stores import Shelf, draft, pull

SHEET, KIT = "gudgeon: sheet 1\nname: Ångström\n", "gudgeon: kit 1\n"
PHOTO = b"\xff\xd8\xff\xe0 a photo, as far as a copy looks at it"
PHOTO_SHA = hashlib.sha256(PHOTO).hexdigest()


def reading(value: str, *, note: str = "", build: str = "van") -> Draft:
    """A reading of a bore."""
    return draft(
        "reading",
        build=build,
        item="bore",
        place="1 top",
        value=value,
        unit="mm",
        condition="as found",
        note=note,
    )


def photo(*, build: str = "van") -> Draft:
    """An entry that names the photo."""
    fields: dict[str, Any] = {"sha": PHOTO_SHA, "type": "jpeg", "caption": "pad of the block"}
    return draft("photo", build=build, width=4, height=3, **fields)


def fill(shelf: Shelf) -> None:
    """Two builds with readings, pulls, a strike, texts that a spreadsheet would run, texts they were made against."""
    with shelf.open() as store:
        sheet, kit = store.put_document(SHEET, kind="sheet"), store.put_document(KIT, kind="kit")
        store.append(replace(draft("build-opened"), sheet=sheet, kit=kit))
        wrong = store.append(replace(reading("-0.02", note="=1+1"), sheet=sheet, kit=kit)).entry
        store.append(draft("strike", entry=wrong.id, why="read upside down"))
        store.append_many([pull(1, "1"), pull(1, "2 µ–")])
        store.append(draft(text='line one\nline two, "quoted"\u2028\u202eturned'))
        store.append(photo())
        store.append(
            draft("build-opened", build="boat", name="boat", engine="other", sheet_path="s", kit_path="k")
        )
        store.append(draft(build="boat", text="+SUM(A1:A9)"))
    put_photo(shelf)


def put_photo(shelf: Shelf, content: bytes = PHOTO) -> Path:
    """Put the photo beside the book."""
    folder = photos_folder(book_address(shelf.address))
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / f"{PHOTO_SHA}.jpg"
    file.write_bytes(content)
    return file


def many(shelf: Shelf, count: int) -> None:
    """A build of so many entries."""
    with shelf.open() as store:
        store.append_many(
            [draft("build-opened"), *(reading(f"81.{number:04d}") for number in range(count - 1))]
        )


def rows_of(shelf: Shelf) -> Mapping[str, Sequence[tuple[int, str, str, str]]]:
    """Every entry of every build, exactly as it stands."""
    with shelf.open() as store:
        return {build: store.chain(build).rows for build in store.builds()}

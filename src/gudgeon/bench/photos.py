"""Photos in the book: kept beside it, named by what they show, and told when they are missing or altered."""

import os
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.errors import Unknown
from gudgeon.bench.holds import all_holds
from gudgeon.bench.pin_items import pins_of
from gudgeon.bench.pins import PinSaid, pins_said
from gudgeon.bench.reason import written_at
from gudgeon.bench.record import Recorded, record, record_many
from gudgeon.bench.things import find_thing, thing_words
from gudgeon.book.address import photos_folder
from gudgeon.book.body import seen
from gudgeon.book.entries import Entry
from gudgeon.errors import InputError


class NoCaption(InputError):
    """A photo without a word."""

    def __init__(self) -> None:
        super().__init__(
            "The photo has no caption: say in a few words what it shows, as nobody will know it in a year. "
            "Nothing was written."
        )


class BareTick(InputError):
    """A word beside a photo that says nothing."""

    def __init__(self, why: str) -> None:
        super().__init__(f"{why}, or leave it out: the photo proves it. Nothing was written.")


@dataclass(frozen=True, slots=True)
class Sent:
    """A file with a picture, as it came from a phone or from a folder."""

    name: str
    content: bytes


class NoPhotoSent(InputError):
    """The entry of a photo without its file."""

    def __init__(self) -> None:
        super().__init__("No photo was chosen. Choose its file, then write it again; nothing was written.")


class NothingSeen(InputError):
    """A proof with nothing in it."""

    def __init__(self) -> None:
        super().__init__(
            "Nothing proves it yet: write the value that was seen, or add a photo of it with --photo. "
            "Nothing was written."
        )


def record_with_photo(
    bench: Bench,
    kind: str,
    fields: Mapping[str, Any],
    *,
    sent: Sent | None,
    pins: Sequence[PinSaid] = (),
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Write a photo, or a hold that a value or a photo proves, from what a person said."""
    ids = {"entry_id": entry_id, "basis": basis}
    if kind == "photo":
        if sent is None:
            raise NoPhotoSent
        return record_photo(
            bench, sent, caption=fields["caption"], about=fields.get("about") or (), pins=pins, **ids
        )
    value = fields.get("value") or ""
    if sent is not None:
        return prove_with_photo(bench, sent, hold=fields["hold"], value=value, **ids)
    if not value.strip():
        raise NothingSeen
    return record(bench, kind, {**fields, "value": value}, **ids)


def record_photo(
    bench: Bench,
    sent: Sent,
    *,
    caption: str,
    about: Sequence[str] = (),
    pins: Sequence[PinSaid] = (),
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Keep a photo and write it into the book; the picture is on disk before the entry is."""
    fields = _fields(bench, sent, caption=caption, about=about, pins=pins)
    return record(bench, "photo", fields, entry_id=entry_id, basis=basis)


def prove_with_photo(
    bench: Bench,
    sent: Sent,
    *,
    hold: str,
    value: str = "",
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Prove a hold with a photo: the photo and the proof are both in the book, or neither is."""
    holds = all_holds()
    if hold not in holds:
        raise Unknown("hold", hold, holds)
    said = value.strip()
    if said:
        try:
            seen(said)
        except ValueError as error:
            raise BareTick(str(error)) from None
    photo = _fields(bench, sent, caption=said[:300] or holds[hold].name, about=(f"hold:{hold}",))
    proof = {"hold": hold, "value": said, "photo": photo["sha"]}
    return record_many(bench, [("photo", photo), ("hold-proved", proof)], entry_id=entry_id, basis=basis)


def _fields(
    bench: Bench, sent: Sent, *, caption: str, about: Sequence[str], pins: Sequence[PinSaid] = ()
) -> dict[str, Any]:
    """The body of a photo; everything that can be refused is, before the picture is put into the folder."""
    from gudgeon.book.photo_folder import keep_picture
    from gudgeon.book.pictures import clean_picture

    if not caption.strip():
        raise NoCaption
    set_now = pins_said(pins)
    shown = list(dict.fromkeys(find_thing(bench, one) for one in about if one.strip()))
    picture = clean_picture(sent.content, name=sent.name)
    keep_picture(photos_folder(bench.book), picture)
    return {
        "sha": picture.sha,
        "type": picture.type,
        "width": picture.width,
        "height": picture.height,
        "taken": picture.taken,
        "caption": caption.strip(),
        "about": shown,
        "pins": set_now or pins_of(bench, picture.sha),
    }


@dataclass(frozen=True, slots=True)
class PhotoLine:
    """One photo of the book: what it shows, the proofs that stand on it, and what is wrong with its file.

    `taken` is the hour that the camera wrote, and `when` that of the entry.
    """

    number: int
    entry: str
    sha: str
    type: str
    width: int
    height: int
    caption: str
    about: tuple[str, ...]
    proves: tuple[str, ...]
    when: str
    taken: str
    who: str
    wrong: str
    struck: str
    pins: tuple[str, ...] = ()
    anew: int = 0
    """The later entry that says the same photo anew, with other pins or words; 0 where this is the latest."""


@dataclass(frozen=True, slots=True)
class Photos:
    """The photos of a build, each file read to its end; `strangers` lie in the folder and no entry names them."""

    heading: Heading
    folder: str
    photos: tuple[PhotoLine, ...]
    wrong: int
    strangers: tuple[str, ...]


def photos_report(bench: Bench) -> Photos:
    """Every photo of the build, and whether its file is as it was taken."""
    from gudgeon.book.photo_copies import photos_lying_in, wrong_with

    folder = photos_folder(bench.book)
    lying = photos_lying_in(folder)
    named = _named(bench)
    photos = [one for one in entries_of(bench) if one.kind == "photo"]
    wrong = {sha: wrong_with(lying.get(sha), sha=sha) for sha in {one.body["sha"] for one in photos}}
    latest = {one.body["sha"]: one.number for one in photos if one.id not in bench.state.struck}
    lines = tuple(_line(bench, one, wrong[one.body["sha"]], latest) for one in photos)
    return Photos(
        bench.heading("Photos"),
        str(folder),
        lines,
        sum(bool(why) for why in wrong.values()),
        tuple(_strangers(folder, named)),
    )


def _named(bench: Bench) -> set[str]:
    """The photos that any build of the book names: they all lie in one folder."""
    return {
        one.body["sha"]
        for build in bench.store.builds()
        for one in bench.store.entries(build)
        if one.kind == "photo"
    }


def _strangers(folder: "os.PathLike[str]", named: set[str]) -> Iterator[str]:
    try:
        names = sorted(os.listdir(folder))
    except OSError:
        return
    yield from (
        name
        for name in names
        if not re.fullmatch(r"[0-9a-f]{64}\.(jpg|png|webp)", name) or name[:64] not in named
    )


def line_of(bench: Bench, entry: str) -> PhotoLine:
    """The photo that an entry wrote."""
    from gudgeon.book.photo_copies import photos_lying_in, wrong_with

    one = next(one for one in entries_of(bench) if one.id == entry)
    sha = one.body["sha"]
    return _line(bench, one, wrong_with(photos_lying_in(photos_folder(bench.book)).get(sha), sha=sha), {})


def _line(bench: Bench, one: Entry, wrong: str, latest: Mapping[str, int]) -> PhotoLine:
    body, struck = one.body, bench.state.struck.get(one.id)
    proves = (key for key, hold in bench.state.holds.items() if hold.photo == body["sha"])
    newer = latest.get(body["sha"], one.number)
    holds: Mapping[str, Any] = all_holds()
    return PhotoLine(
        one.number,
        one.id,
        body["sha"],
        body["type"],
        body["width"],
        body["height"],
        body["caption"],
        tuple(thing_words(bench, about) for about in body["about"]),
        tuple(holds[key].name if key in holds else key for key in proves),
        written_at(one.device_time),
        body["taken"].replace("T", " "),
        one.who,
        wrong,
        struck.why if struck is not None else "",
        tuple(f"{pin['number']}: {pin['text']}" for pin in body["pins"]),
        newer if struck is None and newer != one.number else 0,
    )


@dataclass(frozen=True, slots=True)
class PhotoFile:
    """A picture as it is kept."""

    content_type: str
    content: bytes


def photo_shown(bench: Bench, sha: str) -> PhotoFile | None:
    """A photo that the build names, if its content is what its name says; nothing for anything else."""
    from gudgeon.book.photo_folder import photo_content

    if not any(one.kind == "photo" and one.body["sha"] == sha for one in entries_of(bench)):
        return None
    found = photo_content(photos_folder(bench.book), sha)
    return PhotoFile(found[1], found[0]) if found is not None else None

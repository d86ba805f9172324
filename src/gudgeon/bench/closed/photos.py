"""Every photo of the book with its words, its hour, its pins, and what it proves; what is wrong with its file."""

from collections.abc import Iterator

from gudgeon.bench.closed.model import PhotoShown, PinPlace
from gudgeon.bench.closed.told import Told, hour
from gudgeon.bench.photo_look import where
from gudgeon.bench.photos import PhotoLine, photos_report


def photos(told: Told) -> tuple[PhotoShown, ...]:
    """The photos in the order of their entries; one that was written anew is shown once, as it was said last."""
    if not any(told.of("photo")):
        return ()
    return tuple(_shown(told, one) for one in photos_report(told.bench).photos if not one.anew)


def _shown(told: Told, one: PhotoLine) -> PhotoShown:
    entry = told.entries[one.number - 1]
    return PhotoShown(
        one.number,
        one.sha,
        one.width,
        one.height,
        one.caption,
        tuple(_said(one, written=hour(entry.device_time))),
        tuple(
            PinPlace(pin["number"], pin["x"], pin["y"], f"{pin['text']} ({where(pin['x'], y=pin['y'])})")
            for pin in entry.body["pins"]
        ),
        one.wrong,
        one.struck,
    )


def _said(one: PhotoLine, *, written: str) -> Iterator[str]:
    taken = f"taken {one.taken} by the camera's clock, " if one.taken else ""
    yield f"{taken}written down {written} by {one.who}"
    if one.about:
        yield f"shows: {', '.join(one.about)}"
    if one.proves:
        yield f"proves: {', '.join(one.proves)}"

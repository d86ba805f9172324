"""Photos as they stand, and the pieces that pins on them show: each leads to the other by its key."""

import re
from typing import Any

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.pin_errors import NoSuchPhoto
from gudgeon.book.state import PhotoState

_KEY = re.compile(r"photo_([0-9a-f]{8})_(\d{1,3})")


def standing_photo(bench: Bench, sha: str) -> PhotoState:
    """A photo as it was written last; by its hash, or by the first eight letters of it."""
    found = next((one for one in reversed(bench.state.photos) if one.sha == sha), None)
    if found is None and len(sha) == 8:
        found = next((one for one in reversed(bench.state.photos) if one.sha.startswith(sha)), None)
    if found is None:
        raise NoSuchPhoto(sha)
    return found


def pins_of(bench: Bench, sha: str) -> list[dict[str, Any]]:
    """The pins that a photo has already; none where it is new."""
    found = next((one for one in reversed(bench.state.photos) if one.sha == sha), None)
    return [dict(pin) for pin in found.pins] if found is not None else []


def item_key(sha: str, number: int) -> str:
    """What a piece is called on the list of what came off, where a pin shows it."""
    return f"photo_{sha[:8]}_{number}"


def pin_of_item(bench: Bench, item: str) -> tuple[str, int]:
    """The photo that shows a piece, and the pin on it: by its key, else a photo that is said to be about it."""
    found = _KEY.fullmatch(item)
    if found is not None:
        sha = next((one.sha for one in reversed(bench.state.photos) if one.sha.startswith(found[1])), "")
        if sha:
            return sha, int(found[2])
    about = f"item:left over:{item}"
    return next((one.sha for one in reversed(bench.state.photos) if about in one.about), ""), 0


def came_off(bench: Bench) -> frozenset[str]:
    """The keys of all pieces that ever came off, back or not."""
    return frozenset(
        str(one.body["item"])
        for one in entries_of(bench)
        if one.kind == "taken-off" and one.id not in bench.state.struck
    )

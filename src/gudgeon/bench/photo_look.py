"""One photo of the build: its pins, which of their pieces came off or are back, and what was counted in it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.counted import differences
from gudgeon.bench.photo_counts import PhotoCount, counts_in
from gudgeon.bench.photos import PhotoLine, line_of
from gudgeon.bench.pin_items import came_off, item_key, standing_photo
from gudgeon.bench.pins import group_for

FULL_REACH = 85
"""Of a picture that fills a phone of 390 pixels this is 30 pixels around a pin: a gloved thumb."""
LEAST_REACH = 42


@dataclass(frozen=True, slots=True)
class PinShown:
    """A pin as it is shown; `x` and `y` are thousandths of the picture.

    `reach` is how far around it a tap means it, in thousandths of the width: half way to the next pin at most.
    `state` is where its piece is: `off`, `back`, or nothing where it never came off; `item` is its key on the list.
    """

    number: int
    x: int
    y: int
    text: str
    state: str
    item: str
    group: str
    where: str
    reach: int


@dataclass(frozen=True, slots=True)
class PhotoLook:
    """A photo as it stands, with everything that hangs on its pins."""

    heading: Heading
    photo: PhotoLine
    pins: tuple[PinShown, ...]
    counts: tuple[PhotoCount, ...]
    differs: tuple[str, ...]
    elsewhere: tuple[int, ...]
    """Numbers that stand on other photos too: their tags could be mixed up."""

    @property
    def next_number(self) -> int:
        """The number after the highest on this photo."""
        return max((one.number for one in self.pins), default=0) + 1

    @property
    def free_number(self) -> int:
        """The number after the highest on any photo."""
        return max(self.next_number, max(self.elsewhere, default=0) + 1)

    @property
    def words(self) -> str:
        """The photo in words, for those who hear the page: what it shows, and each pin with its place on it."""
        said = "; ".join(f"{one.number}: {one.text} ({one.where})" for one in self.pins)
        return f"{self.photo.caption}. {len(self.pins)} pins: {said}" if said else self.photo.caption


def photo_look(bench: Bench, sha: str) -> PhotoLook:
    """A photo with its pins, by its hash."""
    photo = standing_photo(bench, sha)
    pins = tuple(_pins(bench, photo.sha))
    counts = counts_in(bench, photo.sha)
    differs = tuple(
        one.why
        for group in dict.fromkeys(count.group for count in counts)
        for one in differences(group, bench.state.counts.get(group), bench.state.tallies[group])
    )
    return PhotoLook(
        bench.heading("Photos"),
        line_of(bench, photo.entry),
        pins,
        counts,
        differs,
        _elsewhere(bench, photo.sha),
    )


def _pins(bench: Bench, sha: str) -> Iterator[PinShown]:
    ever, photo = came_off(bench), standing_photo(bench, sha)
    spots = {int(str(pin["number"])): (int(str(pin["x"])), int(str(pin["y"]))) for pin in photo.pins}
    for pin in photo.pins:
        number, text = int(str(pin["number"])), str(pin["text"])
        item, (x, y) = item_key(sha, number), spots[number]
        state = "off" if item in bench.state.left_over else "back" if item in ever else ""
        others = [spot for other, spot in spots.items() if other != number]
        reach = _reach((x, y), others=others, ratio=photo.height / photo.width)
        yield PinShown(number, x, y, text, state, item, group_for(text), where(x, y=y), reach)


def _reach(spot: tuple[int, int], *, others: Sequence[tuple[int, int]], ratio: float) -> int:
    """How far around a pin a tap means it: as far as a thumb needs, unless another pin is nearer."""
    nearest = min((math.hypot(x - spot[0], (y - spot[1]) * ratio) for x, y in others), default=math.inf)
    return int(max(LEAST_REACH, min(FULL_REACH, nearest / 2)))


def where(x: int, *, y: int) -> str:
    """A place on a picture in words.

    Example:
        >>> where(500, y=100), where(900, y=900)
        ('top, middle', 'bottom, right')
    """
    down = "top" if y < 333 else "middle" if y < 667 else "bottom"
    across = "left" if x < 333 else "middle" if x < 667 else "right"
    return "middle" if down == across else f"{down}, {across}"


def _elsewhere(bench: Bench, sha: str) -> tuple[int, ...]:
    latest = {one.sha: one for one in bench.state.photos}
    return tuple(sorted({
        int(str(pin["number"])) for key, one in latest.items() if key != sha for pin in one.pins
    }))  # fmt: skip

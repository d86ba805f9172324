"""Pins as a form says them: a row for each, and what a tap on the picture makes of the rows."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from gudgeon.bench.photo_look import PhotoLook
from gudgeon.bench.pins import MOST_PINS, PinSaid
from gudgeon.web.whole import whole

TAP_WIDTH = 320
"""How wide a picture is that is tapped without a script, in pixels: the browser tells where, and not how large."""

MOST_FIELDS = 6 * MOST_PINS + 40


@dataclass(frozen=True, slots=True)
class Row:
    """A pin in its form, as it was typed or tapped; `away` is one that is taken away."""

    key: int
    said: PinSaid
    away: bool = False

    @property
    def mark(self) -> dict[str, object]:
        """Where its mark is drawn, in thousandths; what cannot be read is drawn at the edge."""
        x, y = _tenths(self.said.across), _tenths(self.said.down)
        return {"number": self.said.number, "x": x, "y": y, "text": self.said.text}


def _tenths(said: str) -> float:
    try:
        return min(1000.0, max(0.0, 10 * float(said.replace(",", "."))))
    except ValueError:
        return 0.0


def rows_of(form: Mapping[str, str]) -> list[Row]:
    """The pins of a form, in the order of their rows."""
    said = (whole(name[7:]) for name in form if name.startswith("number."))
    keys = sorted(key for key in said if key is not None)
    return [
        Row(
            key,
            PinSaid(*(form.get(f"{name}.{key}", "") for name in ("number", "across", "down", "text"))),
            bool(form.get(f"away.{key}")),
        )
        for key in keys
    ]


def pins_in(form: Mapping[str, str]) -> list[PinSaid]:
    """The pins that a form says, without those that were taken away in it."""
    return [one.said for one in rows_of(form) if not one.away]


def tapped(rows: list[Row], answer: PhotoLook, form: Mapping[str, str]) -> list[Row]:
    """The rows after a tap on the picture: one moved, or one more."""
    height = TAP_WIDTH * answer.photo.height / answer.photo.width
    across, down = _percent(form["at.x"], of=TAP_WIDTH), _percent(form.get("at.y", ""), of=round(height))
    moved = whole(form.get("tap", "new"))
    if moved is not None:
        return [
            replace(one, said=replace(one.said, across=across, down=down)) if one.key == moved else one
            for one in rows
        ]
    numbers = [whole(one.said.number.strip()) or 0 for one in rows]
    number = max([*numbers, (whole(form.get("first", "")) or 1) - 1]) + 1
    return [*rows, Row(max((one.key for one in rows), default=0) + 1, PinSaid(str(number), across, down, ""))]


def _percent(said: str, *, of: int) -> str:
    """Where a pixel lies, by its middle."""
    at = whole(said) or 0
    return f"{min(100.0, 100 * (at + 0.5) / of):.1f}"

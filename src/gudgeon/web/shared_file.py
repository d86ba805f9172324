"""A shared page as one HTML file: style, drawings and photos within it, no script, nothing asked of anybody."""

import re
from base64 import b64encode
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from markupsafe import Markup

from gudgeon.bench.context import Bench
from gudgeon.bench.pattern import Pattern
from gudgeon.bench.photos import photo_shown
from gudgeon.bench.pictures.cut import CutPicture
from gudgeon.bench.shared_page.errors import PhotoNotWhole
from gudgeon.bench.shared_page.model import Drawn, SharedPage, SharedPhoto, Step
from gudgeon.book.smaller import smaller
from gudgeon.errors import InputError
from gudgeon.paper.svg_cut import cut_svg
from gudgeon.paper.svg_picture import picture_svg
from gudgeon.web.sketch import Sketch, sketch
from gudgeon.web.templating import environment

MOST_BYTES = 10_000_000
"""Of a shared file: common practice, no source; many mailboxes take no larger letter."""
POLICY = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
"""What a browser may do with the file: show it."""


class SharedTooLarge(InputError):
    """A file that could not be sent."""

    def __init__(self, size: int, photos: int) -> None:
        super().__init__(
            f"The page would be {size / 1e6:.1f} MB with its {photos} photos; at most {MOST_BYTES / 1e6:.0f} MB "
            "go through most mailboxes (common practice). Choose fewer photos, or share one operation. Nothing was "
            "written."
        )


@dataclass(frozen=True, slots=True)
class PhotoShown:
    """A photo as it stands in the file: the picture as text, its size, and how large its pins are."""

    address: str
    width: int
    height: int
    of: SharedPhoto

    @property
    def radius(self) -> int:
        """Of a pin, so that it is seen on a phone."""
        return round(max(self.width, self.height) * 0.024)


@dataclass(frozen=True, slots=True)
class StepShown:
    """A step with its drawing and its photo as they stand in the file."""

    of: Step
    svg: Markup | None
    sketch: Sketch | None
    photo: PhotoShown | None


@dataclass(frozen=True, slots=True)
class DayShown:
    """A day with its steps."""

    when: str
    steps: tuple[StepShown, ...]


def shared_html(bench: Bench, page: SharedPage) -> bytes:
    """The whole file, UTF-8; the same page of the same book gives the same bytes.

    Errors: `SharedTooLarge` above 10 MB, `PhotoNotWhole` for a photo that is missing or altered.
    """
    days, number = [], 0
    for day in page.days:
        steps = []
        for step in day.steps:
            number += 1
            steps.append(_shown(bench, step, number=number))
        days.append(DayShown(day.when, tuple(steps)))
    text = (
        environment()
        .get_template("shared_file.html")
        .render(page=page, days=days, policy=POLICY, style=_style())
    )
    made = text.encode()
    if len(made) > MOST_BYTES:
        raise SharedTooLarge(len(made), len(page.photos))
    return made


def shared_name(of: str) -> str:
    """What the file is called: what is shared, and nothing of the book."""
    return f"shared-{re.sub(r'[^A-Za-z0-9_-]+', '-', of).strip('-') or 'page'}.html"


@lru_cache(maxsize=1)
def _style() -> Markup:
    """The style as an element of the file: it is given away alone, and no policy of ours goes with it."""
    css = resources.files("gudgeon.web").joinpath("static", "shared.css").read_text(encoding="utf-8")
    return Markup(f"<style>\n{css}</style>")


def _shown(bench: Bench, step: Step, *, number: int) -> StepShown:
    drawn, bolts = step.drawn, None
    if isinstance(drawn, Pattern):
        bolts, drawn = sketch(drawn), None
    svg = _inline(drawn, mark=f"drawing-{number}") if drawn is not None else None
    photo = _photo(bench, step.photo) if step.photo is not None else None
    return StepShown(step, svg, bolts, photo)


def _inline(drawn: Drawn, *, mark: str) -> Markup:
    """A drawing as part of a page: names within it are its own, and it names no other place."""
    if isinstance(drawn, Pattern):
        raise TypeError("the bolts of a joint are drawn by the template")
    svg = cut_svg(drawn) if isinstance(drawn, CutPicture) else picture_svg(drawn)
    svg = re.sub(r' xmlns="[^"]*"', "", svg, count=1)
    svg = re.sub(r' id="([^"]*)"', rf' id="{mark}-\1"', svg)
    svg = re.sub(r"url\(#([^)]*)\)", rf"url(#{mark}-\1)", svg)
    svg = re.sub(
        r' aria-labelledby="([^"]*)"',
        lambda found: f' aria-labelledby="{" ".join(f"{mark}-{one}" for one in found[1].split())}"',
        svg,
    )
    return Markup(svg)


def _photo(bench: Bench, photo: SharedPhoto) -> PhotoShown:
    found = photo_shown(bench, photo.sha)
    if found is None:
        raise PhotoNotWhole(photo.number, "it is missing or altered")
    small = smaller(found.content, name=f"entry {photo.number}")
    address = f"data:image/jpeg;base64,{b64encode(small.content).decode('ascii')}"
    return PhotoShown(address, small.width, small.height, photo)

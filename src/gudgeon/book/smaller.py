"""A photo made smaller for what is given away: pixels alone, as a JPEG, no larger than a screen shows."""

import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.book.picture_errors import NotAPhoto, PhotoDamaged
from gudgeon.book.pictures import picture_type

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_SIDE = 1280
"""Of the longer side, in pixels: as much as a phone or half a printed page shows."""
QUALITY = 80
"""On the scale of the coder, where 100 is the finest."""


@dataclass(frozen=True, slots=True)
class Smaller:
    """A JPEG and its size in pixels; nothing stands in it but the picture."""

    content: bytes
    width: int
    height: int


def smaller(content: bytes, *, most_side: int = MOST_SIDE, name: str = "") -> Smaller:
    """A photo of the book made smaller; the same photo gives the same bytes.

    It is decoded and coded anew, so that nothing of its file comes along: no notes of a camera, no profile, no preview.
    Errors: `NotAPhoto` for another file, `PhotoDamaged` for one that cannot be decoded to its end.
    """
    from PIL.Image import open as read_image

    found = picture_type(content)
    if found is None:
        raise NotAPhoto(name)
    try:
        with read_image(io.BytesIO(content), formats=(found.upper(),)) as image:
            image.load()
            plain = _on_white(image)
    except Exception as error:  # noqa: BLE001  (on content made to harm, a decoder fails in any way)
        raise PhotoDamaged(name, str(error)[:200] or type(error).__name__) from None
    plain.thumbnail((most_side, most_side))
    plain.info = {}
    anew = io.BytesIO()
    plain.save(anew, "JPEG", quality=QUALITY)
    return Smaller(anew.getvalue(), plain.width, plain.height)


def _on_white(image: "Image") -> "Image":
    """The picture in plain colors; what is seen through is white, as on paper."""
    from PIL import Image

    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        over = image.convert("RGBA")
        ground = Image.new("RGBA", over.size, "white")
        ground.alpha_composite(over)
        return ground.convert("RGB")
    if image.mode == "I;16":  # sixteen bits of gray, of which a screen shows the upper eight
        return image.point(lambda value: value / 256).convert("L").convert("RGB")
    return image.convert("RGB")

"""Photos as they are printed: scaled to what paper shows, several at a time, from files that are as they were taken.

The photo in the folder is never touched; a print holds a smaller copy of it.
"""

import io
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from os import cpu_count
from pathlib import Path

from gudgeon.book.photo_folder import photo_content
from gudgeon.book.tell import Tell, silent


@dataclass(frozen=True, slots=True)
class Sides:
    """The longer side of a printed photo [pixels]: what is decoded smaller stays as large as `enough`."""

    enough: int
    most: int


FEW, MANY = Sides(1000, 1600), Sides(700, 1000)
"""As they stand on paper 1000 pixels are 200 to the inch: more than a home printer shows."""
MOST_OF_FEW = 60
"""A book of more photos than this is printed with smaller ones."""
QUALITY = 80
"""Of the JPEG on paper, on the scale of its coder, where 100 is the finest."""
_ON_PAPER = (255, 255, 255)


@dataclass(frozen=True, slots=True)
class PrintedPhoto:
    """A photo as it is put into a print: a JPEG, its size in pixels."""

    content: bytes
    width: int
    height: int


def printed_photos(folder: Path, shas: Sequence[str], *, tell: Tell = silent) -> Mapping[str, PrintedPhoto]:
    """The photos by their hashes, as they are printed; one whose file is gone or altered is left out."""
    sides = sides_of(len(shas))
    found: dict[str, PrintedPhoto] = {}
    with ThreadPoolExecutor(min(4, cpu_count() or 1)) as hands:
        for number, (sha, photo) in enumerate(
            zip(shas, _made(hands, folder, shas, sides), strict=True), start=1
        ):
            tell(f"photo {number} of {len(shas)}")
            if photo is not None:
                found[sha] = photo
    return found


def sides_of(photos: int) -> Sides:
    """How large each photo is in a print of so many."""
    return FEW if photos <= MOST_OF_FEW else MANY


def _made(
    hands: ThreadPoolExecutor, folder: Path, shas: Sequence[str], sides: Sides
) -> Iterator[PrintedPhoto | None]:
    """A few at a time, so that neither memory nor an end that is asked for has to wait for all of them."""
    waiting = [hands.submit(_one, folder, sha, sides) for sha in shas]
    try:
        for one in waiting:
            yield one.result()
    finally:
        for one in waiting:
            one.cancel()


def _one(folder: Path, sha: str, sides: Sides) -> PrintedPhoto | None:
    found = photo_content(folder, sha)
    return scaled(found[0], sides) if found is not None else None


def scaled(content: bytes, sides: Sides) -> PrintedPhoto:
    """A photo no larger than it may be at its longer side, without transparency.

    A JPEG is decoded at a half, a quarter or an eighth of its size where that is large enough: most of its pixels
    are never made.
    """
    from PIL import Image
    from PIL.Image import open as opened

    with opened(io.BytesIO(content)) as image:
        if image.format == "JPEG":
            image.draft(None, _fitted(image.size, sides.enough))
        plain: Image.Image = image
        if image.mode in ("LA", "PA", "RGBA") or "transparency" in image.info:
            over = image.convert("RGBA")
            plain = Image.new("RGB", over.size, _ON_PAPER)
            plain.paste(over, mask=over.getchannel("A"))
        elif image.mode not in ("L", "RGB"):
            plain = image.convert("RGB")
        if max(plain.size) > sides.most:
            plain = plain.resize(_fitted(plain.size, sides.most), Image.Resampling.BILINEAR, reducing_gap=2.0)
        file = io.BytesIO()
        profile = image.info.get("icc_profile")
        plain.save(file, "JPEG", quality=QUALITY, **({"icc_profile": profile} if profile else {}))
        return PrintedPhoto(file.getvalue(), plain.width, plain.height)


def _fitted(size: tuple[int, int], longest: int) -> tuple[int, int]:
    """A size in the same shape, no side longer than allowed, none shorter than one."""
    wide, high = size
    share = min(1.0, longest / max(wide, high))
    return max(1, round(wide * share)), max(1, round(high * share))

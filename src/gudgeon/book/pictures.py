"""A photo as it is kept: checked by decoding it to its end, turned upright, and written anew.

Nothing of the file that came is copied but its pixels, the profile of its colors, and the hour that the camera wrote:
so no place where it was taken, no name, no small picture of the whole, nothing behind the end can come along. A JPEG is
coded anew and loses a little by it; PNG keeps its pixels, at 8 bits a color; WebP keeps them where it kept them before.
"""

import io
import re
import warnings
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from gudgeon.book.archive import MOST_PHOTO_BYTES, PHOTO_ENDINGS
from gudgeon.book.picture_errors import (
    MOST_BYTES,
    MOST_PIXELS,
    MOST_SIDE,
    NotAPhoto,
    PhotoDamaged,
    PhotoEmpty,
    PhotoIsHeic,
    PhotoMoves,
    PhotoTooLarge,
    PhotoTooLargeAnew,
    PhotoTooManyPixels,
)

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageFile import ImageFile

PictureType = Literal["jpeg", "png", "webp"]
CONTENT_TYPES = {"jpg": "image/jpeg", "png": "image/png", "webp": "image/webp"}
QUALITY = 92
"""Of a JPEG that is written anew, on the scale of its coder, where 100 is the finest."""
_MOST_PROFILE = 256 * 1024
_HEIC = (b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1")
_END_OF_PNG = b"IEND\xae\x42\x60\x82"
_ORIENTATION, _DETAILS, _HOUR, _OFFSET = 0x0112, 0x8769, 0x9003, 0x9011
_WRITTEN_HOUR = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)", re.ASCII)


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo that was checked and cleaned; `taken` is the hour that the camera wrote, empty where it wrote none."""

    content: bytes
    type: PictureType
    width: int
    height: int
    taken: str

    @property
    def sha(self) -> str:
        """The hash that it is kept under."""
        return sha256(self.content).hexdigest()

    @property
    def ending(self) -> str:
        """How the name of its file ends."""
        return PHOTO_ENDINGS[self.type]


def picture_type(content: bytes) -> PictureType | None:
    """The type of a photo by its first bytes, never by its name; nothing for anything else."""
    if content.startswith(b"\xff\xd8\xff"):
        return "jpeg"
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "webp"
    return None


def read_picture_file(file: Path) -> bytes:
    """The content of a file, looked at for its size first."""
    if file.stat().st_size > MOST_BYTES:
        raise PhotoTooLarge(file.name, file.stat().st_size)
    return file.read_bytes()


def clean_picture(content: bytes, *, name: str = "") -> Picture:
    """A photo checked and written anew; the same file gives the same bytes."""
    if not content:
        raise PhotoEmpty(name)
    if len(content) > MOST_BYTES:
        raise PhotoTooLarge(name, len(content))
    found = picture_type(content)
    if found is None:
        raise PhotoIsHeic(name) if content[4:8] == b"ftyp" and content[8:12] in _HEIC else NotAPhoto(name)
    if found == "png" and _END_OF_PNG not in content:  # its decoder is content with the pixels alone
        raise PhotoDamaged(name, "its end is missing")
    try:
        image = _opened(content, found)
    except Exception as error:  # noqa: BLE001  (on content made to harm, a decoder fails in any way)
        raise _refused(error, name) from None
    _look_at_size(image, name)
    try:
        image.load()
        said, turn = _said_by_camera(image)
        upright = _plain(image, turn)
        anew = _written(
            upright, found, profile=_profile(image, upright), lossless=b"VP8L" in _chunks(content)
        )
    except Exception as error:  # noqa: BLE001  (as above)
        raise _refused(error, name) from None
    if len(anew) > MOST_PHOTO_BYTES:
        raise PhotoTooLargeAnew(name, len(anew), MOST_PHOTO_BYTES)
    return Picture(anew, found, upright.width, upright.height, said)


def _opened(content: bytes, found: PictureType) -> "ImageFile":
    """The first picture of a file. What a JPEG holds behind its end, a preview or a second exposure, is not seen."""
    warnings.filterwarnings(
        "ignore", module=r"PIL\."
    )  # of broken notes beside good pixels, which are left behind
    if found == "jpeg":
        from PIL.JpegImagePlugin import JpegImageFile

        return JpegImageFile(io.BytesIO(content))
    if found == "png":
        from PIL.PngImagePlugin import PngImageFile

        return PngImageFile(io.BytesIO(content))
    from PIL.WebPImagePlugin import WebPImageFile

    return WebPImageFile(io.BytesIO(content))


def _refused(error: Exception, name: str) -> PhotoDamaged | PhotoTooManyPixels:
    from PIL.Image import DecompressionBombError

    if isinstance(error, DecompressionBombError):
        return PhotoTooManyPixels(name, "far too many pixels")
    if isinstance(error, MemoryError):
        return PhotoTooManyPixels(name, "more pixels than this machine can hold")
    return PhotoDamaged(name, str(error)[:200] or type(error).__name__)


def _look_at_size(image: "ImageFile", name: str) -> None:
    """Its size stands before its pixels: what is too large, or more than one, is never decoded."""
    width, height = image.size
    if width * height > MOST_PIXELS or max(width, height) > MOST_SIDE:
        raise PhotoTooManyPixels(name, f"{width} × {height} pixels")
    pictures = getattr(image, "n_frames", 1)
    if pictures != 1 or getattr(image, "is_animated", False):
        raise PhotoMoves(name, pictures)


def _said_by_camera(image: "ImageFile") -> tuple[str, int]:
    """The hour that the camera wrote, and how the picture is to be turned; nothing where that cannot be read."""
    details: Any = {}
    turn: Any = 1
    with suppress(Exception):  # what stands beside a good picture may be anything
        said = image.getexif()
        turn = said.get(_ORIENTATION, 1)
        details = said.get_ifd(_DETAILS)
    return _hour(details.get(_HOUR), details.get(_OFFSET)), turn if isinstance(turn, int) else 1


def _hour(said: object, offset: object) -> str:
    found = _WRITTEN_HOUR.fullmatch(said.strip("\0 ")) if isinstance(said, str) else None
    if found is None:
        return ""
    year, month, day, time = found.groups()
    zone = offset.strip("\0 ") if isinstance(offset, str) else ""
    for text in (f"{year}-{month}-{day}T{time}{zone}", f"{year}-{month}-{day}T{time}"):
        with suppress(ValueError):
            return datetime.fromisoformat(text).isoformat()
    return ""


def _plain(image: "ImageFile", turn: int) -> "Image":
    """The pixels alone, upright, in a form that its type can be written in."""
    from PIL.Image import Transpose

    plain: Image = image
    if "transparency" in image.info and image.mode in ("1", "L", "P", "RGB"):
        plain = image.convert("RGBA")
    elif image.format == "JPEG" and image.mode not in ("L", "RGB"):
        plain = image.convert("RGB")
    turns = {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }
    plain = plain.transpose(turns[turn]) if turn in turns else plain.copy()
    plain.info = {}
    return plain


def _profile(image: "ImageFile", upright: "Image") -> bytes | None:
    """How the colors are meant, where that says nothing but that, and still belongs to these pixels."""
    profile = image.info.get("icc_profile")
    if not isinstance(profile, bytes) or not 128 < len(profile) <= _MOST_PROFILE or image.mode == "CMYK":
        return None
    sound = int.from_bytes(profile[:4], "big") == len(profile) and profile[36:40] == b"acsp"
    gray = profile[16:20] == b"GRAY"
    return profile if sound and gray == (upright.mode in ("1", "L", "LA", "I;16")) else None


def _written(upright: "Image", found: PictureType, *, profile: bytes | None, lossless: bool) -> bytes:
    anew = io.BytesIO()
    options: dict[str, Any] = {"icc_profile": profile} if profile else {}
    if found == "jpeg":
        upright.save(anew, "JPEG", quality=QUALITY, **options)
    elif found == "png":
        upright.save(anew, "PNG", **options)
    else:
        upright.save(anew, "WEBP", quality=QUALITY, lossless=lossless, exact=lossless, **options)
    return anew.getvalue()


def _chunks(content: bytes) -> set[bytes]:
    """The names of the parts of a WebP file; of another file, nothing that matters."""
    names, at = set[bytes](), 12
    while at + 8 <= len(content) and len(names) < 16:
        names.add(content[at : at + 4])
        size = int.from_bytes(content[at + 4 : at + 8], "little")
        at += 8 + size + size % 2
    return names

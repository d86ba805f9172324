"""Pictures for the tests, made by Pillow: what cameras write beside them, and what is no picture."""

import io
import struct
import zipfile
from typing import Any

from PIL import Image, PngImagePlugin
from PIL.TiffImagePlugin import IFDRational

LATITUDE, LONGITUDE = "47.4979", "19.0402"
"""A place, made up for the tests, as it is looked for in what is kept."""
DEGREES = ((47, 1), (29, 1), (52_43, 100)), ((19, 1), (2, 1), (24_71, 100))
"""The same place as EXIF has it: degrees, minutes, seconds (HAND: 0.4979 · 60 = 29.874, 0.874 · 60 = 52.4)."""
RATIONALS = tuple(struct.pack(order, *part[2]) for part in DEGREES for order in ("<LL", ">LL"))
"""The seconds as they stand in the file; degrees alone could stand in any file."""
XMP = (
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    '<rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" '
    f'exif:GPSLatitude="{LATITUDE}" exif:GPSLongitude="{LONGITUDE}"/></rdf:RDF></x:xmpmeta>'
).encode()


def drawn(size: tuple[int, int] = (64, 48), *, mode: str = "RGB") -> Image.Image:
    """A picture whose corners differ: red, green, blue, white, clockwise from the top left."""
    width, height = size
    image = Image.new("RGB", size)
    for box, color in (
        ((0, 0, width // 2, height // 2), (250, 10, 10)),
        ((width // 2, 0, width, height // 2), (10, 250, 10)),
        ((width // 2, height // 2, width, height), (10, 10, 250)),
        ((0, height // 2, width // 2, height), (250, 250, 250)),
    ):
        image.paste(color, box)
    return image.convert(mode)


def saved(image: Image.Image, form: str, **options: Any) -> bytes:
    """The bytes of a picture."""
    file = io.BytesIO()
    image.save(file, form, **options)
    return file.getvalue()


def exif(*, place: bool = True, orientation: int | None = None, taken: str | None = None) -> bytes:
    """What a phone writes: the place, how it was held, when it was taken, and a small picture (Exif 2.3, MEMORY)."""
    said = Image.Exif()
    said[0x010F] = "Maker of phones"
    if orientation is not None:
        said[0x0112] = orientation
    details = said.get_ifd(0x8769)
    details[0x927C] = b"notes of the maker"
    if taken is not None:
        details[0x9003] = taken
    if place:
        said[0x8825] = {
            1: "N", 2: tuple(IFDRational(*one) for one in DEGREES[0]),
            3: "E", 4: tuple(IFDRational(*one) for one in DEGREES[1]),
        }  # fmt: skip
    return said.tobytes()


def with_place(form: str) -> bytes:
    """A picture that says where it was taken, wherever its format has room for that."""
    options: dict[str, Any] = {"exif": exif(taken="2026:03:07 09:15:30"), "xmp": XMP}
    if form == "JPEG":
        options["comment"] = f"taken at {LATITUDE} {LONGITUDE}"
    if form == "PNG":
        notes = PngImagePlugin.PngInfo()
        notes.add_text("Comment", f"taken at {LATITUDE} {LONGITUDE}")
        notes.add_itxt("XML:com.adobe.xmp", XMP.decode())
        notes.add_text("Place", f"{LATITUDE} {LONGITUDE}", zip=True)
        options = {"exif": options["exif"], "pnginfo": notes}
    return saved(drawn(), form, **options)


def zipped(text: str) -> bytes:
    """An archive, as it may hang behind the end of a picture."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("run.sh", text)
    return file.getvalue()


JPEG = saved(drawn(), "JPEG", quality=80)
PNG = saved(drawn(), "PNG")
WEBP = saved(drawn(), "WEBP")
PICTURES = {"jpeg": JPEG, "png": PNG, "webp": WEBP}
NO_PHOTOS = {
    "page.svg": b"<svg xmlns='http://www.w3.org/2000/svg' onload='x()'/>",
    "page.html.jpg": b"<!doctype html><script>x()</script>",
    "text.jpg": b"I am a text and no photo.\n",
    "page.pdf": b"%PDF-1.7",
    "page.gif": saved(drawn(), "GIF"),
    "page.tiff": saved(drawn(), "TIFF"),
    "sound.webp": b"RIFF\x1a\x00\x00\x00WAVEfmt ",
    "short.jpg": b"\xff\xd8",
    "film.mp4": b"\x00\x00\x00\x18ftypmp42\x00\x00\x00\x00mp42isom",
}
"""What is none, by the beginnings of their formats (MEMORY)."""
HEIC = b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic" + bytes(64)

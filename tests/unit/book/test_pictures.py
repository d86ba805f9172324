"""A photo is checked by decoding it, and written anew without anything but its pixels.

The pictures are made with Pillow; what is kept is looked at byte by byte, by the markers of JPEG (ISO/IEC 10918-1), the
chunks of PNG (ISO/IEC 15948) and of WebP (RFC 9649), from MEMORY.
"""

import io
import struct
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageCms

from gudgeon.book import pictures
from gudgeon.book.picture_errors import (
    MOST_BYTES,
    NotAPhoto,
    PhotoDamaged,
    PhotoEmpty,
    PhotoIsHeic,
    PhotoMoves,
    PhotoTooLarge,
    PhotoTooLargeAnew,
    PhotoTooManyPixels,
)
from gudgeon.book.pictures import Picture, clean_picture, read_picture_file
from tests.unit.book.photos import (
    HEIC,
    JPEG,
    LATITUDE,
    LONGITUDE,
    NO_PHOTOS,
    PICTURES,
    PNG,
    RATIONALS,
    WEBP,
    drawn,
    exif,
    saved,
    with_place,
    zipped,
)

MAY = "A photo may be JPEG, PNG or WebP of at most 30 MB and 80 megapixels"


def decoded(picture: Picture) -> Image.Image:
    image = Image.open(io.BytesIO(picture.content))
    image.load()
    return image


def parts(picture: Picture) -> set[str]:
    """The names of everything that stands in a file."""
    walk = {"jpeg": _markers, "png": _png_chunks, "webp": _webp_chunks}[picture.type]
    return set(walk(picture.content))


def _markers(content: bytes) -> Iterator[str]:
    at = 2
    while content[at + 1] != 0xDA:  # the scan
        size = int.from_bytes(content[at + 2 : at + 4], "big")
        yield f"{content[at + 1]:02X}"
        at += 2 + size
    assert content[:2] == b"\xff\xd8"
    assert content[-2:] == b"\xff\xd9"
    assert content.count(b"\xff\xd9") == 1  # within a scan FF is followed by 00


def _png_chunks(content: bytes) -> Iterator[str]:
    at = 8
    while at < len(content):
        size = int.from_bytes(content[at : at + 4], "big")
        yield content[at + 4 : at + 8].decode()
        at += 12 + size
    assert at == len(content)
    assert content.endswith(b"IEND\xaeB`\x82")


def _webp_chunks(content: bytes) -> Iterator[str]:
    assert int.from_bytes(content[4:8], "little") + 8 == len(content)
    at = 12
    while at < len(content):
        size = int.from_bytes(content[at + 4 : at + 8], "little")
        yield content[at : at + 4].decode()
        at += 8 + size + size % 2


PLAIN = {
    "jpeg": {"E0", "DB", "C0", "C4"},
    "png": {"IHDR", "IDAT", "IEND"},
    "webp": {"VP8 "},
}
"""JFIF, quantization, frame, Huffman; header, pixels, end; pixels: what a picture cannot do without."""


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_nothing_of_the_place_survives(form: str) -> None:
    taken = with_place(form)
    assert b"GPSLatitude" in taken  # the test is of a picture that does say it
    assert any(one in taken for one in RATIONALS)
    kept = clean_picture(taken)
    for one in (LATITUDE, LONGITUDE, "GPS", "Exif", "exif", "adobe", "Maker", "maker", "rdf"):
        assert one.encode() not in kept.content
    assert not any(one in kept.content for one in RATIONALS)
    assert parts(kept) == PLAIN[kept.type]
    image = decoded(kept)
    assert dict(image.getexif()) == {}
    assert not {"exif", "xmp", "comment", "Comment", "Place", "XML:com.adobe.xmp"} & set(image.info)
    assert kept.taken == "2026-03-07T09:15:30"


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_the_small_picture_and_the_rest_behind_the_end_are_gone(form: str) -> None:
    secret = "a shell script that nobody asked for"
    plain = saved(drawn(), form)
    kept = clean_picture(plain + zipped(secret) + b"47.4979")
    assert kept == clean_picture(plain)
    assert b"PK\x03\x04" not in kept.content
    assert secret.encode() not in kept.content
    assert parts(kept) == PLAIN[kept.type]


def test_a_second_picture_behind_the_first_is_left_behind() -> None:
    """Phones put a preview or a second exposure behind a JPEG (the multi-picture format): the photo is the first."""
    both = saved(drawn(), "MPO", save_all=True, append_images=[drawn((32, 24))])
    assert Image.open(io.BytesIO(both)).format == "MPO"
    kept = clean_picture(both)
    assert (kept.type, kept.width, kept.height) == ("jpeg", 64, 48)
    assert parts(kept) == PLAIN["jpeg"]


CORNERS = {"red": (250, 10, 10), "green": (10, 250, 10), "blue": (10, 10, 250), "white": (250, 250, 250)}
# How a stored picture is to be turned so that it stands upright, by the orientation of Exif 2.3 (MEMORY):
# 1 as it is, 2 mirrored, 3 half a turn, 4 upside down mirrored, 5 transposed, 6 a quarter clockwise, 7 transverse,
# 8 a quarter counterclockwise. HAND: where red, green, blue, white (clockwise from the top left) come to lie.
TURNED = {
    1: ("red", "green", "blue", "white"),
    2: ("green", "red", "white", "blue"),
    3: ("blue", "white", "red", "green"),
    4: ("white", "blue", "green", "red"),
    5: ("red", "white", "blue", "green"),
    6: ("white", "red", "green", "blue"),
    7: ("blue", "green", "red", "white"),
    8: ("green", "blue", "white", "red"),
}


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", TURNED)
def test_a_photo_is_kept_upright(form: str, orientation: int) -> None:
    kept = clean_picture(saved(drawn(), form, exif=exif(orientation=orientation), quality=95))
    size = (64, 48) if orientation < 5 else (48, 64)
    assert (kept.width, kept.height) == size
    image = decoded(kept).convert("RGB")
    assert image.size == size
    right, low = size[0] - 8, size[1] - 8
    for name, place in zip(TURNED[orientation], ((8, 8), (right, 8), (right, low), (8, low)), strict=True):
        pixel: Any = image.getpixel(place)
        assert max(abs(a - b) for a, b in zip(pixel, CORNERS[name], strict=True)) < 30, name


@pytest.mark.parametrize("name", PICTURES)
def test_every_type_is_told_by_its_content_and_gives_the_same_bytes_each_time(name: str) -> None:
    kept = clean_picture(PICTURES[name], name="holiday.gif")
    assert kept.type == name
    assert (kept.width, kept.height, kept.taken) == (64, 48, "")
    assert decoded(kept).size == (64, 48)
    assert clean_picture(PICTURES[name], name="other.txt") == kept
    assert kept.ending == {"jpeg": "jpg"}.get(name, name)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_a_png_keeps_every_pixel(mode: str) -> None:
    image = Image.new("I;16", (40, 30), 40_000) if mode == "I;16" else drawn((40, 30), mode=mode)
    kept = decoded(clean_picture(saved(image, "PNG")))
    same = "L" if mode == "1" else "RGBA"
    if mode == "I;16":
        assert kept.getpixel((3, 3)) == 40_000
    else:
        assert kept.convert(same).tobytes() == image.convert(same).tobytes()


def test_a_transparent_palette_keeps_its_pixels() -> None:
    image = drawn(mode="P")
    content = saved(image, "PNG", transparency=0)
    before = Image.open(io.BytesIO(content)).convert("RGBA")
    assert decoded(clean_picture(content)).convert("RGBA").tobytes() == before.tobytes()


def test_a_webp_without_loss_stays_so() -> None:
    kept = clean_picture(saved(drawn(), "WEBP", lossless=True))
    assert parts(kept) == {"VP8L"}
    assert decoded(kept).convert("RGB").tobytes() == drawn().tobytes()


def test_a_jpeg_of_a_printer_is_kept_in_the_colors_of_a_screen() -> None:
    kept = clean_picture(saved(drawn(mode="CMYK"), "JPEG", quality=95))
    assert decoded(kept).mode == "RGB"
    pixel: Any = decoded(kept).getpixel((8, 8))
    assert max(abs(a - b) for a, b in zip(pixel, CORNERS["red"], strict=True)) < 30


def test_a_profile_of_colors_stays_and_what_only_looks_like_one_does_not() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    kept = clean_picture(saved(drawn(), "JPEG", icc_profile=profile))
    assert decoded(kept).info["icc_profile"] == profile
    assert parts(kept) == PLAIN["jpeg"] | {"E2"}
    told = f"taken at {LATITUDE}".encode() * 20
    assert LATITUDE.encode() not in clean_picture(saved(drawn(), "JPEG", icc_profile=told)).content
    behind = profile + told  # longer than it says of itself
    assert LATITUDE.encode() not in clean_picture(saved(drawn(), "JPEG", icc_profile=behind)).content


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("2026:03:07 09:15:30", "2026-03-07T09:15:30"),
        ("0000:00:00 00:00:00", ""),
        ("2026:13:45 09:15:30", ""),
        (f"{LATITUDE} {LONGITUDE}", ""),
        ("    :  :     :  :  ", ""),
    ],
)
def test_the_hour_of_the_camera_is_kept_and_nothing_else_that_stands_there(said: str, kept: str) -> None:
    assert clean_picture(saved(drawn(), "JPEG", exif=exif(taken=said))).taken == kept


def test_what_stands_beside_a_picture_may_be_broken() -> None:
    kept = clean_picture(saved(drawn(), "JPEG", exif=b"Exif\x00\x00II*\x00\xff\xff\xff\x7f broken"))
    assert kept.content == clean_picture(saved(drawn(), "JPEG")).content


@pytest.mark.parametrize("name", NO_PHOTOS)
def test_what_is_no_photo_is_refused_whatever_its_name(name: str) -> None:
    with pytest.raises(NotAPhoto) as refused:
        clean_picture(NO_PHOTOS[name], name=name)
    assert str(refused.value) == (
        f"`{name}` is not taken: its content is no photo that pages can show, whatever its name says. {MAY}; "
        "nothing was written."
    )


def test_an_empty_file_is_refused() -> None:
    with pytest.raises(PhotoEmpty) as refused:
        clean_picture(b"", name="IMG_1.JPG")
    assert str(refused.value) == (
        "`IMG_1.JPG` is empty: there is no photo in it. Copy it from the camera again; nothing was written."
    )


def test_a_heic_picture_is_refused_in_words_that_help() -> None:
    with pytest.raises(PhotoIsHeic) as refused:
        clean_picture(HEIC, name="IMG_2.jpg")
    assert str(refused.value) == (
        "`IMG_2.jpg` is not taken: it is a HEIC picture, which most browsers do not show. Let the phone save JPEG: in "
        "the settings of its camera choose the most compatible format, or switch “high efficiency” off; a picture that "
        f"is taken already can be exported or sent as JPEG. {MAY}; nothing was written."
    )


@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_moving_pictures_are_refused(form: str) -> None:
    moving = saved(drawn(), form, save_all=True, append_images=[drawn().rotate(90), drawn().rotate(180)])
    with pytest.raises(PhotoMoves) as refused:
        clean_picture(moving, name="clip")
    assert str(refused.value) == (
        "`clip` is not taken: it holds 3 pictures that follow each other, and which of them would be the proof? "
        "Save the one that shows it as a photo of its own; nothing was written."
    )


@pytest.mark.parametrize("content", [JPEG, PNG, WEBP], ids=["jpeg", "png", "webp"])
def test_a_photo_cut_off_anywhere_is_refused(content: bytes) -> None:
    for length in {*range(20, len(content), 37), *range(len(content) - 20, len(content))}:
        with pytest.raises(
            PhotoDamaged, match=r"^`cut` cannot be decoded to its end \(.+\): it is cut off or damaged\. "
        ):
            clean_picture(content[:length], name="cut")


def _header_of_png(width: int, height: int) -> bytes:
    """A PNG of very few bytes that would take very many when it is decoded."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">L", len(body)) + kind + body + struct.pack(">L", zlib.crc32(kind + body))

    packed = zlib.compress(bytes(1_000_000))
    header = struct.pack(">LLBBBBB", width, height, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


@pytest.mark.parametrize(("width", "height"), [(50_000, 50_000), (8_001, 10_000), (80_000, 2)])
def test_a_bomb_is_refused_before_it_is_decoded(
    width: int, height: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    def decode(image: object) -> None:
        raise AssertionError("it was decoded")

    monkeypatch.setattr("PIL.PngImagePlugin.PngImageFile.load", decode)
    with pytest.raises(PhotoTooManyPixels) as refused:
        clean_picture(_header_of_png(width, height), name="bomb.png")
    assert str(refused.value) == (
        f"`bomb.png` has {width} × {height} pixels. {MAY}, and 65535 pixels along a side: "
        "take it at a lower resolution. Nothing was written."
    )


def test_a_webp_bomb_is_refused_before_its_canvas_is_made() -> None:
    canvas = (16_383 - 1).to_bytes(3, "little")
    body = b"WEBPVP8X" + struct.pack("<L", 10) + b"\x02\x00\x00\x00" + canvas + canvas + bytes(400)
    with pytest.raises(PhotoTooManyPixels, match=r"^`b` has far too many pixels\. A photo may be"):
        clean_picture(b"RIFF" + struct.pack("<L", len(body)) + body, name="b")


def test_a_text_that_swells_is_no_way_in() -> None:
    swelling = zlib.compress(bytes(80_000_000))
    chunk = b"zTXtnote\0\0" + swelling
    packed = struct.pack(">L", len(chunk) - 4) + chunk + struct.pack(">L", zlib.crc32(chunk))
    with pytest.raises(PhotoDamaged, match="cannot be decoded to its end"):
        clean_picture(PNG[:33] + packed + PNG[33:], name="n")


def test_thirty_megabytes_are_taken_and_one_byte_more_is_not(tmp_path: Path) -> None:
    largest = JPEG + bytes(MOST_BYTES - len(JPEG))
    assert clean_picture(largest).content == clean_picture(JPEG).content
    said = f"`big.jpg` has 30.0 MB. {MAY}: take it at a lower resolution. Nothing was written."
    with pytest.raises(PhotoTooLarge) as refused:
        clean_picture(largest + b"0", name="big.jpg")
    assert str(refused.value) == said
    file = tmp_path / "big.jpg"
    file.write_bytes(largest)
    assert read_picture_file(file) == largest
    file.write_bytes(largest + b"0")
    with pytest.raises(PhotoTooLarge) as refused:
        read_picture_file(file)
    assert str(refused.value) == said


def test_what_would_grow_beyond_what_a_book_keeps_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_PHOTO_BYTES", 100)
    with pytest.raises(PhotoTooLargeAnew) as refused:
        clean_picture(JPEG, name="x")
    assert str(refused.value) == (
        "`x` would have 0.0 MB when it is written anew without what the camera put beside the picture, and a book "
        "keeps at most 0.0 MB of one. Take it at a lower resolution, or save it as JPEG. Nothing was written."
    )

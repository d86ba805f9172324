"""A photo made smaller to be given away: pixels alone, the same each time, seen as it was."""

import io

import pytest
from PIL import Image

from gudgeon.book.picture_errors import NotAPhoto, PhotoDamaged
from gudgeon.book.pictures import clean_picture
from gudgeon.book.smaller import MOST_SIDE, smaller
from tests.unit.book.photos import LATITUDE, NO_PHOTOS, PICTURES, RATIONALS, drawn, saved, with_place


@pytest.mark.parametrize("form", ["jpeg", "png", "webp"])
def test_nothing_but_pixels_comes_along(form: str) -> None:
    """Also of a file that was put into the folder past the book."""
    made = smaller(with_place(form.upper()))
    with Image.open(io.BytesIO(made.content)) as image:
        assert image.format == "JPEG"
        assert image.getexif() == {}
        assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    for hidden in (LATITUDE.encode(), *RATIONALS, b"Maker", b"Exif", b"xmp"):
        assert hidden not in made.content


@pytest.mark.parametrize(
    ("size", "kept"),
    [((2600, 1900), (MOST_SIDE, 935)), ((1900, 2600), (935, MOST_SIDE)), ((64, 48), (64, 48))],
)  # HAND: 1900 · 1280 / 2600 = 935.4
def test_it_is_no_larger_than_asked_for_and_never_made_larger(
    size: tuple[int, int], kept: tuple[int, int]
) -> None:
    made = smaller(saved(drawn(size), "JPEG", quality=90))
    assert (made.width, made.height) == kept


@pytest.mark.parametrize("mode", ["RGB", "L", "RGBA", "P", "I;16", "LA", "1"])
def test_every_form_of_colors_that_is_kept_is_shown(mode: str) -> None:
    picture = Image.new("I;16", (64, 48), 65535) if mode == "I;16" else drawn(mode=mode)
    made = smaller(clean_picture(saved(picture, "PNG")).content)
    with Image.open(io.BytesIO(made.content)) as image:
        corner = image.convert("L").getpixel((2, 45))  # bottom left: white
    assert isinstance(corner, int | float)
    assert corner > 200


def test_what_is_seen_through_is_white() -> None:
    clear = Image.new("RGBA", (20, 20), (0, 0, 0, 0))
    with Image.open(io.BytesIO(smaller(saved(clear, "PNG")).content)) as image:
        assert image.convert("RGB").getpixel((10, 10)) == (255, 255, 255)


def test_the_same_photo_gives_the_same_bytes() -> None:
    assert smaller(PICTURES["jpeg"]) == smaller(PICTURES["jpeg"])


def test_what_is_no_photo_is_refused() -> None:
    with pytest.raises(NotAPhoto):
        smaller(NO_PHOTOS["text.jpg"])
    with pytest.raises(PhotoDamaged):
        smaller(PICTURES["jpeg"][:200])

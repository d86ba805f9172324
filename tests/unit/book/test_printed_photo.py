"""Photos on paper: scaled, of any shape, without transparency, and only those whose files are as they were taken."""

import io
from pathlib import Path

import pytest
from PIL import Image

from gudgeon.book.photo_folder import keep_picture
from gudgeon.book.pictures import clean_picture
from gudgeon.book.printed_photo import FEW, MANY, MOST_OF_FEW, PrintedPhoto, printed_photos, scaled, sides_of
from tests.unit.book.photos import drawn, saved


def opened(photo: PrintedPhoto) -> Image.Image:
    image = Image.open(io.BytesIO(photo.content))
    image.load()
    assert image.size == (photo.width, photo.height)
    assert image.format == "JPEG"
    return image


@pytest.mark.parametrize(
    ("size", "longer"),
    [
        ((4000, 3000), 1000),
        ((3000, 4000), 1000),
        ((2400, 1200), 1200),
        ((800, 600), 800),
        ((12000, 300), 1500),
    ],
)
def test_a_jpeg_is_decoded_no_larger_than_is_seen(size: tuple[int, int], longer: int) -> None:
    """HAND: the smallest of whole, half, quarter and eighth that has 1000 pixels at its longer side."""
    found = opened(scaled(saved(drawn(size), "JPEG"), FEW))
    assert max(found.size) == longer
    assert found.width / found.height == pytest.approx(size[0] / size[1], rel=0.03)


@pytest.mark.parametrize(
    ("form", "mode"), [("PNG", "RGBA"), ("PNG", "LA"), ("PNG", "P"), ("WEBP", "RGB"), ("PNG", "L")]
)
def test_what_is_no_jpeg_is_scaled_and_becomes_one(form: str, mode: str) -> None:
    found = opened(scaled(saved(drawn((2000, 500), mode=mode), form), FEW))
    assert found.size == (1600, 400)


def test_what_is_seen_through_is_white_on_paper() -> None:
    found = opened(scaled(saved(Image.new("RGBA", (40, 40), (255, 0, 0, 0)), "PNG"), FEW))
    assert found.getpixel((20, 20)) == (255, 255, 255)


def test_the_colors_stay_where_they_are() -> None:
    found = opened(scaled(saved(drawn((4000, 3000)), "JPEG", quality=90), FEW))
    corners = [found.getpixel(at) for at in ((100, 100), (900, 100), (900, 650), (100, 650))]
    for seen, meant in zip(
        corners, ((250, 10, 10), (10, 250, 10), (10, 10, 250), (250, 250, 250)), strict=True
    ):
        assert isinstance(seen, tuple)
        assert max(abs(a - b) for a, b in zip(seen, meant, strict=True)) < 12


def test_many_photos_are_printed_smaller() -> None:
    assert (sides_of(MOST_OF_FEW), sides_of(MOST_OF_FEW + 1)) == (FEW, MANY)


def test_a_photo_that_is_gone_or_altered_is_left_out_and_every_one_is_told(tmp_path: Path) -> None:
    pictures = [clean_picture(saved(drawn((60 + 10 * number, 40)), "JPEG")) for number in range(3)]
    files = [keep_picture(tmp_path, one) for one in pictures]
    files[0].unlink()
    files[1].write_bytes(files[1].read_bytes() + b"x")
    told: list[str] = []
    found = printed_photos(tmp_path, [one.sha for one in pictures], tell=told.append)
    assert list(found) == [pictures[2].sha]
    assert told == ["photo 1 of 3", "photo 2 of 3", "photo 3 of 3"]


def test_who_stops_it_is_heard(tmp_path: Path) -> None:
    class Enough(Exception):
        pass

    def stop(words: str) -> None:
        raise Enough

    with pytest.raises(Enough):
        printed_photos(tmp_path, ["0" * 64] * 50, tell=stop)

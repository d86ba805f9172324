"""Photos of pages, as they come and as they are kept, and what is none."""

from gudgeon.book.pictures import clean_picture
from tests.unit.book import photos

JPEG, PNG, WEBP = (clean_picture(one).content for one in (photos.JPEG, photos.PNG, photos.WEBP))
"""Coded once before, so that what is kept is not what came."""
NO_PHOTOS = photos.NO_PHOTOS


def kept(content: bytes) -> bytes:
    """What is kept of a photo; that it is the same picture is held by the tests of the book's photos."""
    return clean_picture(content).content

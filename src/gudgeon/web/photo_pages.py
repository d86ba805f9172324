"""The photos of a build as a page, and each picture by the hash of its content."""

from starlette.responses import Response

from gudgeon.bench.photos import photo_shown, photos_report
from gudgeon.web.desk import Address, Asked, Desk


def the_photos(desk: Desk, asked: Asked) -> Response:
    """The photos in the book: what each shows, what it proves, and whether its file is as it was taken."""
    with desk.bench() as bench:
        return desk.page("photos.html", bench=bench, asked=asked, answer=photos_report(bench))


def one_photo(desk: Desk, asked: Asked) -> Response:
    """A photo that the book names, if it is as it was taken."""
    with desk.bench() as bench:
        found = photo_shown(bench, asked.path["sha"])
        if found is None:
            return desk.page("photo_lost.html", bench=bench, asked=asked, status=404)
    kept = {"Cache-Control": "private, max-age=86400, immutable", "Content-Disposition": "inline"}
    return Response(found.content, media_type=found.content_type, headers=kept)


ADDRESSES = (
    Address("/photos", the_photos),
    Address("/photos/{sha}", one_photo),
)

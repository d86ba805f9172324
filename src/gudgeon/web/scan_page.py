"""A scanned face taken over from a file that a page sends."""

from starlette.responses import Response

from gudgeon.bench.face_file import Taken, take_sent_face
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, go
from gudgeon.web.measuring import reading_page
from gudgeon.web.recording import FieldMissing, back_to

MOST_BYTES = 8 * 1024 * 1024
"""A little more than a file of points may have, so that one that is too large is refused in words."""

_LONGEST_NAME = 100


def take(desk: Desk, asked: Asked) -> Response:
    """Take over the points of a scanned face from a CSV file; a refusal is shown above its form."""
    item = asked.path["item"]
    upload, condition = asked.uploads.get("points"), asked.form.get("condition", "")
    with desk.bench() as bench:
        try:
            if upload is None or not upload.name:
                raise FieldMissing("The file of points")
            if not condition:
                raise FieldMissing("When")
            said = Taken(
                item,
                _called(upload.name),
                asked.form.get("instrument", ""),
                condition,
                sure=bool(asked.form.get("sure")),
            )
            unit = asked.form.get("unit") or None
            done = take_sent_face(bench, said, content=upload.content, unit=unit)
        except GudgeonError as error:
            if item not in bench.sheet.characteristics:
                raise
            return reading_page(desk, asked, bench, item=item, scan_error=error)
    desk.said.keep(done)
    return go(back_to(f"/good/{item}#picture", entry=done.entry))


def _called(name: str) -> str:
    """What a file is called, without the folders that some browsers send with it."""
    return name.replace("\\", "/").rpartition("/")[2][-_LONGEST_NAME:]


ADDRESSES = (Address("/good/{item}/points", take, methods=("POST",), most_bytes=MOST_BYTES),)

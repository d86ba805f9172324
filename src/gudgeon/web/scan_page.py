"""A scanned face taken over from a file that a page sends."""

from pathlib import Path
from urllib.parse import quote

from starlette.responses import Response

from gudgeon.bench.face_file import Taken, take_sent_face
from gudgeon.bench.record import Recorded
from gudgeon.book.tell import Tell
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, Upload, go
from gudgeon.web.measuring import reading_page
from gudgeon.web.recording import FieldMissing, back_to
from gudgeon.web.work import From, Result

MOST_BYTES = 8 * 1024 * 1024
"""A little more than a file of points may have, so that one that is too large is refused in words."""

LARGE_BYTES = 1_000_000
"""A file of more is read beside the pages: 40 000 lines, 0.1 to 0.4 s of work here, and a second on a small machine."""

_LONGEST_NAME = 100


def take(desk: Desk, asked: Asked) -> Response:
    """Take over the points of a scanned face from a CSV file; a refusal is shown above its form.

    A large file is read beside the pages: its page says how far that is, and stops it.
    """
    item = asked.path["item"]
    try:
        upload, said = _said(asked)
        if len(upload.content) > LARGE_BYTES:
            return _beside(desk, asked, said, upload.content)
        with desk.bench() as bench:
            done = take_sent_face(bench, said, content=upload.content, unit=_unit(asked))
    except GudgeonError as error:
        with desk.bench() as bench:
            if item not in bench.sheet.characteristics:
                raise
            return reading_page(desk, asked, bench, item=item, scan_error=error)
    desk.said.keep(done)
    return go(_then(item, done))


def _beside(desk: Desk, asked: Asked, said: Taken, content: bytes) -> Response:
    """The same as a work, which opens the book for itself and writes at its very end."""

    def do(_: Path, tell: Tell) -> Result:
        with desk.bench() as bench:
            done = take_sent_face(bench, said, content=content, unit=_unit(asked), tell=tell)
        desk.said.keep(done)
        return Result(then=_then(said.item, done))

    back = From(f"/good/{quote(said.item, safe='')}?scan=again#points", "The form for the points")
    work = desk.works.start(f"The points of {said.file}", kind="points", do=do, begun_from=back)
    if work.fault is not None:
        raise work.fault
    return go(work.result.then if work.state == "done" else f"/under-way/{work.id}")


def _said(asked: Asked) -> tuple[Upload, Taken]:
    upload, condition = asked.uploads.get("points"), asked.form.get("condition", "")
    if upload is None or not upload.name:
        raise FieldMissing("The file of points")
    if not condition:
        raise FieldMissing("When")
    sure = bool(asked.form.get("sure"))
    said = Taken(
        asked.path["item"], _called(upload.name), asked.form.get("instrument", ""), condition, sure=sure
    )
    return upload, said


def _unit(asked: Asked) -> str | None:
    return asked.form.get("unit") or None


def _then(item: str, done: Recorded) -> str:
    return back_to(f"/good/{quote(item, safe='')}#picture", entry=done.entry)


def _called(name: str) -> str:
    """What a file is called, without the folders that some browsers send with it."""
    return name.replace("\\", "/").rpartition("/")[2][-_LONGEST_NAME:]


ADDRESSES = (Address("/good/{item}/points", take, methods=("POST",), most_bytes=MOST_BYTES),)

"""The photos of a build: all of them, one with its pins, the pins to set, and each picture by its hash."""

from collections.abc import Sequence

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.photo_counts import count_in_photo
from gudgeon.bench.photo_look import PhotoLook, photo_look
from gudgeon.bench.photos import photo_shown, photos_report
from gudgeon.bench.pin_errors import NoSuchPhoto
from gudgeon.bench.pins import PinSaid, take_off, write_pins
from gudgeon.bench.recordable import GROUPS
from gudgeon.bench.recordable_inputs import MILESTONES
from gudgeon.bench.recordable_waits import COUNT_GROUPS
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, go
from gudgeon.web.pin_rows import MOST_FIELDS, TAP_WIDTH, Row, rows_of, tapped
from gudgeon.web.recording import back_to


def the_photos(desk: Desk, asked: Asked) -> Response:
    """The photos in the book: what each shows, what it proves, and whether its file is as it was taken."""
    with desk.bench() as bench:
        answer = photos_report(bench)
        looks = {one.sha: photo_look(bench, one.sha) for one in answer.photos if not (one.struck or one.anew)}
        return desk.page("photos.html", bench=bench, asked=asked, answer=answer, looks=looks)


def one_photo(desk: Desk, asked: Asked) -> Response:
    """A photo that the book names, if it is as it was taken."""
    with desk.bench() as bench:
        found = photo_shown(bench, asked.path["sha"])
        if found is None:
            return desk.page("photo_lost.html", bench=bench, asked=asked, status=404)
    kept = {"Cache-Control": "private, max-age=86400, immutable", "Content-Disposition": "inline"}
    return Response(found.content, media_type=found.content_type, headers=kept)


def look(desk: Desk, asked: Asked) -> Response:
    """One photo with its pins: what came off under them, what is back, and what was counted in it."""
    with desk.bench() as bench:
        return _look(desk, asked, bench)


def _look(desk: Desk, asked: Asked, bench: Bench, *, error: GudgeonError | None = None) -> Response:
    try:
        answer = photo_look(bench, asked.path["sha"])
    except NoSuchPhoto:
        return desk.page("photo_lost.html", bench=bench, asked=asked, status=404)
    return desk.page(
        "photo_look.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=answer,
        groups=GROUPS,
        count_groups=COUNT_GROUPS,
        milestones=MILESTONES,
        error=error,
    )


def set_pins(desk: Desk, asked: Asked) -> Response:
    """The pins of a photo, to set by a tap on the picture, to name, to move and to take away."""
    with desk.bench() as bench:
        try:
            answer = photo_look(bench, asked.path["sha"])
        except NoSuchPhoto:
            return desk.page("photo_lost.html", bench=bench, asked=asked, status=404)
        rows = [
            Row(key, PinSaid(str(one.number), f"{one.x / 10:g}", f"{one.y / 10:g}", one.text))
            for key, one in enumerate(answer.pins, 1)
        ]
        return _pins(desk, asked, bench, answer, rows)


def write(desk: Desk, asked: Asked) -> Response:
    """Set, move or take away a pin by a tap that only changes the form; or write the pins into the book."""
    form, sha = asked.form, asked.path["sha"]
    rows = rows_of(form)
    with desk.bench() as bench:
        answer = photo_look(bench, sha)
        if "at.x" in form:
            rows = tapped(rows, answer, form)
        if "at.x" in form or form.get("do") == "rows":
            return _pins(desk, asked, bench, answer, rows, caption=form.get("caption"))
        said = [one.said for one in rows if not one.away]
        ids = {"entry_id": form.get("entry") or None, "basis": form.get("basis")}
        try:
            done = write_pins(bench, sha, said, caption=form.get("caption", ""), **ids)
        except GudgeonError as error:
            return _pins(desk, asked, bench, answer, rows, caption=form.get("caption"), error=error)
    desk.said.keep(done)
    return go(back_to(f"/photos/{answer.photo.sha}/look", entry=done.entry))


def _pins(
    desk: Desk,
    asked: Asked,
    bench: Bench,
    answer: PhotoLook,
    rows: Sequence[Row],
    *,
    caption: str | None = None,
    error: GudgeonError | None = None,
) -> Response:
    said = asked.form if asked.posted else asked.query
    first = said.get("first", "")
    return desk.page(
        "photo_pins.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=answer,
        rows=rows,
        first=first if first.isdecimal() else "1",
        tap=said.get("tap", "new") if "at.x" not in said else "new",
        caption=answer.photo.caption if caption is None else caption,
        width=TAP_WIDTH,
        height=round(TAP_WIDTH * answer.photo.height / answer.photo.width),
        error=error,
    )


def off(desk: Desk, asked: Asked) -> Response:
    """Put the pieces under one pin, or under all that are left, on the list of what came off."""
    form, sha = asked.form, asked.path["sha"]
    with desk.bench() as bench:
        try:
            pins = photo_look(bench, sha).pins
            numbers = [form["one"]] if "one" in form else [str(one.number) for one in pins if not one.state]
            groups = {name[6:]: said for name, said in form.items() if name.startswith("group.") and said}
            done = take_off(
                bench, sha, numbers, groups=groups, due=form.get("due_before") or MILESTONES[0],
                entry_id=form.get("entry") or None, basis=form.get("basis"),
            )  # fmt: skip
        except GudgeonError as error:
            return _look(desk, asked, bench, error=error)
    desk.said.keep(done)
    return go(back_to(f"/photos/{sha}/look#came-off", entry=done.entry))


def count(desk: Desk, asked: Asked) -> Response:
    """Write down how many of a kind one photo shows; the book adds what the other photos show."""
    form, sha = asked.form, asked.path["sha"]
    with desk.bench() as bench:
        try:
            done = count_in_photo(
                bench, sha, group=form.get("group", ""), when=form.get("when", ""), count=form.get("count", ""),
                entry_id=form.get("entry") or None, basis=form.get("basis"),
            )  # fmt: skip
        except GudgeonError as error:
            return _look(desk, asked, bench, error=error)
    desk.said.keep(done)
    return go(back_to(f"/photos/{sha}/look#counted", entry=done.entry))


ADDRESSES = (
    Address("/photos", the_photos),
    Address("/photos/{sha}", one_photo),
    Address("/photos/{sha}/look", look),
    Address("/photos/{sha}/pins", set_pins),
    Address("/photos/{sha}/pins", write, methods=("POST",), most_fields=MOST_FIELDS),
    Address("/photos/{sha}/off", off, methods=("POST",)),
    Address("/photos/{sha}/count", count, methods=("POST",)),
)

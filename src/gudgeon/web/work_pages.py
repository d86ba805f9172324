"""The whole book at once: an archive to fetch, the check of every entry; and how far such work is."""

from collections.abc import Callable
from pathlib import Path

from starlette.responses import FileResponse, JSONResponse, Response

from gudgeon.bench.context import clock
from gudgeon.bench.copies import back_up
from gudgeon.bench.errors import Unknown
from gudgeon.bench.verifying import verified
from gudgeon.book.address import photos_folder
from gudgeon.book.tell import Tell
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, go
from gudgeon.web.paper_files import saved_name, size_of
from gudgeon.web.work import Result, Work, WorkGone

MEDIA = {".zip": "application/zip", ".pdf": "application/pdf"}
Do = Callable[[Path, Tell], Result]


def whole_book(desk: Desk, asked: Asked) -> Response:
    """The whole book: make an archive of it to keep elsewhere, or check every entry and photo."""
    return _whole_book(desk, asked)


def _whole_book(desk: Desk, asked: Asked, *, error: GudgeonError | None = None) -> Response:
    with desk.bench() as bench:
        status = 200 if error is None else 422
        return desk.page("book.html", bench=bench, asked=asked, status=status, error=error)


def make_archive(desk: Desk, asked: Asked) -> Response:
    """Begin an archive of the whole book with its photos; its page says how far it is, and where to fetch it."""

    def do(folder: Path, tell: Tell) -> Result:
        copied = back_up(desk.book, to=str(folder), now=clock().astimezone(), tell=tell)
        return Result(copied, Path(copied.file))

    return _begin(desk, asked, "An archive of the book", "archive", do)


def print_book(desk: Desk, asked: Asked) -> Response:
    """Begin the print of the whole book, `size` `a4` or `letter`, `photos` `no` without them; its page says how far."""
    size, with_photos = asked.form.get("size", ""), asked.form.get("photos") != "no"

    def do(folder: Path, tell: Tell) -> Result:
        from gudgeon.bench.closed.ask import closed_book
        from gudgeon.paper.closed import closed_pdf

        with desk.bench() as bench:
            answer = closed_book(bench, tell=tell)
            chosen, photos = size or size_of(asked, bench), photos_folder(bench.book)
        made = closed_pdf(answer, size=chosen, folder=photos, with_photos=with_photos, tell=tell)
        file = folder / saved_name(answer.heading, "book")
        file.write_bytes(made)
        return Result(answer, file)

    return _begin(desk, asked, "The book on paper", "print", do)


def verify(desk: Desk, asked: Asked) -> Response:
    """Begin the check of every chain, photo and count of the book; its page says how far it is, and what is wrong."""
    try:
        return go(f"/under-way/{check_of(desk).id}")
    except GudgeonError as error:
        return _whole_book(desk, asked, error=error)


def check_of(desk: Desk) -> Work:
    """The check of the book, begun or joined; it may be through already."""
    return desk.works.start(
        "The check of the book",
        kind="check",
        do=lambda _, tell: Result(verified(desk.book, tell=tell)),
        same="check",
    )


def _begin(desk: Desk, asked: Asked, title: str, kind: str, do: Do) -> Response:
    try:
        work = desk.works.start(title, kind=kind, do=do)
    except GudgeonError as error:
        return _whole_book(desk, asked, error=error)
    return go(f"/under-way/{work.id}")


def how_far(desk: Desk, asked: Asked) -> Response:
    """How far a work is, with a button that stops it; what came out of it when it is done."""
    work = _work(desk, asked)
    if asked.by_script:
        return JSONResponse(work.told())
    if work.state == "done" and work.result.then:
        return go(work.result.then)
    with desk.bench() as bench:
        return desk.page("work.html", bench=bench, asked=asked, work=work, size=_size(work))


def stop(desk: Desk, asked: Asked) -> Response:
    """Stop a work; nothing of it is left."""
    work = _work(desk, asked)
    desk.works.stop(work.id)
    return go(f"/under-way/{work.id}")


def fetch(desk: Desk, asked: Asked) -> Response:
    """The file that a work has made."""
    work = _work(desk, asked)
    file = work.result.file
    if file is None or not file.exists():
        raise Unknown("file of a work", work.title, ())
    return FileResponse(file, filename=file.name, media_type=MEDIA[file.suffix])


def _work(desk: Desk, asked: Asked) -> Work:
    work = desk.works.of(asked.path["work"])
    if work is None:
        raise WorkGone
    return work


def _size(work: Work) -> str:
    """How large the file is that a work has made."""
    file = work.result.file
    return f"{file.stat().st_size / 1e6:.1f} MB" if file is not None and file.exists() else ""


ADDRESSES = (
    Address("/book", whole_book),
    Address("/book/archive", make_archive, methods=("POST",)),
    Address("/book/paper", print_book, methods=("POST",)),
    Address("/book/check", verify, methods=("POST",)),
    Address("/under-way/{work}", how_far),
    Address("/under-way/{work}/stop", stop, methods=("POST",)),
    Address("/under-way/{work}/file", fetch),
)

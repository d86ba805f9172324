"""The pages as one application: addresses to handlers, and what happens when something is refused or fails."""

import sys
import traceback
from collections.abc import Awaitable, Callable
from importlib import resources

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from gudgeon.bench.errors import NoBook, NoSuchBuild, Unknown, WhichBuild
from gudgeon.book.address import BookAddress
from gudgeon.errors import GudgeonError
from gudgeon.web import (
    beginning,
    book_pages,
    clamp_page,
    cut_page,
    fits_page,
    joints,
    kit_page,
    measuring,
    paper_pages,
    photo_pages,
    questions,
    recording,
    reuse_page,
    running_page,
    scan_page,
    sheet_pages,
    shims_page,
    shop_page,
    table,
    timing_page,
)
from gudgeon.web.desk import Address, Asked, Desk, Upload, desk_for
from gudgeon.web.security import Guard, TooLarge, limited

ADDRESSES: tuple[Address, ...] = (
    *questions.ADDRESSES,
    *cut_page.ADDRESSES,
    *table.ADDRESSES,
    *measuring.ADDRESSES,
    *scan_page.ADDRESSES,
    *joints.ADDRESSES,
    *book_pages.ADDRESSES,
    *recording.ADDRESSES,
    *beginning.ADDRESSES,
    *sheet_pages.ADDRESSES,
    *kit_page.ADDRESSES,
    *reuse_page.ADDRESSES,
    *running_page.ADDRESSES,
    *clamp_page.ADDRESSES,
    *fits_page.ADDRESSES,
    *timing_page.ADDRESSES,
    *shims_page.ADDRESSES,
    *shop_page.ADDRESSES,
    *paper_pages.ADDRESSES,
    *photo_pages.ADDRESSES,
)

Endpoint = Callable[[Request], Awaitable[Response]]
_NO_BENCH = (NoBook, NoSuchBuild, WhichBuild)


def create_app(book: BookAddress, *, build: str | None = None) -> Starlette:
    """The pages of one build of one book."""
    desk = desk_for(book, build=build)
    routes: list[Route | Mount] = [
        Route(one.path, _endpoint(desk, one), methods=list(one.methods)) for one in ADDRESSES
    ]
    static = StaticFiles(directory=str(resources.files("gudgeon.web").joinpath("static")))
    routes.append(Mount("/static", static))
    return Starlette(
        routes=routes,
        middleware=[Middleware(Guard)],
        exception_handlers={HTTPException: _no_such(desk), TooLarge: _too_large(desk)},
    )


def _endpoint(desk: Desk, address: Address) -> Endpoint:
    """Read the request, then work in a thread of its own: a book is opened and closed by one thread."""

    async def answer(request: Request) -> Response:
        asked = await _asked(request, most_bytes=address.most_bytes, most_fields=address.most_fields)
        return await run_in_threadpool(_answered, desk, address, asked)

    return answer


def _answered(desk: Desk, address: Address, asked: Asked) -> Response:
    try:
        if asked.posted:
            desk.same_book(asked)
        return address.handler(desk, asked)
    except GudgeonError as error:
        return refused(desk, asked, error)
    except Exception:  # noqa: BLE001  (the person is told that it is our fault; the trace goes to the terminal)
        sys.stderr.write(f"{asked.method} {asked.address} failed:\n{traceback.format_exc()}")
        return desk.bare("failed.html", asked=asked, status=500)


async def _asked(request: Request, *, most_bytes: int, most_fields: int) -> Asked:
    fields: dict[str, str] = {}
    uploads: dict[str, Upload] = {}
    if request.method == "POST":
        bounded = Request(request.scope, limited(request.receive, most_bytes))
        async with bounded.form(max_files=4, max_fields=most_fields, max_part_size=most_bytes) as form:
            for name, value in form.items():
                if isinstance(value, UploadFile):
                    uploads[name] = Upload(value.filename or "", await value.read())
                else:
                    fields[name] = value
    return Asked(
        request.method,
        request.url.path,
        {name: str(value) for name, value in request.path_params.items()},
        dict(request.query_params),
        fields,
        uploads,
    )


def refused(desk: Desk, asked: Asked, error: GudgeonError) -> Response:
    """A refusal that no form could show: what was refused, and the way back."""
    if isinstance(error, _NO_BENCH):
        return desk.bare("no_book.html", asked=asked, status=404, error=error)
    status = 404 if isinstance(error, Unknown) and not asked.posted else 422
    try:
        with desk.bench() as bench:
            return desk.page("refused.html", bench=bench, asked=asked, status=status, error=error)
    except GudgeonError as other:
        return desk.bare("no_book.html", asked=asked, status=status, error=other)


def _no_such(desk: Desk) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def answer(request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 404
        asked = Asked(request.method, request.url.path)
        return await run_in_threadpool(lambda: desk.bare("no_such.html", asked=asked, status=status))

    return answer


def _too_large(desk: Desk) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def answer(request: Request, error: Exception) -> Response:
        asked = Asked(request.method, request.url.path)
        return await run_in_threadpool(lambda: desk.bare("too_large.html", asked=asked, status=413))

    return answer

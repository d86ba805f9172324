"""The pages as one application: addresses to handlers, and what happens when something is refused or fails."""

import sys
import traceback
from collections.abc import Awaitable, Callable
from http import HTTPStatus

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import DEFAULT_EXCLUDED_CONTENT_TYPES, GZipMiddleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount, Route

from gudgeon.bench.errors import NoBook, NoSuchBuild, Unknown, WhichBuild
from gudgeon.book.address import BookAddress, data_folder
from gudgeon.errors import GudgeonError
from gudgeon.web import (
    beginning,
    bench_set_pages,
    book_pages,
    buy_page,
    clamp_page,
    costs_page,
    cut_page,
    device_pages,
    fits_page,
    joints,
    kit_page,
    label_pages,
    measuring,
    offline,
    pairing,
    paper_pages,
    photo_pages,
    plan_page,
    questions,
    recording,
    reuse_page,
    running_page,
    scan_page,
    share_page,
    sheet_pages,
    shims_page,
    shop_page,
    sums_pages,
    table,
    template_pages,
    timing_page,
    work_pages,
)
from gudgeon.web.api.on_demand import ProgramsRoute
from gudgeon.web.desk import Address, Asked, Desk, NotItsForm, NotPaired, OtherBook, Upload, desk_for
from gudgeon.web.devices import Devices
from gudgeon.web.scripted import turned_down
from gudgeon.web.security import Door, Guard, TooLarge, limited
from gudgeon.web.static_files import OwnFiles
from gudgeon.written.errors import FileWrong

ADDRESSES: tuple[Address, ...] = (
    *questions.ADDRESSES,
    *plan_page.ADDRESSES,
    *offline.ADDRESSES,
    *cut_page.ADDRESSES,
    *table.ADDRESSES,
    *measuring.ADDRESSES,
    *scan_page.ADDRESSES,
    *joints.ADDRESSES,
    *book_pages.ADDRESSES,
    *share_page.ADDRESSES,
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
    *buy_page.ADDRESSES,
    *costs_page.ADDRESSES,
    *shop_page.ADDRESSES,
    *paper_pages.ADDRESSES,
    *label_pages.ADDRESSES,
    *bench_set_pages.ADDRESSES,
    *sums_pages.ADDRESSES,
    *pairing.ADDRESSES,
    *device_pages.ADDRESSES,
    *photo_pages.ADDRESSES,
    *template_pages.ADDRESSES,
    *work_pages.ADDRESSES,
)

PACKING = Middleware(
    GZipMiddleware,
    minimum_size=600,  # what is shorter goes over in one packet anyway
    compresslevel=6,
    exclude_content_types=(*DEFAULT_EXCLUDED_CONTENT_TYPES, "application/pdf"),
)
"""Answers go over the air packed, but for what is packed by itself.

What a strange page could learn from how long an answer is, it cannot ask for: it is never sent the cookie.
"""

Endpoint = Callable[[Request], Awaitable[Response]]
_NO_BENCH = (NoBook, NoSuchBuild, WhichBuild)


def create_app(book: BookAddress, *, build: str | None = None, door: Door | None = None) -> Starlette:
    """The pages of one build of one book; by itself for this machine alone, and the devices of this user."""
    door = door or Door(Devices(data_folder() / "devices"))
    desk = desk_for(book, build=build, door=door)
    routes: list[Route | Mount] = [
        Route(one.path, _endpoint(desk, one), methods=list(one.methods)) for one in ADDRESSES
    ]
    routes.append(Mount("/static", OwnFiles()))
    app = Starlette(
        routes=[*routes, ProgramsRoute(desk)],
        middleware=[Middleware(Guard, door=door), PACKING],
        exception_handlers={HTTPException: _no_such(desk), TooLarge: _too_large(desk)},
    )
    app.state.works = desk.works
    return app


def _endpoint(desk: Desk, address: Address) -> Endpoint:
    """Read the request, then work in a thread of its own: a book is opened and closed by one thread."""

    async def answer(request: Request) -> Response:
        asked = await _asked(request, most_bytes=address.most_bytes, most_fields=address.most_fields)
        return await run_in_threadpool(_answered, desk, address, asked)

    return answer


def _answered(desk: Desk, address: Address, asked: Asked) -> Response:
    try:
        if address.open:
            return address.handler(desk, asked)
        desk = desk.seen_by(asked)
        if asked.posted:
            desk.same_book(asked)
        return address.handler(desk, asked)
    except NotPaired as error:
        if asked.by_script:
            return turned_down(str(error), error=error, status=403)
        return pairing.stranger(desk, asked, error)
    except GudgeonError as error:
        if asked.by_script:
            return turned_down(
                str(error),
                error=error,
                stale=isinstance(error, NotItsForm),
                elsewhere=isinstance(error, OtherBook),
            )
        return refused(desk, asked, error)
    except Exception:  # noqa: BLE001  (the person is told that it is our fault; the trace goes to the terminal)
        sys.stderr.write(f"{asked.method} {asked.address!a} failed:\n{traceback.format_exc()}")
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
    fields.setdefault("seal", request.headers.get("gudgeon-seal", ""))
    return Asked(
        request.method,
        request.url.path,
        {name: str(value) for name, value in request.path_params.items()},
        dict(request.query_params),
        fields,
        uploads,
        request.scope["gudgeon.seen"],
        request.headers.get("accept", "") == "application/json",
    )


def refused(desk: Desk, asked: Asked, error: GudgeonError) -> Response:
    """A refusal that no form could show: what was refused, and the way back."""
    if isinstance(error, _NO_BENCH):
        return desk.bare("no_book.html", asked=asked, status=404, error=error, paper="")
    status = 404 if isinstance(error, Unknown) and not asked.posted else 422
    try:
        with desk.bench() as bench:
            return desk.page("refused.html", bench=bench, asked=asked, status=status, error=error)
    except GudgeonError as other:
        paper = other.what or "data sheet or the kit" if isinstance(other, FileWrong) else ""
        return desk.bare("no_book.html", asked=asked, status=status, error=other, paper=paper)


def _no_such(desk: Desk) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def answer(request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 404
        template = "malformed.html" if status == HTTPStatus.BAD_REQUEST else "no_such.html"
        asked = Asked(request.method, request.url.path)
        return await run_in_threadpool(lambda: desk.bare(template, asked=asked, status=status))

    return answer


def _too_large(desk: Desk) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def answer(request: Request, error: Exception) -> Response:
        asked = Asked(request.method, request.url.path)
        return await run_in_threadpool(lambda: desk.bare("too_large.html", asked=asked, status=413))

    return answer

"""What every operation needs: the desk at which the asker sits, and an answer in its stable shape."""

from collections.abc import Callable
from typing import Annotated, Any

from fastapi import Depends
from fastapi.routing import APIRoute
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from gudgeon.bench.answer import plain
from gudgeon.bench.context import Bench
from gudgeon.web.api.errors import AskedTwice, NotAsked, NotFromHere
from gudgeon.web.api.gate import by_secret
from gudgeon.web.api.refusals import Refused
from gudgeon.web.desk import Asked, Desk
from gudgeon.web.security import Seen

_WHY = {
    400: "The body is no JSON.",
    401: "The device that asks is not paired, or its secret is not known here.",
    403: "The request comes from a strange page, without the seal, or calls this machine by a strange name.",
    404: "There is no such thing in the sheet or the book, or no book.",
    405: "The address does not take this method.",
    409: "The id stands for another entry already, or the basis belongs to another book.",
    413: "The body is longer than any entry can be.",
    415: "The body is not said to be JSON.",
    422: "It was refused: the message says what, why, and what to do.",
    429: "Too many wrong codes were tried.",
    500: "Something in Gudgeon itself, or the disk, failed.",
    503: "Another program holds the book; try again.",
    507: "There is no room on the disk.",
}
REFUSALS: dict[int | str, dict[str, Any]] = {
    status: {"model": Refused, "description": why} for status, why in _WHY.items()
}
_FOR_BODIES = (400, 409, 413, 415, 429, 507)
READING_REFUSALS = {status: said for status, said in REFUSALS.items() if status not in _FOR_BODIES}

SECRET: dict[str, list[str]] = {"secret": []}
COOKIE_ALONE: dict[str, list[str]] = {"cookie": []}
COOKIE_AND_SEAL: dict[str, list[str]] = {"cookie": [], "seal": []}
READS: dict[str, Any] = {"security": [{}, SECRET, COOKIE_ALONE]}
WRITES: dict[str, Any] = {"security": [SECRET, COOKIE_AND_SEAL]}
OPEN: dict[str, Any] = {"security": []}


def _only_what_is_asked(request: Request) -> None:
    """Refuse what a question does not know: a word mistyped would be left out in silence."""
    route: APIRoute = request.scope["route"]
    known = {one.alias: one for one in route.dependant.query_params}
    for name in request.query_params:
        if name not in known:
            raise NotAsked(name, sorted(known))
        several = "list" in str(known[name].field_info.annotation)
        if len(request.query_params.getlist(name)) > 1 and not several:
            raise AskedTwice(name)


def _desk(request: Request) -> Desk:
    desk: Desk = request.app.state.desk
    return desk


async def _reader(request: Request) -> Desk:
    """The desk of whoever may read: the gate has looked already."""
    _only_what_is_asked(request)
    return _desk(request)


async def _writer(request: Request) -> Desk:
    """The desk of a paired device; by its cookie alone nothing is written."""
    _only_what_is_asked(request)
    seen: Seen = request.scope["gudgeon.seen"]
    seal = request.headers.get("gudgeon-seal", "")
    if seen.holder is not None and by_secret(request.headers):
        seal = seen.holder.seal
    elif seen.holder is not None and not seal:
        raise NotFromHere
    return _desk(request).seen_by(Asked(request.method, request.url.path, form={"seal": seal}, seen=seen))


Reading = Annotated[Desk, Depends(_reader)]
Writing = Annotated[Desk, Depends(_writer)]


def answered(desk: Desk, ask: Callable[[Bench], Any]) -> Response:
    """Ask the bench as it stands now one question."""
    with desk.bench() as bench:
        return given(ask(bench))


def given(answer: Any, *, status: int = 200) -> Response:
    """An answer in the shape in which the terminal gives it too."""
    return JSONResponse(plain(answer), status)

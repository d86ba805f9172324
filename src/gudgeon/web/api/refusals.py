"""From an error to the answer that a program gets: its status, its word and its message."""

import sys
import traceback
from collections.abc import Sequence
from dataclasses import dataclass

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from fastapi.routing import APIRoute
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from gudgeon.bench.errors import NoBook, NoSuchBuild, Unknown, WhichBuild
from gudgeon.book.errors import (
    BookBusy,
    DiskFailed,
    DiskFull,
    NotConfirmed,
    SameIdOtherContent,
)
from gudgeon.calc.input_errors import UnknownCalculator
from gudgeon.errors import GudgeonError, short
from gudgeon.web.api.errors import NotFromHere, OtherBasis, SecretUnknown
from gudgeon.web.api.saying_no import said_no, word_of
from gudgeon.web.desk import NotItsForm, NotPaired
from gudgeon.web.devices import CodeRefused
from gudgeon.web.knocks import TooManyCodes

FAILED = "Something in Gudgeon itself failed. What is in the book is untouched; the terminal tells more."


@dataclass(frozen=True, slots=True)
class WhyNot:
    """Why something was refused.

    `kind` is a word for the cause, which stays the same; `message` is for a person; `where` is the file and line, or
    the field, that is meant.
    """

    kind: str
    message: str
    where: str | None


@dataclass(frozen=True, slots=True)
class Refused:
    """The answer to everything that is refused or fails."""

    error: WhyNot


_STATUS: dict[type[GudgeonError], int] = {
    NotPaired: 401,
    SecretUnknown: 401,
    NotItsForm: 403,
    NotFromHere: 403,
    CodeRefused: 403,
    NoBook: 404,
    NoSuchBuild: 404,
    WhichBuild: 404,
    UnknownCalculator: 404,
    SameIdOtherContent: 409,
    OtherBasis: 409,
    TooManyCodes: 429,
    DiskFailed: 500,
    NotConfirmed: 500,
    BookBusy: 503,
    DiskFull: 507,
}


def refused(error: GudgeonError, *, reading: bool) -> Response:
    """The answer to something that a person or a program can mend."""
    status = next((status for cause, status in _STATUS.items() if isinstance(error, cause)), 422)
    if reading and isinstance(error, Unknown):
        status = 404
    headers = {401: {"WWW-Authenticate": "Bearer"}, 503: {"Retry-After": "1"}}.get(status)
    where = str(error.place) if error.place is not None else getattr(error, "where", None)
    return said_no(status, kind=word_of(error), message=error.message, where=where, headers=headers)


def failed(what: str, error: Exception) -> Response:
    """The answer when something of ours failed; its trace goes to the terminal and nowhere else."""
    trace = "".join(traceback.format_exception(error))
    sys.stderr.write(f"{what!a} failed:\n{trace}")
    return said_no(500, kind="failed", message=FAILED)


def handle_errors(app: FastAPI, *, operations: Sequence[APIRoute]) -> None:
    """Give every error under /api its one shape."""

    async def by_cause(request: Request, error: Exception) -> Response:
        assert isinstance(error, GudgeonError)
        return refused(error, reading=request.method == "GET")

    async def not_valid(request: Request, error: Exception) -> Response:
        assert isinstance(error, RequestValidationError)
        return said_no(422, kind="not-valid", message=_wrong(error), where=_where(error))

    async def no_such(request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 404
        if status == 405:
            return _other_method(operations, request)
        return said_no(
            status,
            kind="no-such-address",
            message=f"There is nothing at {short(request.url.path)}. What there is: /api/openapi.json.",
        )

    async def ours(request: Request, error: Exception) -> Response:
        return said_no(500, kind="failed", message=FAILED)

    app.add_exception_handler(GudgeonError, by_cause)
    app.add_exception_handler(RequestValidationError, not_valid)
    app.add_exception_handler(HTTPException, no_such)
    app.add_exception_handler(Exception, ours)


def _other_method(operations: Sequence[APIRoute], request: Request) -> Response:
    """What an address takes, where it does not take what was sent."""
    taken = {"GET"} if request.url.path == "/api/openapi.json" else set()
    for one in operations:
        if one.path_regex.fullmatch(request.url.path):
            taken |= one.methods or set()
    allowed = ", ".join(sorted(taken))
    return said_no(
        405,
        kind="method-not-taken",
        message=f"{short(request.url.path)} does not take {short(request.method)}; it takes {allowed}.",
        headers={"Allow": allowed},
    )


def _where(error: RequestValidationError) -> str:
    """Which field is meant: without the word for the part of the request that it is in."""
    return ".".join(str(part) for part in error.errors()[0]["loc"][1:])


def _wrong(error: RequestValidationError) -> str:
    """Everything that is not as it is described, each with its field."""
    said = [
        f"`{short('.'.join(str(part) for part in one['loc'][1:]) or 'the body')}`: {one['msg']}"
        for one in error.errors()[:8]
    ]
    return f"Not taken, and nothing was written: {'; '.join(said)}. What is taken: /api/openapi.json."

"""What stands before everything under /api: who asks, how much is sent and whether it is JSON."""

import json
from typing import NoReturn

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from gudgeon.web.api.errors import SecretUnknown
from gudgeon.web.api.refusals import failed, refused
from gudgeon.web.api.saying_no import said_no
from gudgeon.web.desk import NotPaired
from gudgeon.web.security import FORM_BYTES, READING, Seen, TooLarge, limited

PAIR = "/api/pair"


class Gate:
    """Strangers are turned away, a body is read whole and looked at, and nothing of a failure leaves the machine."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse, or pass on with the body that was read."""
        began = False

        async def watched(message: Message) -> None:
            nonlocal began
            began = True
            await send(message)

        headers = Headers(scope=scope)
        no = _stranger(scope, headers)
        body = b""
        if no is None and scope["method"] == "POST":
            read = await _body(receive)
            if read is None:
                return  # whoever asked has gone
            no = read if isinstance(read, Response) else await run_in_threadpool(_not_json, headers, read)
            body = b"" if isinstance(read, Response) else read
        if no is not None:
            await no(scope, receive, send)
            return
        try:
            await self._app(scope, _again(body), watched)
        except Exception as error:  # noqa: BLE001  (a program is told that it is our fault)
            answer = failed(f"{scope['method']} {scope['path']}", error)
            if not began:
                await answer(scope, receive, send)


def by_secret(headers: Headers) -> bool:
    """Whether a request says who it is by the header that a strange page cannot set."""
    return headers.get("authorization", "").partition(" ")[0].lower() == "bearer"


def _stranger(scope: Scope, headers: Headers) -> Response | None:
    seen: Seen = scope["gudgeon.seen"]
    if seen.holder is not None or scope["path"] == PAIR:
        return None
    reading = scope["method"] in READING
    if by_secret(headers):
        return refused(SecretUnknown(), reading=reading)
    return None if seen.from_here else refused(NotPaired(wrote=not reading), reading=reading)


async def _body(receive: Receive) -> bytes | Response | None:
    """The body, if it is not longer than any entry can be; nothing where the sender went away."""
    parts: list[bytes] = []
    taking = limited(receive, FORM_BYTES)
    try:
        while True:
            message = await taking()
            if message["type"] != "http.request":
                return None
            parts.append(message.get("body", b""))
            if not message.get("more_body", False):
                return b"".join(parts)
    except TooLarge:
        return said_no(
            413,
            kind="too-large",
            message=f"The body is longer than {FORM_BYTES // 1024} KiB, which no entry needs. Nothing was written.",
        )


def _not_json(headers: Headers, body: bytes) -> Response | None:
    """Why a body is not taken: it is no JSON, or holds what no book can keep."""
    said = headers.get("content-type", "").partition(";")[0].strip().lower()
    if said != "application/json":
        return said_no(
            415,
            kind="not-json",
            message=f"The header Content-Type says `{said[:60]}`; application/json is taken. Nothing was written.",
        )
    try:
        found = json.loads(body, parse_constant=_no_number)
        json.dumps(found, ensure_ascii=False, allow_nan=False).encode()
    except UnicodeEncodeError:
        why = "it holds half a sign, which is no text"
    except RecursionError:
        why = "it is nested too deeply"
    except ValueError as error:
        why = str(error)[:120]
    else:
        return None
    return said_no(
        400, kind="unreadable", message=f"The body cannot be read as JSON ({why}). Nothing was written."
    )


def _no_number(said: str) -> NoReturn:
    raise ValueError(f"{said} is no number")


def _again(body: bytes) -> Receive:
    """The body that was read, once more."""
    sent = False

    async def receive() -> Message:
        nonlocal sent
        if sent:
            return {"type": "http.disconnect"}
        sent = True
        return {"type": "http.request", "body": body, "more_body": False}

    return receive

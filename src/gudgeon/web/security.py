"""What a request must be before any page sees it, and what every response says to the browser."""

from collections.abc import Mapping
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

OWN_NAMES = frozenset(("127.0.0.1", "localhost", "::1"))
READING = frozenset(("GET", "HEAD"))
FORM_BYTES = 64 * 1024
UPLOAD_BYTES = 40 * 1024 * 1024
"""More than a photo may have, so that one a little too large is refused in words and the form is kept."""

HEADERS: Mapping[str, str] = {
    "Content-Security-Policy": (
        "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; "
        "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",  # `no-referrer` would make browsers send `Origin: null` with our own forms
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


class TooLarge(Exception):
    """The body of a request is longer than its form can be."""


class Guard:
    """Only this machine, only its own pages; the same headers on every response."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse a strange request, else pass it on."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers[name] = value
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        refused = refusal(scope["method"], headers=Headers(scope=scope), scheme=scope["scheme"])
        if refused:
            await PlainTextResponse(f"{refused} Nothing was written.\n", 403)(
                scope, receive, send_with_headers
            )
            return
        await self._app(scope, receive, send_with_headers)


def refusal(method: str, *, headers: Mapping[str, str], scheme: str) -> str:
    """Why a request is not taken, or nothing.

    A name that is not this machine's means that a strange page had its own name point here. A form that
    another site sends carries that site as its origin.
    """
    host = headers.get("host", "")
    if _name(f"//{host}") not in OWN_NAMES:
        return f"This address is only for this machine: `{host}` is not taken; use 127.0.0.1 or localhost."
    if method in READING:
        return ""
    site, origin = headers.get("sec-fetch-site"), headers.get("origin")
    if site not in (None, "same-origin", "none"):
        return "This form was sent by another page; write from the pages of Gudgeon."
    if origin is not None and origin != f"{scheme}://{host}":
        return f"This form was sent from `{origin}`; write from the pages of Gudgeon."
    return ""


def _name(address: str) -> str:
    try:
        return urlsplit(address).hostname or ""
    except ValueError:
        return ""


def limited(receive: Receive, most: int) -> Receive:
    """The same stream, stopped where it grows beyond what a form can be, whatever its header promises."""
    taken = 0

    async def counted() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > most:
            raise TooLarge
        return message

    return counted

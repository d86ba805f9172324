"""What a request must be before any page sees it, and what every response says to the browser."""

import asyncio
import re
import sys
import traceback
from collections.abc import Mapping
from dataclasses import dataclass, field

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import ClientDisconnect
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from gudgeon.bench.context import clock
from gudgeon.web.api.saying_no import is_for_programs, said_no
from gudgeon.web.certificate import Certificate
from gudgeon.web.devices import Devices, Holder
from gudgeon.web.invitations import Invitations
from gudgeon.web.knocks import Knocks
from gudgeon.web.network import is_figure, is_near, is_this_machine

OWN_NAMES = frozenset(("127.0.0.1", "localhost", "::1"))
COOKIE = "gudgeon-device"
SECRET_COOKIE = f"__Host-{COOKIE}"
"""Over HTTPS it has a name of its own: a browser lets no plain page write over a cookie that came encrypted, so that
a device that was paired that way could not be paired again on a plain line. The prefix binds it to this machine."""
_HOST = re.compile(r"(\[[0-9A-Fa-f:.]+\]|[A-Za-z0-9._-]+)(?::([0-9]{1,5}))?")
READING = frozenset(("GET", "HEAD"))
FORM_BYTES = 64 * 1024
BODY_S = 600
UPLOAD_BYTES = 40 * 1024 * 1024
"""More than a photo may have, so that one a little too large is refused in words and the form is kept."""

HEADERS: Mapping[str, str] = {
    "Content-Security-Policy": (
        "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; "
        "worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",  # `no-referrer` would make browsers send `Origin: null` with our own forms
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": (
        "camera=(self), screen-wake-lock=(self), fullscreen=(self), microphone=(), geolocation=(), payment=(), usb=(), "
        "serial=(), hid=(), midi=(), display-capture=(), accelerometer=(), gyroscope=(), magnetometer=()"
    ),
}
"""No Strict-Transport-Security: this machine is served plainly again another day, and a browser would refuse that."""


class TooSlow(Exception):
    """The body of a request takes longer than the slowest line of a garage needs for a photo."""


class TooLarge(Exception):
    """The body of a request is longer than its form can be."""


@dataclass(frozen=True, slots=True)
class Door:
    """Who is let in: the devices on the list, and by which names this machine may be called.

    With `lan` any address in figures is taken besides `names`: a strange page can make a name of its own point
    here, but never a figure. Who asks has to be a neighbor all the same.
    """

    devices: Devices
    lan: bool = False
    names: frozenset[str] = field(default=OWN_NAMES)
    knocks: Knocks = field(default_factory=Knocks)
    invitations: Invitations = field(default_factory=Invitations)
    certificate: Certificate | None = None
    """What the server shows, where it speaks HTTPS."""

    def takes(self, host: str) -> bool:
        """Whether this machine may be called so."""
        name = _name(host)
        return name in self.names or (self.lan and is_figure(name))


@dataclass(frozen=True, slots=True)
class Seen:
    """What the door saw of a request: its device, whether it comes from this machine, whether it is secret, and by
    which name and port this machine was called."""

    holder: Holder | None = None
    from_here: bool = False
    secure: bool = False
    host: str = ""


class Guard:
    """Only devices that are let in, only our own pages; the same headers on every response."""

    def __init__(self, app: ASGIApp, *, door: Door) -> None:
        self._app, self._door = app, door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse a strange request, else look who it is and pass it on."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        begun = False

        async def send_with_headers(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers[name] = value
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        headers = Headers(scope=scope)
        refused = stranger_of(scope, door=self._door) or refusal(
            scope["method"], door=self._door, headers=headers, scheme=scope["scheme"]
        )
        if refused:
            no = _turned_away(scope["path"], f"{refused} Nothing was written.")
            await no(scope, receive, send_with_headers)
            return
        try:
            scope["gudgeon.seen"] = seen(scope, headers=headers, devices=self._door.devices)
            await self._app(scope, receive, send_with_headers)
        except TooSlow:
            said = f"The form took longer than {BODY_S // 60} minutes to arrive. Nothing was written.\n"
            answer = PlainTextResponse(said, 408, headers={"Connection": "close"})
            await answer(scope, receive, send_with_headers)
        except ClientDisconnect:  # it went away before it had said everything: nothing was written
            return
        except Exception:  # noqa: BLE001  (a fault of ours; its trace goes to the terminal, not to the network)
            # An address as it came could hold signs that a terminal obeys.
            sys.stderr.write(f"{scope['method']} {scope['path']!a} failed:\n{traceback.format_exc()}")
            if not begun:
                said = (
                    "Something in Gudgeon failed. What it was stands in the terminal. Nothing was written.\n"
                )
                await PlainTextResponse(said, 500)(scope, receive, send_with_headers)


def _turned_away(path: str, why: str) -> Response:
    """A refusal in the shape of whoever asked: a program gets data."""
    if is_for_programs(path):
        return said_no(403, kind="turned-away", message=why)
    return PlainTextResponse(f"{why}\n", 403)


def seen(scope: Scope, *, headers: Headers, devices: Devices) -> Seen:
    """Whose request it is: by the cookie that its pairing gave it, or the same secret in a header of its own."""
    secure = scope["scheme"] == "https"
    bearer, _, secret = headers.get("authorization", "").partition(" ")
    kept = secret.strip() if bearer.lower() == "bearer" else _cookie(headers.getlist("cookie"), secure=secure)
    client = scope.get("client")
    return Seen(
        devices.holder(kept, now=clock()) if kept else None,
        client is not None and is_this_machine(client[0]),
        secure,
        headers.get("host", ""),
    )


def cookie_name(*, secure: bool) -> str:
    """The name under which a device keeps its secret."""
    return SECRET_COOKIE if secure else COOKIE


def _cookie(said: list[str], *, secure: bool) -> str:
    for one in said:
        for part in one.split(";"):
            name, _, value = part.strip().partition("=")
            if name == cookie_name(secure=secure):
                return value
    return ""


def stranger_of(scope: Scope, *, door: Door) -> str:
    """Why a client is not answered at all, or nothing: the pages are for this machine and its own network."""
    client = scope.get("client")
    if not door.lan or client is None or not is_figure(client[0]) or is_near(client[0]):
        return ""
    return "These pages are for the network on which this machine stands; your address lies outside of it."


def refusal(method: str, *, door: Door, headers: Mapping[str, str], scheme: str) -> str:
    """Why a request is not taken, or nothing.

    A name that is not this machine's means that a strange page had its own name point here. A form that
    another site sends carries that site as its origin.
    """
    host = headers.get("host", "")
    if not door.takes(host):
        if door.lan:
            return f"This machine is not called `{host}` here; use the address that the terminal printed."
        return f"This address is only for this machine: `{host}` is not taken; use 127.0.0.1 or localhost."
    if method in READING:
        return ""
    site, origin = headers.get("sec-fetch-site"), headers.get("origin")
    if site not in (None, "same-origin", "none"):
        return "This form was sent by another page; write from the pages of Gudgeon."
    if origin is not None and origin != f"{scheme}://{host}":
        return f"This form was sent from `{origin}`; write from the pages of Gudgeon."
    return ""


def _name(host: str) -> str:
    """The name alone of what a request calls this machine; nothing where it is not a name and a port."""
    found = _HOST.fullmatch(host)
    return found[1].strip("[]").lower() if found else ""


def limited(receive: Receive, most: int) -> Receive:
    """The same stream, stopped where it grows beyond what a form can be, whatever its header says, or never ends."""
    taken, end = 0, asyncio.get_running_loop().time() + BODY_S

    async def counted() -> Message:
        nonlocal taken
        try:
            async with asyncio.timeout_at(end):
                message = await receive()
        except TimeoutError:
            raise TooSlow from None
        taken += len(message.get("body", b""))
        if taken > most:
            raise TooLarge
        return message

    return counted

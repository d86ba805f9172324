"""The pages, served to the browsers of this machine alone, or to the devices of its own network."""

import os
import socket
import ssl
import sys
import threading
import webbrowser
from argparse import Namespace
from contextlib import closing, suppress
from errno import EADDRINUSE
from pathlib import Path

from gudgeon.book.address import BookAddress, data_folder
from gudgeon.cli.invitation import Line, greet, invite_another, tell_certificate
from gudgeon.cli.show import book_path
from gudgeon.errors import InputError
from gudgeon.web.certificate import Certificate, certificate
from gudgeon.web.devices import VALID
from gudgeon.web.network import addresses
from gudgeon.web.network import names as machine_names

HOST = "127.0.0.1"
EVERYWHERE = "0.0.0.0"
"""Every address of four figures. Those of IPv6 are left out: many of them can be reached from outside the house."""
PORT = 8765
NEIGHBORS = 50
"""How many ports above the usual one are tried."""
MOST_AT_ONCE = 200
"""Connections at once, far more than the devices of a garage hold; what comes beyond is told to come back later."""


class PortInUse(InputError):
    """The port that was asked for is taken."""

    def __init__(self, port: int, free: int) -> None:
        super().__init__(
            f"Port {port} is in use by another program (or another `gudgeon serve`). Port {free} is free: "
            f"gudgeon serve --port {free}"
        )


class PortRefused(InputError):
    """The system does not give this port."""

    def __init__(self, port: int, why: str) -> None:
        super().__init__(
            f"Port {port} cannot be used ({why}). Ports from 1024 to 65535 are open to everybody; leave out "
            "--port to have one chosen."
        )


class NoFreePort(InputError):
    """The usual port and all its neighbors are taken."""

    def __init__(self) -> None:
        super().__init__(f"Ports {PORT} to {PORT + NEIGHBORS} are all in use. Name another with --port.")


def serve(chosen: Namespace) -> int:
    """Serve the pages until Ctrl-C."""
    import uvicorn

    from gudgeon.bench.context import clock
    from gudgeon.web.app import create_app
    from gudgeon.web.devices import ADDRESS_SIGNS, Devices
    from gudgeon.web.patience import Patient
    from gudgeon.web.security import OWN_NAMES, Door

    book, build = _book(chosen)
    door = _door(chosen.port, host=EVERYWHERE if chosen.lan else HOST)
    held = _certificate() if chosen.https else None
    line = Line("https" if held else "http", door.getsockname()[1], lan=chosen.lan)
    devices = Devices(data_folder() / "devices")
    pairing = f"{line.here}pair?code={devices.invite(now=clock(), signs=ADDRESS_SIGNS, here=True)}"
    greet(line, book=str(book), pairing=pairing)
    if held is not None:
        tell_certificate(held)
    if chosen.lan:
        invite_another(line, code=devices.invite(now=clock()), until=clock() + VALID)
    names = OWN_NAMES.union(machine_names()) if chosen.lan else OWN_NAMES
    app = create_app(book, build=build, door=Door(devices, lan=chosen.lan, names=names, certificate=held))
    config = uvicorn.Config(
        app,
        http=Patient,
        ws="none",
        lifespan="off",
        log_level="warning",
        access_log=False,  # an address may hold a code
        server_header=False,
        proxy_headers=False,  # nobody stands between the browser and this program
        limit_concurrency=MOST_AT_ONCE,
        timeout_graceful_shutdown=5,
        ssl_certfile=held.file if held else None,
    )
    server = uvicorn.Server(config)
    if chosen.open:
        # A browser that cannot be opened is no failure: the address stands above.
        threading.Timer(0.5, webbrowser.open, (pairing,)).start()
    threading.Timer(0.2, _ask_first, (line,)).start()
    with suppress(KeyboardInterrupt):
        server.run(sockets=[door])
    print("Stopped. Everything that was recorded is in the book.", flush=True)
    return 0


def _certificate() -> Certificate:
    """The certificate of this machine, for the names and addresses that it has now."""
    from gudgeon.bench.context import clock

    folder = data_folder() / "certificate"
    return certificate(folder, names=machine_names(), addresses=addresses(), now=clock())


def _ask_first(line: Line) -> None:
    """The first answer of a page loads what all later ones need; better now than under the first thumb."""
    from http.client import HTTPConnection, HTTPException, HTTPSConnection

    for page in ("/", "/sheet", "/set"):
        # It asks itself, on this machine, and tells nothing: whose certificate that is does not matter.
        knock = (
            HTTPSConnection(HOST, line.port, timeout=10, context=ssl._create_unverified_context())
            if line.scheme == "https"
            else HTTPConnection(HOST, line.port, timeout=10)
        )
        with suppress(OSError, HTTPException), closing(knock):
            knock.request("GET", page)
            knock.getresponse().read()


def _book(chosen: Namespace) -> tuple[BookAddress, str | None]:
    """The book to serve; a fresh copy of the invented job where that was asked for."""
    if chosen.demo:
        from gudgeon.bench.answer import NOTICE
        from gudgeon.bench.begin import open_demo
        from gudgeon.bench.context import clock

        folder = Path(chosen.folder).expanduser() if chosen.folder else data_folder() / "demo"
        begun = open_demo(folder, now=clock().astimezone())
        print(f"A fresh copy of the invented job lies in {folder}. *** {NOTICE} ***")
        if begun.kept is not None:
            print(f"What you had recorded in the last one is kept in {begun.kept}")
        return begun.book, begun.build
    from gudgeon.bench.context import build_of

    book = book_path(chosen.book)
    build_of(book, chosen=chosen.build)
    return book, chosen.build


def _door(port: int | None, *, host: str) -> socket.socket:
    """A socket on the port asked for, else on the usual one or the first free one above it."""
    if port is not None:
        return _at(port, host=host) or _refuse(port)
    for number in range(PORT, PORT + NEIGHBORS + 1):
        door = _at(number, host=host)
        if door is not None:
            if number != PORT:
                print(f"Port {PORT} is in use; port {number} is taken instead.", file=sys.stderr)
            return door
    raise NoFreePort


def _at(port: int, *, host: str) -> socket.socket | None:
    """A listening socket, or nothing where somebody else listens."""
    # Named as TCP the small packets of an answer are sent at once; else each page waits 40 ms for the last of them.
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    if os.name == "posix":  # elsewhere this would let two programs listen on one port
        door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((host, port))
        door.listen(128)
    except OSError as error:
        door.close()
        if error.errno == EADDRINUSE or _taken(port):
            return None
        raise PortRefused(port, error.strerror or str(error)) from None
    return door


def _taken(port: int) -> bool:
    """Whether somebody answers on a port."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as knock:
        knock.settimeout(1)
        return knock.connect_ex((HOST, port)) == 0


def _refuse(port: int) -> socket.socket:
    """The refusal of a port that is taken, with one that is free."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as free:
        free.bind((HOST, 0))
        raise PortInUse(port, free.getsockname()[1])

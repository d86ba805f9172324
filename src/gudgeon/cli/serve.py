"""The pages, served to the browsers of this machine alone."""

import os
import socket
import sys
import threading
import webbrowser
from argparse import Namespace
from contextlib import closing, suppress
from pathlib import Path

from gudgeon.book.address import BookAddress, data_folder
from gudgeon.cli.show import book_path
from gudgeon.errors import InputError

HOST = "127.0.0.1"
PORT = 8765
NEIGHBORS = 50
"""How many ports above the usual one are tried."""


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

    from gudgeon.web.app import create_app

    book, build = _book(chosen)
    door = _door(chosen.port)
    address = f"http://{HOST}:{door.getsockname()[1]}/"
    print(f"Gudgeon is served at {address}  (to this machine alone; Ctrl-C ends it)", flush=True)
    print(f"The book: {book}", flush=True)
    app = create_app(book, build=build)
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", lifespan="off", server_header=False))
    if chosen.open:
        # A browser that cannot be opened is no failure: the address stands above.
        threading.Timer(0.5, webbrowser.open, (address,)).start()
    threading.Timer(0.2, _ask_first, (door.getsockname()[1],)).start()
    with suppress(KeyboardInterrupt):
        server.run(sockets=[door])
    print("Stopped. Everything that was recorded is in the book.", flush=True)
    return 0


def _ask_first(port: int) -> None:
    """The first answer of a page loads what all later ones need; better now than under the first thumb."""
    from http.client import HTTPConnection, HTTPException

    for page in ("/", "/sheet", "/set"):
        with suppress(OSError, HTTPException), closing(HTTPConnection(HOST, port, timeout=10)) as line:
            line.request("GET", page)
            line.getresponse().read()


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


def _door(port: int | None) -> socket.socket:
    """A socket on the port asked for, else on the usual one or the first free one above it."""
    if port is not None:
        return _at(port) or _refuse(port)
    for number in range(PORT, PORT + NEIGHBORS + 1):
        door = _at(number)
        if door is not None:
            if number != PORT:
                print(f"Port {PORT} is in use; port {number} is taken instead.", file=sys.stderr)
            return door
    raise NoFreePort


def _at(port: int) -> socket.socket | None:
    """A listening socket, or nothing where somebody else listens."""
    # Named as TCP the small packets of an answer are sent at once; else each page waits 40 ms for the last of them.
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    if os.name == "posix":  # elsewhere this would let two programs listen on one port
        door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((HOST, port))
        door.listen(128)
    except OSError as error:
        door.close()
        if _taken(port):
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

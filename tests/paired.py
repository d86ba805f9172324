"""A test client that is paired, as every browser that writes is."""

from datetime import UTC, datetime
from pathlib import Path
from tempfile import mkdtemp

from starlette.testclient import TestClient

from gudgeon.book.address import BookAddress
from gudgeon.web.app import create_app
from gudgeon.web.devices import Devices
from gudgeon.web.security import COOKIE, Door

NAME, WHO = "phone at the engine", "Robin"


def paired(book: BookAddress, *, build: str | None = None, devices: Devices | None = None) -> TestClient:
    """The pages of a book for a device of this name; its forms carry their seal in a header."""
    devices = devices or Devices(Path(mkdtemp()) / "devices")
    client = TestClient(create_app(book, build=build, door=Door(devices)), base_url="http://127.0.0.1")
    now = datetime.now(UTC)
    _, kept = devices.pair(devices.invite(now=now), name=NAME, who=WHO, now=now)
    holder = devices.holder(kept, now=now)
    assert holder is not None
    client.cookies.set(COOKIE, kept, domain="127.0.0.1")
    client.headers["Gudgeon-Seal"] = holder.seal
    return client

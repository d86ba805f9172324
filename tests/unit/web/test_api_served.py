"""The interface for programs over the network: the examples of its page as they stand, and bodies that lie."""

import json
import re
import shlex
import shutil
import socket
import subprocess
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.book.address import data_folder
from gudgeon.web.devices import Devices, spaced
from gudgeon.web.security import FORM_BYTES
from tools.served import Served

PAGE = Path(__file__).parents[3] / "docs" / "api.md"


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    begun = open_demo(tmp_path_factory.mktemp("api") / "demo", now=datetime.now(UTC).astimezone())
    assert isinstance(begun.book, Path)
    with Served(begun.book) as server:
        yield server


def code() -> str:
    return spaced(Devices(data_folder() / "devices").invite(now=datetime.now(UTC)))


def examples() -> list[str]:
    return re.findall(r"^```\n(curl .*?)\n```$", PAGE.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)


@pytest.mark.skipif(shutil.which("curl") is None, reason="curl is not installed")
def test_the_examples_of_the_page_work_as_they_stand(served: Served) -> None:
    pairing, asking, writing = (one.replace("http://127.0.0.1:8765", served.address) for one in examples())
    secret = json.loads(run(pairing.replace("K7WM 42PX", code())))["secret"]
    ready = json.loads(run(asking.replace("SECRET", secret)))
    assert ready["heading"]["question"] == "May I start it?"
    assert ready["milestone"] == "fire"
    written = [json.loads(run(writing.replace("SECRET", secret))) for _ in range(2)]
    assert [one["said"] for one in written] == ["note: The dowel of the timing cover is bent."] * 2
    assert [one["again"] for one in written] == [False, True]


def run(command: str) -> str:
    done = subprocess.run(shlex.split(command), capture_output=True, check=True, encoding="utf-8", timeout=60)
    return done.stdout


def raw(served: Served, head: str, body: bytes, *, leaves: bool = False) -> str:
    """The status line of what is answered to bytes as they are; `leaves` ends the sending there."""
    with socket.create_connection(("127.0.0.1", served.port), timeout=30) as line:
        begin = f"{head}\r\nHost: 127.0.0.1:{served.port}\r\nContent-Type: application/json\r\nConnection: close\r\n"
        line.sendall(begin.encode())
        try:
            line.sendall(body)
            if leaves:
                line.shutdown(socket.SHUT_WR)
        except OSError:  # it has answered and closed before all was sent
            pass
        answer = b""
        try:
            while part := line.recv(65536):
                answer += part
        except OSError:
            pass
    return answer.decode("utf-8", errors="replace").partition("\r\n")[0]


SUM = "POST /api/calculators/quantity.convert HTTP/1.1"
"""A calculator writes nothing, so that it takes a body from this machine without pairing."""
SAID = b'{"inputs": {"value": "70 lbf\xc2\xb7ft", "to": "N\xc2\xb7m"}}'


def test_a_length_that_is_true_is_taken(served: Served) -> None:
    assert raw(served, SUM, b"Content-Length: %d\r\n\r\n" % len(SAID) + SAID) == "HTTP/1.1 200 OK"


def test_a_body_as_long_as_it_likes_is_cut_off(served: Served) -> None:
    body = b"x" * (FORM_BYTES + 4096)
    said = b"Content-Length: %d\r\n\r\n" % (1 << 40)
    assert raw(served, SUM, said + body).startswith("HTTP/1.1 413")
    chunk = b"%x\r\n%s\r\n" % (len(body), body)
    assert raw(served, SUM, b"Transfer-Encoding: chunked\r\n\r\n" + chunk * 4).startswith("HTTP/1.1 413")


def test_a_length_that_promises_more_than_comes_writes_nothing_and_harms_nobody(served: Served) -> None:
    assert raw(served, SUM, b"Content-Length: 5000\r\n\r\n" + SAID, leaves=True) in (
        "",
        "HTTP/1.1 400 Bad Request",
    )
    assert raw(served, SUM, b"Content-Length: %d\r\n\r\n" % len(SAID) + SAID) == "HTTP/1.1 200 OK"
    assert "Traceback" not in served.log


def test_a_length_that_promises_less_is_cut_there(served: Served) -> None:
    assert raw(served, SUM, b"Content-Length: 9\r\n\r\n" + SAID).startswith("HTTP/1.1 400")
    assert raw(served, SUM, b"Content-Length: -9\r\n\r\n" + SAID).startswith("HTTP/1.1 400")
    assert "Traceback" not in served.log

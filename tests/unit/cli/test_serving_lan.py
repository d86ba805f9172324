"""`gudgeon serve` on the network, as a process of its own: what it prints, whom it lets in, what it keeps to itself."""

import http.client
import os
import re
import socket
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from urllib.parse import urlencode

import pytest

from gudgeon.cli.main import main
from gudgeon.web.code_picture import as_text
from gudgeon.web.devices import plain_code
from gudgeon.web.network import addresses
from gudgeon.web.patience import Patient
from tests.unit.bench.benches import make_job
from tools.served import free_port

PATIENCE_S = 120


class Server:
    """A server of its own, with a data folder of its own."""

    def __init__(self, folder: Path, *options: str) -> None:
        self.port, self.data, self._log = free_port(), folder / "data", folder / "log"
        self.trusted: Path | None = None
        job = make_job(folder)
        job.read_code()
        command = [sys.executable, "-m", "gudgeon.cli.main", "serve", "--book", str(job.book), "--no-open"]
        with self._log.open("wb") as log:
            self.process = subprocess.Popen(
                [*command, "--port", str(self.port), *options],
                stdin=subprocess.DEVNULL, stdout=log, stderr=log,
                env={**os.environ, "XDG_DATA_HOME": str(self.data)},
            )  # fmt: skip

    @property
    def said(self) -> str:
        return self._log.read_text("utf-8")

    def wait(self, scheme: str = "http") -> None:
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end and self.process.poll() is None:
            with suppress(OSError):
                self.ask("GET", "/pair", scheme=scheme)
                return
            time.sleep(0.1)
        pytest.fail(f"no answer: {self.said}")

    def ask(
        self, method: str, path: str, *, host: str = "127.0.0.1", scheme: str = "http", cookie: str = "", seal: str = "",
        **form: str,
    ) -> tuple[int, str, http.client.HTTPMessage]:  # fmt: skip
        if scheme == "https":
            context = (
                ssl.create_default_context(cafile=self.trusted)
                if self.trusted
                else ssl._create_unverified_context()
            )
            line: http.client.HTTPConnection = http.client.HTTPSConnection(
                host, self.port, timeout=60, context=context
            )
        else:
            line = http.client.HTTPConnection(host, self.port, timeout=60)
        headers = {
            "Content-Type": "application/x-www-form-urlencoded",
            "Cookie": cookie,
            "Gudgeon-Seal": seal,
        }
        with closing(line):
            line.request(method, path, urlencode(form) if method == "POST" else None, headers)
            answer = line.getresponse()
            return answer.status, answer.read().decode(errors="replace"), answer.headers

    def stop(self) -> None:
        self.process.terminate()
        self.process.wait(20)


@contextmanager
def serving(folder: Path, *options: str, scheme: str = "http") -> Iterator[Server]:
    server = Server(folder, *options)
    try:
        server.wait(scheme)
        yield server
    finally:
        server.stop()


def outside() -> str:
    """An address of this machine other than the loopback, at which its own server is somebody else's."""
    found = addresses()
    if not found:
        pytest.skip("this machine is on no network")
    return found[0]


def test_by_itself_it_listens_to_this_machine_alone(tmp_path: Path) -> None:
    with serving(tmp_path) as server:
        assert "(to this machine alone; Ctrl-C ends it)" in server.said
        for other in addresses():
            with socket.socket() as knock:
                knock.settimeout(5)
                assert knock.connect_ex((other, server.port)) != 0


def test_on_the_network_a_phone_is_let_in_by_the_code_and_off_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    here = outside()
    with serving(tmp_path, "--lan") as server:
        said = server.said
        assert f"http://{here}:{server.port}/" in said
        code = re.search(r"^    ([A-Z2-9]{4} [A-Z2-9]{4})$", said, re.MULTILINE)
        assert code is not None
        plain = plain_code(code[1])
        picture = as_text(f"http://{here}:{server.port}/pair?code={plain}", colored=False)
        assert picture in said, "the picture is of the first address and that code"
        words = " ".join(said.split())
        assert (
            "The line is plain HTTP, not encrypted: anybody on the same network could read what a device"
            in words
        )
        status, page, _ = server.ask("GET", "/", host=here)
        assert status == 403
        assert "Little one" not in page
        status, page, _ = server.ask("GET", f"/pair?code={plain}", host=here)
        assert (status, f'value="{plain}"' in page) == (200, True)
        status, _, head = server.ask("POST", "/pair", host=here, code=code[1], name="phone", who="Robin")
        assert status == 303
        cookie = str(head["set-cookie"]).partition(";")[0]
        status, page, _ = server.ask("GET", "/record/note", host=here, cookie=cookie)
        assert status == 200
        seal = re.search(r'name="seal" value="([0-9a-f]{32})"', page)
        assert seal is not None
        note = {"text": "oil in the plug well", "seal": seal[1]}
        assert server.ask("POST", "/record/note", host=here, cookie=cookie, **note)[0] == 303
        assert "oil in the plug well" in server.ask("GET", "/done", host=here, cookie=cookie)[1]
        monkeypatch.setenv("XDG_DATA_HOME", str(server.data))
        assert main(["devices", "--remove", "phone"]) == 0
        capsys.readouterr()
        assert server.ask("GET", "/", host=here, cookie=cookie)[0] == 403
        assert server.ask("POST", "/record/note", host=here, cookie=cookie, **note)[0] == 403
        assert main(["devices", "--invite", "--json"]) == 0
        new = re.search(r'"code": "(\w+)"', capsys.readouterr().out)
        assert new is not None
        status, _, head = server.ask("POST", "/pair", host=here, code=new[1], name="phone", who="Robin")
        assert status == 303, "a code that the terminal makes works while the server runs"
        said = server.said
        secret = str(head["set-cookie"]).partition(";")[0].partition("=")[2]
        for hidden in (new[1], secret, secret.partition(".")[2], cookie.partition("=")[2], seal[1]):
            assert hidden not in said
        assert said.count(code[1]) == 1
        assert plain not in said, "the code stands there once, in fours, and not in an address"


def test_encrypted_it_is_known_by_its_own_authority(tmp_path: Path) -> None:
    here = outside()
    with serving(tmp_path, "--lan", "--https", scheme="https") as server:
        said = server.said
        status, _, head = server.ask("GET", "/certificate", host=here, scheme="https")
        assert (status, head["content-type"]) == (200, "application/x-x509-ca-cert")
        folder = server.data / "gudgeon" / "certificate"
        assert {file.name: file.stat().st_mode & 0o077 for file in folder.iterdir()} == {
            "authority.pem": 0, "server.pem": 0,
        }  # fmt: skip
        server.trusted = folder / "authority.pem"
        status, page, _ = server.ask("GET", "/pair", host=here, scheme="https")
        assert status == 200
        assert "over a plain line" not in page
        code = re.search(r"^    ([A-Z2-9]{4} [A-Z2-9]{4})$", said, re.MULTILINE)
        assert code is not None
        status, _, head = server.ask(
            "POST",
            "/pair",
            host=here,
            scheme="https",
            code=code[1],
            name="phone",
            who="Robin",
        )
        assert status == 303
        assert re.match(r"__Host-gudgeon-device=[^;]+; HttpOnly; Max-Age=31536000; Path=/; SameSite=strict; Secure$", head["set-cookie"])  # fmt: skip
        assert re.search(r"^    ([0-9A-F]{2}:){31}[0-9A-F]{2}$", said, re.MULTILINE)
        assert "PRIVATE" not in said
        unknown = ssl.create_default_context()
        with (
            socket.create_connection((here, server.port)) as line,
            pytest.raises(ssl.SSLCertVerificationError),
        ):
            unknown.wrap_socket(line, server_hostname=here)


def test_encrypted_for_this_machine_alone(tmp_path: Path) -> None:
    with serving(tmp_path, "--https", scheme="https") as server:
        assert f"Gudgeon is served at https://127.0.0.1:{server.port}/  (to this machine alone" in server.said
        server.trusted = server.data / "gudgeon" / "certificate" / "authority.pem"
        assert server.ask("GET", "/", scheme="https")[0] == 200
        assert server.ask("GET", "/", scheme="https", host="localhost")[0] == 200


def test_one_that_says_nothing_is_hung_up_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """In a server of this process, with its patience cut short: real sockets, real silence."""
    import asyncio

    import uvicorn
    from starlette.responses import PlainTextResponse

    monkeypatch.setattr("gudgeon.web.patience.SILENT_S", 0.3)

    async def run() -> tuple[bytes, bytes, bytes]:
        config = uvicorn.Config(
            PlainTextResponse("here"), http=Patient, ws="none", lifespan="off", log_level="critical"
        )
        server = uvicorn.Server(config)
        with socket.socket() as door:
            door.bind(("127.0.0.1", 0))
            port = door.getsockname()[1]
            served = asyncio.create_task(server._serve([door]))
            while not server.started:
                await asyncio.sleep(0.01)
            answers = []
            for head in (b"", b"GET / HTTP/1.1\r\nHost: x\r\nX-", b"GET / HTTP/1.1\r\nHost: x\r\n\r\n"):
                reader, writer = await asyncio.open_connection("127.0.0.1", port)
                writer.write(head)
                answers.append(await asyncio.wait_for(reader.read(15), 10))
                writer.close()
            server.should_exit = True
            await served
        return answers[0], answers[1], answers[2]

    assert asyncio.run(run()) == (b"", b"", b"HTTP/1.1 200 OK")

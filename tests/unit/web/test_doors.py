"""What stands before every page: strange hosts, strange origins, strange methods, strange paths, strange bodies.

Every expected status is COMMON PRACTICE of HTTP: 403 refused, 404 not there, 405 not that way, 413 too large.
"""

import asyncio
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from starlette.types import Message, Receive, Scope, Send

from gudgeon.cli.main import main
from gudgeon.web import security
from gudgeon.web.app import create_app
from gudgeon.web.desk import own_address
from gudgeon.web.devices import Devices
from gudgeon.web.security import COOKIE, HEADERS, SECRET_COOKIE, Door, Guard, TooSlow, limited
from gudgeon.web.static_files import ASKED_AGAIN, FOR_GOOD
from gudgeon.web.templating import static
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

NAMES = frozenset(("localhost", "127.0.0.1", "::1", "garage", "garage.local"))


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    """One book for all of them: nothing here is to write more than a note."""
    made = make_job(tmp_path_factory.mktemp("doors"))
    made.read_code()
    return made


@pytest.fixture(scope="module")
def pages(job: Job) -> Iterator[TestClient]:
    with paired(job.book) as client:
        yield client


@pytest.fixture
def devices(tmp_path: Path) -> Devices:
    return Devices(tmp_path / "devices")


def raw(app: Any, path: str, *, method: str = "GET", client: str = "127.0.0.1", **headers: bytes) -> tuple[int, bytes, dict[str, str]]:  # fmt: skip
    """Ask with a path and headers as they come over the line, which a client of its own would tidy first."""
    sent: list[Message] = []
    asked: list[Message] = [{"type": "http.request", "body": b"", "more_body": False}]

    async def receive() -> Message:
        if not asked:
            await asyncio.sleep(3600)  # it stays on the line and says no more
        return asked.pop()

    async def send(message: Message) -> None:
        sent.append(message)

    named = {"host": b"127.0.0.1", **headers}
    scope: Scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method, "scheme": "http",
        "path": path, "raw_path": path.encode("latin-1", "replace"), "query_string": b"", "root_path": "",
        "headers": [(name.replace("_", "-").encode(), value) for name, value in named.items()],
        "client": (client, 50000), "server": ("127.0.0.1", 80),
    }  # fmt: skip
    asyncio.run(app(scope, receive, send))
    head = {name.decode(): value.decode() for name, value in sent[0]["headers"]}
    return sent[0]["status"], b"".join(one.get("body", b"") for one in sent), head


@pytest.mark.parametrize(
    ("host", "alone", "lan"),
    [
        ("127.0.0.1", True, True),
        ("127.0.0.1:8765", True, True),
        ("LOCALHOST:8765", True, True),
        ("[::1]:8765", True, True),
        ("garage", False, True),
        ("Garage.local:8765", False, True),
        ("192.168.1.20:8765", False, True),
        ("[fd00::2]:8765", False, True),
        ("evil.example", False, False),
        ("127.0.0.1.evil.example", False, False),
        ("localhost.evil.example:8765", False, False),
        ("evil@127.0.0.1", False, False),
        ("127.0.0.1:port", False, False),
        ("127.0.0.1:8765:1", False, False),
        ("127.0.0.1/", False, False),
        ("127.0.0.1 evil", False, False),
        ("[::1", False, False),
        ("::1", False, False),
        ("localhost.", False, False),
        ("0x7f.1", False, False),
        ("", False, False),
    ],
)
def test_a_strange_name_is_not_taken(devices: Devices, host: str, *, alone: bool, lan: bool) -> None:
    """A strange page may let a name of its own point here, but never a figure or a name of this machine."""
    assert Door(devices).takes(host) is alone
    assert Door(devices, lan=True, names=NAMES).takes(host) is lan


def test_a_request_by_a_strange_name_is_answered_with_nothing(job: Job, devices: Devices) -> None:
    app = create_app(job.book, door=Door(devices))
    for path in ("/", "/static/style.css", "/pair", "/certificate", "/no-such-page"):
        status, body, _ = raw(app, path, host=b"evil.example")
        assert status == 403
        assert body == (
            b"This address is only for this machine: `evil.example` is not taken; use 127.0.0.1 or localhost. "
            b"Nothing was written.\n"
        )


@pytest.mark.parametrize(
    ("client", "answered"),
    [("192.168.1.20", True), ("10.0.0.7", True), ("fe80::1%eth0", True), ("127.0.0.1", True), ("::ffff:192.168.1.20", True),
     ("8.8.8.8", False), ("2600::1", False), ("::ffff:8.8.8.8", False)],
)  # fmt: skip
def test_only_neighbors_are_answered(job: Job, devices: Devices, client: str, *, answered: bool) -> None:
    app = create_app(job.book, door=Door(devices, lan=True, names=NAMES))
    status, body, _ = raw(app, "/pair", host=b"192.168.1.4:8765", client=client)
    assert status == (200 if answered else 403)
    assert answered or body == (
        b"These pages are for the network on which this machine stands; your address lies outside of it. "
        b"Nothing was written.\n"
    )


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "null"},
        {"Origin": "http://evil.example"},
        {"Origin": "https://127.0.0.1"},
        {"Origin": "http://127.0.0.1:1234"},
        {"Origin": ""},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Sec-Fetch-Site": "none, cross-site"},
    ],
    ids=str,
)
def test_a_form_of_another_page_is_refused(pages: TestClient, job: Job, headers: dict[str, str]) -> None:
    before = job.bench().state.head
    for method in ("POST", "PUT", "DELETE", "PATCH", "OPTIONS"):
        answer = pages.request(method, "/record/note", data={"text": "oil in the plug well"}, headers=headers)
        assert answer.status_code == 403
        assert answer.text.endswith("; write from the pages of Gudgeon. Nothing was written.\n")
    assert job.bench().state.head == before


def test_without_these_headers_the_seal_decides(pages: TestClient) -> None:
    """An old browser or a program of one's own sends neither; the seal of the device is asked for all the same."""
    seal = pages.headers.pop("Gudgeon-Seal")
    assert pages.post("/record/note", data={"text": "a leak below"}).status_code == 422
    assert "a leak below" not in pages.get("/done").text
    pages.post("/record/note", data={"text": "a leak below", "seal": seal})
    assert "a leak below" in pages.get("/done").text
    pages.headers["Gudgeon-Seal"] = seal


@pytest.mark.parametrize("path", ["/record/note", "/static/style.css", "/devices", "/pair"])
def test_other_methods_do_nothing(pages: TestClient, job: Job, path: str) -> None:
    before = job.bench().state.head
    for method in ("PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "PROPFIND", "GET\n"):
        assert raw(pages.app, path, method=method)[0] == 405
    assert job.bench().state.head == before


def test_head_is_answered_like_get_without_a_body(pages: TestClient) -> None:
    answer = pages.head("/devices")
    assert (answer.status_code, answer.content) == (200, b"")


@pytest.mark.parametrize(
    ("cookie", "known"),
    [
        ("{}", True),
        ("a=b; {}; c=d", True),
        ("{}; {0}x", True),
        ("{}x", False),
        ("\xff\xfe=\x80; {}", True),
        (f"{COOKIE}=\xff\xfe.\x80", False),
        (f"{COOKIE}=", False),
        (f"{COOKIE}=000000000000.", False),
        (f"{COOKIE}=../../../../etc/passwd.x", False),
        (f"{COOKIE}=" + "a" * 60_000, False),
        ("; ".join(f"c{number}=x" for number in range(5_000)) + "; {}", True),
        (f"{SECRET_COOKIE}={{0}}", False),
        (";;;===;", False),
    ],
    ids=lambda one: repr(one)[:30],
)
def test_a_device_is_known_by_its_cookie_alone(
    job: Job, devices: Devices, cookie: str, *, known: bool
) -> None:
    from datetime import UTC, datetime

    now = datetime.now(UTC)
    _, kept = devices.pair(devices.invite(now=now), name="phone", who="Robin", now=now)
    said = cookie.replace("{}", f"{COOKIE}={kept}").replace("{0}", kept)
    status, _, _ = raw(create_app(job.book, door=Door(devices, lan=True, names=NAMES)), "/", client="192.168.1.20", cookie=said.encode("latin-1"))  # fmt: skip
    assert status == (200 if known else 403)


def test_over_https_the_secret_has_a_cookie_of_its_own(job: Job, devices: Devices) -> None:
    """A browser lets no plain page write over a cookie that came encrypted (COMMON PRACTICE, RFC 6265bis, 5.7)."""
    from datetime import UTC, datetime

    app = create_app(job.book, door=Door(devices))
    for scheme, name in (("https", SECRET_COOKIE), ("http", COOKIE)):
        code = devices.invite(now=datetime.now(UTC))
        with TestClient(app, base_url=f"{scheme}://127.0.0.1", follow_redirects=False) as client:
            answer = client.post("/pair", data={"code": code, "name": scheme, "who": "Robin"})
            said = answer.headers["set-cookie"]
            assert said.startswith(f"{name}=")
            assert ("Secure" in said) is (scheme == "https")
            assert "Path=/" in said
            assert "Domain" not in said
            assert client.get("/devices").status_code == 200
            assert "This one" in client.get("/devices").text


OUT = [
    "/static/../security.py",
    "/static/../../book/address.py",
    "/static//etc/passwd",
    "/static/..\\security.py",
    "/static/%2e%2e/security.py",
    "/static/\0",
    "/static/" + "a" * 5000,
    "/photos/../../book.gudgeon",
    "/photos/..",
    "/photos/" + "a" * 64,
    "/sheet/photo/../sheet.yaml",
    "/sheet/photo/../../../etc/passwd",
    "/sheet/photo/sheet.yaml",
    "/paper/card/../../sheet.yaml.pdf",
    "/paper/card/...pdf",
    "/devices/../../x/off",
    "/devices/..%2f/off",
    "//evil.example/..",
]


@pytest.mark.parametrize("path", OUT)
def test_no_path_leads_out(pages: TestClient, path: str) -> None:
    """Asked as the bytes come over the line; what is answered is a page that says that there is nothing."""
    kept = pages.cookies[COOKIE].encode()
    status, body, head = raw(pages.app, path, cookie=COOKIE.encode() + b"=" + kept)
    assert status in (404, 422)
    assert head["content-type"] == "text/html; charset=utf-8"
    for inside in (
        b"root:",
        b"class Guard",
        b"def data_folder",
        b"SQLite format",
        b"Invented manual, edition",
    ):
        assert inside not in body


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [("GET", "/", 200), ("GET", "/no-such-page", 404), ("GET", "/static/style.css", 200), ("GET", "/static/no.css", 404),
     ("PUT", "/", 405), ("GET", "/certificate", 404), ("GET", "/devices/code.svg", 404), ("GET", "/standing", 200)],
)  # fmt: skip
def test_every_answer_carries_the_headers(pages: TestClient, method: str, path: str, status: int) -> None:
    answered, _, head = raw(pages.app, path, method=method)
    assert answered == status
    assert {name: head[name.lower()] for name in HEADERS} == HEADERS
    assert "cache-control" in head


def test_a_refusal_and_a_fault_carry_the_headers_too(
    devices: Devices, capsys: pytest.CaptureFixture[str]
) -> None:
    """A fault outside of every page is still answered, and tells the network nothing of itself."""

    async def broken(scope: Scope, receive: Receive, send: Send) -> None:
        raise ZeroDivisionError(scope["path"] + "secret")

    app = Guard(broken, door=Door(devices))
    status, body, head = raw(app, "/one\x1b[2J\n")
    assert (status, body) == (
        500,
        b"Something in Gudgeon failed. What it was stands in the terminal. Nothing was written.\n",
    )
    assert {name: head[name.lower()] for name in HEADERS} == HEADERS
    assert capsys.readouterr().err.startswith("GET '/one\\x1b[2J\\n' failed:\n")
    status, _, head = raw(app, "/", host=b"evil.example")
    assert status == 403
    assert {name: head[name.lower()] for name in HEADERS} == HEADERS


def test_a_style_is_kept_for_good_by_the_right_mark_alone(pages: TestClient) -> None:
    assert pages.get(static("style.css")).headers["Cache-Control"] == FOR_GOOD
    assert pages.get("/static/style.css").headers["Cache-Control"] == ASKED_AGAIN
    assert pages.get("/static/style.css?00000000").headers["Cache-Control"] == ASKED_AGAIN
    marked = pages.get(static("style.css"))
    again = pages.get(static("style.css"), headers={"If-None-Match": marked.headers["etag"]})
    assert again.status_code == 304
    assert again.headers["Cache-Control"] == FOR_GOOD


@pytest.mark.parametrize(
    "address",
    ["", "evil", "//evil.example", "///evil.example", "////evil.example", "/\\evil.example", "\\\\evil.example", "/\t/evil.example",
     "/\n/evil.example", " //evil.example", "\x00//evil.example", "http://evil.example", "javascript:alert(1)", "/one\\two",
     "/x\r\nSet-Cookie: a=b"],
)  # fmt: skip
def test_a_way_back_out_is_not_followed(pages: TestClient, address: str) -> None:
    assert own_address(address, otherwise="/done") == "/done"
    answer = pages.post(
        "/record/note", data={"text": "oil in the plug well", "back": address}, follow_redirects=False
    )
    assert answer.status_code == 303
    assert answer.headers["location"].startswith("/?recorded=")


@pytest.mark.parametrize(
    "address", ["/", "/set/head?from=3#next", "/%2f%2fevil.example", "/a//b", "/.//evil.example"]
)
def test_a_way_back_within_is_followed(address: str) -> None:
    """What is written as % signs stays a path of this machine (PRINTED, URL Living Standard: path state)."""
    assert own_address(address, otherwise="/done") == address


def multipart(parts: int, *, file: bool = False, size: int = 1) -> tuple[bytes, dict[str, str]]:
    name = '; filename="x.jpg"' if file else ""
    one = f'--edge\r\nContent-Disposition: form-data; name="f%d"{name}\r\n\r\n{"x" * size}\r\n'
    body = "".join(one % number for number in range(parts)) + "--edge--\r\n"
    return body.encode(), {"Content-Type": "multipart/form-data; boundary=edge"}


def test_a_form_of_too_many_parts_is_not_read(pages: TestClient, job: Job) -> None:
    before = job.bench().state.head
    many = [
        multipart(1_000),
        multipart(40, file=True),
        multipart(2, size=70_000),
        (b"&".join(b"f%d=x" % number for number in range(5_000)), {"Content-Type": "application/x-www-form-urlencoded"}),
        (b"--edge\r\n" + b"X-Head: " + b"x" * 50_000, {"Content-Type": "multipart/form-data; boundary=edge"}),
        (b"garbage", {"Content-Type": "multipart/form-data; boundary=edge"}),
        (b"garbage", {"Content-Type": "multipart/form-data"}),
    ]  # fmt: skip
    for body, headers in many:
        answer = pages.post("/record/note", content=body, headers=headers)
        assert answer.status_code in (400, 413), (headers, body[:60])
        wrong = "What was sent cannot be read" if answer.status_code == 400 else "Too large to take"
        assert wrong in answer.text
        assert "no page of Gudgeon" not in answer.text
        assert HEADERS["Content-Security-Policy"] == answer.headers["Content-Security-Policy"]
    assert job.bench().state.head == before


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("photo.jpg", b"<html><script>alert(1)</script></html>"),
        ("photo.svg", b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'),
        ("photo.png", b"\x89PNG\r\n\x1a\n" + b"<script>alert(1)</script>"),
        ("../../sheet.yaml", b"gudgeon: data sheet 1"),
        ("photo.jpg", b"MZ\x90\0" + b"\0" * 500),
    ],
)
def test_a_photo_is_what_it_holds_and_not_what_it_is_called(
    pages: TestClient, job: Job, name: str, content: bytes
) -> None:
    before = {file: file.read_bytes() for file in job.book.parent.rglob("*.yaml")}
    answer = pages.post("/record/photo", data={"caption": "the deck"}, files={"photo": (name, content)})
    assert answer.status_code == 422
    assert "the deck" not in pages.get("/photos").text
    assert {file: file.read_bytes() for file in job.book.parent.rglob("*.yaml")} == before


@pytest.mark.parametrize(
    "tag", ["!!python/object/apply:os.system", "!!python/object/new:os.system", "!!python/name:os.system"]
)
def test_a_sheet_is_data_and_runs_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], tag: str
) -> None:
    ran = tmp_path / "ran"
    sheet = tmp_path / "engine.yaml"
    for said in (
        f"{tag} ['touch {ran}']",
        f"{tag} [\t'touch {ran}']",
    ):  # with a tab the other parser reads it
        sheet.write_text(SMALL.replace("name: Little one", f"name: {said}"), encoding="utf-8")
        assert main(["sheet", "check", str(sheet)]) == 2
        assert "engine.yaml, line 4, column" in capsys.readouterr().err
        assert not ran.exists()


def test_a_body_that_never_ends_is_not_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(security, "BODY_S", 0.05)

    async def ask() -> None:
        async def receive() -> Message:
            await asyncio.sleep(60)
            return {"type": "http.request"}

        await limited(receive, 10)()

    with pytest.raises(TooSlow):
        asyncio.run(ask())


def test_a_slow_form_and_one_that_goes_away_leave_no_trace(
    job: Job, devices: Devices, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(security, "BODY_S", 0.05)
    app = create_app(job.book, door=Door(devices))
    sent: list[Message] = []

    async def never() -> Message:
        await asyncio.sleep(60)
        return {"type": "http.request"}

    async def away() -> Message:
        return {"type": "http.disconnect"}

    async def send(message: Message) -> None:
        sent.append(message)

    for receive in (never, away):
        scope: Scope = {
            "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "POST", "scheme": "http",
            "path": "/pair", "raw_path": b"/pair", "query_string": b"", "root_path": "", "client": ("127.0.0.1", 1),
            "server": ("127.0.0.1", 80), "headers": [(b"host", b"127.0.0.1"), (b"content-type", b"application/x-www-form-urlencoded")],
        }  # fmt: skip
        with suppress(TimeoutError):
            asyncio.run(app(scope, receive, send))
    assert [one["status"] for one in sent if one["type"] == "http.response.start"] == [408]
    assert capsys.readouterr().err == ""

"""The page Devices: the list, a code for another device, taking one off, and the certificate."""

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from html import unescape
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pytest
import segno
from starlette.testclient import TestClient

from gudgeon.web.app import create_app
from gudgeon.web.certificate import certificate
from gudgeon.web.code_picture import as_svg, as_text
from gudgeon.web.devices import VALID, Devices, plain_code
from gudgeon.web.invitations import Invitations
from gudgeon.web.security import COOKIE, Door
from tests.paired import NAME, WHO, paired
from tests.unit.bench.benches import Job, make_job

NOW = datetime(2026, 5, 4, 18, tzinfo=UTC)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


@pytest.fixture
def devices(tmp_path: Path) -> Devices:
    return Devices(tmp_path / "devices")


@pytest.fixture
def pages(job: Job, devices: Devices) -> Iterator[TestClient]:
    with paired(job.book, devices=devices) as client:
        yield client


def another(devices: Devices, name: str = "tablet") -> str:
    now = datetime.now(UTC)
    return devices.pair(devices.invite(now=now), name=name, who="Kim", now=now)[1]


def shown_code(page: str) -> str:
    found = re.search(r'<p class="figure code">([A-Z2-9]{4} [A-Z2-9]{4})</p>', page)
    return found[1] if found else ""


def words(page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())


def test_the_list_says_who_and_which_is_this_one(pages: TestClient, devices: Devices) -> None:
    another(devices)
    said = words(pages.get("/devices").text)
    assert re.search(
        rf"{NAME} This one {WHO} writes with it · paired \d{{4}}-\d\d-\d\d \d\d:\d\d · last heard of", said
    )
    assert re.search(r"tablet Kim writes with it · paired ", said)
    assert said.count("This one") == 1
    assert "Take it off the list : tablet" in said


def test_a_code_is_made_shown_and_used_once(pages: TestClient, job: Job, devices: Devices) -> None:
    assert shown_code(pages.get("/devices").text) == ""
    answer = pages.post("/devices/invite", follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/devices#code")
    assert plain_code(answer.headers["location"]) == "DEVICESCODE", (
        "the code stands in no address of the page"
    )
    page = pages.get("/devices")
    code = shown_code(page.text)
    assert code
    assert page.headers["Cache-Control"] == "no-store"
    app = create_app(job.book, door=Door(devices))
    with TestClient(app, base_url="http://127.0.0.1") as other:
        assert shown_code(other.get("/devices").text) == "", (
            "a device that did not ask for it is not shown it"
        )
        other.post("/pair", data={"code": code.lower(), "name": "tablet", "who": "Kim"})
        assert "tablet This one" in words(other.get("/devices").text)
    assert shown_code(pages.get("/devices").text) == "", "it is used up"
    assert pages.get("/devices/code.svg").status_code == 404


def test_the_picture_is_the_code_of_the_pairing_address(pages: TestClient) -> None:
    """Drawn by the library from the same text: what we add is which text that is, and that nobody keeps it."""
    pages.post("/devices/invite")
    code = plain_code(shown_code(pages.get("/devices").text))
    picture = pages.get("/devices/code.svg")
    assert picture.headers["Content-Type"] == "image/svg+xml"
    assert picture.headers["Cache-Control"] == "no-store"
    assert picture.content == as_svg(f"http://127.0.0.1/pair?code={code}")
    assert b"style=" not in picture.content
    assert code.encode() not in picture.content


def test_on_the_network_the_address_is_the_one_that_reached_it(job: Job, devices: Devices) -> None:
    door = Door(devices, lan=True)
    now = datetime.now(UTC)
    _, kept = devices.pair(devices.invite(now=now), name=NAME, who=WHO, now=now)
    holder = devices.holder(kept, now=now)
    assert holder is not None
    app = create_app(job.book, door=door)
    with TestClient(app, base_url="http://192.168.1.20:8765", headers={"Gudgeon-Seal": holder.seal}) as pages:
        pages.cookies.set(COOKIE, kept, domain="192.168.1.20")
        page = pages.post("/devices/invite").text
        code = plain_code(shown_code(page))
        reached = re.findall(r"<li><strong>(http[^<]+)</strong></li>", page)
        assert reached[0] == "http://192.168.1.20:8765"
        assert all(re.fullmatch(r"http://[\w.-]+:8765", one) for one in reached)
        assert pages.get("/devices/code.svg").content == as_svg(f"http://192.168.1.20:8765/pair?code={code}")
        assert "The line is plain. Anybody on the same network could read what a device sends" in words(page)


def test_alone_it_says_that_no_other_device_reaches_it(pages: TestClient) -> None:
    said = words(pages.get("/devices").text)
    assert "Other devices cannot reach this server. It listens to this machine alone" in said
    assert "What you type here does not leave this machine." in said
    pages.post("/devices/invite")
    said = words(pages.get("/devices").text)
    assert "In the other browser of this machine open http://127.0.0.1 and type this code:" in said


def test_another_device_is_taken_off_after_a_question(pages: TestClient, job: Job, devices: Devices) -> None:
    kept = another(devices)
    key = kept.partition(".")[0]
    said = words(pages.get(f"/devices/{key}/off").text)
    assert "tablet Kim writes with it" in said
    assert "This is the device you sit at." not in said
    assert len(devices.all()) == 2, "a page that asks takes nothing off"
    with TestClient(create_app(job.book, door=Door(devices)), base_url="http://127.0.0.1") as other:
        other.cookies.set(COOKIE, kept, domain="127.0.0.1")
        assert "This one" in other.get("/devices").text
        answer = pages.post(f"/devices/{key}/off", follow_redirects=False)
        assert (answer.status_code, answer.headers["location"]) == (303, "/devices")
        refused = other.post("/record/note", data={"text": "oil in the plug well"})
        assert refused.status_code == 403
        said = words(refused.text)
        assert "This device is not paired, so nothing was written." in said
        assert "What you had typed , so that it is not lost." in said
        assert "<li>oil in the plug well</li>" in refused.text
    assert "oil in the plug well" not in pages.get("/done").text


def test_the_device_one_sits_at_is_named_and_is_a_stranger_at_once(
    pages: TestClient, devices: Devices
) -> None:
    key = devices.all()[0].key
    assert "This is the device you sit at." in words(pages.get(f"/devices/{key}/off").text)
    answer = pages.post(f"/devices/{key}/off", follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/pair")
    assert devices.all() == ()
    assert pages.post("/record/note", data={"text": "oil"}).status_code == 403
    assert pages.get("/").status_code == 403


def test_a_device_that_is_not_there_is_refused(pages: TestClient, devices: Devices) -> None:
    key = devices.all()[0].key
    for answer in (pages.get("/devices/000000000000/off"), pages.post("/devices/000000000000/off")):
        assert answer.status_code == 422
        assert (
            f"No device is called `000000000000`. Paired: {NAME} [{key}]. Name one of them, or its key in brackets."
            in unescape(answer.text)
        )
    assert len(devices.all()) == 1


def test_a_stranger_is_shown_no_form_and_changes_nothing(job: Job, devices: Devices) -> None:
    key = another(devices).partition(".")[0]
    app = create_app(job.book, door=Door(devices))
    with TestClient(app, base_url="http://127.0.0.1", client=("127.0.0.1", 1)) as here:
        page = here.get("/devices").text
        assert "tablet" in page
        assert '<form method="post" action="/devices' not in page
        assert "<form" not in here.get(f"/devices/{key}/off").text
        assert here.post("/devices/invite").status_code == 403
        assert here.post(f"/devices/{key}/off").status_code == 403
    lan = create_app(job.book, door=Door(devices, lan=True))
    with TestClient(lan, base_url="http://192.168.1.20", client=("192.168.1.30", 1)) as outside:
        for path in ("/devices", "/devices/code.svg", f"/devices/{key}/off"):
            answer = outside.get(path)
            assert answer.status_code == 403
            assert "tablet" not in answer.text
    assert len(devices.all()) == 1


def test_these_forms_want_the_seal_too(pages: TestClient, devices: Devices) -> None:
    key = another(devices).partition(".")[0]
    del pages.headers["Gudgeon-Seal"]
    for address in ("/devices/invite", f"/devices/{key}/off"):
        assert pages.post(address).status_code == 422
    assert len(devices.all()) == 2
    assert list((devices.folder / "codes").glob("*.json")) == []


def test_a_paired_browser_goes_on_and_is_not_listed_twice(job: Job, devices: Devices) -> None:
    """Each start of the server opens the browser with a new code."""
    app = create_app(job.book, door=Door(devices))
    with TestClient(
        app, base_url="http://127.0.0.1", client=("127.0.0.1", 1), follow_redirects=False
    ) as pages:
        for _ in range(3):
            code = devices.invite(now=datetime.now(UTC), here=True)
            answer = pages.get(f"/pair?code={code}&to=/done")
            assert (answer.status_code, answer.headers["location"]) == (303, "/done")
        assert len(devices.all()) == 1


def test_a_code_is_shown_until_it_is_used_or_over(devices: Devices) -> None:
    kept = Invitations()
    a, b = (
        devices.pair(devices.invite(now=NOW), name=one, who=WHO, now=NOW)[0].key for one in ("desk", "tablet")
    )
    made = kept.make(devices, asks=a, now=NOW)
    later = kept.make(devices, asks=b, now=NOW)
    assert kept.shown(devices, to=a, now=NOW) == made
    assert kept.shown(devices, to="c", now=NOW) is None
    assert kept.shown(devices, to=a, now=NOW + VALID + timedelta(seconds=1)) is None
    assert kept.shown(devices, to=a, now=NOW) is None, "once it was over it is forgotten"
    devices.pair(later.code, name=NAME, who=WHO, now=NOW)
    assert kept.shown(devices, to=b, now=NOW) is None
    assert made.code not in repr(kept)


def test_a_device_that_is_taken_off_does_not_come_back_by_its_own_code(
    pages: TestClient, devices: Devices
) -> None:
    """It is taken off because it was lost: whoever found it may have asked for a code just before."""
    pages.post("/devices/invite")
    code = shown_code(pages.get("/devices").text)
    devices.remove(NAME)
    again = pages.post("/pair", data={"code": code, "name": NAME, "who": WHO})
    assert again.status_code == 403
    assert "This pairing code is not known here" in again.text
    assert devices.all() == ()


TEXT = "http://192.168.1.20:8765/pair?code=ABCD2345"


def squares() -> list[list[bool]]:
    """The squares of the code with the quiet zone, dark ones true. Source: OTHER TOOL, segno's own matrix."""
    return [
        [bool(one) for one in row] for row in segno.make(TEXT, error="m", micro=False).matrix_iter(border=4)
    ]


def test_the_code_in_the_terminal_is_the_matrix() -> None:
    rows: list[list[bool]] = []
    for line in as_text(TEXT, colored=False).splitlines():
        rows.append([sign not in "█▀" for sign in line])
        rows.append([sign not in "█▄" for sign in line])
    expected = squares()
    assert [row[: len(expected)] for row in rows[: len(expected)]] == expected
    assert len(rows) - len(expected) <= 1
    colored = as_text(TEXT, colored=True)
    assert all(line.startswith("\x1b[97;40m") and line.endswith("\x1b[0m") for line in colored.splitlines())
    assert re.sub(r"\x1b\[[0-9;]*m", "", colored) == as_text(TEXT, colored=False)


def test_the_code_on_the_page_is_the_matrix() -> None:
    """The lines of the drawing are walked: `m` moves, `h` draws so many squares to the right."""
    root = ElementTree.parse(BytesIO(as_svg(TEXT))).getroot()
    expected = squares()
    assert root.get("viewBox") == f"0 0 {len(expected)} {len(expected)}"
    drawn = [[False] * len(expected) for _ in expected]
    path = next(one for one in root if one.get("stroke"))
    x = y = 0.0
    for what, at in re.findall(r"([Mmh])([-\d. ]+)", path.get("d", "")):
        figures = [float(one) for one in at.split()]
        if what == "M":
            x, y = figures
        elif what == "m":
            x, y = x + figures[0], y + figures[1]
        else:
            for column in range(int(x), int(x + figures[0])):
                drawn[int(y)][column] = True
            x += figures[0]
    assert drawn == expected


def test_the_certificate_is_fetched_by_anybody_and_its_key_by_nobody(
    job: Job, devices: Devices, tmp_path: Path
) -> None:
    held = certificate(
        tmp_path / "kept", names=("localhost", "garage.local"), addresses=(), now=datetime.now(UTC)
    )
    app = create_app(job.book, door=Door(devices, lan=True, certificate=held))
    with TestClient(app, base_url="https://192.168.1.20", client=("192.168.1.30", 1)) as stranger:
        answer = stranger.get("/certificate")
        assert answer.headers["Content-Type"] == "application/x-x509-ca-cert"
        assert answer.headers["Content-Disposition"] == 'attachment; filename="gudgeon-this-machine.crt"'
        digits = sha256(answer.content).hexdigest().upper()
        assert held.fingerprint == ":".join(re.findall("..", digits))
        assert b"PRIVATE" not in answer.content
    with TestClient(app, base_url="https://127.0.0.1", client=("127.0.0.1", 1)) as here:
        said = words(here.get("/devices").text)
        assert held.fingerprint in said
        assert "The line is encrypted." in said

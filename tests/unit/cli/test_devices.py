"""`gudgeon devices`: the list, a code for another device, taking one off – while a server may run."""

import json
import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from gudgeon.web.code_picture import as_text
from gudgeon.web.devices import Devices, plain_code


@pytest.fixture
def devices(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Devices:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    return Devices(tmp_path / "gudgeon" / "devices")


def pair(devices: Devices, name: str, who: str = "Robin") -> str:
    now = datetime.now(UTC)
    return devices.pair(devices.invite(now=now), name=name, who=who, now=now)[1]


def test_nothing_is_paired_at_first(devices: Devices, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["devices"]) == 0
    assert re.fullmatch(
        r"No device is paired\. A code for one: \S*gudgeon devices --invite",
        " ".join(capsys.readouterr().out.split()),
    )
    assert main(["devices", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == []


def test_the_list_as_a_table_and_as_json(devices: Devices, capsys: pytest.CaptureFixture[str]) -> None:
    kept = pair(devices, "phone at the engine")
    pair(devices, "tablet", "Kim")
    assert main(["devices"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [word.strip() for word in re.split(r"\s{2,}", lines[0].strip())] == [
        "device", "who writes", "paired", "last heard of", "key",
    ]  # fmt: skip
    assert any(re.search(r"phone at the engine\s+Robin\s+\d{4}-\d\d-\d\d \d\d:\d\d", line) for line in lines)
    assert main(["devices", "--json"]) == 0
    said = capsys.readouterr().out
    first, second = json.loads(said)
    assert (first["name"], first["who"], first["key"]) == (
        "phone at the engine",
        "Robin",
        kept.partition(".")[0],
    )
    assert (second["name"], second["who"]) == ("tablet", "Kim")
    assert set(first) == {"key", "name", "who", "paired", "seen"}
    assert kept.partition(".")[2] not in said


def test_a_code_is_printed_in_fours_and_lets_one_device_in(
    devices: Devices, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["devices", "--invite"]) == 0
    said = capsys.readouterr().out
    code = re.search(r"^    ([A-Z2-9]{4} [A-Z2-9]{4})$", said, re.MULTILINE)
    assert code is not None
    assert re.search(r"It is good once, until \d\d:\d\d\.", said)
    now = datetime.now(UTC)
    assert devices.waits_for(code[1], now=now) == (True, False)
    devices.pair(code[1], name="tablet", who="Kim", now=now)
    assert devices.waits_for(code[1], now=now) == (False, False)


def test_with_the_address_it_is_a_picture_too(devices: Devices, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["devices", "--invite", "--at", "HTTP://192.168.1.20:8765/done?a=b"]) == 0
    said = capsys.readouterr().out
    code = re.search(r"^    ([A-Z2-9]{4} [A-Z2-9]{4})$", said, re.MULTILINE)
    assert code is not None
    address = f"http://192.168.1.20:8765/pair?code={plain_code(code[1])}"
    assert said.startswith(as_text(address, colored=False) + "\n"), (
        "the picture is of that address and that code"
    )
    assert "open http://192.168.1.20:8765/ on it and type the code:" in said


@pytest.mark.parametrize(
    "said",
    ["192.168.1.20:8765", "ftp://garage", "http://", "http:/" + "/a@garage", "http://192.168.1.20:x", ""],
)
def test_what_is_no_address_is_refused(
    devices: Devices, capsys: pytest.CaptureFixture[str], said: str
) -> None:
    assert main(["devices", "--invite", "--at", said]) == 2
    assert capsys.readouterr().err == (
        f"`{said}` is no address of a server. It looks like http://192.168.1.20:8765, as `gudgeon serve --lan` "
        "prints it.\n"
    )
    assert not devices.folder.exists()


def test_one_is_taken_off_by_its_name_or_its_key(
    devices: Devices, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = pair(devices, "phone at the engine")
    other = pair(devices, "tablet", "Kim")
    assert main(["devices", "--remove", "phone at the engine"]) == 0
    assert " ".join(capsys.readouterr().out.split()) == (
        "phone at the engine is off the list; its next request is a stranger's. What it wrote stays in the book."
    )
    assert devices.holder(kept, now=datetime.now(UTC)) is None
    assert main(["devices", "--remove", other.partition(".")[0], "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["removed"]["name"] == "tablet"
    assert devices.all() == ()


def test_one_that_is_not_there_is_refused(devices: Devices, capsys: pytest.CaptureFixture[str]) -> None:
    key = pair(devices, "tablet").partition(".")[0]
    assert main(["devices", "--remove", "../codes/x"]) == 2
    assert capsys.readouterr().err == (
        f"No device is called `../codes/x`. Paired: tablet [{key}]. Name one of them, or its key in brackets.\n"
    )
    assert len(devices.all()) == 1

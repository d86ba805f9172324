"""Who may write: a device that was let in with a code, once, and nobody else."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.context import open_bench
from gudgeon.web.app import create_app
from gudgeon.web.devices import ADDRESS_SIGNS, CodeRefused, Devices, NoSuchDevice, spaced
from gudgeon.web.knocks import MOST
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


def stranger(job: Job, devices: Devices, *, client: str = "127.0.0.1", lan: bool = False) -> TestClient:
    app = create_app(job.book, door=Door(devices, lan=lan))
    return TestClient(app, base_url="http://127.0.0.1", client=(client, 50000), follow_redirects=False)


def test_a_code_is_good_once_and_for_ten_minutes(devices: Devices) -> None:
    code = devices.invite(now=NOW)
    late = devices.invite(now=NOW)
    device, kept = devices.pair(spaced(code).lower(), name=NAME, who=WHO, now=NOW)
    with pytest.raises(CodeRefused):
        devices.pair(code, name=NAME, who=WHO, now=NOW)
    with pytest.raises(CodeRefused):
        devices.pair(late, name=NAME, who=WHO, now=NOW + timedelta(minutes=10, seconds=1))
    found = devices.holder(kept, now=NOW)
    assert found is not None
    assert found.device.key == device.key
    assert devices.holder(kept[:-1], now=NOW) is None


def test_neither_a_secret_nor_a_code_lies_on_the_disk(devices: Devices) -> None:
    code = devices.invite(now=NOW)
    _, kept = devices.pair(devices.invite(now=NOW), name=NAME, who=WHO, now=NOW)
    files = [file for file in devices.folder.rglob("*") if file.is_file()]
    assert len(files) == 2
    for file in files:
        assert code not in file.read_text() + file.name
        assert kept.partition(".")[2] not in file.read_text() + file.name
        assert file.stat().st_mode & 0o077 == 0


def test_a_device_that_is_taken_off_the_list_is_a_stranger(devices: Devices) -> None:
    _, kept = devices.pair(devices.invite(now=NOW), name=NAME, who=WHO, now=NOW)
    with pytest.raises(NoSuchDevice) as refused:
        devices.remove("tablet")
    key = kept.partition(".")[0]
    assert str(refused.value) == (
        f"No device is called `tablet`. Paired: {NAME} [{key}]. Name one of them, or its key in brackets."
    )
    assert devices.remove(NAME).key == key
    assert devices.holder(kept, now=NOW) is None


def test_a_stranger_of_this_machine_reads_and_does_not_write(job: Job, devices: Devices) -> None:
    with stranger(job, devices) as pages:
        assert "not paired, so it cannot write" in pages.get("/").text
        refused = pages.post("/record/note", data={"text": "oil in the plug well"})
        assert refused.status_code == 403
        assert "This device is not paired, so nothing was written." in refused.text
        assert "oil in the plug well" not in pages.get("/done").text


def test_a_stranger_of_the_network_sees_nothing(job: Job, devices: Devices) -> None:
    with stranger(job, devices, client="192.168.1.20", lan=True) as pages:
        for address in ("/", "/done", "/photos", "/standing", "/sheet"):
            refused = pages.get(address)
            assert refused.status_code == 403
            assert "so nothing of the book is shown to it" in refused.text
            assert job.bench().sheet.engine.name not in refused.text


def test_the_browser_of_this_machine_is_paired_by_its_address(job: Job, devices: Devices) -> None:
    code = devices.invite(now=datetime.now(UTC), signs=ADDRESS_SIGNS, here=True)
    with stranger(job, devices, client="192.168.1.20", lan=True) as elsewhere:
        assert elsewhere.get(f"/pair?code={code}").status_code == 200, "only a form, from another machine"
    with stranger(job, devices) as pages:
        answer = pages.get(f"/pair?code={code}")
        assert answer.status_code == 303
        said = answer.headers["set-cookie"].lower()
        assert "httponly" in said
        assert "samesite=strict" in said
        assert "not paired" not in pages.get("/").text
    with stranger(job, devices) as another:
        assert another.get(f"/pair?code={code}").status_code == 200
        assert COOKIE not in another.cookies


def test_wrong_codes_are_soon_not_looked_at(job: Job, devices: Devices) -> None:
    code = devices.invite(now=datetime.now(UTC))
    said = {"name": NAME, "who": WHO}
    with stranger(job, devices) as pages:
        tried = [pages.post("/pair", data={**said, "code": "ABCD2345"}).status_code for _ in range(MOST)]
        assert tried == [403] * MOST
        answer = pages.post("/pair", data={**said, "code": code})
        assert answer.status_code == 429
        assert "no more are looked at for now" in answer.text


def test_a_strange_page_keeps_nobody_from_pairing(job: Job, devices: Devices) -> None:
    """A picture of another site may be any address of this machine: its browser asks, and a code in it is wrong."""
    code = devices.invite(now=datetime.now(UTC))
    with stranger(job, devices) as pages:
        for _ in range(MOST + 1):
            strange = pages.get("/pair?code=ABCD2345", headers={"Sec-Fetch-Site": "cross-site"})
            assert strange.status_code == 200
        assert pages.get(f"/pair?code={code}").text.replace(code, "ABCD2345") == strange.text
        assert pages.post("/pair", data={"code": code, "name": NAME, "who": WHO}).status_code == 303


def test_a_form_without_its_seal_is_refused(job: Job) -> None:
    with paired(job.book) as pages:
        del pages.headers["Gudgeon-Seal"]
        for seal in ("", "0" * 32):
            answer = pages.post("/record/note", data={"text": "oil", "seal": seal})
            assert answer.status_code == 422
            assert "This form was made before this device was paired, or by another page." in answer.text


def test_an_entry_carries_the_device_and_whose_hand_it_was(job: Job) -> None:
    with paired(job.book) as pages:
        pages.post("/record/note", data={"text": "oil in the plug well", "ago": "90"})
    bench = open_bench(job.book)
    entry = bench.store.entries(bench.build)[-1]
    bench.store.close()
    assert (entry.who, entry.device) == (WHO, NAME)
    waited = datetime.fromisoformat(entry.server_time) - datetime.fromisoformat(entry.device_time)
    assert timedelta(seconds=88) < waited < timedelta(seconds=100)


def test_entries_that_waited_together_know_one_another_and_nobody_else(job: Job) -> None:
    """Two pulls of one device wait; what it says it knew is no news to it, and what another wrote between is."""
    with paired(job.book) as pages:
        basis = job.bench().state.head
        pull = {"joint": "head", "stage": "1", "round": "1", "outcome": "done", "basis": basis}
        sent = [
            {**pull, "bolt": bolt, "entry": f"{number:032x}"} for number, bolt in enumerate("132", start=1)
        ]
        sent[1]["knew"] = sent[0]["entry"]
        sent[2]["knew"] = f"{sent[0]['entry']} {sent[1]['entry']}"
        for one in sent[:2]:
            answer = pages.post("/record/pull", data=one, headers={"Accept": "application/json"}).json()
            assert answer["recorded"], answer
            assert "Meanwhile" not in " ".join(answer["remarks"])
        assert job.bench().state.joints["head"].pulls
        job.record("pull", joint="head", stage=1, bolt="4", outcome="done")
        answer = pages.post("/record/pull", data=sent[2], headers={"Accept": "application/json"}).json()
        assert answer["recorded"]
        assert "Meanwhile" in " ".join(answer["remarks"])
    doubts = [one for pull, one in job.bench().state.joints["head"].pulls.items() if one.doubtful]
    assert len(doubts) == 1


def test_a_device_does_not_know_what_another_one_wrote_by_saying_so(job: Job) -> None:
    with paired(job.book) as pages:
        basis = job.bench().state.head
        other = job.record("note", text="the wrench fell")
        form = {"text": "stage 1 begun", "basis": basis, "knew": other.entry}
        answer = pages.post("/record/note", data=form, headers={"Accept": "application/json"}).json()
    bench = open_bench(job.book)
    wrote = bench.store.entries(bench.build)[-2]
    bench.store.close()
    assert answer["remarks"] == [
        f"Meanwhile {wrote.who} ({wrote.device}) recorded note: the wrench fell. Look whether both are true."
    ]


def test_devices_of_one_name_are_told_apart(devices: Devices) -> None:
    names = [devices.pair(devices.invite(now=NOW), name=NAME, who=WHO, now=NOW)[0].name for _ in range(3)]
    assert names == [NAME, f"{NAME} (2)", f"{NAME} (3)"]

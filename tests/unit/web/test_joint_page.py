"""The page of a joint where the kit or the program makes it say more than what to set."""

import re
from datetime import UTC, datetime
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.begin import open_demo
from gudgeon.bench.pull_list import card
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_adapter_said import BOTH
from tests.unit.bench.test_adapter_said import KIT as SHORT
from tests.unit.bench.test_plan import KIT as FITTING
from tests.unit.sheet.sheets import SMALL


def job_of(folder: Path, *, torque: str, kit: str = "", more: str = "") -> Job:
    """A joint whose second stage has this torque, and comes next."""
    text = SMALL.replace("torque: 10 N·m\n", f"torque: {torque}\n{more}")
    made = make_job(folder, sheet=text, **({"kit": kit} if kit else {}))
    made.read_code()
    made.now = datetime.now(UTC)  # the pages ask at this hour, and a long break asks for a look
    for bolt in "1324":
        made.pull(1, bolt)
    return made


def client(job: Job) -> TestClient:
    return paired(job.book)


def words(page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())


def sent(page: str) -> dict[str, str]:
    """What the form of the next pull carries unseen."""
    form = re.search(r'<form class="outcomes".*?</form>', page, re.DOTALL)
    assert form is not None
    return dict(re.findall(r'type="hidden" name="([^"]+)" value="([^"]*)"', form[0]))


def test_the_big_card_names_the_adapter_with_the_setting(tmp_path: Path) -> None:
    with client(job_of(tmp_path, torque="30 N·m", kit=SHORT)) as pages:
        said = words(pages.get("/set/head").text)
    # HAND: 19.0 lbf·ft is 19.0 · 1.355818 = 25.76 N·m at the wrench, which is 30 N·m at the bolt through the adapter
    assert "19.0 Stage 2 of 4 lbf·ft 25.8 N·m; 30 N·m (22.1 lbf·ft) at the bolt" in said
    assert f"Torque to 30 N·m (22.1 lbf·ft) with {BOTH} , set to 19.0 lbf·ft" in said


@pytest.mark.parametrize(("with_what", "doubts"), [("a borrowed wrench", 0), ("", 1)])
def test_where_no_wrench_fits_it_asks_with_what(tmp_path: Path, with_what: str, doubts: int) -> None:
    made = job_of(tmp_path, torque="300 N·m")
    with client(made) as pages:
        page = pages.get("/set/head").text
        assert "What do you pull it with?" in page
        said = sent(page) | {"with_what": with_what, "outcome": "clicked while turning"}
        assert (
            pages.post("/record/pull", data=said, headers={"Origin": "http://127.0.0.1"}).status_code == 200
        )
    assert len(card(made.bench(), "head").doubts) == doubts


def test_after_a_stop_the_button_states_the_condition(tmp_path: Path) -> None:
    made = job_of(tmp_path, torque="24 N·m", more="        provisional: until the timing belt is on\n")
    for bolt in "1324":
        made.pull(2, bolt, "clicked while turning")
    with client(made) as pages:
        page = pages.get("/set/head").text
        assert "Left provisional until the timing belt is on; when that is done: stage 3." in words(page)
        assert 'class="outcomes"' not in page
        assert ">next<" not in pages.get("/set/head/whole").text
        (address,) = re.findall(r'href="([^"#]*)#next">The timing belt is on: go on<', page)
        page = pages.get(unescape(address)).text
        said = sent(page) | {"setting": "24 N·m", "tool": "three", "outcome": "clicked at once"}
        page = pages.post("/record/pull", data=said, headers={"Origin": "http://127.0.0.1"}).text
    assert "left provisional until the timing belt is on, and this is the first pull after it" in words(page)
    assert "The timing belt is on: go on<" not in page


def test_no_bolt_is_turned_before_somebody_says_that_the_line_is_painted(tmp_path: Path) -> None:
    """One answer on a screen of its own, which a browser without a script follows as a link."""
    made = job_of(tmp_path, torque="10 N·m", more="      - turn: 90°\n")
    for bolt in "1324":
        made.pull(2, bolt, "clicked while turning", tool="three", setting="10 N·m")
    with client(made) as pages:
        page = pages.get("/set/head").text
        assert "After stage 2 and before stage 3 whoever turns them paints one line" in words(page)
        assert 'class="outcomes"' not in page
        assert page.count('class="button main"') == 1
        (address,) = re.findall(r'href="([^"#]*)#next">The line is painted on every bolt<', page)
        assert sent(pages.get(unescape(address)).text)["stage"] == "3"
        asked = [one for one in pages.get("/set/head/plan").json()["pulls"] if "paint" in one]
    # HAND: the torque after the first turn moves the mark, so the second turn starts from a line of its own.
    assert [(one["stage"], one["bolt"]) for one in asked] == [(3, "1"), (5, "1")]
    assert all("The line is painted on every bolt" in one["paint"] for one in asked)


def nuts_of(folder: Path) -> Job:
    """The same joint, whose fasteners the sheet calls nuts."""
    text = SMALL.replace("    bolts: 4\n", "    called: nut\n    bolts: 4\n")
    made = make_job(folder, sheet=text, kit=FITTING)
    made.read_code()
    made.now = datetime.now(UTC)
    for bolt in "1324":
        made.pull(1, bolt)
    return made


def test_what_the_sheet_calls_nuts_is_called_so(tmp_path: Path) -> None:
    with client(nuts_of(tmp_path)) as pages:
        page, whole = words(pages.get("/set/head").text), words(pages.get("/set/head/whole").text)
        first = pages.get("/set/head/plan").json()["pulls"][0]
    assert (first["words"].split(",")[0], first["speech"].split(".")[0]) == ("Nut 1", "Nut 1")
    assert "the wrench clicks or shows it while the nut turns" in page
    assert not re.findall(
        r"\bbolts?\b", page.partition("Pull 5 of 16")[2].partition("Seen from")[0], re.IGNORECASE
    )
    assert "Every pull Nut Stage 1" in whole


def test_the_page_of_the_manual_is_one_tap_away(tmp_path: Path) -> None:
    """PRINTED: the sheet says manual p. 9."""
    with client(nuts_of(tmp_path)) as pages:
        for address in ("/set/head", "/set/head/whole"):
            (link,) = re.findall(r'<a class="cited" href="([^"]+)">manual', pages.get(address).text)
            assert link == "/sheet/source/manual?page=p.+9"
            assert pages.get(link).status_code == 200


def test_a_bolt_in_doubt_has_its_own_shape(tmp_path: Path) -> None:
    """In the drawing, in its words and in the table; nothing is said of two rings where no bolt has two."""
    places = "".join(f"      {bolt}: {{x: {20 * bolt} mm, y: 0 mm}}\n" for bolt in (1, 2, 3, 4))
    made = make_job(
        tmp_path,
        sheet=SMALL.replace(
            "    bolts: 4\n", f"    called: nut\n    viewed_from: above\n    bolts:\n{places}"
        ),
    )
    made.read_code()
    made.now = datetime.now(UTC)
    made.pull(1, "1", "doubtful", why="it was pulled twice")
    with client(made) as pages:
        page, whole = pages.get("/set/head").text, pages.get("/set/head/whole").text
    for text in (page, whole):
        assert text.count('class="spot spot-doubt"') == 1
        assert 'aria-label="4 nuts, in doubt: 1"' in text
        assert "Half filled: in doubt. Dashed: still open." in words(text)
        assert "Two rings" not in text
    assert "nut 1, stage 1: it was pulled twice" in words(page)
    assert re.search(r'title="doubtful[^"]*"><span class="state state-half">', whole)


def test_a_wrench_that_was_set_otherwise_is_said(tmp_path: Path) -> None:
    with client(job_of(tmp_path, torque="10 N·m")) as pages:
        said = sent(pages.get("/set/head").text)
        said |= {"setting": "22 N·m", "tool": "three", "outcome": "clicked while turning"}
        page = words(pages.post("/record/pull", data=said).text)
    assert "Bolt 1, stage 2, the wrench set to 22 N·m: clicked while turning." in page
    assert page.count("the wrench was set to 22 N·m, the stage asks for 10 N·m") == 1


def test_why_a_proof_is_void_leads_to_what_it_rests_on(tmp_path: Path) -> None:
    """A page says no command: what closes a thing is a link."""
    with client(job_of(tmp_path, torque="10 N·m")) as pages:
        said = dict(
            re.findall(r'type="hidden" name="([^"]+)" value="([^"]*)"', pages.get("/record/hold").text)
        )
        pages.post("/record/hold", data=said | {"hold": "gasket_right", "value": "two holes, mark up"})
        page = pages.get("/start?for=crank").text
    assert "“New parts laid against the old ones” ( Prove it )" in words(page)
    assert "gudgeon record" not in words(page)
    assert 'href="/record/hold?hold=parts_compared&amp;back=%2Fstart%3Ffor%3Dcrank"' in page


def test_a_note_goes_when_its_reason_has_gone(tmp_path: Path) -> None:
    """The screen that stays takes away what the plan no longer says."""
    made = job_of(tmp_path, torque="10 N·m")
    kit = tmp_path / "kit.yaml"
    kit.write_text(f"{kit.read_text('utf-8')}# another line\n", "utf-8")
    note = "The kit has changed since the last entry; the next entry pins it as it is now."
    with client(made) as pages:
        page = pages.get("/set/head").text
        assert f'data-note="{note}"' in page
        assert note in pages.get("/set/head/plan").json()["notes"]
        said = sent(page) | {"setting": "10 N·m", "tool": "three", "outcome": "clicked while turning"}
        assert note not in pages.post("/record/pull", data=said).text
        assert note not in pages.get("/set/head/plan").json()["notes"]


def test_where_he_stood_is_said_until_the_next_pull_is_in_the_book(tmp_path: Path) -> None:
    """It stands above the pull and is not drawn anew with it: the plan says when it goes."""
    made = job_of(tmp_path, torque="10 N·m")
    with client(made) as pages:
        (note,) = re.findall(r'data-note="(Last recorded: bolt 4[^"]*)"', pages.get("/set/head").text)
        assert unescape(note) in pages.get("/set/head/plan").json()["notes"]
        made.pull(2, "1", "clicked while turning", tool="three", setting="10 N·m")
        assert unescape(note) not in pages.get("/set/head/plan").json()["notes"]


def test_a_stop_before_the_mark_asks_for_the_look_and_then_for_the_mark(tmp_path: Path) -> None:
    made = job_of(tmp_path, torque="10 N·m")
    for stage, outcome in ((2, "clicked while turning"), (3, "clicked while turning"), (4, "angle reached")):
        for bolt in "1324":
            made.pull(stage, bolt, outcome)
    made.record("paused", hand="wrench on bolt 4", next_action="mark it")
    with client(made) as pages:
        first = pages.get("/").text
        assert 'class="button main" href="/set/head' in first
        assert "first look at bolt 4, because you stopped on" in words(first)
        page = pages.get("/set/head").text
        assert "Look first. You stopped on" in words(page)
        assert "Mark it" not in words(page)
        form = sent(page) | {"seen": "stroke at 3 o'clock", "as_recorded": "yes"}
        said = pages.post("/record/looked", data=form, headers={"Origin": "http://127.0.0.1"})
        assert said.status_code == 200
        after = words(pages.get("/set/head").text)
    assert "Look first." not in after
    assert "Look at every mark once more, then mark the joint. Mark it" in after


@pytest.mark.parametrize(("joint", "words"), [("idler", "How it stands"), ("head", "The next pull")])
def test_the_next_pull_is_offered_only_where_there_is_one(tmp_path: Path, joint: str, words: str) -> None:
    with paired(open_demo(tmp_path / "demo", now=datetime.now(UTC)).book) as pages:
        page = pages.get(f"/set/{joint}/whole").text
    assert re.findall(r'class="button main" href="[^"]*">([^<]*)<', page) == [words]

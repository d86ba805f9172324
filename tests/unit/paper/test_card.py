"""The card of a joint: nothing of the answer is lost, whatever the joint is like, and nothing runs over an edge."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from gudgeon.bench.answer import NOTICE, RULES
from gudgeon.bench.context import open_bench
from gudgeon.bench.pull_list import JointCard, card
from gudgeon.cli.main import main
from gudgeon.paper.card import card_data, card_pdf, cards_pdf
from tests.unit.bench.benches import make_job
from tests.unit.bench.stories import DEMO
from tests.unit.paper.cards import NASTY, card_of, job
from tests.unit.paper.reading import least_white_mm, numbered, pages, squashed, unpacked, words


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> dict[str, JointCard]:
    """Every card of the invented job."""
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    bench = open_bench(folder / "book.gudgeon")
    bench.store.close()
    return {key: card(bench, key) for key in bench.sheet.joints}


def everything(answer: JointCard) -> list[str]:
    """Every text of an answer that a person at the engine needs."""
    texts = [
        answer.name, answer.state, answer.thread, answer.thread_state, answer.reuse, answer.numbered_from,
        answer.viewed_from, *answer.before_work, *answer.cautions, answer.look_first, answer.provisional, *answer.doubts,
        *(datum.words for datum in answer.datums), *(text for _, text in answer.made_of), *answer.in_doubt_lines,
        *answer.sources, answer.heading.engine, answer.heading.build, answer.heading.head[:12], RULES,
        *(f"{place.bolt}{place.where}" for place in answer.places if place.bolt != answer.called),
    ]  # fmt: skip
    for stage in answer.stages:
        texts += [
            stage.stop,
            stage.words,
            stage.tool.name,
            stage.tool.setting,
            stage.tool.exact,
            stage.tool.error,
        ]
        texts += [
            stage.tool.rounding,
            stage.tool.note,
            *stage.tool.ways_out,
            f"{stage.done} of {stage.total}",
        ]
    for pull in answer.pulls:
        texts += [
            pull.mark,
            pull.leaves if pull.round == 1 else "",
            pull.done_when,
            pull.state.removesuffix(", NEXT") if pull.state != "next" else "NEXT",
        ]
        texts += [str(pull.number)]
    return [text for text in texts if text]


def missing(answer: JointCard, pdf: bytes) -> list[str]:
    said = words(pdf)
    return [text for text in everything(answer) if squashed(text) not in said]


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_nothing_of_an_answer_is_lost(demo: dict[str, JointCard], size: str) -> None:
    for answer in demo.values():
        assert missing(answer, card_pdf(answer, size=size)) == [], answer.joint


def test_cards_together_are_each_numbered_by_itself(demo: dict[str, JointCard]) -> None:
    answers = list(demo.values())
    alone = [number for answer in answers for number in numbered(card_pdf(answer, size="letter"))]
    assert numbered(cards_pdf(answers, size="letter")) == alone
    assert len(alone) > len(answers)


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("stages", [1, 8])
@pytest.mark.parametrize("bolts", [1, 4, 10, 20, 32])
def test_a_joint_of_any_size_fits(tmp_path: Path, bolts: int, stages: int, size: str) -> None:
    for placed in (True, False):
        folder = tmp_path / str(placed)
        folder.mkdir()
        answer = card_of(folder, bolts=bolts, stages=stages, placed=placed)
        pdf = card_pdf(answer, size=size)
        count = len(pages(pdf))
        assert numbered(pdf) == [(number, count) for number in range(1, count + 1)]
        assert count <= (2 if bolts <= 10 else 4)
        assert missing(answer, pdf) == []
        assert all(squashed(NOTICE) in squashed(page) for page in pages(pdf))
        assert least_white_mm(pdf, folder) >= 10.0


def test_the_head_of_a_table_stands_on_every_page_of_it(tmp_path: Path) -> None:
    said = words(
        card_pdf(card_of(tmp_path, bolts=32, stages=1, where="a place in words " * 6), size="letter")
    )
    assert said.count("orderboltwherestage1") >= 2


def test_what_markup_would_obey_is_shown(tmp_path: Path) -> None:
    long = "Donaudampfschifffahrtsgesellschaft" * 5
    answer = card_of(tmp_path, name=NASTY, where=f"{NASTY} {long}")
    pdf = card_pdf(answer, size="a4")
    assert missing(answer, pdf) == []
    assert squashed(NASTY) in words(pdf)
    assert long in words(pdf)
    assert least_white_mm(pdf, tmp_path) >= 10.0


def test_a_card_is_filled_with_what_the_book_has(tmp_path: Path) -> None:
    made = job(tmp_path, bolts=4, stages=4)
    for bolt in "4321":
        made.record("pull", joint="many", stage=1, bolt=bolt, outcome="clicked while turning")
    made.record("pull", joint="many", stage=2, bolt="1", outcome="done")
    data = card_data(card(made.bench(), "many"))
    states = [[cell["state"] for cell in row] for row in data["grids"][0]["cells"]]
    assert states == [["done", "open", "open", "open"]] * 3 + [["done", "done", "open", "open"]]
    assert [cell["next"] for row in data["grids"][0]["cells"] for cell in row].index(True) == 2 * 4 + 1
    assert data["next"][0] == "bolt 2, place 2, upper row"
    assert [head["order"] for head in data["grids"][0]["heads"]] == [
        "from the first row", "from the last row up", "from the first row", "from the first row",
    ]  # fmt: skip


def test_a_card_in_doubt_gives_no_next_pull(tmp_path: Path) -> None:
    made = job(tmp_path, bolts=4, stages=4)
    made.record("pull", joint="many", stage=1, bolt="4", outcome="doubtful", why="it creaked")
    answer = card(made.bench(), "many")
    said = words(card_pdf(answer, size="a4"))
    assert "Indoubt:nonextpullisgiven" in said
    assert "bolt4,stage1:itcreaked" in said
    assert "doubtful:notdone" in said
    assert "NEXT" not in said


def test_a_joint_that_a_gate_holds_back_says_why_and_what_opens_it(tmp_path: Path) -> None:
    """The words are those with which an instruction to pull is refused, but for what is typed."""
    made = make_job(
        tmp_path,
        sheet=(DEMO / "sheet.yaml").read_text(encoding="utf-8"),
        kit=(DEMO / "kit.yaml").read_text(encoding="utf-8"),
    )
    made.record("identity-read", code="TW18-D4", read_from="pad")
    made.record("turned", by="hand", seen="two turns, free")
    answer = card(made.bench(), "camshaft_caps")
    assert answer.next_pull is None
    assert answer.refused
    said = words(card_pdf(answer, size="a4"))
    assert "Nonextpullisgiven" in said
    for one in answer.refused:
        assert squashed(one.why[1:]) in said
        assert squashed(one.way_out.partition(", then: gudgeon")[0]) in said
    assert "gudgeonrecord" not in said


def test_what_the_scale_showed_is_on_the_card(demo: dict[str, JointCard]) -> None:
    """PRINTED in the entries of the invented job: stages 1 and 3 of the head were made with the setting read."""
    shown = {
        one["number"]: (one["showed"], one["go_on_reading"]) for one in card_data(demo["head"])["stages"]
    }
    assert shown[1] == ("35.0 N·m", False)
    assert shown[3] == ("25.0 N·m", True)
    assert shown[4] == ("", True)
    assert "readoffitsscale35.0N·m" in words(card_pdf(demo["head"], size="a4"))


def test_each_rule_of_doubt_has_its_line(demo: dict[str, JointCard]) -> None:
    lines = demo["head"].in_doubt_lines
    assert [one.partition(":")[0] for one in lines] == [
        "It made a noise, from stage 1 on", "It made a noise, from stage 4 on", "It turned softly",
        "The angle was lost, from stage 4 on", "It was interrupted midway", "Before stage 4",
    ]  # fmt: skip
    assert demo["head"].in_doubt == " ".join(lines)
    said = words(card_pdf(demo["head"], size="a4"))
    assert all(f"–{squashed(one)}" in said for one in lines)


def lines_to_write(pdf: bytes) -> int:
    """How many level hair lines there are as long as a cell leaves room for."""
    found = re.findall(rb"0\.4 w [^\n]*?0 0 m ([\d.]+) 0 l\nS", unpacked(pdf))
    return sum(10 < float(one) < 70 for one in found)


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_next_pull_has_a_line_to_write_on_too(demo: dict[str, JointCard], size: str) -> None:
    """However narrow its cell: as many lines as when no pull is called the next one."""
    answer = demo["head"]
    none = replace(
        answer,
        next_pull=None,
        pulls=tuple(replace(one, state=one.state.removesuffix("next")) for one in answer.pulls),
    )
    assert card_data(answer)["next"]
    assert lines_to_write(card_pdf(answer, size=size)) == lines_to_write(card_pdf(none, size=size))


def test_a_joint_has_one_unit_of_inch_and_pound(demo: dict[str, JointCard]) -> None:
    """PRINTED: the sheet of the invented engine states the valve cover as `9 N·m (80 lbf·in)`."""
    said = words(card_pdf(demo["valve_cover"], size="a4"))
    assert "9N·m(80lbf·in)" in said
    assert "lbf·ft" not in said
    assert "lbf·in" not in words(card_pdf(demo["intake_manifold"], size="a4"))


def test_more_passes_than_fit_go_on_in_a_second_table(tmp_path: Path) -> None:
    answer = card_of(tmp_path, program=["torque: 30 N·m", "{turn: 30°, repeat: 9}", "turn: 400°"])
    data = card_data(answer)
    assert [len(grid["heads"]) for grid in data["grids"]] == [6, 5]
    assert data["grids"][1]["heads"][3]["pass"] == "pass 9 of 9"
    assert data["stages"][2]["dials"] == [
        {
            "from": 270.0, "to": 670.0, "words": "from 9 o'clock to 10:20 o'clock", "turned": "270° → 670°",
            "more": "1 full turn and 40°",
        }
    ]  # fmt: skip
    assert missing(answer, card_pdf(answer, size="a4")) == []


NINE = [
    "hand-run", "{draw down: 180°, repeat: 2}", "torque: 12 N·m", "torque: 22 N·m", "{torque: 30 N·m, repeat: 2}",
    "loosen: fully", "{torque: 25 N·m, provisional: until the timing belt is on}", "turn: 90° ± 5°", "turn: 90° ± 5°",
]  # fmt: skip


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_ten_bolts_in_nine_stages_take_three_pages(tmp_path: Path, size: str) -> None:
    """The worst of them: placed, half done, and every torque of it done below the usable part of the wrench."""
    made = job(tmp_path, bolts=10, program=NINE, placed=True)
    for stage, setting in ((1, ""), (2, ""), (3, "12 N·m"), (4, "22 N·m"), (5, "30 N·m")):
        for turn in (1, 2) if stage in (2, 5) else (1,):
            for bolt in range(10, 0, -1):
                made.record(
                    "pull", joint="many", stage=stage, round=turn, bolt=str(bolt), setting=setting,
                    outcome="clicked while turning" if setting else "done", tool="half" if setting else "",
                    why="no other wrench" if setting else "",
                )  # fmt: skip
    answer = card(made.bench(), "many")
    assert answer.stages[4].tool.note.startswith("override on bolts 1, 2, 3, 4, 5, 6, 7, 8, 9, 10: half-inch")
    pdf = card_pdf(answer, size=size)
    assert len(pages(pdf)) == 3
    assert missing(answer, pdf) == []
    assert least_white_mm(pdf, tmp_path) >= 10.0


def test_a_wait_is_ticked_with_the_stages(tmp_path: Path) -> None:
    data = card_data(card_of(tmp_path, program=["torque: 30 N·m", "wait: 10 min", "turn: 90°"]))
    assert [head["stage"] for head in data["grids"][0]["heads"]] == [1, 3]
    assert data["stages"][1]["together"] == [{"state": "open", "pull": 5, "words": "", "next": False}]


def test_a_joint_of_two_kinds_of_bolts_says_which_is_where(tmp_path: Path) -> None:
    answer = card_of(tmp_path, mixed=True)
    data = card_data(answer)
    assert [one["where"] for one in data["places"]] == [
        "place 4, upper row, M8x1.25 8.8", "place 3, upper row, M10x1.25 10.9",
        "place 2, upper row, M8x1.25 8.8", "place 1, upper row, M10x1.25 10.9",
    ]  # fmt: skip
    assert data["facts"][0] == ["Thread", "M8x1.25 8.8; M10x1.25 10.9"]

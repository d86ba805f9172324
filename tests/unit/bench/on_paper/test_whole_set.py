"""Counts, hold points, cards without figures, and the set that they make with the cards and the measuring sheets."""

import re
from pathlib import Path

import pytest

from gudgeon.bench.answer import plain
from gudgeon.bench.on_paper.counts_sheet import lists_and_counts
from gudgeon.bench.on_paper.hold_points import hold_points
from gudgeon.bench.on_paper.whole_set import whole_set
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.on_paper.test_measuring_sheets import texts
from tests.unit.bench.stories import DEMO, invented

FIGURE = re.compile(r"\d\s*(?:N·m|lbf·ft|°|mm|in\b|%)|\bM\d+x")
"""A torque, an angle, a size or a thread."""


def locked(folder: Path) -> Job:
    """The invented engine with a book in which nothing at all is recorded."""
    return make_job(
        folder,
        sheet=(DEMO / "sheet.yaml").read_text(encoding="utf-8"),
        kit=(DEMO / "kit.yaml").read_text(encoding="utf-8"),
    )


def test_bolts_are_counted_joint_by_joint(tmp_path: Path) -> None:
    answer = lists_and_counts(invented(tmp_path).bench())
    counts = {one.what: one.by_sheet for one in answer.fasteners}
    assert (counts["Cylinder head bolts"], counts["Camshaft cap bolts"]) == ("10", "20")
    assert {(one.off, one.back) for one in answer.fasteners} == {("", "")}
    assert answer.bags == ()
    assert [one.what for one in answer.kinds][:4] == ["connectors", "hoses", "straps", "brackets"]


def test_counts_of_the_book_are_filled_in(tmp_path: Path) -> None:
    job = invented(tmp_path)
    job.record("counted", group="hose", when="off", count=5)
    job.record("counted", group="hose", when="back", count=4)
    hoses = next(one for one in lists_and_counts(job.bench()).kinds if one.what == "hoses")
    assert (hoses.off, hoses.back) == ("5", "4")
    assert hoses.look.startswith("5 hoses were counted as they came off, 0 are on the list")


def test_what_nobody_counted_is_left_blank_beside_what_the_book_has(tmp_path: Path) -> None:
    job = invented(tmp_path)
    for name in ("upper", "lower"):
        job.record(
            "taken-off", group="hose", item=name, name=f"{name} hose", place="front", due_before="fire"
        )
    job.record("refitted", item="upper", place="front")
    hoses = next(one for one in lists_and_counts(job.bench()).kinds if one.what == "hoses")
    assert (hoses.off, hoses.back) == ("", "")
    assert (hoses.off_in_book, hoses.back_in_book) == ("2 off in the book", "1 back in the book")
    job.record("counted", group="hose", when="off", count=2)
    hoses = next(one for one in lists_and_counts(job.bench()).kinds if one.what == "hoses")
    assert (hoses.off, hoses.off_in_book, hoses.back) == ("2", "", "")


def test_the_set_says_which_code_was_read(tmp_path: Path) -> None:
    job = locked(tmp_path)
    assert whole_set(job.bench()).code_as_read == ""
    job.record("identity-read", code="TW18-D4", read_from="pad")
    answer = whole_set(job.bench())
    assert (answer.code_as_read, answer.code_read_from) == ("TW18-D4", "pad")
    assert answer.code_read_on == job.now.isoformat()


def test_a_joint_that_the_job_leaves_alone_is_neither_counted_nor_carded(tmp_path: Path) -> None:
    job = invented(tmp_path)
    job.record("job-chosen", job="timing_belt")
    answer = whole_set(job.bench())
    assert "Cylinder head bolts" in answer.not_in_job
    assert "Cylinder head bolts" not in {one.what for one in answer.lists.fasteners}
    assert "Cylinder head bolts" not in {one.name for one in answer.cards}


def test_hold_points_stand_by_milestone_with_what_proves_them(tmp_path: Path) -> None:
    job = invented(tmp_path)
    job.record("hold-proved", hold="figures_checked", value="pp. 49 to 122 compared")
    answer = hold_points(job.bench())
    assert [one.before for one in answer.milestones] == [
        "turn it with the starter", "let it fire", "drive it", "hand it over",
    ]  # fmt: skip
    points = {point.name: point for one in answer.milestones for point in one.points}
    assert points["The sheet is for this engine"].proof.startswith("TW18-D4, pad")
    checked = points["Every tightening figure has been compared with the page"]
    assert checked.stands
    assert checked.proof.startswith("pp. 49 to 122 compared, Sat Mar 07")
    dry = points["Head bolt holes dry, clean and deep enough"]
    assert (dry.stands, dry.proof, dry.why_not) == (False, "", "")
    assert any(one.startswith("Compressed air") for one in dry.cautions)
    assert not any(re.search(r"\w_\w", text) for text in texts(plain(answer.milestones)))


def test_a_hold_that_does_not_stand_says_why(tmp_path: Path) -> None:
    job = invented(tmp_path)
    job.record("hold-proved", hold="figures_checked", value="pp. 49 to 122 compared")
    job.record("hold-voided", hold="figures_checked", why="a page was skipped")
    points = {point.name: point for one in hold_points(job.bench()).milestones for point in one.points}
    checked = points["Every tightening figure has been compared with the page"]
    assert (checked.stands, checked.why_not) == (False, "void: a page was skipped")


def test_a_blank_book_has_every_card(tmp_path: Path) -> None:
    job = invented(tmp_path)
    answer = whole_set(job.bench())
    assert [card.joint for card in answer.cards] == list(job.bench().sheet.joints)
    assert answer.locked == ""
    assert any(FIGURE.search(stage.words) for card in answer.cards for stage in card.stages)


def test_before_the_code_was_read_the_set_is_complete_and_holds_no_figure(tmp_path: Path) -> None:
    bench = locked(tmp_path).bench()
    answer = whole_set(bench)
    assert answer.locked
    assert [card.joint for card in answer.cards] == list(bench.sheet.joints)
    for card in answer.cards:
        assert card.figures_left_out
        assert card.next_pull is None
        joint = bench.sheet.joints[card.joint]
        assert [stage.kind for stage in card.stages] == [stage.kind for stage in joint.program]
        held = [text for text in texts(plain(card)) if text not in joint.cautions]
        assert [text for text in held if FIGURE.search(text)] == [], card.joint
    assert len(answer.measuring.sheets) > 20
    assert len(answer.holds.milestones) == 4


@pytest.mark.parametrize("kind", ["torque", "turn"])
def test_a_card_without_figures_has_a_pull_for_every_bolt(tmp_path: Path, kind: str) -> None:
    head = next(one for one in whole_set(locked(tmp_path).bench()).cards if one.joint == "head")
    stage = next(one for one in head.stages if one.kind == kind)
    assert [pull.bolt for pull in head.pulls if pull.stage == stage.stage] == [*"568734", "10", "9", "1", "2"]

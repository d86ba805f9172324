"""A doubt has its kind, and the sheet says for each what is done; where it does not, nothing is made up."""

from pathlib import Path
from typing import get_args

import pytest

from gudgeon.bench.doubt_rules import DOUBT_WORDS, PRACTICE
from gudgeon.bench.gaps import gaps
from gudgeon.bench.pull_list import card
from gudgeon.bench.ready import ready
from gudgeon.bench.recordable import DOUBTS
from gudgeon.book.bodies_joints import Doubt
from gudgeon.book.errors import BodyRefused
from gudgeon.sheet.doubts import DoubtKind
from gudgeon.sheet.load import parse_sheet
from gudgeon.written.errors import FileRefused
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

RULES = """\
    doubts:
      noise: slacken and start again
      soft: {rule: renew, note: and the gasket, source: manual p. 10}
      angle lost:
        - slacken and start again
        - {rule: renew, from_stage: 4}
      interrupted: go on
"""
SHEET = SMALL.replace("    total_turn: 90°\n", f"    total_turn: 90°\n{RULES}")


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=SHEET)
    made.read_code()
    return made


def test_every_kind_stands_everywhere_it_has_to() -> None:
    assert get_args(Doubt) == get_args(DoubtKind) == tuple(DOUBT_WORDS) == tuple(DOUBTS.values())
    assert set(PRACTICE) == set(DOUBT_WORDS) - {"other"}


@pytest.mark.parametrize(
    ("kind", "stage", "orders"),
    [
        ("noise", 2, "Bolt 1, stage 2, it made a noise: the sheet orders: slacken every bolt, record that, and begin again "
         "with stage 1 (manual p. 9)."),
        ("angle lost", 3, "Bolt 1, stage 3, the angle was lost: the sheet orders: slacken every bolt, record that, and "
         "begin again with stage 1 (manual p. 9)."),
        ("interrupted", 2, "Bolt 1, stage 2, it was interrupted midway: the sheet orders: go on, but look at its mark first; "
         "turn only what is missing, and record this pull again (manual p. 9)."),
        ("slipped", 2, "Bolt 1, stage 2, the tool slipped: the sheet gives no rule for that. Stop; the manual decides. "
         "Common practice, not from the sheet: look at the head and the socket, and where the mark stands: turn only "
         "what is missing."),
    ],
)  # fmt: skip
def test_the_answer_says_what_this_sheet_orders_for_this_doubt(
    job: Job, kind: str, stage: int, orders: str
) -> None:
    done = job.pull(stage, "1", "doubtful", doubt=kind)
    assert orders in done.remarks[-1]
    shown = card(job.bench(), "head")
    assert shown.next_pull is None
    assert orders in shown.in_doubt
    fast = next(one for one in ready(job.bench(), milestone="crank").reasons if one.what == "Head nuts")
    assert orders in fast.how


def test_the_book_keeps_what_was_ordered_that_day(job: Job) -> None:
    job.pull(4, "1", "doubtful", doubt="soft")
    pull = job.bench().state.joints["head"].pulls[(4, 1, "1")]
    assert (pull.doubt, pull.why, pull.shown["ordered"]) == (
        "soft",
        "it turned softly",
        "renew, and the gasket",
    )


def test_a_bolt_to_renew_stays_in_doubt_until_slackened_and_new(job: Job) -> None:
    due = "bolt 1: it has to be renewed since stage 4 (it turned softly), and no new one is in the book"
    job.pull(4, "1", "doubtful", doubt="soft")
    assert due in card(job.bench(), "head").doubts
    job.record("joint-disturbed", joint="head", why="bolt 1 turned softly")
    assert card(job.bench(), "head").doubts == (due,)
    assert card(job.bench(), "head").to_renew == ("1",)
    job.record("part-disposition", joint="head", bolt="2", why="from the bag")
    assert card(job.bench(), "head").doubts == (due,)
    job.record("part-disposition", joint="head", bolt="1", why="from the bag")
    after = card(job.bench(), "head")
    assert after.doubts == ()
    assert after.next_pull == 1


def test_a_new_bolt_alone_does_not_undo_the_doubt(job: Job) -> None:
    job.pull(4, "1", "doubtful", doubt="angle lost")
    job.record("part-disposition", joint="head", bolt="all", why="a new set")
    assert card(job.bench(), "head").doubts[0] == "bolt 1, stage 4: the angle was lost"
    assert card(job.bench(), "head").next_pull is None


def test_a_rule_that_is_not_to_renew_asks_for_no_new_bolt(job: Job) -> None:
    job.pull(3, "1", "doubtful", doubt="angle lost")
    job.record("joint-disturbed", joint="head", why="began again")
    assert card(job.bench(), "head").doubts == ()


def test_before_any_doubt_the_card_says_every_rule(job: Job) -> None:
    assert card(job.bench(), "head").in_doubt == (
        "It made a noise: slacken every bolt, record that, and begin again with stage 1 (manual p. 9). "
        "It turned softly: slacken every bolt, take this one out and renew it, record both, and begin again with "
        "stage 1 (and the gasket) (manual p. 10). "
        "The angle was lost, from stage 1 on: slacken every bolt, record that, and begin again with stage 1 (manual p. 9). "
        "The angle was lost, from stage 4 on: slacken every bolt, take this one out and renew it, record both, and "
        "begin again with stage 1 (manual p. 9). "
        "It was interrupted midway: go on, but look at its mark first; turn only what is missing, and record this "
        "pull again (manual p. 9)."
    )
    assert not any(one.missing == "no rule for a bolt in doubt" for one in gaps(job.bench().sheet))


def test_a_kind_of_doubt_belongs_to_a_doubtful_pull(job: Job) -> None:
    with pytest.raises(BodyRefused) as refused:
        job.pull(2, "1", "clicked while turning", doubt="noise")
    assert str(refused.value) == (
        "This pull is not complete: a pull that is `clicked while turning` is not in doubt: its outcome is `doubtful`. "
        "Nothing was recorded."
    )


def test_another_doubt_has_to_be_said(job: Job) -> None:
    with pytest.raises(BodyRefused, match="what is doubtful about it is missing"):
        job.pull(2, "1", "doubtful", doubt="other")


def test_a_rule_that_is_none_is_refused_with_its_place() -> None:
    with pytest.raises(FileRefused) as refused:
        parse_sheet(SHEET.replace("interrupted: go on", "interrupted: hope"), file="sheet.yaml")
    assert "go on" in str(refused.value)

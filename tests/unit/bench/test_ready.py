"""May I start it? Yes only when nothing due before the milestone is open."""

from pathlib import Path

import pytest

from gudgeon.bench.errors import AlreadyOpen, NotOpen, Unknown
from gudgeon.bench.holds import holds_of
from gudgeon.bench.open_lists import open_lists
from gudgeon.bench.ready import Readiness, ready
from gudgeon.bench.reason import MILESTONES
from tests.unit.bench.benches import Job, make_job


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return make_job(tmp_path)


def finish(job: Job) -> None:
    """Everything that this small engine asks for."""
    job.read_code()
    job.tighten_all()
    job.record("joint-marked", joint="head", how="paint line")
    for hold in holds_of(job.bench().sheet):
        job.record("hold-proved", hold=hold.id, value="seen, 4 of 4")


def ask(job: Job, milestone: str = "crank") -> Readiness:
    return ready(job.bench(), milestone=milestone)


def test_no_with_every_reason_then_yes(job: Job) -> None:
    before = ask(job, "handover")
    assert before.answer == "no"
    assert {"Engine code", "Head nuts", "Valve timing proved by hand over two turns"} <= {
        one.what for one in before.reasons
    }
    finish(job)
    for milestone in MILESTONES:
        assert ask(job, milestone).answer == "yes", ask(job, milestone).reasons


def test_what_the_engine_has_not_is_not_asked(job: Job) -> None:
    asked = {hold.id for hold in holds_of(job.bench().sheet)}
    assert not {"tensioner_pin_out", "followers_bled", "cam_caps_in_place", "coolant_pressure_held"} & asked
    assert {"head_bolts_all_stages", "timing_proved", "valve_clearances_in_range"} <= asked


@pytest.mark.parametrize(
    ("opens", "closes"),
    [
        (("provisional-made", {"item": "pulley", "name": "old pulley bolt", "why": "to turn the crank", "due_task": "pulley", "due_before": "crank"}), ("provisional-cleared", {"item": "pulley", "how": "new bolt"})),
        (("left-in", {"item": "rag", "name": "rag in the port", "where": "intake", "due_before": "crank"}), ("taken-out", {"item": "rag"})),
        (("plugged", {"item": "port", "name": "intake port", "where": "head", "due_before": "crank"}), ("opened", {"item": "port"})),
        (("taken-off", {"item": "plug", "group": "connector", "name": "coil plug", "place": "3", "due_before": "crank"}), ("refitted", {"item": "plug", "place": "3"})),
        (("timer-started", {"timer": "bead", "name": "sealant", "minutes": 600, "task": "fill oil", "due_before": "crank"}), ("timer-ended", {"timer": "bead", "how": "cured"})),
        (("shop-out", {"part": "radiator", "shop": "the shop", "ordered": "clean up"}), ("shop-back", {"part": "radiator", "found": "flat"})),
    ],
)  # fmt: skip
def test_each_open_thing_alone_says_no(
    job: Job, opens: tuple[str, dict[str, object]], closes: tuple[str, dict[str, object]]
) -> None:
    finish(job)
    job.record(opens[0], **opens[1])
    assert ask(job).answer == "no"
    assert len(ask(job).reasons) == 1
    job.record(closes[0], **closes[1])
    assert ask(job).answer == "yes"


def test_a_thing_due_later_does_not_stop_an_earlier_milestone(job: Job) -> None:
    finish(job)
    job.record(
        "provisional-made",
        item="clamp",
        name="hose clamp",
        why="relaxes after the first heat",
        due_task="after the first heat",
        due_before="drive",
    )
    crank, drive = ask(job, "crank"), ask(job, "drive")
    assert (crank.answer, len(crank.later)) == ("yes", 1)
    assert drive.answer == "no"


def test_a_joint_not_marked_is_not_finished(job: Job) -> None:
    job.read_code()
    job.tighten_all()
    assert [one.why for one in ask(job).reasons if one.what == "Head nuts"] == ["complete, not marked"]


def test_an_angle_recorded_twice_is_a_doubt_and_voids_what_was_proved(job: Job) -> None:
    """People repeat a step more often than they skip one, and a repeated angle ruins a bolt."""
    finish(job)
    job.pull(4, "4", "angle reached")
    answer = ask(job)
    assert answer.answer == "no"
    assert any("bolt 4, stage 4" in one.why for one in answer.reasons if one.what == "Head nuts")
    assert any(one.what == "Every head bolt shows every stage" for one in answer.reasons)


def test_a_reading_outside_needs_a_named_person(job: Job) -> None:
    finish(job)
    job.record(
        "reading", item="head_face", place="along", low="0.07 mm", high="0.08 mm", instrument="feelers"
    )
    assert [one.family for one in ask(job).reasons] == ["measured"]
    job.record(
        "accepted", what="head_face along", by="Robin", why="local dip beside a bolt, away from the fire ring"
    )
    answer = ask(job)
    assert answer.answer == "yes, with what was accepted"
    assert answer.accepted == (
        "head_face along: accepted by Robin, because local dip beside a bolt, away from the fire ring",
    )


def test_counts_off_and_on(job: Job) -> None:
    for number in ("1", "2", "3"):
        job.record(
            "taken-off",
            item=f"c{number}",
            group="connector",
            name=f"connector {number}",
            place=number,
            due_before="crank",
        )
    job.record("refitted", item="c1", place="1")
    job.record("refitted", item="c2", place="3")
    answer = open_lists(job.bench())
    assert [(one.group, one.off, one.on) for one in answer.counts] == [("connector", 3, 2)]
    # A connector that went to another place than it came from is kept, and in doubt.
    assert [one.why for one in ask(job).reasons if one.family == "in doubt"] == [
        "connector 2 came from place 2, went to 3"
    ]


def test_lists_refuse_what_makes_no_sense(job: Job) -> None:
    with pytest.raises(NotOpen) as caught:
        job.record("taken-out", item="pin")
    assert str(caught.value) == "`pin` is not on the list of what is left in. On it: none."
    job.record("left-in", item="pin", name="pin", where="tensioner", due_before="crank")
    with pytest.raises(AlreadyOpen) as again:
        job.record("left-in", item="pin", name="pin", where="tensioner", due_before="crank")
    assert (
        str(again.value)
        == "`pin` is already on the list of what is left in. Close it first, or use another name."
    )


@pytest.mark.parametrize("milestone", MILESTONES)
def test_every_milestone_carries_its_cautions(job: Job, milestone: str) -> None:
    said = ask(job, milestone).cautions
    assert said
    assert all(one.endswith(")") for one in said), "a caution names what it rests on"


def test_the_first_fire_warns_of_fuel_and_exhaust(job: Job) -> None:
    said = " ".join(ask(job, "fire").cautions)
    assert "extinguisher" in said
    assert "carbon monoxide" in said


def test_what_the_sheet_no_longer_has_is_told(job: Job) -> None:
    finish(job)
    sheet = job.book.parent / "sheet.yaml"
    sheet.write_text(
        sheet.read_text(encoding="utf-8").replace(
            "  head:\n    name: Head nuts", "  kopf:\n    name: Head nuts"
        ),
        encoding="utf-8",
    )
    said = [one.why for one in ask(job).reasons if one.what == "Joint `head`"]
    assert said == ["16 pulls in the book belong to it, and the sheet no longer has it"]


def test_what_is_not_counted_is_said(job: Job) -> None:
    finish(job)
    assert any("not measured" in one and "Head face, flatness" in one for one in ask(job).aside)


def test_a_connector_is_found_by_its_place_number_and_a_crossed_one_is_said(job: Job) -> None:
    for number in ("1", "2"):
        job.record(
            "taken-off",
            item=f"coil_{number}",
            group="connector",
            name=f"coil plug {number}",
            place=number,
            due_before="crank",
        )
    done = job.record("refitted", item="2", place="1")
    assert done.remarks == ("coil plug 2 came from place 2, now it is at 1: are two of them crossed?",)


def test_the_code_read_off_the_engine_proves_its_own_hold(job: Job) -> None:
    assert "Engine code" in [one.what for one in ask(job).reasons]
    job.read_code()
    assert not [
        one for one in ask(job).reasons if one.what in ("Engine code", "The sheet is for this engine")
    ]


def test_only_what_the_sheet_knows_can_be_accepted(job: Job) -> None:
    with pytest.raises(Unknown):
        job.record("accepted", what="banana", by="me", why="x")

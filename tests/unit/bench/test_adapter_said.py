"""Through an adapter the setting is lower than the torque: whoever reads the one reads the other with it."""

import io
from contextlib import redirect_stdout
from pathlib import Path

import pytest

from gudgeon.bench.now import now
from gudgeon.bench.pull_list import all_joints, card
from gudgeon.bench.scale_read import SettingNotRead
from gudgeon.bench.wrench_state import BeyondScale
from gudgeon.cli.joint_card import show_card
from gudgeon.paper.card import card_data
from tests.unit.bench.benches import Job, make_job, said_pull
from tests.unit.sheet.sheets import SMALL

# HAND: 30 N·m at the bolt, L = 180 mm, E = 30 mm: 30 · 180 / 210 = 25.714 N·m = 18.97 lbf·ft, the mark is 19.0
KIT = """\
gudgeon: kit 1
wrenches:
  three: {name: three-eighths wrench, kind: click, range: 5–20 lbf·ft, step: 0.5 lbf·ft, deviation: 4 %, length: 180 mm}
adapters:
  foot: {name: 15 mm crow-foot, length: 30 mm}
turning:
  bar: {name: breaker bar, kind: bar}
"""
BOTH = "three-eighths wrench with 15 mm crow-foot, straight out"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    """A joint whose next stage is beyond the end of the only wrench, and within that of its adapter."""
    made = make_job(tmp_path, sheet=SMALL.replace("torque: 24 N·m (17.7 lbf·ft)", "torque: 30 N·m"), kit=KIT)
    made.read_code()
    for bolt in "1324":
        made.pull(1, bolt)
    for bolt in "1324":
        made.pull(2, bolt, "clicked while turning", tool="three", setting="7.5 lbf·ft")
    return made


def test_every_face_names_the_adapter_with_the_wrench(job: Job) -> None:
    answer = card(job.bench(), "head")
    assert answer.stages[2].tool.name == BOTH
    following = answer.pulls[8]
    assert (following.state, following.tool, following.setting) == ("next", BOTH, "19.0 lbf·ft")
    assert following.set_to == "19.0 lbf·ft with 15 mm crow-foot, straight out"
    assert now(job.bench()).next[0].endswith(f"with {BOTH}, set 19.0 lbf·ft")
    assert BOTH in all_joints(job.bench()).joints[0].tools
    data = card_data(answer)
    assert data["next"][1] == f"torque to 30 N·m; set 19.0 lbf·ft on {BOTH}"
    assert data["stages"][2]["tool"] == BOTH
    assert [head["through"] for head in data["grids"][0]["heads"]] == [
        "",
        "",
        "15 mm crow-foot, straight out",
        "",
    ]


def test_the_terminal_names_it_in_every_row(job: Job) -> None:
    with redirect_stdout(io.StringIO()) as out:
        show_card(card(job.bench(), "head"), start=None)
    said = " ".join(out.getvalue().split())
    assert said.count("19.0 lbf·ft") >= 5
    rows = [line for line in out.getvalue().splitlines() if "19.0" in line]
    assert said.count("crow-foot") >= len(rows)


def test_what_is_refused_and_what_is_kept_name_it_too(job: Job) -> None:
    with pytest.raises(SettingNotRead, match=f"The scale of the {BOTH} has to be read"):
        said_pull(job)
    kept = said_pull(job, setting="19.0 lbf·ft")
    assert f"{BOTH}, set to 19.0 lbf·ft" in kept.said


def test_the_same_wrench_alone_is_not_said_to_carry_it(job: Job) -> None:
    assert [one.tool for one in card(job.bench(), "head").pulls[4:8]] == ["three-eighths wrench"] * 4


def test_beyond_the_scale_is_refused(job: Job) -> None:
    with pytest.raises(BeyondScale) as caught:
        said_pull(job, setting="30 N·m")
    assert str(caught.value) == (
        "30 N·m cannot be the setting of the three-eighths wrench: its scale ends at 20 lbf·ft, as your kit says. "
        "Read its scale again, or name the wrench that was used (--tool)."
    )
    with pytest.raises(BeyondScale, match=r"^22 lbf·ft cannot be"):
        said_pull(job, setting="22 lbf·ft")


def test_a_setting_other_than_the_list_asks_puts_the_pull_in_doubt(job: Job) -> None:
    # HAND: the larger of one step, 0.5, and 4 % of 20 = 0.8 lbf·ft: 20 is 1.0 from 19, in doubt; 19.5 is 0.5 from it
    said_pull(job, setting="19.5 lbf·ft")
    assert card(job.bench(), "head").doubts == ()
    said_pull(job, setting="20 lbf·ft")
    (doubt,) = card(job.bench(), "head").doubts
    assert doubt == (
        "bolt 3, stage 3: the wrench was set to 20 lbf·ft; with 15 mm crow-foot, straight out, the list asks for "
        "19.0 lbf·ft, which is 30 N·m at the bolt"
    )


def test_the_figure_at_the_bolt_is_no_setting_through_an_adapter(tmp_path: Path) -> None:
    kit = KIT.replace("5–20 lbf·ft", "5–27 lbf·ft")
    kit = kit.replace("length: 30 mm", "length: 60 mm")
    # HAND: E = 60 mm: 37 · 180 / 240 = 27.75 N·m = 20.47 lbf·ft; 27 lbf·ft is 36.6 N·m, near 37, and 48.8 at the bolt
    made = make_job(tmp_path, sheet=SMALL.replace("torque: 24 N·m (17.7 lbf·ft)", "torque: 37 N·m"), kit=kit)
    made.read_code()
    for bolt in "1324":
        made.pull(1, bolt)
        made.pull(2, bolt, "clicked while turning", tool="three", setting="7.5 lbf·ft")
    assert card(made.bench(), "head").stages[2].tool.through
    said_pull(made, setting="27 lbf·ft")
    assert card(made.bench(), "head").doubts


def test_the_adapter_is_called_to_mind_when_the_setting_is_read(job: Job) -> None:
    (remark,) = said_pull(job, setting="19.0 lbf·ft").remarks
    assert remark == (
        "This setting counts only with the adapter on the wrench: 15 mm crow-foot, straight out. "
        "Without it 19.0 lbf·ft is not 30 N·m at the bolt."
    )
    assert said_pull(job).remarks == ()


@pytest.mark.parametrize(("setting", "doubt"), [("23.5 N·m", False), ("24.5 N·m", False), ("22.9 N·m", True)])
def test_without_an_adapter_a_step_or_the_deviation(tmp_path: Path, setting: str, doubt: bool) -> None:
    # HAND: 24 N·m on a scale of 0.5 N·m, 4 %: the larger is 0.96; 22.9 is 1.1 from it
    made = make_job(tmp_path, sheet=SMALL)
    made.read_code()
    for bolt in "1324":
        made.pull(1, bolt)
    for bolt in "1324":
        made.pull(2, bolt, "clicked while turning")
    made.pull(3, "1", "clicked while turning", tool="three", setting=setting)
    assert bool(card(made.bench(), "head").doubts) is doubt

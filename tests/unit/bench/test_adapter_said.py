"""Through an adapter the setting is lower than the torque: whoever reads the one reads the other with it."""

import io
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.acts import pull_fields
from gudgeon.bench.context import open_bench
from gudgeon.bench.now import now
from gudgeon.bench.pull_list import all_joints, card
from gudgeon.bench.record import Recorded, record
from gudgeon.bench.scale_read import SettingNotRead
from gudgeon.cli.joint_card import show_card
from gudgeon.paper.card import card_data
from tests.unit.bench.benches import Job, make_job
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
SAID: dict[str, Any] = {
    "joint": "head", "bolt": None, "stage": None, "round": None, "angle_deg": None, "tool": None, "setting": None,
    "why": "", "outcome": "clicked",
}  # fmt: skip


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


def pull(job: Job, **said: Any) -> Recorded:
    """The next pull as a person says it."""
    bench = open_bench(job.book, now=job.now)
    try:
        return record(bench, "pull", pull_fields(bench, {**SAID, **said}))
    finally:
        bench.store.close()


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
        pull(job)
    kept = pull(job, setting="19.0 lbf·ft")
    assert f"{BOTH}, set to 19.0 lbf·ft" in kept.said


def test_the_same_wrench_alone_is_not_said_to_carry_it(job: Job) -> None:
    assert [one.tool for one in card(job.bench(), "head").pulls[4:8]] == ["three-eighths wrench"] * 4

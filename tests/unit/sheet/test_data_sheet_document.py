"""The page on the data sheet: its joints read as they are printed there, and it names every word that is taken."""

import re
from typing import get_args

from gudgeon.sheet.joints import Role, Stage
from gudgeon.sheet.load import parse_sheet
from tests.house.code import ROOT
from tests.unit.sheet.sheets import SMALL

PAGE = (ROOT / "docs" / "data-sheet.md").read_text("utf-8")


def section(heading: str) -> str:
    """What stands below a heading, up to the next one."""
    return re.split(r"\n##+ ", PAGE.split(f"\n### {heading}\n")[1])[0]


def test_the_joint_of_two_families_reads_and_takes_turns() -> None:
    (example,) = re.findall(r"```yaml\njoints:\n(.*?)```", section("Two families of bolts"), re.DOTALL)
    sheet = parse_sheet(SMALL[: SMALL.index("joints:\n")] + f"joints:\n{example}", file="s.yaml").sheet
    (of,) = sheet.joints.values()
    assert set(of.families) == {"long", "short"}
    worked = [of.stage_bolts(stage) for stage in of.program]
    assert worked == [("1", "2", "3", "4"), ("1", "2"), ("3", "4"), ("1", "2"), ("3", "4")]
    assert [one.family for one in of.program if isinstance(one, Stage)] == [None, *["long", "short"] * 2]
    thread = of.fastener_of("3")
    assert thread is not None
    assert thread.thread == "M8x1.25"


def test_every_role_is_named() -> None:
    said = " ".join(section("What a joint is").split())
    listed = re.search(r"It is one of: (.*?)\. A joint that is none", said)
    assert listed is not None
    assert listed[1].split(", ") == list(get_args(Role))


def test_a_torque_that_adds_is_told_of() -> None:
    assert "`torque: +5 N·m` would be 5 N·m, not 5 N·m more" in PAGE

"""The page on the data sheet: its joints read as they are printed there, and it names every word that is taken."""

import re
from typing import get_args

import pytest

from gudgeon.bench.proof.run import proofread
from gudgeon.sheet.inspections import Method
from gudgeon.sheet.joints import Role, Stage
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.shapes import SHAPES, Shape
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


def example(heading: str, *, number: int = 0) -> str:
    """An example below a heading of the second order."""
    part = PAGE.split(f"\n## {heading}\n")[1].split("\n## ")[0]
    return str(re.findall(r"```yaml\n(.*?)```", part, re.DOTALL)[number])


def whole_sheet() -> str:
    """The small sheet with the faces of the page, and a second source."""
    start = SMALL[: SMALL.index("cylinder:\n")]
    start = start.replace(
        "edition: 1st}", "edition: 1st}\n  bulletin: {title: Invented bulletin, edition: 1st}"
    )
    return start + SMALL[SMALL.index("joints:\n") :] + example("Faces")


@pytest.mark.parametrize("heading", ["How it is measured", "Limits with shapes"])
def test_what_is_measured_on_the_page_reads_and_agrees_in_itself(heading: str) -> None:
    sheet = parse_sheet(whole_sheet() + example(heading), file="s.yaml").sheet
    assert len(sheet.characteristics) >= 2
    assert [found for found in proofread(sheet) if found.path.startswith("characteristics")] == []


def test_every_shape_is_named_and_shown() -> None:
    part = PAGE.split("\n## Limits with shapes\n")[1].split("\n## ")[0]
    rows = dict(re.findall(r"^\| `([^`]+)` \| ([^|]+) \|", part, re.MULTILINE))
    rows.pop("shape")
    assert list(rows) == [shape_name(one) for one in SHAPES]
    for one in SHAPES:
        named = set(re.findall(r"`(\w+)`", rows[shape_name(one)]))
        fields = {field.alias or name for name, field in one.model_fields.items()}
        assert named == fields - {"source", "shape", "stands_for"}
    shown = set(re.findall(r"shape: ([a-z ]+)[,}]", part))
    assert {shape_name(one) for one in SHAPES} - shown == {
        "whole face",
        "per length",
    }  # said by both together


def test_every_method_is_named() -> None:
    part = PAGE.split("\n## How it is measured\n")[1].split("\n```")[0]
    assert tuple(re.findall(r"^\| `([a-z -]+)` \|", part, re.MULTILINE)[1:]) == get_args(Method)


def shape_name(of: type[Shape]) -> str:
    return str(get_args(of.model_fields["shape"].annotation)[0])

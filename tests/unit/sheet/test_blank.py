"""A blank sheet says what is missing, and becomes a sheet when its `#` are taken away."""

import re
from typing import get_args

import pytest

from gudgeon.bench.proof.run import proofread
from gudgeon.bench.timing.drive import drive_of
from gudgeon.sheet.blank import blank_sheet
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.shapes import SHAPES
from gudgeon.written.errors import FileRefused

CHOICES = [
    ("single", 1, "gears", "screws", "air"),
    ("inline", 4, "belt", "shims", "liquid"),
    ("vee", 6, "chain", "hydraulic", "liquid"),
    ("flat", 4, "gears", "screws", "air"),
]


def blank(choice: tuple[str, int, str, str, str]) -> str:
    layout, cylinders, drive, valves, cooling = choice
    return blank_sheet(layout=layout, cylinders=cylinders, drive=drive, valves=valves, cooling=cooling)


def filled(text: str) -> str:
    for key, value in (("name", "Mine"), ("code_is_read", "pad"), ("title", "Manual"), ("edition", "1st")):
        text = re.sub(rf"^( +{key}:) .*$", rf"\1 {value}", text, count=1, flags=re.MULTILINE)
    return text.replace("codes: []", "codes: [A1]")


def uncommented(text: str) -> str:
    """A blank with the `#` of every example taken away; what is prose stays behind one."""
    lines = []
    for line in text.splitlines():
        bare = re.sub(r"^( *)# ?", r"\1", line)
        example = line.lstrip().startswith("#") and re.match(
            r"^ *(- |[a-z_0-9]+:( |$)|a(long|cross) one \w+: )", bare
        )
        prose = re.match(
            r"^#( -)? [A-Z`]|^#       (exhaust manifold|oil drain plug), |^# (role|method): |^# `required|^# start",
            line,
        )
        lines.append(bare if example and not prose else line)
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("choice", CHOICES)
def test_a_blank_names_what_must_be_written(choice: tuple[str, int, str, str, str]) -> None:
    with pytest.raises(FileRefused) as caught:
        parse_sheet(blank(choice), file="b.yaml")
    said = [str(problem).split(": ", 1)[1].split(":")[0] for problem in caught.value.problems]
    assert said == ["name", "codes", "code_is_read", "title", "edition"]


@pytest.mark.parametrize("choice", CHOICES)
def test_the_required_lines_alone_make_a_sheet(choice: tuple[str, int, str, str, str]) -> None:
    sheet = parse_sheet(filled(blank(choice)), file="b.yaml").sheet
    assert sheet.engine.cylinders == choice[1]
    assert sheet.lacks("timing belt") == (choice[2] != "belt")
    assert sheet.lacks("hydraulic lifters") == (choice[3] != "hydraulic")


@pytest.mark.parametrize("choice", CHOICES)
def test_every_example_in_the_comments_loads(choice: tuple[str, int, str, str, str]) -> None:
    """Taking the `#` away gives a sheet that holds together: the blank teaches nothing wrong."""
    sheet = parse_sheet(uncommented(filled(blank(choice))), file="b.yaml").sheet
    assert "head" in sheet.joints
    assert "cylinder_bore" in sheet.characteristics
    assert sheet.characteristics["deck_face"].places == ("along one side", "across one end")
    shown = {shape.shape for item in sheet.characteristics.values() for shape in item.limits}
    told = {get_args(one.model_fields["shape"].annotation)[0] for one in SHAPES} - shown
    assert told == {"whole face", "per length", "sum with another part", "replace always"}
    assert [
        one for one in proofread(sheet) if one.path.startswith(("characteristics", "faces", "drive"))
    ] == []
    drive = drive_of(sheet)
    assert drive is not None
    assert [str(one) for one in drive.remarks if one.grade == "missing"] == []
    if drive.kind != "timing gears":
        assert drive.loop_teeth == pytest.approx(drive.belt_teeth, abs=0.05)
        assert [one.by_path for one in drive.counts] == pytest.approx(
            [one.printed for one in drive.counts], abs=0.05
        )
    assert sheet.cylinder is not None
    assert sheet.valve_gear is not None

"""Drives of a sheet with lines lost, figures changed and names exchanged at random: always answered, never raised."""

import random
import re
from importlib.resources import files

import pytest

from gudgeon.bench.pictures.drive import drive_picture
from gudgeon.bench.proof.drive import check_drive
from gudgeon.bench.timing.drive import Lowered, cam_shift, drive_of
from gudgeon.paper.svg_drive import drive_svg
from gudgeon.sheet.load import parse_sheet
from gudgeon.written.errors import FileRefused, NotYaml

HEAD = """gudgeon: data sheet 1
engine:
  {name: E, codes: [E], code_is_read: on the pad, layout: inline, cylinders: 4, numbered_from: front,
   rotation: "clockwise, seen from the timing end"}
sources: {manual: {title: Manual, edition: first}}
"""
_FOUND = re.search(
    r"\n(drive:\n.*?)\nvalve_gear:",
    files("gudgeon.demo").joinpath("sheet.yaml").read_text(encoding="utf-8"),
    re.DOTALL,
)
assert _FOUND is not None
DRIVE = _FOUND[1].partition("  locking_tools:")[0].rstrip()
WHEELS = ("crank", "tensioner", "intake", "exhaust", "water_pump", "idler")
ODD = ("0", "-5", "1000", "20", "7", "-69.07", "180", "345.5")


def damaged(chance: random.Random) -> str:
    """The drive of the demo sheet with one to three lines lost or changed."""
    lines = DRIVE.splitlines()
    for _ in range(chance.randint(1, 3)):
        at, way = chance.randrange(2, len(lines)), chance.random()
        line = lines[at]
        figures = list(re.finditer(r"(?<![\w.])-?\d+(\.\d+)?", line))
        fields = re.findall(r", \w+: [^,}]+", line)
        if way < 0.25:
            del lines[at]
        elif way < 0.6 and figures:
            one = chance.choice(figures)
            lines[at] = line[: one.start()] + chance.choice(ODD) + line[one.end() :]
        elif way < 0.8 and fields:
            lines[at] = line.replace(chance.choice(fields), "", 1)
        elif "path" in line:
            first, second = chance.sample(WHEELS, 2)
            lines[at] = line.replace(first, "\0").replace(second, first).replace("\0", second)
        else:
            lines[at] = line.replace("turns: camshaft", "turns: nothing").replace("back: yes", "back: no")
    return HEAD + "\n".join(lines) + "\n"


@pytest.mark.parametrize("seed", range(4))
def test_whatever_is_damaged_the_rest_is_answered(seed: int) -> None:
    chance, answered, remarked = random.Random(seed), 0, 0
    for _ in range(45):
        try:
            loaded = parse_sheet(damaged(chance), file="sheet.yaml")
        except (FileRefused, NotYaml):
            continue
        model = drive_of(loaded.sheet, written=loaded.written)
        assert model is not None
        for lowering in ({"head": Lowered(0.2, 0.01)}, {}, {"head": Lowered(300.0)}):
            shift = cam_shift(model, lowering)
            told = {one.wheel for one in shift.camshafts}
            cams = {key for key, one in model.wheels.items() if one.is_camshaft}
            assert told <= cams
            assert told == cams or shift.missing, "a camshaft that is not answered says what is missing"
        assert drive_svg(drive_picture(model)).endswith("</svg>\n")
        assert all(one.why for one in check_drive(loaded.sheet))
        assert all(re.match(r"sheet\.yaml, line \d+", one.place) for one in model.remarks)
        answered += 1
        remarked += bool(model.remarks)
    assert answered > 25
    assert remarked > 10

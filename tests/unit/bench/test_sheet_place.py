"""Where a figure stands in the data sheet: lines counted by hand in the text below."""

import pytest

from gudgeon.bench.sheet_place import line_of, place_of
from gudgeon.errors import Place
from gudgeon.written.located import read_yaml

SHEET = """\
cylinder:
  bore: 80.0 mm
joints:
  head:
    program:
      - torque: 20 N·m
      - torque: 40 N·m
points:
  "1": 5 mm
"""


@pytest.mark.parametrize(
    ("said", "line"),
    [
        ("cylinder.bore", 2),
        ("joints.head.program.2.torque", 7),
        ("joints.head.program.3.torque", 6),
        ("points.1", 9),
        ("cylinder.stroke", 2),
        ("nothing.of.this", 1),
    ],
    ids=["a field", "the second of a list", "past its end", "a name of digits", "not stated", "no such part"],
)
def test_the_line_is_that_of_the_value_or_of_what_it_would_stand_in(said: str, line: int) -> None:
    assert line_of(read_yaml(SHEET, file="sheet.yaml"), said) == line


def test_the_place_has_file_line_and_column() -> None:
    assert place_of(read_yaml(SHEET, file="sheet.yaml"), ("cylinder", "bore")) == Place("sheet.yaml", 2, 9)


def test_of_a_sheet_that_is_not_at_hand_no_place_is_told() -> None:
    assert (line_of(None, "cylinder.bore"), place_of(None, ("cylinder", "bore"))) == (None, None)

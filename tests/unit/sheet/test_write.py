"""Writing a figure into a sheet keeps what the person wrote around it."""

import pytest

from gudgeon.errors import InputError
from gudgeon.sheet.blank import blank_sheet
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.write import NoSuchFigure, is_critical, parse_path, put_figure
from gudgeon.written.errors import FileRefused
from tests.unit.sheet.sheets import SMALL


def put(text: str, path: str, value: str, source: str = "manual p. 12") -> str:
    return put_figure(text, file="s.yaml", path=parse_path(path), value=value, source=source)


def test_a_new_figure_is_added_and_comments_stay() -> None:
    text = put(SMALL, "cylinder.rod_length", "120.0 mm")
    assert "# the bore as printed" in text
    cylinder = parse_sheet(text, file="s.yaml").sheet.cylinder
    assert cylinder is not None and cylinder.rod_length is not None
    assert cylinder.rod_length.value.text == "120.0 mm"
    assert str(cylinder.rod_length.source) == "manual p. 12"
    assert cylinder.bore is not None and cylinder.bore.value.text == "70.00 mm"


def test_only_the_lines_of_the_figure_change() -> None:
    before, after = SMALL.splitlines(), put(SMALL, "joints.head.program.3.torque", "26 N·m").splitlines()
    assert [line for line in before if line not in after] == ["      - torque: 24 N·m (17.7 lbf·ft)"]
    assert [line for line in after if line not in before] == ["      - torque: 26 N·m"]


def test_a_blank_takes_figures_before_it_is_whole() -> None:
    blank = blank_sheet(layout="single", cylinders=1, drive="gears", valves="screws", cooling="air")
    text = put(blank, "cylinder.bore", "70.00 mm")
    assert "bore: {value: 70.00 mm, source: manual p. 12}" in text
    assert "# - Every figure needs a source" in text


@pytest.mark.parametrize(
    ("path", "value", "source", "error"),
    [
        ("cylinder.boar", "70 mm", "manual p. 1", NoSuchFigure),
        ("cylinder", "70 mm", "manual p. 1", InputError),
        ("engine.name", "70 mm", "manual p. 1", NoSuchFigure),
        ("cylinder.bore", "70", "manual p. 1", FileRefused),
        ("cylinder.bore", "70 N·m", "manual p. 1", FileRefused),
        ("cylinder.bore", "71.00 mm", "other p. 1", FileRefused),
        ("cylinder.bore", "71.00 mm", "", FileRefused),
        ("joints.head.program.9.torque", "71 N·m", "", InputError),
        ("", "71 N·m", "", InputError),
    ],
)
def test_refusals(path: str, value: str, source: str, error: type[InputError]) -> None:
    with pytest.raises(error):
        put(SMALL, path, value, source)


def test_critical_figures() -> None:
    assert is_critical(parse_path("joints.head.program.3.torque"))
    assert is_critical(parse_path("characteristics.head_face.wear_limit"))
    assert not is_critical(parse_path("cylinder.bore"))

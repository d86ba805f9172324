"""Writing a figure into a sheet keeps what the person wrote around it."""

import pytest

from gudgeon.errors import InputError
from gudgeon.sheet.blank import blank_sheet
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.write import (
    NoSuchFigure,
    NoSuchSource,
    is_critical,
    is_figure,
    parse_path,
    put_figure,
    put_photo,
    takes_source,
)
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
    assert "cylinder:\n  bore: {value: 70.00 mm, source: manual p. 12}\n#   bore: 82.00 mm\n" in text
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


@pytest.mark.parametrize(
    ("path", "value", "source", "note", "line"),
    [
        ("cylinder.bore", "71.00 mm", "manual p. 3", None, "  bore: 71.00 mm"),
        ("cylinder.bore", "71.00 mm", "manual p. 4", None, "  bore: {value: 71.00 mm, source: manual p. 4}"),
        ("cylinder.bore", "71.00 mm", "manual p. 3", "worn", "  bore: {value: 71.00 mm, source: manual p. 3, note: worn}"),
        ("cylinder.stroke", "67.0 mm", "manual p. 2", None, "  stroke: {value: 67.0 mm, source: manual p. 2}"),
        ("joints.head.program.2.torque", "11 N·m", "", "first", "      - torque: 11 N·m"),
        ("joints.head.program.2.torque", "11 N·m", "", "first", "        note: first"),
        ("joints.head.fastener.free_length", "60.0 mm", "", None, '    fastener: {thread: M8x1.25, strength_class: "8.8", free_length: 60.0 mm}'),
    ],
)  # fmt: skip
def test_a_figure_takes_the_shape_that_its_line_has(
    path: str, value: str, source: str, note: str | None, line: str
) -> None:
    text = put_figure(SMALL, file="s.yaml", path=parse_path(path), value=value, source=source, note=note)
    assert line in text.splitlines()


def test_what_else_stands_with_a_figure_stays() -> None:
    also = "stroke: {value: 66.0 mm, source: manual p. 2, note: cold, also: [{value: 66.0 mm, source: manual p. 8}]}"
    text = SMALL.replace("stroke: {value: 66.0 mm, source: manual p. 2}", also)
    after = put(text, "cylinder.stroke", "66.1 mm", "manual p. 2")
    assert also.replace("value: 66.0 mm, source: manual p. 2", "value: 66.1 mm, source: manual p. 2") in after
    again = put(text, "cylinder.stroke.also.1", "66.2 mm", "manual p. 9")
    assert "also: [{value: 66.2 mm, source: manual p. 9}]" in again
    without = put_figure(
        text, file="s.yaml", path=parse_path("cylinder.stroke"), value="66 mm", source="manual p. 2", note=""
    )
    assert "note: cold" not in without


def test_a_photo_is_named_under_its_source() -> None:
    photo = "photos/0123456789abcdef.jpg"
    text = put_photo(SMALL, file="s.yaml", source="manual", page="p. 4", photo=photo)
    manual = parse_sheet(text, file="s.yaml").sheet.sources["manual"]
    assert manual.photos == {"p. 4": photo}
    assert [manual.photo_of(where) for where in ("p. 4", "p. 4, table 2", "p. 49", "p. 5")] == [
        photo, photo, "", "",
    ]  # fmt: skip
    with pytest.raises(NoSuchSource, match=r"`other` is no source of this sheet\. It has: manual"):
        put_photo(SMALL, file="s.yaml", source="other", page="p. 4", photo=photo)


@pytest.mark.parametrize(
    "name", ["../x.jpg", "photos/../x.jpg", "/x.jpg", "photos/a.svg", "photos/a/b.jpg", "photos/.jpg"]
)
def test_a_photo_never_leads_out_of_its_folder(name: str) -> None:
    with pytest.raises(FileRefused, match="names no photo beside the sheet"):
        put_photo(SMALL, file="s.yaml", source="manual", page="p. 4", photo=name)


def test_which_paths_are_figures() -> None:
    figures = ["cylinder.bore", "joints.head.fastener.grip", "joints.head.program.2.torque", "head.most_off"]
    others = [
        "cylinder.bore.value",
        "joints.head.fastener.thread",
        "joints.head.program.2.only",
        "engine.cylinders",
    ]
    assert [path for path in figures + others if is_figure(parse_path(path))] == figures
    assert takes_source(parse_path("cylinder.bore"))
    assert not takes_source(parse_path("joints.head.fastener.grip"))

"""Which gauges can read a size: an inside and an outside are told apart in whatever language they are named."""

from pathlib import Path

import pytest

from gudgeon.bench.judging.gauges import INSIDE, OUTSIDE, suited_kinds
from gudgeon.sheet.load import load_sheet
from tests.unit.sheet.sheets import SMALL

NAMED = "  {key}: {{name: Zylinder in der Büchse, part: block, {more}new_range: 70.00–70.02 mm, source: manual p. 6}}\n"


def kinds(folder: Path, key: str, *, more: str = "", cylinder: str = "", fits: str = "") -> tuple[str, ...]:
    text = SMALL.replace("joints:\n", NAMED.format(key=key, more=more) + "joints:\n", 1)
    text = text.replace("  bore: 70.00 mm\n", f"  bore: 70.00 mm\n{cylinder}", 1) + fits
    (folder / "sheet.yaml").write_text(text, encoding="utf-8")
    return suited_kinds(load_sheet(folder / "sheet.yaml").sheet, key)


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("liner", {"cylinder": "  measured_as: {bore: liner}\n"}),
        ("liner", {"fits": "fits:\n  ring_bore: liner\n"}),
        ("cylinder_bore", {}),
    ],
    ids=["the bore of the cylinder", "the bore of the rings", "its key"],
)
def test_a_bore_is_read_from_the_inside_whatever_it_is_called(
    tmp_path: Path, key: str, said: dict[str, str]
) -> None:
    assert kinds(tmp_path, key, **said) == INSIDE


def test_the_gauge_that_the_sheet_names_tells_the_side(tmp_path: Path) -> None:
    assert kinds(tmp_path, "liner", more="how: 'mit dem bore gauge, quer', ") == ("bore gauge",)


def test_what_nothing_says_is_read_from_the_outside(tmp_path: Path) -> None:
    assert kinds(tmp_path, "liner") == OUTSIDE

"""The drive proof-read: what a printed number contradicts, with its line; nothing of what is only missing."""

import re
from importlib.resources import files

import pytest

from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.sheet.load import parse_sheet

TEXT = files("gudgeon.demo").joinpath("sheet.yaml").read_text(encoding="utf-8")


def found(*changes: tuple[str, str]) -> list[Finding]:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    loaded = parse_sheet(text, file="sheet.yaml")
    return [one for one in proofread(loaded.sheet, written=loaded.written) if one.check == "drive"]


def test_a_drive_that_closes_raises_nothing() -> None:
    assert found() == []


def test_what_is_missing_is_no_finding() -> None:
    assert (
        found(("diameter: 60.0 mm, back: yes, x: -69.07 mm, y: 150.00 mm}", "diameter: 60.0 mm, back: yes}"))
        == []
    )


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        # HAND: the path has 142 teeth, and the counts add up to 142
        (
            "belt_teeth: 142",
            "belt_teeth: 124",
            [
                ("error", "drive.teeth_between_marks", "15 + 67 + 60; 124"),
                ("doubt", "drive.belt_teeth", "124"),
            ],
        ),
        # HAND: 68 instead of 67 is one more than the path, and makes 143 around
        (
            "to: crank, teeth: 67",
            "to: crank, teeth: 68",
            [
                ("error", "drive.teeth_between_marks", "15 + 68 + 60; 142"),
                ("doubt", "drive.teeth_between_marks.2", "exhaust to crank: 68"),
            ],
        ),
        # HAND: half a millimeter to the side of one camshaft is 0.5 / 8 of a tooth: within what centers are known
        ("x: 60.00 mm, y: 345.50", "x: 60.50 mm, y: 345.50", []),
        # HAND: 3 mm are 0.375 of a tooth on the upper span, and little elsewhere
        (
            "x: 60.00 mm, y: 345.50",
            "x: 63.00 mm, y: 345.50",
            [
                ("doubt", "drive.belt_teeth", "142"),
                ("doubt", "drive.teeth_between_marks.1", "intake to exhaust: 15"),
            ],
        ),
        (
            "turns: crankshaft, x: 0.00 mm",
            "x: 0.00 mm",
            [],
        ),
    ],
)
def test_what_the_drive_contradicts(old: str, new: str, expected: list[tuple[str, str, str]]) -> None:
    assert [(one.grade, one.path, one.printed) for one in found((old, new))] == expected


def test_a_camshaft_sprocket_that_is_not_twice_the_other() -> None:
    """HAND: 2 × 20 = 40."""
    first, *_ = found(
        ("name: Intake camshaft sprocket, teeth: 40", "name: Intake camshaft sprocket, teeth: 30")
    )
    assert (first.grade, first.path, first.printed) == ("error", "drive.wheels.intake.teeth", "30; 20")
    lines = TEXT.splitlines()
    assert first.line is not None
    assert lines[first.line - 1].strip().startswith("intake: {name")
    assert first.source == "manual p. 78"
    assert re.match("Intake camshaft sprocket has 30 teeth, Crankshaft sprocket 20:", first.why)

"""What a sheet lacks to prove an engine that runs."""

import pytest

from gudgeon.bench.gaps_running import running_gaps
from gudgeon.sheet.blank import blank_sheet
from gudgeon.sheet.load import parse_sheet
from tests.unit.bench.running.engines import ENGINE


def paths(text: str) -> list[str]:
    return [one[3] for one in running_gaps(parse_sheet(text, file="sheet.yaml").sheet)]


def test_a_whole_sheet_lacks_nothing() -> None:
    assert paths(ENGINE) == []


def test_a_sheet_without_it_lacks_it_whole() -> None:
    assert paths(ENGINE.split("after_start:")[0]) == ["after_start"]


@pytest.mark.parametrize(
    ("gone", "path"),
    [
        ("  cranking_pressure: cranking\n", "after_start.cranking_pressure"),
        ("  rod_length: 143.0 mm\n", "cylinder.rod_length"),
        ("  intake: {closes: 60°}\n", "valve_gear.intake.closes"),
        ("  orifice: 0.040 in\n", "after_start.orifice"),
        (", measured_as: oil_idle", "after_start.oil_pressure.1.measured_as"),
        ("guards_to: -30 °C, ", "after_start.coolant"),
    ],
)
def test_each_gap_is_named_by_its_path(gone: str, path: str) -> None:
    assert gone in ENGINE
    assert paths(ENGINE.replace(gone, "")) == [path]


@pytest.mark.parametrize("cooling", ["air", "liquid"])
def test_the_example_of_a_blank_sheet_can_be_read(cooling: str) -> None:
    text = blank_sheet(layout="inline", cylinders=4, drive="belt", valves="shims", cooling=cooling)
    assert ("guards_to" in text) is (cooling == "liquid")
    start = text.index("after_start:")
    example = text[start : text.index("\nfluids:")].replace("\n# ", "\n ")
    keys = {"compression": "cranking", "compression_wet": "cranking_wet", "leak_down": "leak"}
    for name, own in keys.items():
        example = example.replace(f": {name} ", f": {own} ")
    example = example.replace("oil_pressure_idle", "oil_idle")
    assert paths(ENGINE.split("after_start:")[0] + example) == (
        ["after_start.coolant"] if cooling == "air" else []
    )

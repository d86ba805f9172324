"""The valve events proof-read: what a printed number contradicts, with its line; nothing of what is only missing."""

from importlib.resources import files

import pytest

from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.sheet.load import parse_sheet

TEXT = files("gudgeon.demo").joinpath("sheet.yaml").read_text(encoding="utf-8")
INTAKE = "    opens: 12°\n    closes: 48°\n    duration: 240°\n    centerline: 108°\n"


def found(new: str = INTAKE) -> list[Finding]:
    assert INTAKE in TEXT
    loaded = parse_sheet(TEXT.replace(INTAKE, new), file="sheet.yaml")
    return [one for one in proofread(loaded.sheet, written=loaded.written) if one.check == "valve events"]


def test_events_that_add_up_raise_nothing() -> None:
    """HAND: 12 + 180 + 48 = 240, 240 / 2 − 12 = 108; 46 + 180 + 10 = 236, 236 / 2 − 10 = 108."""
    assert found() == []


def test_what_is_missing_is_no_finding() -> None:
    assert found("    opens: 12°\n") == []
    assert found("    opens: 12°\n    centerline: 108°\n") == []


@pytest.mark.parametrize("duration", ["204°", "242°", "230°"])
def test_a_duration_that_opening_and_closing_do_not_make(duration: str) -> None:
    """HAND: 240°, and three whole degrees are together off by 1.5° at most."""
    one = found(INTAKE.replace("240°", duration))[0]
    assert (one.grade, one.path, one.printed, one.source) == (
        "error", "valve_gear.intake.duration", duration, "manual p. 58",
    )  # fmt: skip
    lines = TEXT.replace(INTAKE, INTAKE.replace("240°", duration)).splitlines()
    assert one.line is not None
    assert lines[one.line - 1].strip() == f"duration: {duration}"
    assert one.why == (
        "The intake events contradict each other: opening 12° + 180° + 48° to closing is 240°, and the duration given "
        f"is {duration}. Check the three, and the sign of an event on the other side of its dead center."
    )


def test_what_rounding_makes_is_none() -> None:
    assert found(INTAKE.replace("240°", "241°")) == []


def test_a_full_lift_that_is_not_halfway_is_a_doubt() -> None:
    """HAND: halfway is 108°; 112° may be a lobe that is not symmetric. 109° is what rounding makes: ± 0.5° ± 0.5°."""
    one = found(INTAKE.replace("108°", "112°"))[0]
    assert (one.grade, one.path, one.printed) == ("doubt", "valve_gear.intake.centerline", "112°")
    assert one.why == (
        "The intake centerline given, 112°, is not halfway between opening 12° and closing 48°, which is 108°: the lobe "
        "is not symmetric, or one of the figures is wrong."
    )
    assert found(INTAKE.replace("108°", "109°")) == []


def test_an_odd_duration_is_a_doubt() -> None:
    """HAND: −50 + 180 + 8 = 138°, below 150°."""
    one = found("    opens: -50°\n    closes: 8°\n")[0]
    assert (one.grade, one.path) == ("doubt", "valve_gear.intake.duration")

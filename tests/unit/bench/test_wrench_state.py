"""When a wrench is due for its check, and what is said of a pull below its usable part."""

from datetime import date
from pathlib import Path

import pytest

from gudgeon.bench.kit_view import kit_answer
from gudgeon.bench.pull_list import card
from gudgeon.bench.wrench_state import check_due, override
from gudgeon.kit.load import parse_kit
from gudgeon.kit.torque import Wrench
from tests.unit.bench.benches import KIT, make_job

TODAY = date(2026, 11, 25)


def wrench(fields: str) -> Wrench:
    text = f"gudgeon: kit 1\nwrenches:\n  one: {{name: one, kind: click, range: 20–100 N·m, step: 1 N·m{fields}}}\n"
    return parse_kit(text, file="kit.yaml").kit.wrenches["one"]


# ISO 6789-1:2017, as quoted by calibration laboratories: 12 months or 5,000 cycles, whichever comes first;
# after an overload too.
@pytest.mark.parametrize(
    ("fields", "due"),
    [
        ("", ""),
        (", checked: 2025-11-26, clicks_since: 4999", ""),
        (
            ", checked: 2025-11-25",
            "check due since 2026-11-25: last checked on 2025-11-25, good for 12 months (ISO 6789-1:2017)",
        ),
        (
            ", checked: 2025-10-25",  # 13 months ago
            "check due since 2026-10-25: last checked on 2025-10-25, good for 12 months (ISO 6789-1:2017)",
        ),
        (
            ", clicks_since: 5001",
            "check due: 5,001 clicks since the last check, good for 5,000 (ISO 6789-1:2017)",
        ),
        (
            ", checked: 2026-11-01, clicks_since: 5000",
            "check due: 5,000 clicks since the last check, good for 5,000 (ISO 6789-1:2017)",
        ),
        (
            ", checked: 2026-05-01, overloaded: 2026-05-02",
            "check due: overloaded on 2026-05-02 and not checked since",
        ),
        (", checked: 2026-05-03, overloaded: 2026-05-02", ""),
        (", overloaded: 2026-05-02", "check due: overloaded on 2026-05-02 and not checked since"),
    ],
)
def test_when_a_check_is_due(fields: str, due: str) -> None:
    assert check_due(wrench(fields), today=TODAY) == due


def test_a_check_on_the_last_of_february() -> None:
    assert check_due(wrench(", checked: 2024-02-29"), today=date(2025, 2, 27)) == ""
    assert check_due(wrench(", checked: 2024-02-29"), today=date(2025, 2, 28)).startswith(
        "check due since 2025-02-28"
    )


@pytest.mark.parametrize(
    ("tool", "setting", "said"),
    [
        ("half", "39 N·m", True),
        ("half", "40 N·m", False),
        ("half", "29 lbf·ft", True),  # 39.3 N·m
        ("half", "30 lbf·ft", False),  # 40.7 N·m
        ("beam", "25 N·m", True),  # a fifth of 150 is 30, though its scale begins at 0
        ("bar", "10 N·m", False),
        ("half", "", False),
        ("half", "as on the list", False),
    ],
)
def test_what_is_below_the_usable_part(tool: str, setting: str, said: bool) -> None:
    assert bool(override(parse_kit(KIT, file="kit.yaml").kit, tool=tool, setting=setting)) is said


def test_an_override_is_recorded_with_its_reason_and_told(tmp_path: Path) -> None:
    """Stage 2 asks for 10 N·m: the beam wrench shows it, and its usable part begins at a fifth of 150, 30 N·m."""
    job = make_job(tmp_path)
    job.read_code()
    for bolt in ("1", "3", "2", "4"):
        job.pull(1, bolt)
    below = "eam wrench set to 10 N·m, below 30 N·m, where its usable part begins: how far it was off is not known"
    told = job.pull(2, "1", tool="beam", setting="10 N·m", why="the small one is lent").remarks
    assert f"B{below}. It is kept as your override." in told
    silent = job.pull(2, "3", tool="beam", setting="10 N·m").remarks
    assert f"B{below}. It is kept as your override; no reason was given (--why)." in silent
    for bolt in ("2", "4"):
        job.pull(2, bolt, tool="beam", setting="10 N·m", why="the same")
    usual = job.pull(3, "1", "clicked while turning", tool="three", setting="24 N·m").remarks
    assert not any("override" in one for one in usual)
    (wrenches,) = (owned for title, owned in kit_answer(job.bench()).groups if title == "Torque wrenches")
    said = {one.name: one.warnings[1:] for one in wrenches}
    why = [
        f"override on bolt 1: b{below}; why: the small one is lent",
        f"override on bolt 3: b{below}; no reason is recorded",
        f"override on bolts 2, 4: b{below}; why: the same",
    ]
    assert said["beam wrench"] == tuple(f"Head nuts, stage 2, {one}" for one in why)
    assert said["three-eighths click wrench"] == ()
    notes = [stage.tool.note for stage in card(job.bench(), "head").stages]
    assert notes[1].endswith(f"the usable part of its scale; {'; '.join(why)}")
    assert not any("override" in note for note in (notes[0], *notes[2:]))

"""What of a sheet no owned wrench measures, and the one that would close most of it. Expected values by hand."""

import json
from datetime import date
from pathlib import Path

import pytest

from gudgeon.bench.kit_view import kit_answer
from gudgeon.bench.wrench_gap import WrenchGap, wrench_gap
from gudgeon.cli.main import main
from gudgeon.kit.load import parse_kit
from gudgeon.sheet.load import parse_sheet
from tests.unit.bench.benches import KIT, make_job
from tests.unit.sheet.sheets import SMALL

TODAY = date(2026, 3, 7)


def sheet_with(*joints: tuple[str, str], thread: str = "M6") -> str:
    """The small sheet with a joint for each name and program besides its head."""
    return SMALL + "".join(
        f"""  {name}:
    name: {name.replace("_", " ")}
    fastener: {{thread: {thread}}}
    bolts: 2
    order: free
    thread_state: dry
    program: [{program}]
    source: manual p. 9
"""
        for name, program in joints
    )


def gap_of(*joints: tuple[str, str], kit: str = KIT, thread: str = "M6") -> WrenchGap:
    owned = parse_kit(kit, file="kit.yaml").kit
    return wrench_gap(
        owned, parse_sheet(sheet_with(*joints, thread=thread), file="sheet.yaml").sheet, today=TODAY
    )


def test_one_small_wrench_closes_most() -> None:
    # The kit begins at 20 N·m and ends at 200. Out of it: the head's 10, and 6, 9, 8–10, 12 and 230 N·m.
    found = gap_of(
        ("covers", "{torque: 6 N·m}, {torque: 9 N·m}"),
        ("caps", "{torque: 8–10 N·m}"),
        ("sensor", "{torque: 12 N·m}"),
        ("pulley", "{torque: 90 N·m}, {torque: 230 N·m}"),
        ("mount", "{torque: 45 N·m}"),
    )
    assert [(one.joint, one.stage, one.torque) for one in found.stages] == [
        ("head", 2, "10 N·m"),
        ("covers", 1, "6 N·m"),
        ("covers", 2, "9 N·m"),
        ("caps", 1, "8–10 N·m"),
        ("sensor", 1, "12 N·m"),
        ("pulley", 2, "230 N·m"),
    ]
    assert found.closing is not None
    assert found.closing.range == "5–25 N·m"
    assert [one.joint for one in found.closing.leaves] == ["pulley"]
    # worst at 6 N·m: 4 % and half of 0.25, 0.24 + 0.125 = 0.365, 6.1 %
    assert found.closing.error == "± 6.1 % or better"
    assert found.words == (
        "5 of the 6 joints with a torque have one that no wrench of yours can measure.",
        # from 6 to 12 N·m: its end is at least 12, and at most 5 · 6 = 30, as a fifth of it may not lie above 6
        "One torque wrench of 5–25 N·m would close 4 of these 5 joints (5 of 6 stages, ± 6.1 % or better). So would any that "
        "begins at 6 N·m (4.4 lbf·ft) or below and ends between 12 N·m (8.9 lbf·ft) and 30 N·m (22.1 lbf·ft).",
    )


def test_joints_count_before_stages() -> None:
    # 5–25 would close three stages, and no joint whole but the head; 2–10 closes two stages: 4 N·m and the head's 10
    found = gap_of(
        ("odd", "{torque: 12 N·m}, {torque: 14 N·m}, {torque: 300 N·m}"), ("tiny", "{torque: 4 N·m}")
    )
    assert found.closing is not None
    assert found.closing.range == "2–10 N·m"
    assert {one.joint for one in found.closing.closes} == {"head", "tiny"}


def test_above_every_wrench() -> None:
    found = gap_of(
        ("pulley", "{torque: 280 N·m}"), ("flywheel", "{torque: 300 N·m}"), ("hub", "{torque: 250 N·m}")
    )
    assert found.closing is not None
    assert found.closing.range == "70–350 N·m"


def test_an_adapter_that_helps_leaves_no_gap() -> None:
    long = KIT.replace("range: 40–200 N·m", "length: 400 mm, range: 40–200 N·m")
    more = f"{long}adapters:\n  foot: {{name: crow-foot, length: 100 mm}}\n"
    assert [one.joint for one in gap_of(("pulley", "{torque: 230 N·m}"), kit=more).stages] == ["head"]


def test_a_range_that_no_usual_wrench_keeps() -> None:
    found = gap_of(("caps", "{torque: 9.9–10.1 N·m}"), kit=KIT.replace("range: 20–100", "range: 2–9.5"))
    caps = [one for one in found.stages if one.joint == "caps"]
    assert len(caps) == 1
    assert found.closing is not None
    assert caps[0] in found.closing.leaves


def test_nothing_missing() -> None:
    small = KIT.replace(
        "wrenches:\n", "wrenches:\n  q: {name: quarter, kind: click, range: 5–25 N·m, step: 0.5 N·m}\n"
    )
    found = gap_of(("mount", "{torque: 45 N·m}"), kit=small)
    assert (found.stages, found.closing) == ((), None)
    assert found.words == ("Your wrenches measure every torque of the 2 joints of the sheet that have one.",)


def test_a_left_hand_thread_wants_a_wrench_that_says_it_is_good_that_way() -> None:
    assert [one.joint for one in gap_of(("hub", "{torque: 60 N·m}"), thread="M10 left-hand").stages] == [
        "head",
        "hub",
    ]
    both = KIT.replace("range: 40–200 N·m", "direction: both, range: 40–200 N·m")
    assert [
        one.joint for one in gap_of(("hub", "{torque: 60 N·m}"), kit=both, thread="M10 left-hand").stages
    ] == ["head"]


def test_the_kit_page_says_it_once_the_code_is_read(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    assert kit_answer(job.bench()).gap is None
    job.read_code()
    found = kit_answer(job.bench()).gap
    assert found is not None
    assert found.joints_in_gap == ("Head nuts",)


def test_the_terminal_says_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    kit, sheet = tmp_path / "kit.yaml", tmp_path / "sheet.yaml"
    kit.write_text(KIT.replace("deviation: 6 %", "deviation: 6 %, clicks_since: 5001"), encoding="utf-8")
    sheet.write_text(SMALL, encoding="utf-8")
    assert main(["kit", "check", str(kit), "--sheet", str(sheet)]) == 0
    said = capsys.readouterr().out
    assert "3 torque wrenches, 3 gauges, 2 tools for turning" in said
    assert (
        "  - beam wrench: check due: 5,001 clicks since the last check, good for 5,000 (ISO 6789-1:2017)"
        in said
    )
    assert "One torque wrench of 5–25 N·m would close 1 of this 1 joint" in said
    assert "stage 2 of 4, 10 N·m: none of your 3 torque wrenches reaches 10 N·m" in said
    assert main(["kit", "check", str(kit), "--sheet", str(sheet), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["gap"]["closing"]["range"] == "5–25 N·m"
    assert main(["kit", "check", str(kit)]) == 0
    assert "One torque wrench" not in capsys.readouterr().out

"""The tools that the job needs and the kit lacks: nothing is called lacking that the kit names."""

from pathlib import Path

import pytest

from gudgeon.bench.network import JOBS, job
from gudgeon.bench.supplies.model import Lacking
from gudgeon.bench.supplies.tool_rules import owned, tool_rules
from gudgeon.bench.supplies.tools import lacking_tools
from gudgeon.kit.load import parse_kit
from gudgeon.kit.model import Kit
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.supplies.test_used_up import KIT, SHEET


def asked(job_: Job) -> dict[str, Lacking]:
    return {one.name: one for one in lacking_tools(job_.bench())}


def made(folder: Path, *, kit: str = KIT) -> Job:
    folder.mkdir(exist_ok=True)
    one = make_job(folder, sheet=SHEET, kit=kit)
    one.record("identity-read", code="TW18-D4", read_from="pad on the block")
    return one


def kit_of(lines: str) -> Kit:
    return parse_kit(f"gudgeon: kit 1\n{lines}", file="kit.yaml").kit


def test_every_text_on_a_bench_is_sorted_once() -> None:
    """A text that a job lays on the bench and no rule sorts would never be asked about."""
    rules = tool_rules()
    sorted_ = [*rules.everyday, *rules.other, *(need for one in rules.tools for need in one.needs)]
    assert len(sorted_) == len(set(sorted_))
    laid = {
        need
        for name in JOBS
        for task in job(name).tasks.values()
        for needs in (task.needs, *(said.get("needs", ()) for said in task.without.values()))
        for need in needs
    }
    assert laid == set(sorted_)


@pytest.mark.parametrize(
    ("lines", "has", "has_not"),
    [
        (
            "other_tools: [valve spring compressor]\n",
            {"valve spring compressor"},
            {"air compressor", "ring compressor"},
        ),
        (
            "other_tools: [compressor 50 L]\n",
            {"air compressor"},
            {"valve spring compressor", "ring compressor"},
        ),
        ("other_tools: [engine stand]\n", {"engine stand"}, {"jack and stands"}),
        ("other_tools: [jack with two stands]\n", {"jack and stands"}, {"engine stand", "gearbox jack"}),
        ("other_tools: [Transmission jack]\n", {"gearbox jack"}, {"jack and stands"}),
        ("other_tools: [Seal drivers]\n", {"seal driver"}, set()),
        (
            "gauges: {one: {name: dial gauge with bridge, kind: dial gauge}}\n",
            {"dial gauge", "bridge for the dial gauge"},
            {"compression gauge", "bore gauge", "thread gauge"},
        ),
        (
            "gauges: {one: {name: Old Faithful, kind: outside micrometer}}\n",
            {"outside micrometer"},
            {"caliper"},
        ),
        ("turning: {one: {name: the long one, kind: bar}}\n", {"long bar"}, {"angle gauge"}),
        ("", set(), {"torque wrench", "caliper"}),
    ],
)
def test_what_a_kit_plainly_has(lines: str, has: set[str], has_not: set[str]) -> None:
    found = owned(kit_of(lines))
    assert has <= found
    assert not has_not & found


def test_what_the_demo_lacks(tmp_path: Path) -> None:
    found = asked(made(tmp_path))
    # COMMON PRACTICE: the kit of the demo names neither; it does name a spring compressor and a dial gauge with bridge
    assert {"leak-down tester", "oil pressure gauge", "small-hole gauges", "torque wrench 5–25 N·m"} <= set(
        found
    )
    has = (
        "valve spring compressor",
        "dial gauge",
        "bridge for the dial gauge",
        "crank socket",
        "angle gauge",
        "caliper",
    )
    assert not set(has) & set(found)
    assert not set(tool_rules().everyday) & set(found)


def test_a_wrench_is_named_with_the_joints_it_is_for_and_the_first_of_their_tasks(tmp_path: Path) -> None:
    one = asked(made(tmp_path))["torque wrench 5–25 N·m"]
    assert one.why == "no wrench of yours measures: Camshaft cap bolts, Rear cover bolts, Valve cover bolts"
    assert one.before == "Oil the camshafts and draw their caps down evenly, by number and arrow"
    assert (one.sort, one.get) == ("wrench", ("buy", "borrow"))
    small = (
        "  small: {name: small one, kind: click, range: 5–25 N·m, step: 0.5 N·m, deviation: 4 %}\nadapters:"
    )
    again = asked(made(tmp_path / "with", kit=KIT.replace("adapters:", small, 1)))
    assert "torque wrench 5–25 N·m" not in again


def test_a_kit_without_any_wrench_lacks_one_wrench_not_two(tmp_path: Path) -> None:
    found = asked(made(tmp_path, kit="gudgeon: kit 1\n"))
    assert [name for name, one in found.items() if one.sort == "wrench"] == ["torque wrench"]


def test_a_gauge_that_cannot_decide_is_named_with_what_would(tmp_path: Path) -> None:
    coarse = KIT.replace("    step: 0.01 mm\n    error: 0.004 mm", "    step: 0.01 mm\n    error: 0.5 mm")
    found = asked(made(tmp_path, kit=coarse))
    stems = [one for one in found.values() if one.sort == "gauge" and "Intake valve stem" in one.why]
    assert [one.name for one in stems] == ["outside micrometer 0–25 mm"]
    assert stems[0].before == "Measure valve stems and guides; look at bend and margin"
    assert "none of yours decides: " in stems[0].why


def test_they_stand_in_the_order_of_the_work_and_what_is_done_asks_for_nothing(tmp_path: Path) -> None:
    one = made(tmp_path)
    found = list(asked(one).values())
    order = list(job("top_end").tasks)
    first = [order.index(each.tasks[0]) for each in found if each.tasks]
    assert first == sorted(first)
    assert "small-hole gauges" in {each.name for each in found}
    one.record("task-done", task="measure_valves")
    assert "small-hole gauges" not in asked(one)

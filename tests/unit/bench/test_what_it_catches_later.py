"""How something goes wrong in the build, at the refit and at the first start, and what stops it.

Expectations are PRINTED in the list that the program was planned with, or COMMON PRACTICE of the trade.
"""

import re
from datetime import timedelta
from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.errors import TaskRefused
from gudgeon.bench.holds import all_holds
from gudgeon.bench.ready import ready
from gudgeon.bench.start import start
from tests.unit.bench.benches import Job
from tests.unit.bench.stories import held, invented, open_before


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return invented(tmp_path)


def test_a_clearance_made_wrong_by_a_shim_blocks(job: Job) -> None:
    said = job.record(
        "reading", item="exhaust_valve_clearance", place="cylinder 2, timing side", low="0.20 mm", high="0.23 mm",
        instrument="feelers", condition="as left",
    ).remarks  # fmt: skip
    assert said[0].startswith("Outside")
    assert "Exhaust valve clearance, cylinder 2, timing side" in open_before(job)


def ask(job: Job, task: str) -> str:
    """What is answered to whoever asks to begin a task that is refused."""
    bench = open_bench(job.book, now=job.now)
    try:
        with pytest.raises(TaskRefused) as refused:
            start(bench, task)
        return str(refused.value)
    finally:
        bench.store.close()


def test_pumped_up_lifters_are_not_turned(tmp_path: Path) -> None:
    job = invented(
        tmp_path, ("does_not_have: [hydraulic lifters, ", "does_not_have: [shims, "),
        ("  adjustment: shims\n", "  adjustment: hydraulic lifters\n"),
    )  # fmt: skip
    job.record("task-done", task="camshafts_in")
    assert "the lifters are pumped up and hold valves open" in ask(job, "two_turns")
    said = job.record("turned", by="hand", seen="half a turn, firm").remarks
    assert said[0].startswith("This was against a gate: the lifters are pumped up")
    assert "Turn by hand" in open_before(job)


def test_a_locking_tool_that_is_in_is_not_turned_against(job: Job) -> None:
    job.record("left-in", item="bar", name="camshaft bar", where="flywheel end", due_before="crank")
    for task in ("two_turns", "crank_for_oil"):
        assert "a pin, a lock or a holder is in: the engine would turn against it" in ask(job, task)
    said = job.record("hold-proved", hold="locking_tools_out", value="2 of 2 in the box").remarks
    assert "camshaft bar" in open_before(job)
    said = job.record("turned", by="starter", seen="it stopped dead").remarks
    assert said[0].startswith("This was against a gate: a pin, a lock or a holder is in")
    assert held(job, "two_turns")
    job.record("taken-out", item="bar")
    assert "Turn by starter" in open_before(job, "handover")


def test_the_starter_does_not_come_before_two_turns_by_hand(job: Job) -> None:
    assert "the timing is not proved by two full turns by hand" in ask(job, "crank_for_oil")
    job.record("engine-state", belt="on", cams="in", pins="out", seen="belt on, box full")
    said = job.record("turned", by="starter", seen="one stroke").remarks
    assert said[0].startswith("This was against a gate: the timing is not proved by two full turns by hand")
    assert "Turn by starter" in open_before(job)


def test_a_rod_in_the_plug_hole_is_on_the_list_until_it_is_out(job: Job) -> None:
    job.record("left-in", item="rod", name="brass rod", where="plug hole 1", due_before="crank")
    assert re.fullmatch(r"plug hole 1, since \w{3} \w{3} \d\d, \d\d:\d\d", open_before(job)["brass rod"])
    job.record("taken-out", item="rod")
    assert "brass rod" not in open_before(job)


@pytest.mark.parametrize(
    ("kind", "name", "where", "hold", "milestone"),
    [
        ("left-in", "rag", "head, oil return", "nothing_left_in_head", "crank"),
        ("plugged", "port plug 3", "intake side", "port_plugs_out", "crank"),
        ("left-in", "tensioner pin", "eccentric", "tensioner_pin_out", "crank"),
    ],
    ids=["a-rag", "a-port-plug", "the-pin-of-the-tensioner"],
)
def test_what_is_in_speaks_against_whoever_says_that_it_is_out(
    job: Job, kind: str, name: str, where: str, hold: str, milestone: str
) -> None:
    job.record(kind, item="it", name=name, where=where, due_before="crank")
    said = job.record("hold-proved", hold=hold, value="all counted, nothing left").remarks
    assert said[0] == (
        f"Look: the book says otherwise: “{name}” is still on the list of what is {kind.replace('-', ' ')}. "
        "It does not stand as long as the book says both."
    )
    assert [one.partition(" “")[0] for one in said[1:]] == [
        "It was proved although"
    ]  # the work before it is not done
    assert name in open_before(job, milestone)
    assert all_holds()[hold].name in open_before(job, milestone)


@pytest.mark.parametrize(
    ("group", "name", "hold", "milestone"),
    [
        ("connector", "Oil pressure switch", "connectors_counted", "crank"),
        ("strap", "Ground strap, gearbox", "connectors_counted", "crank"),
        ("hose", "Vacuum hose to the servo", "hoses_counted", "fire"),
    ],
)
def test_what_hangs_loose_is_found_by_name_and_by_count(
    job: Job, group: str, name: str, hold: str, milestone: str
) -> None:
    for item, words in (("one", name), ("two", f"another {group}")):
        job.record("taken-off", item=item, group=group, name=words, due_before=milestone)
    job.record("counted", group=group, when="off", count=2)
    job.record("refitted", item="two")
    said = job.record("counted", group=group, when="back", count=1).remarks
    assert any("1 is missing" in one for one in said)
    job.record("hold-proved", hold=hold, value="all on")
    found = open_before(job, milestone)
    assert name in found
    assert "1 is missing" in found[f"{group.capitalize()}s, counted"]
    assert any(why.startswith(f"the book says otherwise: “{name}”") for why in found.values())
    job.record("refitted", item="one")
    job.record("counted", group=group, when="back", count=2)
    assert f"{group.capitalize()}s, counted" not in open_before(job, milestone)


def test_a_bolt_left_over_and_one_too_few_are_explained_piece_by_piece(job: Job) -> None:
    job.record(
        "taken-off", item="bag", group="bolt", name="Cover bolts", count=8, bag="B3", due_before="crank"
    )
    job.record("counted", group="bolt", when="off", count=8)
    job.record("refitted", item="bag", count=7)
    job.record("counted", group="bolt", when="back", count=7)
    assert "1 of 8 still off, bag B3" in open_before(job)["Cover bolts"]
    assert "1 is missing" in open_before(job)["Bolts, counted"]
    job.record(
        "explained", group="bolt", way="missing", what="one cover bolt", why="sheared, a new one is in"
    )
    job.record("refitted", item="bag", count=1)
    assert not {"Cover bolts", "Bolts, counted"} & set(open_before(job))


def test_without_pressure_seen_nobody_drives(job: Job) -> None:
    name = "Oil pressure within seconds of the first start"
    assert name in open_before(job, "drive")
    said = job.record("task-done", task="first_start").remarks
    assert any(one.startswith(f"Its proof is missing: {name} (not proved yet). Stop at once") for one in said)


def test_what_comes_due_after_the_job_waits_for_its_distance(job: Job) -> None:
    job.record(
        "timer-started", timer="valves", name="Valve clearances once more, tensioner heard", task="look_again",
        wait="recall", distance="1000 km", odometer="84120 km", due_before="recall",
    )  # fmt: skip
    later = [
        one.why for one in ready(job.bench(), milestone="handover").later if one.what.startswith("Valve cl")
    ]
    assert later == ["due at 85,120 km; the odometer shows 84,120 km, 1,000 km to go"]
    job.now += timedelta(days=40)
    job.record("odometer-read", value="85200 km")
    later = [
        one.why for one in ready(job.bench(), milestone="handover").later if one.what.startswith("Valve cl")
    ]
    assert later == ["due NOW: 85,120 km is reached, the odometer shows 85,200 km"]


def test_who_did_what_is_known_when_it_fails_later(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GUDGEON_WHO", "Robin")
    job.record("part-received", part="Belt tensioner", compared=True, note="pin in place")
    wrong = job.record(
        "reading", item="head_height", place="timing end intake", value="132.44 mm", condition="as left"
    )
    job.record("strike", entry=wrong.entry, why="read at the wrong corner")
    bench = open_bench(job.book, now=job.now)
    kept = list(bench.store.entries(bench.build))
    bench.store.close()
    assert [(one.kind, one.who) for one in kept[-3:]] == [
        ("part-received", "Robin"), ("reading", "Robin"), ("strike", "Robin"),
    ]  # fmt: skip
    assert kept[-2].body["shown"]["wear limit"] == "min 132.30 mm (5.2087 in)"
    assert kept[-2].body["value"] == "132.44"
    assert all(one.sheet and one.kit for one in kept[-3:])

"""What has changed? A figure of the sheet or the kit that something was made against, and is no longer so.

Expected figures are HAND: what the texts of the sheet and the kit say before and after a change made here.
"""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.bench.changed import Changes, changes
from gudgeon.bench.context import open_bench
from gudgeon.bench.good import inspect
from gudgeon.bench.holds import standings
from gudgeon.bench.now import now
from gudgeon.bench.pull_list import card
from gudgeon.bench.ready import ready
from gudgeon.bench.same import same_figure
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.sheet.sheets import SMALL

LIMIT = "max 0.05 mm (0.002 in)"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    job = make_job(tmp_path)
    job.read_code()
    return job


def sheet_says(job: Job, before: str, now: str) -> None:
    """Write another figure into the sheet."""
    _written(job.book.parent / "sheet.yaml", before, now)


def kit_says(job: Job, before: str, now: str) -> None:
    _written(job.book.parent / "kit.yaml", before, now)


def _written(file: Path, before: str, now: str) -> None:
    text = file.read_text("utf-8")
    assert text.count(before) == 1
    file.write_text(text.replace(before, now), encoding="utf-8")


def asked(job: Job) -> Changes:
    bench = open_bench(job.book, now=job.now)
    try:
        return changes(bench)
    finally:
        bench.store.close()


def in_doubt(job: Job) -> list[tuple[str, str]]:
    return [
        (one.what, one.why)
        for one in ready(job.bench(), milestone="crank").reasons
        if "changed " in one.about
    ]


def measure(job: Job, place: str = "along", gauge: str = "feelers") -> None:
    job.record("reading", item="head_face", place=place, low="0.02 mm", high="0.03 mm", instrument=gauge)


def test_nothing_has_changed_as_long_as_nothing_has(job: Job) -> None:
    measure(job)
    job.tighten_all()
    job.record("hold-proved", hold="head_back_inside_limits", value="0.03 mm enters nowhere")
    assert asked(job).figures == ()
    sheet_says(job, "# the bore as printed", "# the bore, as printed on page 3")
    kit_says(job, "name: caliper,", "name: long caliper,")
    assert asked(job).figures == (), "another remark, and another gauge than the one that was used"
    assert in_doubt(job) == []


def test_a_changed_limit_names_the_readings_that_used_the_old_one(job: Job) -> None:
    measure(job)
    measure(job, "across")
    job.record("reading", item="journal", place="A", value="29.985 mm", instrument="micrometer")
    sheet_says(job, LIMIT, "max 0.04 mm (0.0016 in)")
    (one,) = asked(job).figures
    assert (one.paper, one.where, one.before, one.now) == (
        "data sheet", "characteristics.head_face.wear_limit", LIMIT, "max 0.04 mm (0.0016 in)",
    )  # fmt: skip
    line = 1 + SMALL.splitlines().index(f"    wear_limit: {LIMIT}")
    assert one.line == line
    assert [use.number for use in one.used_by] == [3, 4]
    assert "Head face, flatness, along" in one.used_by[0].what
    assert in_doubt(job) == [
        (
            "Head face, flatness, wear limit",
            f"2 readings used the old figure: it was {LIMIT}, the data sheet now says max 0.04 mm (0.0016 in)",
        )
    ]
    row = next(row for row in inspect(job.bench()).rows if row.place == "along")
    assert (row.verdict, row.reason) == ("inside", "inside the wear limit"), "the verdict has not changed"


def test_a_verdict_that_changed_with_its_limit_says_what_it_was(job: Job) -> None:
    """HAND: 1.645 · 0.005/√3 = 0.0047 mm: 0.04 mm is proven under 0.05 mm, and not under 0.04 mm."""
    job.record(
        "reading", item="head_face", place="along", low="0.03 mm", high="0.04 mm", instrument="feelers"
    )
    sheet_says(job, LIMIT, "max 0.04 mm (0.0016 in)")
    row = next(row for row in inspect(job.bench()).rows if row.place == "along")
    assert row.verdict == "in doubt"
    assert row.reason == (
        "an end of what was read lies too near the limit for this gauge; it was judged otherwise that day (inside): "
        f"Head face, flatness, wear limit was {LIMIT}, the data sheet now says max 0.04 mm (0.0016 in)"
    )


def test_a_verdict_that_changed_with_its_gauge_says_what_it_was(job: Job) -> None:
    """HAND: with ± 0.02 mm the guard band is 0.019 mm: 0.04 mm lies too near to 0.05 mm."""
    job.record(
        "reading", item="head_face", place="along", low="0.03 mm", high="0.04 mm", instrument="feelers"
    )
    kit_says(job, "feeler blades, error: 0.005 mm", "feeler blades, error: 0.02 mm")
    row = next(row for row in inspect(job.bench()).rows if row.place == "along")
    assert row.verdict == "in doubt"
    assert "it was judged otherwise that day (inside): feeler blades, error was 0.005 mm" in row.reason


def test_measured_anew_or_the_figure_put_back_settles_it(job: Job) -> None:
    measure(job)
    measure(job, "across")
    sheet_says(job, LIMIT, "max 0.04 mm")
    measure(job)
    assert [use.number for use in asked(job).figures[0].used_by] == [4]
    sheet_says(job, "max 0.04 mm", "max 0.050 mm")
    assert [use.number for use in asked(job).figures[0].used_by] == [5], (
        "now the other one used another figure"
    )
    measure(job)
    assert asked(job).figures == ()


@pytest.mark.parametrize(
    "same", ["max 0.050 mm", "max 50 µm", "not over 0.05 mm", "max 0.002 in", "max 0.05 mm  (0.002 in)"]
)
def test_the_same_value_written_otherwise_is_no_change(job: Job, same: str) -> None:
    measure(job)
    job.record("hold-proved", hold="head_back_inside_limits", value="0.03 mm enters nowhere")
    sheet_says(job, LIMIT, same)
    assert asked(job).figures == ()


def test_a_limit_that_was_not_stated_and_is_now(job: Job) -> None:
    job.record("reading", item="journal", place="A", value="29.985 mm", instrument="micrometer")
    sheet_says(job, "    new_range: 29.980", "    wear_limit: min 29.970 mm\n    new_range: 29.980")
    (one,) = asked(job).figures
    assert (one.before, one.now) == ("not stated", "min 29.970 mm")
    sheet_says(job, "    new_range: 29.980–29.993 mm\n", "")
    assert {(one.before, one.now) for one in asked(job).figures} == {
        ("not stated", "min 29.970 mm"), ("29.980–29.993 mm", "not stated"),
    }  # fmt: skip


def test_a_limit_of_what_is_worked_out_belongs_to_the_readings(tmp_path: Path) -> None:
    sheet = SMALL.replace(
        "  journal:\n",
        "  taper_of_it:\n    name: Taper\n    part: crankshaft\n    method: taper\n    of: [journal]\n"
        "    wear_limit: max 0.01 mm\n    source: manual p. 5\n  journal:\n",
    )
    job = make_job(tmp_path, sheet=sheet)
    job.read_code()
    job.record("reading", item="journal", place="A", value="29.985 mm", instrument="micrometer")
    sheet_says(job, "max 0.01 mm", "max 0.02 mm")
    (one,) = asked(job).figures
    assert (one.where, one.what) == ("characteristics.taper_of_it.wear_limit", "Taper, wear limit")


SHAPED = "    limits: [{shape: per length, limit: max 0.03 mm, over: 100 mm}]\n    wear_limit: max 0.05"


@pytest.mark.parametrize(
    ("now", "where", "figures"),
    [
        ("max 0.02 mm, over: 100 mm", "limits.1.limit", ("max 0.03 mm", "max 0.02 mm")),
        ("max 0.03 mm, over: 150 mm", "limits.1.over", ("100 mm", "150 mm")),
    ],
)
def test_a_figure_of_a_limit_with_a_shape(
    tmp_path: Path, now: str, where: str, figures: tuple[str, str]
) -> None:
    job = make_job(tmp_path, sheet=SMALL.replace("    wear_limit: max 0.05", SHAPED))
    job.read_code()
    measure(job)
    sheet_says(job, "max 0.03 mm, over: 100 mm", "max 30 µm, over: 10 cm")
    assert asked(job).figures == (), "the same values, written otherwise"
    sheet_says(job, "max 30 µm, over: 10 cm", now)
    (one,) = asked(job).figures
    assert (one.where, (one.before, one.now)) == (f"characteristics.head_face.{where}", figures)


def test_a_limit_with_a_shape_that_came_or_went(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=SMALL.replace("    wear_limit: max 0.05", SHAPED))
    job.read_code()
    measure(job)
    sheet_says(
        job, "shape: per length, limit: max 0.03 mm, over: 100 mm", "shape: whole face, limit: max 0.03 mm"
    )
    assert {(one.what, one.before, one.now) for one in asked(job).figures} == {
        ("Head face, flatness, per length, limit", "max 0.03 mm", "not stated"),
        ("Head face, flatness, per length, over", "100 mm", "not stated"),
        ("Head face, flatness, whole face, limit", "not stated", "max 0.03 mm"),
    }


def test_method_of_measuring(job: Job) -> None:
    measure(job)
    sheet_says(job, "method: straightedge lines", "method: gap")
    (one,) = asked(job).figures
    assert (one.what, one.before, one.now) == ("Head face, flatness, method", "straightedge lines", "gap")


FEELERS = "feelers: {name: feeler blades, kind: feeler blades, error: 0.005 mm}"


@pytest.mark.parametrize(
    ("now", "what", "figures"),
    [
        ("error: 0.010 mm", "feeler blades, error", ("0.005 mm", "0.010 mm")),
        ("error: 0.005 mm, step: 0.01 mm", "feeler blades, step", ("not stated", "0.01 mm")),
        ("range: 0–1 mm, error: 0.005 mm", "feeler blades, range", ("not stated", "0–1 mm")),
    ],
)
def test_a_gauge_that_is_another_than_it_was(job: Job, now: str, what: str, figures: tuple[str, str]) -> None:
    measure(job)
    kit_says(job, "error: 0.005 mm", now)
    (one,) = asked(job).figures
    assert (one.paper, one.what, (one.before, one.now), one.line) == ("kit", what, figures, None)
    assert len(in_doubt(job)) == 1


def test_a_gauge_that_is_gone(job: Job) -> None:
    measure(job)
    kit_says(job, f"  {FEELERS}\n", "")
    (one,) = asked(job).figures
    assert (one.what, one.before, one.now) == ("gauge `feelers`", "in the kit", "no longer in the kit")


def test_a_later_check_confirms_and_an_earlier_one_does_not(tmp_path: Path) -> None:
    kit = KIT.replace("error: 0.005 mm", "error: 0.005 mm, checked: 2026-01-31")
    job = make_job(tmp_path, kit=kit)
    job.read_code()
    measure(job)
    kit_says(job, "2026-01-31", "2026-03-20")
    assert asked(job).figures == ()
    kit_says(job, "2026-03-20", "2021-01-31")
    (one,) = asked(job).figures
    assert (one.what, one.before, one.now) == ("feeler blades, last check", "2026-01-31", "2021-01-31")


def test_a_changed_target_is_told_by_the_joint_and_once(job: Job) -> None:
    job.tighten_all()
    sheet_says(job, "24 N·m (17.7 lbf·ft)", "26 N·m (19.2 lbf·ft)")
    (one,) = asked(job).figures
    assert (one.where, one.before, one.now) == (
        "joints.head.program.3", "24 N·m (17.7 lbf·ft)", "26 N·m (19.2 lbf·ft)",
    )  # fmt: skip
    assert len(one.used_by) == 4
    assert in_doubt(job) == []
    assert (
        "bolt 1, stage 3: it was done to 24 N·m (17.7 lbf·ft), the sheet now says 26 N·m (19.2 lbf·ft)"
        in (card(job.bench(), "head").doubts)
    )


@pytest.mark.parametrize(
    ("before", "now", "doubt"),
    [
        ("order: [1, 3, 2, 4]", "order: [1, 4, 2, 3]", "order of stage 1 was 1, 3, 2, 4 when it was pulled, the sheet now says 1, 4, 2, 3"),
        ("thread_state: engine oil on the threads", "thread_state: dry",
         "state of the thread was engine oil on the threads when it was pulled, the sheet now says dry"),
    ],
)  # fmt: skip
def test_another_order_or_thread_puts_the_joint_in_doubt(job: Job, before: str, now: str, doubt: str) -> None:
    for bolt in ("1", "3", "2", "4"):
        job.pull(1, bolt)
    sheet_says(job, before, now)
    shown = card(job.bench(), "head")
    assert shown.doubts == (doubt,)
    assert shown.next_pull is None
    (one,) = asked(job).figures
    assert len(one.used_by) == 4
    assert in_doubt(job) == []


def test_a_stage_that_is_gone_leaves_its_pulls_in_doubt(job: Job) -> None:
    job.tighten_all()
    sheet_says(job, "      - turn: 90°\n    total_turn: 90°\n", "")
    assert asked(job).figures[0].now == "no such stage"
    assert card(job.bench(), "head").doubts[0] == (
        "bolt 1, stage 4: it is recorded, and the program of the sheet no longer has it"
    )


@pytest.mark.parametrize(
    ("now", "what", "figures"),
    [
        ("range: 20–100 N·m, step: 0.5 N·m, deviation: 6 %", "deviation", ("4 %", "6 %")),
        ("range: 20–110 N·m, step: 0.5 N·m, deviation: 4 %", "range", ("20–100 N·m", "20–110 N·m")),
        ("range: 20–100 N·m, step: 0.5 N·m, deviation: 4 %, class: A", "class", ("not stated", "II A")),
        ("range: 20–100 N·m, step: 0.5 N·m, deviation: 4 %, overloaded: 2026-03-01", "overloaded on", ("not known", "2026-03-01")),
    ],
)  # fmt: skip
def test_a_wrench_that_is_another_than_it_was(
    job: Job, now: str, what: str, figures: tuple[str, str]
) -> None:
    for bolt in ("1", "3", "2", "4"):
        job.pull(1, bolt)
    for bolt in ("1", "3"):
        job.pull(3, bolt, "clicked while turning", tool="three", setting="24.0 N·m")
    kit_says(job, "range: 20–100 N·m, step: 0.5 N·m, deviation: 4 %", now)
    (one,) = asked(job).figures
    assert (one.what, (one.before, one.now)) == (f"three-eighths click wrench, {what}", figures)
    assert len(one.used_by) == 2
    ((told, why),) = in_doubt(job)
    assert told == one.what
    assert why.startswith("2 pulls of Head nuts used the old figure: it was ")


def test_overloaded_after_the_pull_says_nothing_of_it(job: Job) -> None:
    job.pull(3, "1", "clicked while turning", tool="three", setting="24.0 N·m")
    kit_says(job, "step: 0.5 N·m, deviation: 4 %", "step: 0.5 N·m, deviation: 4 %, overloaded: 2026-03-08")
    assert asked(job).figures == ()


def test_a_proof_stands_no_more_when_what_it_was_held_against_changes(job: Job) -> None:
    job.record("hold-proved", hold="head_back_inside_limits", value="0.03 mm enters nowhere")
    job.record("hold-proved", hold="valve_locks_seated", value="4 of 4 seated")

    def stands() -> dict[str, str]:
        bench = job.bench()
        return {one.hold.id: one.why_not for one in standings(bench.sheet, bench.state) if one.value}

    assert stands()["head_back_inside_limits"] == ""
    sheet_says(job, LIMIT, "max 0.04 mm")
    assert stands()["head_back_inside_limits"] == (
        "proved against figures that the sheet has changed since (characteristics.head_face.wear_limit: "
        "max 0.05 mm (0.002 in), now max 0.04 mm): prove it again"
    )
    assert "does not stand" in stands()["valve_locks_seated"]
    assert [use.number for use in asked(job).figures[0].used_by] == [3]
    job.record("hold-proved", hold="head_back_inside_limits", value="0.03 mm enters nowhere, limit 0.04 mm")
    assert stands() == {"right_engine": "", "head_back_inside_limits": "", "valve_locks_seated": ""}


BEARING = """\
  main_journal: {name: Main journal, part: crankshaft, places: [1], wear_limit: min 49.95 mm, source: manual p. 5}
  main_bore: {name: Main bore, part: block, places: [1], new_range: 50.03–50.05 mm, source: manual p. 5}
  main_clearance:
    name: Main bearing oil clearance
    part: crankshaft
    method: difference
    of: [main_bore, main_journal]
    required: 0.03–0.07 mm
    source: manual p. 5
"""


@pytest.mark.parametrize("struck", ["main_journal", "main_bore"])
def test_a_proof_of_what_is_worked_out_went_by_the_readings_behind_it(tmp_path: Path, struck: str) -> None:
    job = make_job(tmp_path, sheet=SMALL.replace("characteristics:\n", f"characteristics:\n{BEARING}"))
    read = {
        item: job.record("reading", item=item, place="1", value=value, instrument="micrometer", sure=True)
        for item, value in (("main_journal", "49.99 mm"), ("main_bore", "50.04 mm"))
    }
    read["other"] = job.record(
        "reading", item="head_face", place="along", high="0.04 mm", instrument="feelers"
    )
    job.record("hold-proved", hold="main_clearances", value="0.05 mm")

    def why_not() -> str:
        return job.bench().state.holds["main_clearances"].why_void

    job.record("strike", entry=read["other"].entry, why="read on the wrong line")
    assert why_not() == ""
    job.record("strike", entry=read[struck].entry, why="the gauge was set wrong")
    assert why_not() == "a reading that it went by was struck: the gauge was set wrong"


def test_the_proof_of_a_joint_is_held_against_its_program(job: Job) -> None:
    job.record("hold-proved", hold="figures_checked", value="page 9, twice")
    sheet_says(job, "torque: 10 N·m", "torque: 12 N·m")
    bench = job.bench()
    found = next(one for one in standings(bench.sheet, bench.state) if one.hold.id == "figures_checked")
    assert found.why_not == (
        "proved against figures that the sheet has changed since (joints.head.program.2: "
        "torque: 10 N·m, now torque: 12 N·m): prove it again"
    )


def test_what_lets_one_change_pass_does_not_let_the_next_one_pass(job: Job) -> None:
    def about() -> list[str]:
        return [one.about for one in ready(job.bench(), milestone="crank").reasons if "changed " in one.about]

    measure(job)
    sheet_says(job, LIMIT, "max 0.04 mm")
    first = about()
    assert about() == first
    assert first[0].startswith("reading:head_face changed ")
    sheet_says(job, "max 0.04 mm", "max 0.03 mm")
    assert len(about()) == 1
    assert about() != first


def test_a_sheet_that_has_changed_costs_now_nothing_to_speak_of(job: Job) -> None:
    job.tighten_all()
    sheet_says(job, "24 N·m (17.7 lbf·ft)", "26 N·m (19.2 lbf·ft)")
    assert now(job.bench()).next[0].startswith("Head nuts: in doubt.")


NUMBERS = st.decimals(min_value="0.001", max_value="900", places=3)


@given(NUMBERS, st.integers(min_value=0, max_value=3))
def test_zeros_and_units_of_one_system_are_no_change(number: object, zeros: int) -> None:
    text = f"max {number} mm"
    assert same_figure(text, now=f"max {number}{'0' * zeros} mm", kind="length")
    assert same_figure(text, now=f"max {float(str(number)) * 1000:.0f} µm", kind="length")


@given(NUMBERS, NUMBERS)
def test_two_values_are_never_one(one: object, other: object) -> None:
    assert same_figure(f"{one} N·m", now=f"{other} N·m", kind="torque") == (one == other)


def test_what_leads_counts() -> None:
    assert not same_figure("0.05 mm (0.002 in)", now="0.06 mm (0.002 in)", kind="length_difference")
    assert same_figure("0.05 mm (0.002 in)", now="0.002 in", kind="length_difference")
    assert not same_figure("max 0.05 mm", now="min 0.05 mm", kind="length_difference")
    assert not same_figure("as printed", now="0.05 mm", kind="length_difference")

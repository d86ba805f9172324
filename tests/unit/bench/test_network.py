"""The job for any engine and what of it one engine needs: words, order, and what is dropped."""

import csv
import json
import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from graphlib import TopologicalSorter
from importlib import resources
from pathlib import Path

import pytest

from gudgeon.bench.features import FEATURES, has
from gudgeon.bench.holds import all_holds, holds_of
from gudgeon.bench.network import JOBS, Task, fingerprint, job, read, texts_of
from gudgeon.bench.standing import meant
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.model import DataSheet
from tests.reference import FOLDER
from tools.jobs import made

DATA = resources.files("gudgeon.bench").joinpath("data")
YAML = DATA.joinpath("top_end.yaml").read_text(encoding="utf-8")
JSON = DATA.joinpath("top_end.json").read_text(encoding="utf-8")


def engine(*lacks: str, cylinders: int = 4) -> DataSheet:
    """An invented engine of which nothing is known but what it has not."""
    text = f"""\
gudgeon: data sheet 1
invented: yes
engine:
  name: Invented one
  codes: [L1-A]
  code_is_read: pad beside the filler
  layout: {"single" if cylinders == 1 else "inline"}
  cylinders: {cylinders}
  numbered_from: timing end
  does_not_have: [{", ".join(lacks)}]
sources:
  manual: {{title: Invented manual, edition: 1st}}
"""
    return parse_sheet(text, file="sheet.yaml").sheet


BELT, CHAIN, GEARS = "timing belt", "timing chain", "timing gears"
SHIMS, SCREWS, HYDRAULIC = "shims", "screw adjusters", "hydraulic lifters"
PUSHRODS = ("overhead cam", "camshaft caps")
AIR = "liquid cooling"

ENGINES: Mapping[str, DataSheet] = {
    "four, belt, shims": engine(CHAIN, GEARS, SCREWS, HYDRAULIC, "turbocharger", "wet liners"),
    "four, belt, hydraulic, turbocharger": engine(CHAIN, GEARS, SCREWS, SHIMS, "wet liners"),
    "six, chain, screws, wet liners": engine(BELT, GEARS, SHIMS, HYDRAULIC, "turbocharger", cylinders=6),
    "eight, pushrods, hydraulic": engine(BELT, GEARS, SHIMS, SCREWS, "turbocharger", *PUSHRODS, cylinders=8),
    "one, air, pushrods, gears, screws": engine(
        BELT, CHAIN, SHIMS, HYDRAULIC, AIR, "wet liners", "turbocharger", "fuel injection", *PUSHRODS, cylinders=1
    ),
    "one, air, chain, shims, no pulley": engine(
        BELT, GEARS, SCREWS, HYDRAULIC, AIR, "wet liners", "turbocharger", "crank pulley", "fuel injection",
        "oil filter", "electrical connectors", cylinders=1,
    ),
    "two, gears overhead, no caps": engine(
        BELT, CHAIN, SHIMS, HYDRAULIC, "camshaft caps", "wet liners", "turbocharger", cylinders=2
    ),
    "head not removable": engine(
        CHAIN, BELT, SHIMS, HYDRAULIC, "removable head", "wet liners", "turbocharger", AIR, *PUSHRODS, cylinders=1
    ),
    "nothing denied": engine(),
    "everything denied": engine(*(one for one in FEATURES if one not in ("valve clearance", "several cylinders",
                                                                        "camshaft in the block")), cylinders=1),
}  # fmt: skip
"""Engines that differ in what they have not."""

EACH = pytest.mark.parametrize("sheet", ENGINES.values(), ids=ENGINES.keys())

NAMES = {
    BELT: r"timing belt|idler|tension the belt",
    CHAIN: r"timing chain",
    GEARS: r"timing gear|backlash",
    SHIMS: r"\bshim|bucket",
    HYDRAULIC: r"hydraulic|bleed down|oil bath",
    "overhead cam": r"camshaft",
    "camshaft caps": r"camshaft caps|their caps|cap bolt",
    AIR: r"coolant|radiator|water pump|thermostat|heater|cooling system",
    "wet liners": r"liner",
    "removable head": r"\bhead\b|\bdeck\b",
    "turbocharger": r"turbo",
    "oil filter": r"oil filter|filter cutter|\bfilter\b",
    "electrical connectors": r"connector|battery off|battery on|charger|ground strap|starter|multimeter",
    "fuel injection": r"inject|\brail\b|fault code|code reader|\bcodes\b|trims",
    "crank pulley": r"pulley|auxiliary",
    "several cylinders": r"cylinders|cylinder order|cylinder by cylinder",
    "valve clearance": r"every valve clearance",
    "camshaft in the block": r"pushrod",
}
"""How a task would speak of a thing."""


def texts(task: Task) -> Iterable[str]:
    """Every text of a task that a person may be shown."""
    yield from (task.title, task.phase, *task.needs)
    yield from (text for one in task.cautions for text in (one.text, one.basis))
    if task.wait is not None:
        yield task.wait.what


def every_task() -> Iterable[Task]:
    """The tasks of all jobs, with the words that each has for them."""
    yield from (task for name in JOBS for task in job(name).tasks.values())


def everything_said() -> Iterable[str]:
    for task in every_task():
        yield from texts(task)
        for said in task.without.values():
            yield from [said.get("title", ""), *said.get("needs", ())]
            yield from (text for one in said.get("cautions", ()) for text in (one.text, one.basis))


def titles() -> list[str]:
    found = [task.title for task in every_task()]
    return found + [
        said["title"] for task in every_task() for said in task.without.values() if "title" in said
    ]


def before(tasks: Mapping[str, Task]) -> dict[str, set[str]]:
    """All that has to be done before each task; fails when they go round in a circle."""
    found: dict[str, set[str]] = {}
    for key in TopologicalSorter({key: task.after for key, task in tasks.items()}).static_order():
        found[key] = set(tasks[key].after).union(*(found[name] for name in tasks[key].after))
    return found


@pytest.mark.parametrize("name", JOBS)
def test_the_compiled_job_is_made_from_the_yaml_as_it_is(name: str) -> None:
    kept = DATA.joinpath(f"{name}.json").read_text(encoding="utf-8")
    assert made(name) == kept, f"{name}.json is old: python -m tools.jobs"


def test_a_compiled_job_is_old_when_the_one_that_it_is_based_on_was_changed() -> None:
    text, bases = texts_of("cover_reseal")
    assert [name for name, _ in bases] == ["top_end"]
    changed = (("top_end", bases[0][1].replace("minutes: 13", "minutes: 14")),)
    kept = DATA.joinpath("cover_reseal.json").read_text(encoding="utf-8")
    assert read(text, file="cover_reseal.yaml", compiled=kept, bases=changed).tasks["secure_it"].minutes == 14
    assert job("cover_reseal").tasks["secure_it"].minutes == 13


def test_a_compiled_job_is_the_job_and_an_old_one_is_not_used() -> None:
    plain = json.loads(JSON)
    assert plain["of"] == fingerprint(YAML)
    plain["tasks"][0]["title"] = "From the compiled one"
    first = next(iter(job().tasks.values()))
    changed = json.dumps(plain)
    assert next(iter(read(YAML, file="j", compiled=changed).tasks.values())).title == "From the compiled one"
    other = YAML.replace(f"title: {first.title}", "title: From the YAML")
    assert next(iter(read(other, file="j", compiled=changed).tasks.values())).title == "From the YAML"
    assert read(YAML, file="top_end.yaml") == job()


def test_there_are_about_as_many_tasks_as_a_top_end_has() -> None:
    assert 100 <= len(job().tasks) <= 160
    assert 90 <= len(job().for_engine(ENGINES["four, belt, shims"])) <= 135


@EACH
@pytest.mark.parametrize("name", JOBS)
def test_no_task_names_a_thing_that_the_engine_has_not(name: str, sheet: DataSheet) -> None:
    if not all(has(sheet, one) for one in job(name).engine_has):
        return  # the job is refused for this engine: tests/unit/bench/test_plan_fields.py
    absent = [feature for feature in NAMES if not has(sheet, feature)]
    assert absent or sheet is ENGINES["nothing denied"]
    wrong = [
        (feature, text)
        for task in job(name).for_engine(sheet)
        for text in texts(task)
        for feature in absent
        if re.search(NAMES[feature], text, re.IGNORECASE)
    ]
    assert wrong == []


def test_each_word_for_a_thing_is_spoken_on_an_engine_that_has_it() -> None:
    """Else the test above could not fail."""
    said = " | ".join(text for task in job().for_engine(ENGINES["nothing denied"]) for text in texts(task))
    said += " | ".join(
        text for task in job().for_engine(ENGINES["eight, pushrods, hydraulic"]) for text in texts(task)
    )
    assert [feature for feature, words in NAMES.items() if not re.search(words, said, re.IGNORECASE)] == []


@EACH
def test_what_comes_before_a_task_is_the_same_on_every_engine_but_for_what_is_dropped(
    sheet: DataSheet,
) -> None:
    tasks = {task.key: task for task in job().for_engine(sheet)}
    whole, own = before(job().tasks), before(tasks)
    assert own == {key: whole[key] & set(tasks) for key in tasks}
    assert all(len(task.after) == len(set(task.after)) for task in tasks.values())


@EACH
def test_the_tasks_stay_in_the_order_of_the_file_and_each_title_stands_for_one(sheet: DataSheet) -> None:
    tasks = job().for_engine(sheet)
    assert [task.key for task in tasks] == [key for key in job().tasks if key in {task.key for task in tasks}]
    assert len({task.title for task in tasks}) == len(tasks)
    assert all(job().title(task.key, sheet=sheet) == task.title for task in tasks)


@EACH
@pytest.mark.parametrize("name", JOBS)
def test_every_proof_that_the_engine_needs_has_its_task(name: str, sheet: DataSheet) -> None:
    proved = {hold for task in job(name).for_engine(sheet) for hold in task.proves}
    if all(has(sheet, one) for one in job(name).engine_has):
        assert {hold.id for hold in holds_of(sheet, name)} <= proved


@EACH
@pytest.mark.parametrize("name", JOBS)
def test_a_proof_is_never_asked_for_before_the_proofs_it_rests_on(name: str, sheet: DataSheet) -> None:
    tasks = {task.key: task for task in job(name).for_engine(sheet)}
    applying = {hold.id for hold in holds_of(sheet, name)} & {
        hold for one in tasks.values() for hold in one.proves
    }
    behind = before(tasks)
    prover = {hold: key for key, task in tasks.items() for hold in task.proves}
    wrong = [
        (key, other)
        for key in applying
        for other in all_holds()[key].rests_on
        if other in applying and prover[other] not in behind[prover[key]] and prover[other] != prover[key]
    ]
    assert wrong == []


ORDER = [
    # COMMON PRACTICE: nothing is opened hot, and the proofs before the battery goes
    ("save_fault_codes", "secure_it"), ("let_it_cool", "part_fuel"), ("let_it_cool", "drain_coolant"),
    ("let_it_cool", "drain_oil"), ("secure_it", "part_fuel"), ("measure_cold", "slacken_head_bolts"),
    ("measure_cold", "camshafts_out"), ("measure_cold", "exhaust_off"), ("measure_cold", "intake_off"),
    ("soak_exhaust", "exhaust_off"), ("drain_coolant", "hoses_off"), ("drain_coolant", "lift_head"),
    ("drain_coolant", "water_pump_off"), ("part_fuel", "intake_off"),
    # as found is measured before it is taken apart
    ("clearances_as_found", "camshafts_out"), ("clearances_as_found", "rockers_off"), ("turn_to_marks", "belt_off"),
    ("clearances_as_found", "belt_off"), ("photograph_all", "hoses_off"), ("match_tools", "turn_to_marks"),
    # the head: clean and empty holes, liners held, no piston near the top, dry faces last
    ("clamp_liners", "clean_crowns"), ("clamp_liners", "piston_heights"), ("pistons_down", "unclamp_liners"),
    ("unclamp_liners", "lay_gasket"), ("clean_bolt_holes", "wipe_faces"), ("test_ports", "wipe_faces"),
    ("wipe_faces", "pistons_down"), ("pistons_down", "lower_head"), ("compare_parts", "lay_gasket"),
    ("work_out_cut", "lay_gasket"), ("decide_parts", "build_valves"), ("check_head", "lower_head"),
    ("tighten_head", "camshafts_in"), ("tighten_head", "rockers_on"), ("tighten_head", "exhaust_on"),
    ("tighten_head", "intake_on"), ("copy_figures", "tighten_head"), ("match_tools", "tighten_head"),
    # timing: camshafts before the crank, lifters bled, pins out before anything turns
    ("camshafts_in", "fit_camshaft_seals"), ("fit_camshaft_seals", "sprockets_on"),
    ("fit_seals", "set_marks"), ("camshafts_in", "set_marks"), ("bleed_lifters", "set_marks"),
    ("bleed_lifters", "two_turns"), ("tension_belt", "sprockets_final"), ("sprockets_final", "locking_tools_out"),
    ("locking_tools_out", "two_turns"), ("small_head_bolts", "two_turns"), ("two_turns", "pulley_final"),
    ("two_turns", "valve_cover_on"), ("clearances_in_place", "valve_cover_on"), ("gears_on", "two_turns"),
    ("chain_on", "two_turns"), ("rockers_on", "two_turns"),
    # fluids, power and the first fire
    ("tighten_head", "fill_coolant"), ("thermostat_on", "fill_coolant"), ("hoses_on", "fill_coolant"),
    ("check_cures", "fill_coolant"), ("check_cures", "fill_oil"), ("valve_cover_on", "fill_oil"),
    ("fuel_on", "battery_on"), ("fuel_look", "first_start"), ("fill_oil", "crank_for_oil"),
    ("press_coolant_cold", "crank_for_oil"), ("empty_the_lists", "crank_for_oil"), ("two_turns", "crank_for_oil"),
    ("pulley_final", "crank_for_oil"), ("oil_the_turbocharger", "crank_for_oil"), ("walk_round", "crank_for_oil"),
    ("crank_for_oil", "first_start"), ("plugs_in", "first_start"), ("cool_again", "look_over_cold"),
    ("look_over_cold", "short_run"), ("next_morning", "hand_over"),
]  # fmt: skip


@pytest.mark.parametrize(("first", "then"), ORDER)
def test_what_would_be_dangerous_the_other_way_round_comes_in_order(first: str, then: str) -> None:
    assert first in before(job().tasks)[then]


BOTTOM_END = [
    # COMMON PRACTICE: marked before it comes off, washed before it is built, proved before it is closed
    ("piston_heights", "pistons_out"), ("rods_as_found", "pistons_out"), ("pistons_out", "main_caps_off"),
    ("lift_engine_out", "oil_pan_off"), ("block_plugs_out", "wash_block"), ("decide_bottom_end", "agree_findings"),
    ("order_rest", "block_to_shop"), ("shop_bores", "check_block"), ("check_block", "wash_block_again"),
    ("wash_block_again", "block_plugs"), ("block_plugs", "lay_crank"), ("lay_main_shells", "lay_crank"),
    ("fit_rings", "join_pistons"), ("lay_crank", "pistons_in"), ("join_pistons", "pistons_in"),
    ("pistons_in", "close_oil_pan"), ("oil_pump_in", "close_oil_pan"), ("block_plugs", "close_oil_pan"),
    ("pistons_in", "pistons_again"), ("pistons_again", "lay_gasket"), ("pistons_in", "pistons_down"),
    ("lay_crank", "fit_seals"), ("close_oil_pan", "fill_oil"), ("flywheel_on", "engine_in"),
    ("close_oil_pan", "engine_in"), ("pulley_final", "engine_in"), ("engine_in", "hoses_on"),
    ("engine_in", "crank_for_oil"), ("pistons_in", "two_turns"), ("copy_figures", "pistons_in"),
]  # fmt: skip


@pytest.mark.parametrize(("first", "then"), BOTTOM_END)
def test_what_would_ruin_the_bottom_end_the_other_way_round_comes_in_order(first: str, then: str) -> None:
    assert first in before(job("with_bottom_end").tasks)[then]


@pytest.mark.parametrize(("first", "then"), ORDER)
def test_the_larger_job_keeps_the_order_of_the_one_it_is_based_on(first: str, then: str) -> None:
    assert first in before(job("with_bottom_end").tasks)[then]


def test_a_part_keeps_what_comes_before_what_but_for_what_it_leaves_out() -> None:
    for name in ("timing_belt", "cover_reseal"):
        tasks = before(job(name).tasks)
        both = [(first, then) for first, then in ORDER if first in tasks and then in tasks]
        assert len(both) >= 3
        assert [pair for pair in both if pair[0] not in tasks[pair[1]]] == []


def test_what_warns_of_a_connected_battery_is_done_while_it_is_off() -> None:
    tasks, behind = job().tasks, before(job().tasks)
    warned = [
        key for key, task in tasks.items() if any("no battery connected" in one.text for one in task.cautions)
    ]
    assert len(warned) == 3
    assert [key for key in warned if "secure_it" not in behind[key] or key not in behind["battery_on"]] == []


def test_what_turns_or_runs_the_engine_says_so() -> None:
    running = (
        "run_and_listen",
        "measure_compression",
        "crank_for_oil",
        "plugs_in",
        "first_start",
        "warm_up",
        "tune_it",
    )
    for key in running:
        said = " ".join(one.text for one in job().tasks[key].cautions)
        assert "that turns" in said, key
    for key in ("run_and_listen", "first_start", "warm_up", "tune_it"):
        assert "carbon monoxide" in " ".join(one.text for one in job().tasks[key].cautions), key


CODE = re.compile(r"\b[A-Z]{1,2}\d{1,3}\b")
UNDERSCORED = re.compile(r"[a-z]_[a-z]")


def test_no_code_and_no_key_stands_in_any_text() -> None:
    found = [text for text in everything_said() if CODE.search(text) or UNDERSCORED.search(text)]
    assert found == []
    assert CODE.search("Do T115 first")
    assert CODE.search("after H07 and D8"), "a code would be seen"


LONGEST = 96
"""Two lines of 48 letters: what a phone shows of a title in large print."""


def test_a_title_is_one_of_its_kind_in_sentence_case_and_fits_two_lines() -> None:
    for name in JOBS:
        own = [task.title for task in job(name).tasks.values()]
        assert len({title.casefold() for title in own}) == len(own)
    for title in titles():
        assert title[0].isupper(), title
        assert title[1:] == title[1:].lower(), title
        assert title[-1].isalpha() or title[-1] == ")", title
        assert len(title) <= LONGEST, title


def plain(text: str) -> str:
    return " ".join(re.findall(r"[a-z0-9]+", text.lower()))


def test_the_words_are_our_own() -> None:
    table = FOLDER.parent / "trade" / "tasks.csv"
    if not table.is_file():
        pytest.skip("The list of tasks that the job was made from is not beside the checkout.")
    with table.open(encoding="utf-8", newline="") as file:
        theirs = [plain(row["title"]) for row in csv.DictReader(file)]
    assert len(theirs) > 100
    near = [title for title in titles() if get_close_matches(plain(title), theirs, n=1, cutoff=0.87)]
    assert near == []


DOCUMENT = (Path(__file__).resolve().parents[3] / "docs" / "job-network.md").read_text(encoding="utf-8")


def test_the_document_says_the_limits_that_are_tested_here() -> None:
    assert f"no longer than {LONGEST} letters" in DOCUMENT
    assert "ten\ninvented engines" in DOCUMENT
    assert len(ENGINES) == 10


def test_the_job_in_the_document_is_what_it_says_on_two_engines(monkeypatch: pytest.MonkeyPatch) -> None:
    example = re.search(r"```yaml\n(.*?)```", DOCUMENT, flags=re.DOTALL)
    assert example is not None
    monkeypatch.setattr("gudgeon.bench.job_file.all_holds", dict)  # the small job is asked for no proofs
    small = read.__wrapped__(example[1], file="job-network.md")  # not kept: it was read without proofs
    four = small.for_engine(ENGINES["four, belt, shims"])
    assert [task.after for task in four] == [(), ("drain_coolant",)]
    (one,) = small.for_engine(ENGINES["one, air, pushrods, gears, screws"])
    assert (one.title, one.minutes, one.after) == ("Take the intake pipe off, and close the port", 15, ())
    assert f"*{one.title}*, {one.minutes} minutes" in DOCUMENT


def test_the_tasks_recorded_in_the_document_are_each_one_task() -> None:
    tasks = job().tasks
    said = re.findall(r'(?:task-\w+|--task) "([^"]+)"', DOCUMENT)
    assert len(said) == 10
    assert [words for words in said if len(meant(words, tasks)) != 1] == []

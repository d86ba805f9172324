"""The pulls that may be shown without asking the book.

Expected orders, stages and figures are HAND: read off the small invented sheet (four nuts, order 1 3 2 4; run in by hand,
10 N·m, 24 N·m, 90°) and what each test changes of it.
"""

from datetime import timedelta
from pathlib import Path

import pytest

from gudgeon.bench.plan import plan, spellings
from gudgeon.quantity.written import parse_amount
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

CLICKED = "clicked while turning"
LOW = "torque: 10 N·m\n"
HIGH = "torque: 24 N·m (17.7 lbf·ft)\n"
KIT = """\
gudgeon: kit 1
wrenches:
  three: {name: click wrench, kind: click, range: 4–40 N·m, step: 0.5 N·m, deviation: 4 %}
turning:
  bar: {name: breaker bar, kind: bar}
  gauge: {name: angle gauge, kind: angle gauge, error: 3°}
"""


def begun(folder: Path, *, sheet: str = SMALL) -> Job:
    made = make_job(folder, sheet=sheet, kit=KIT)
    made.read_code()
    return made


def up_to(made: Job, stage: int) -> Job:
    """Every pull before a stage."""
    said = ((1, "done", ""), (2, CLICKED, "10 N·m"), (3, CLICKED, "24 N·m"))
    for number, outcome, setting in said[: stage - 1]:
        for bolt in "1324":
            made.pull(number, bolt, outcome, tool="three" if setting else "", setting=setting)
    return made


def painted_first(job: Job, *, painted: int = 0) -> list[tuple[int, str]]:
    """The pulls before which a line is asked after: stage and bolt."""
    found = plan(job.bench(), "head", painted=painted).pulls
    return [(one.pull.stage, one.pull.bolt) for one in found if one.paint is not None]


@pytest.mark.parametrize(("done", "painted", "asked"), [
    (1, 0, [(4, "1")]),
    (4, 0, [(4, "1")]),
    (4, 3, [(4, "1")]),
    (4, 4, []),
])  # fmt: skip
def test_before_the_first_turn_the_line_is_asked_after(
    tmp_path: Path, done: int, painted: int, asked: list[tuple[int, str]]
) -> None:
    assert painted_first(up_to(begun(tmp_path), done), painted=painted) == asked


def test_once_a_bolt_of_the_stage_is_turned_the_line_is_not_asked_after(tmp_path: Path) -> None:
    made = up_to(begun(tmp_path), 4)
    made.pull(4, "1", "angle reached")
    assert painted_first(made) == []


def test_a_second_turn_goes_by_the_line_of_the_first(tmp_path: Path) -> None:
    twice = SMALL.replace(
        "      - turn: 90°\n    total_turn: 90°", "      - turn: 90°\n      - turn: 60°\n    total_turn: 150°"
    )
    assert painted_first(begun(tmp_path, sheet=twice)) == [(4, "1")]


def test_the_whole_program_in_its_order(tmp_path: Path) -> None:
    found = plan(begun(tmp_path).bench(), "head")
    assert [(one.pull.stage, one.pull.bolt) for one in found.pulls] == [
        (stage, bolt) for stage in (1, 2, 3, 4) for bolt in "1324"
    ]
    assert found.then == (
        "This was the last pull. When the book has them all, look at every mark once more, then mark the joint."
    )
    assert found.pulls[8].words == "Bolt 1, stage 3 of 4, 24.0 N·m"
    assert (found.pulls[8].figure.other, found.pulls[12].turned) == ("17.7 lbf·ft", (0.0, 90.0))


def test_the_scale_is_read_at_the_first_pull_of_each_torque_stage(tmp_path: Path) -> None:
    found = plan(begun(tmp_path).bench(), "head")
    assert [(one.pull.stage, one.pull.bolt) for one in found.pulls if one.asks] == [(2, "1"), (3, "1")]
    assert "24Nm" in found.pulls[8].reads


def test_once_it_is_read_the_next_pull_needs_none(tmp_path: Path) -> None:
    made = begun(tmp_path)
    for bolt in "1324":
        made.pull(1, bolt)
    made.pull(2, "1", CLICKED, tool="three", setting="10 N·m")
    found = plan(made.bench(), "head")
    assert (found.pulls[0].pull.bolt, found.pulls[0].asks) == ("3", "")
    assert [one.pull.stage for one in found.pulls if one.asks] == [3]


@pytest.mark.parametrize(("stage", "after"), [
    (1, ("done",)),
    (2, (CLICKED, "done")),
    (3, (CLICKED, "done")),
    (4, ("angle reached",)),
])  # fmt: skip
def test_it_goes_on_after_what_completes_a_pull(tmp_path: Path, stage: int, after: tuple[str, ...]) -> None:
    found = plan(begun(tmp_path).bench(), "head")
    assert next(one for one in found.pulls if one.pull.stage == stage).goes_on == after


def test_a_wrench_that_clicks_at_once_is_good_only_where_it_was_pulled_so_before(tmp_path: Path) -> None:
    again = SMALL.replace("      - turn: 90°\n", "      - torque: 24 N·m\n      - turn: 90°\n")
    found = plan(begun(tmp_path, sheet=again).bench(), "head")
    good = {one.pull.stage for one in found.pulls if "clicked at once" in one.goes_on}
    assert good == {4}


def test_the_last_pull_asks_the_book_whatever_its_outcome(tmp_path: Path) -> None:
    assert plan(begun(tmp_path).bench(), "head").pulls[-1].goes_on == ()


def test_it_stops_before_a_wait(tmp_path: Path) -> None:
    waits = SMALL.replace(HIGH, f"wait: 30 min\n      - {HIGH}")
    found = plan(begun(tmp_path, sheet=waits).bench(), "head")
    assert {one.pull.stage for one in found.pulls} == {1, 2}
    assert found.then == "Next comes stage 3 of 5, a wait: wait 30 min. The book is asked first."
    assert (found.pulls[-1].goes_on, found.pulls[-1].deliberate) == ((), "the last pull before a stop")


@pytest.mark.parametrize(("minutes", "said"), [(1, "1 min ago"), (29, "29 min ago"), (30, "")])
def test_a_wait_that_is_said_to_be_over_too_soon_is_kept_and_told(
    tmp_path: Path, minutes: int, said: str
) -> None:
    made = up_to(begun(tmp_path, sheet=SMALL.replace(HIGH, f"wait: 30 min\n      - {HIGH}")), 3)
    made.now += timedelta(minutes=minutes - 1)  # each entry is a minute later than the last
    told = "".join(text for text in made.pull(3, "all").remarks if "wait" in text)
    assert said in told
    assert ("the sheet waits 30 min." in told) == bool(said)
    assert plan(made.bench(), "head").pulls[0].pull.stage == 4


def test_it_stops_where_the_joint_stays_provisional(tmp_path: Path) -> None:
    stops = SMALL.replace(HIGH, f"{HIGH}        provisional: until the belt is on\n")
    made = begun(tmp_path, sheet=stops)
    found = plan(made.bench(), "head")
    assert {one.pull.stage for one in found.pulls} == {1, 2, 3}
    assert found.then == "Stop after stage 3: the joint stays provisional until the belt is on."
    for stage, outcome in ((1, "done"), (2, CLICKED), (3, CLICKED)):
        for bolt in "1324":
            made.pull(stage, bolt, outcome, tool="three", setting={1: "", 2: "10 N·m", 3: "24 N·m"}[stage])
    assert plan(made.bench(), "head").pulls == ()
    on = plan(made.bench(), "head", go_on=True).pulls
    assert [(one.pull.stage, one.pull.bolt) for one in on] == [(4, bolt) for bolt in "1324"]


def test_where_no_wrench_serves_the_book_is_asked_after_each(tmp_path: Path) -> None:
    found = plan(begun(tmp_path, sheet=SMALL.replace(HIGH, "torque: 300 N·m\n")).bench(), "head")
    assert {one.goes_on for one in found.pulls if one.pull.stage == 3} == {()}


def test_in_doubt_nothing_is_shown(tmp_path: Path) -> None:
    made = begun(tmp_path)
    made.pull(1, "1", "doubtful", why="it made a noise")
    assert plan(made.bench(), "head").pulls == ()


def test_a_check_and_the_last_stage_want_a_deliberate_answer(tmp_path: Path) -> None:
    checked = SMALL.replace("      - turn: 90°\n", "      - verify: 24 N·m\n      - turn: 90°\n")
    found = plan(begun(tmp_path, sheet=checked).bench(), "head")
    assert {one.pull.stage: one.deliberate for one in found.pulls} == {
        1: "", 2: "", 3: "", 4: "a check", 5: "the last stage",
    }  # fmt: skip
    assert {one.goes_on for one in found.pulls if one.pull.stage == 4} == {("clicked at once",)}


@pytest.mark.parametrize(("setting", "among"), [
    ("25.0 N·m", ("25Nm", "25.0Nm")),
    ("122.5 N·m", ("122.5Nm",)),
    ("19.0 lbf·ft", ("19ftlb", "19.0lbfft", "19ftlbs")),
])  # fmt: skip
def test_how_a_setting_may_be_written(setting: str, among: tuple[str, ...]) -> None:
    assert set(among) <= set(spellings(setting))


def test_a_setting_of_another_height_is_not_among_them() -> None:
    assert not {"52Nm", "250Nm", "25lbfft", "2.5Nm"} & set(spellings("25.0 N·m"))


@pytest.mark.parametrize("setting", ["25.0 N·m", "19.0 lbf·ft", "84 lbf·in", "2.5 kgf·m"])
def test_what_a_screen_takes_for_the_setting_the_book_takes(setting: str) -> None:
    """Else it would go on, and every pull after it would be refused: a small `nm` is no torque (NIST SP 811)."""
    asked = parse_amount(setting, kind="torque")
    taken = [parse_amount(one, kind="torque") for one in spellings(setting)]
    assert taken
    assert {(one.number, one.unit.symbol) for one in taken} == {(asked.number, asked.unit.symbol)}
    assert "25nm" not in spellings("25.0 N·m")


@pytest.mark.parametrize(("kind", "first"), [
    ("click", CLICKED),
    ("electronic", CLICKED),
    ("beam", "done"),
    ("dial", "done"),
])  # fmt: skip
def test_a_key_stands_for_no_click_where_the_wrench_has_none(tmp_path: Path, kind: str, first: str) -> None:
    """The first answer is the one that a pedal gives: of a wrench that only shows the torque nothing clicked."""
    made = make_job(tmp_path, sheet=SMALL, kit=KIT.replace("kind: click", f"kind: {kind}"))
    made.read_code()
    pulls = plan(made.bench(), "head").pulls
    assert {one.outcomes[0] for one in pulls if one.stage.kind == "torque"} == {first}
    assert {frozenset(one.outcomes) for one in pulls if one.stage.kind == "torque"} == {
        frozenset({CLICKED, "clicked at once", "done", "doubtful"})
    }

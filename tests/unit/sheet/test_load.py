"""What a sheet refuses: each with file, line, column, and what would be right."""

import pytest

from gudgeon.sheet.load import parse_sheet
from gudgeon.written.errors import FileRefused
from tests.unit.sheet.sheets import SMALL


def refusal(old: str, new: str) -> str:
    assert SMALL.count(old) == 1, old
    with pytest.raises(FileRefused) as caught:
        parse_sheet(SMALL.replace(old, new), file="s.yaml")
    return str(caught.value)


def test_a_small_sheet_loads_and_keeps_figures_as_written() -> None:
    loaded = parse_sheet(SMALL, file="s.yaml")
    joint = loaded.sheet.joints["head"]
    torque = joint.program[2].torque
    assert torque is not None
    assert torque.text == "24 N·m (17.7 lbf·ft)"
    assert torque.middle_in("N·m") == 24
    assert joint.sequence == ("1", "3", "2", "4")
    cylinder = loaded.sheet.cylinder
    assert cylinder is not None
    assert str(cylinder.cited(cylinder.bore)) == "manual p. 3"
    assert str(cylinder.cited(cylinder.stroke)) == "manual p. 2"
    assert loaded.sheet.lacks("timing belt")


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("torque: 10 N·m", "torque: 90°", "s.yaml, line 42, column 17: torque: `°` is a unit of angle, not of torque. Write one of: N·m, lbf·ft, lbf·in, kgf·m."),
        ("torque: 10 N·m", "torque: 10", "s.yaml, line 42, column 17: torque: `10` has no unit. Write it with one of: N·m, lbf·ft, lbf·in, kgf·m (torque)."),
        ("      - turn: 90°", "      - turn: 20 N·m", "s.yaml, line 44, column 15: turn: `N·m` is a unit of torque, not of angle. Write one of: °, turn, ′, rad."),
        ("order: [1, 3, 2, 4]", "order: [1, 3, 2, 2]", "s.yaml, line 38, column 12: The order does not name each of the 4 bolts once (left out: 4; twice: 2)."),
        ("order: [1, 3, 2, 4]", "order: [1, 3, 2, 4, 5]", "s.yaml, line 38, column 12: The order does not name each of the 4 bolts once (no such bolt: 5)."),
        ("    thread_state: engine oil on the threads\n", "", "s.yaml, line 34, column 5: `thread_state` is missing here. Write it with its value."),
        ("source: manual p. 9", 'source: ""', "s.yaml, line 46, column 13: source: The source is empty. Write its key and the page, like `manual p. 41`."),
        ("source: manual p. 9", "source: manual", "s.yaml, line 46, column 13: source: `manual` names no page. Write the key of a source and where in it, like `manual p. 41`."),
        ("source: manual p. 9", "source: manuel p. 9", "s.yaml, line 46, column 13: `manuel` is not a known source here. Did you mean `manual`?"),
        ("    source: manual p. 9\n", "", "s.yaml, line 34, column 5: This joint has no source. Every figure needs one: `source: manual p. 41`."),
        ("  source: manual p. 3\n", "", "s.yaml, line 15, column 9: `70.00 mm` has no source. Every figure needs one: `source: manual p. 41`."),
        ("total_turn: 90°", "total_turn: 900°", "s.yaml, line 45, column 17: The turns of bolt 1 add up to 90°, the stated total is 900°. A degree sign read as a zero makes 900 of 90°: look at the page again."),
        ("wear_limit: max 0.05 mm (0.002 in)", "wear_limit: 0.05 mm", "s.yaml, line 24, column 17: `0.05 mm` does not say on which side it limits. Write `max …` or `min …`."),
        ("wear_limit: max 0.05 mm (0.002 in)", "wear_limit: max 0,05 mm", None),
        ("bore: 70.00 mm", "boar: 70.00 mm", "s.yaml, line 15, column 3: `boar` is not a known key here. Did you mean `bore`?"),
        ("layout: single", "layout: sngle", "s.yaml, line 7, column 11: layout: `sngle` is not one of: 'single', 'inline', 'vee' or 'flat'."),
        ("invented: yes", "invented: maybe", "s.yaml, line 2, column 11: invented: Write yes or no; `maybe` was found."),
        ("torque: 10 N·m", "torque: 0 N·m", "s.yaml, line 42, column 17: `0 N·m` is no figure to tighten by: it is zero, below zero, or open at one end. Write one value above zero, or a range with both ends."),
        ("torque: 10 N·m", "torque: max 10 N·m", "s.yaml, line 42, column 17: `max 10 N·m` is no figure to tighten by: it is zero, below zero, or open at one end. Write one value above zero, or a range with both ends."),
        ("torque: 10 N·m", "torque: 10 N·m ± 20 N·m", None),
        ("bolts: 4", "bolts: four", "s.yaml, line 37, column 12: bolts: A whole number was expected, `four` was found."),
        ("fastener: {thread", "fastener: {tread", None),
        ("does_not_have: [timing belt", "does_not_have: [timing bolt", None),
    ],
)  # fmt: skip
def test_refusals(old: str, new: str, message: str | None) -> None:
    said = refusal(old, new)
    if message is not None:
        assert said == message
    assert said.startswith("s.yaml, line ")


def test_all_problems_are_told_at_once_in_the_order_of_the_file() -> None:
    text = SMALL.replace("bore: 70.00 mm", "bore: 70.00").replace("turn: 90°\n    t", "turn: 90\n    t")
    with pytest.raises(FileRefused) as caught:
        parse_sheet(text, file="s.yaml")
    assert [problem.place.line for problem in caught.value.problems] == [15, 44]


def test_firing_order_names_each_cylinder() -> None:
    text = SMALL.replace(
        "layout: single\n  cylinders: 1", "layout: inline\n  cylinders: 6\n  firing_order: [1, 5, 3, 6]"
    )
    with pytest.raises(FileRefused) as caught:
        parse_sheet(text, file="s.yaml")
    assert str(caught.value) == (
        "s.yaml, line 9, column 17: The firing order 1-5-3-6 does not name each of 6 cylinders once. Look at the page again."
    )


def test_what_it_has_not_cannot_be_described() -> None:
    text = SMALL + "drive:\n  kind: timing belt\n  source: manual p. 6\n"
    with pytest.raises(FileRefused) as caught:
        parse_sheet(text, file="s.yaml")
    assert "is said not to have timing belt" in str(caught.value)


def test_loosening_goes_backwards_unless_told() -> None:
    text = SMALL.replace(
        "      - turn: 90°\n", "      - loosen: fully\n      - loosen: 180°\n        order: normal\n"
    ).replace("    total_turn: 90°\n", "")
    joint = parse_sheet(text, file="s.yaml").sheet.joints["head"]
    assert joint.stage_bolts(joint.program[3]) == ("4", "2", "3", "1")
    assert joint.stage_bolts(joint.program[4]) == ("1", "3", "2", "4")

"""Which wrench, which mark of its scale, and what to say when none fits. Expected values by hand."""

from datetime import date

import pytest

from gudgeon.bench.tools import Choice, choose
from gudgeon.kit.load import parse_kit
from gudgeon.quantity.written import parse_printed
from gudgeon.sheet.joints import Stage
from tests.unit.bench.benches import KIT

TODAY = date(2026, 3, 7)


def kit_of(*wrenches: str, more: str = "") -> str:
    """A kit of click wrenches, each given by the fields that matter."""
    lines = [
        f"  w{number}: {{name: wrench {number}, kind: click, {fields}}}\n"
        for number, fields in enumerate(wrenches, start=1)
    ]
    return f"gudgeon: kit 1\nwrenches:\n{''.join(lines)}{more}"


def torque(text: str, kit: str = KIT, *, left_hand: bool = False) -> Choice:
    stage = Stage(torque=parse_printed(text, kind="torque"))
    return choose(parse_kit(kit, file="kit.yaml").kit, stage, today=TODAY, left_hand=left_hand)


def test_the_wrench_with_the_least_total_error() -> None:
    # 60 N·m: half-inch 4 % = 2.4 + 0.5 = 2.9; three-eighths 2.4 + 0.25 = 2.65; beam 6 % = 3.6 + 2.5 = 6.1.
    found = torque("60 N·m")
    assert (found.name, found.setting) == ("three-eighths click wrench", "60.0 N·m")
    assert found.error == "± 2.65 N·m (1.95 lbf·ft), 4.4 %"


def test_a_better_class_beats_a_finer_scale() -> None:
    # at 60 N·m: 4 % and a step of 0.5 make 2.4 + 0.25 = 2.65; 2 % and a step of 2 make 1.2 + 1 = 2.2
    kit = kit_of(
        "range: 20–100 N·m, step: 0.5 N·m, deviation: 4 %", "range: 20–100 N·m, step: 2 N·m, deviation: 2 %"
    )
    found = torque("60 N·m", kit)
    assert (found.name, found.setting, found.error) == ("wrench 2", "60 N·m", "± 2.2 N·m (1.6 lbf·ft), 3.7 %")


@pytest.mark.parametrize(
    ("fields", "error"),
    [
        # ISO 6789 where the kit gives no deviation, at 8 N·m, step 0.2: up to 10 N·m 6 % = 0.48, above 4 % = 0.32
        ("range: 2–10 N·m, step: 0.2 N·m", "± 0.58 N·m"),
        ("range: 2–12 N·m, step: 0.2 N·m", "± 0.42 N·m"),
        # type II class D (a screwdriver) is 6 % whatever its end
        ("range: 2–12 N·m, step: 0.2 N·m, type: II, class: D", "± 0.58 N·m"),
        ("range: 2–12 N·m, step: 0.2 N·m, class: A", "± 0.42 N·m"),
    ],
)
def test_deviation_by_class_and_largest_torque(fields: str, error: str) -> None:
    assert torque("8 N·m", kit_of(fields)).error.startswith(error)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("20 N·m", "three-eighths click wrench"),  # the larger of 20 and a fifth of 100 is 20
        ("100 N·m", "three-eighths click wrench"),
        ("101 N·m", "half-inch click wrench"),
        ("200 N·m", "half-inch click wrench"),
    ],
)
def test_ends_of_the_scales(text: str, name: str) -> None:
    assert torque(text).name == name


@pytest.mark.parametrize(
    ("fields", "text", "offered"),
    [
        ("range: 10–110 N·m, step: 1 N·m", "22 N·m", True),  # a fifth of 110
        ("range: 10–110 N·m, step: 1 N·m", "21.9 N·m", False),  # the nearest mark is 22, the torque is below
        ("range: 60–200 N·m, step: 1 N·m", "60 N·m", True),  # its scale starts above a fifth, 40
        ("range: 60–200 N·m, step: 1 N·m", "59.8 N·m", False),
        ("range: 60–200 N·m, step: 1 N·m", "200.3 N·m", False),
        ("range: 30–150 lbf·ft, step: 1 lbf·ft", "30 lbf·ft", True),
        ("range: 30–150 lbf·ft, step: 1 lbf·ft", "40 N·m", False),  # 29.5 lbf·ft
    ],
)
def test_usable_from_the_larger_of_the_start_and_a_fifth(fields: str, text: str, offered: bool) -> None:
    assert torque(text, kit_of(fields)).found is offered


def test_a_mark_below_the_usable_part_is_not_rounded_to() -> None:
    # usable from 22; 22 lies nearer to 20 than to 25, but 20 is not usable: 25, which is 3 too much
    found = torque("22 N·m", kit_of("range: 10–110 N·m, step: 5 N·m, deviation: 4 %"))
    assert found.setting == "25 N·m"
    assert found.rounding.startswith("the scale rounds by 3 N·m")
    assert found.error.startswith(
        "± 4 N·m"
    )  # 4 % of 25 is 1, and 3 of rounding, which is more than half a step


def test_below_every_usable_scale_the_real_ways_out_are_named() -> None:
    # The beam wrench reads 10 N·m, but its usable part begins at a fifth of 150 = 30 N·m.
    found = torque("10 N·m")
    assert not found.found
    assert found.note == "none of your 3 torque wrenches reaches 10 N·m in the usable part of its scale"
    assert "its maximum at most 50 N·m" in found.ways_out[0]
    assert "5–25 N·m" in found.ways_out[0]
    # F = T / L = 10 N·m / 0.25 m = 40 N; 40.8 N at 252 mm pull 10.2816 N·m
    assert "40 N (9.0 lbf)" in found.ways_out[1]
    assert "± 0.282 N·m (0.21 lbf·ft), 2.8 %" in found.ways_out[1]
    assert found.ways_out[2] == "the manual's own angle for this bolt, if it gives one"


def test_below_a_fifth_it_is_not_offered_and_said_how_an_override_is_recorded() -> None:
    found = torque("10 N·m")
    assert (found.tool, found.setting) == ("", "")
    assert found.override == found.ways_out[-1] == (
        "not offered: the beam wrench shows it, but below 30 N·m, a fifth of its end, nothing proves it; "
        "who uses it all the same records the override: this wrench, its setting and the reason"
    )  # fmt: skip
    assert torque("210 N·m").override == ""


def test_above_every_scale() -> None:
    found = torque("210 N·m")
    assert not found.found
    # 210 N·m / 0.25 m = 840 N is no pull for a hand, at 0.5 m 420 N neither: 210 N at 1 m
    assert "at 1000 mm (39.370 in) from the bolt" in found.ways_out[1]
    assert "210 N (47 lbf)" in found.ways_out[1]


def test_his_own_spring_scale_with_its_own_error() -> None:
    kit = KIT + "spring_scales:\n  fish: {name: fish scale, range: 50–200 N, step: 2 N, error: 3 N}\n"
    # 10 N·m is 40 N at 250 mm, below its range, and less at longer arms: it cannot help, a common one could
    assert "fish scale" not in " ".join(torque("10 N·m", kit).ways_out)
    # 15 N·m is 60 N at 250 mm: 63 N at 252 mm pull 15.876 N·m, 0.876 too much, 5.8 %
    (way,) = (way for way in torque("15 N·m", kit).ways_out if "fish scale" in way)
    assert "60 N" in way
    assert "± 0.876 N·m (0.65 lbf·ft), 5.8 %" in way


def test_an_empty_kit_says_so() -> None:
    found = torque("10 N·m", "gudgeon: kit 1\n")
    assert found.note == "your kit has no torque wrench for 10 N·m"
    assert found.ways_out


def test_the_setting_is_in_the_unit_of_the_scale_and_says_what_rounding_makes() -> None:
    # 60 N·m = 44.254 lbf·ft -> mark 44 = 59.66 N·m, rounding −0.34 N·m = −0.6 %
    found = torque("60 N·m", kit_of("range: 30–150 lbf·ft, step: 1 lbf·ft"))
    assert found.setting == "44 lbf·ft"
    assert found.rounding == "the scale rounds by -0.344 N·m (-0.25 lbf·ft) (-0.6 %)"


TWO = "range: 40–200 N·m, step: 1 N·m, second_scale: {range: 30–150 lbf·ft, step: 1 lbf·ft}, deviation: 4 %"


@pytest.mark.parametrize(
    ("text", "setting", "rounding"),
    [
        # N·m: half a step 0.5, no rounding; lbf·ft: half a step 0.678, rounding 0.34
        ("60 N·m", "60 N·m", ""),
        # 50 lbf·ft = 67.79 N·m. N·m: 0.5 + 0.21 = 0.71; lbf·ft: 0.678 + 0
        ("50 lbf·ft", "50 lbf·ft", ""),
        # 49 lbf·ft = 66.43 N·m. N·m: 0.5 + 0.43 = 0.93; lbf·ft: 0.678
        ("49 lbf·ft", "49 lbf·ft", ""),
        # 70.5 N·m = 51.998 lbf·ft. N·m: 70, 0.5 + 0.5 = 1; lbf·ft: 52 = 70.50253 N·m, 0.678 + 0.003
        ("70.5 N·m", "52 lbf·ft", "the scale rounds by 0.00253 N·m"),
    ],
)
def test_of_two_scales_the_better_one(text: str, setting: str, rounding: str) -> None:
    found = torque(text, kit_of(TWO))
    assert found.setting == setting
    assert found.rounding.startswith(rounding)


def test_a_second_scale_that_begins_earlier_reaches_further_down() -> None:
    # 31 N·m is below the first scale's start, 34; the second begins at 22 lbf·ft = 29.8, a fifth of 110 lbf·ft
    kit = kit_of(
        "range: 34–150 N·m, step: 1 N·m, second_scale: {range: 10–110 lbf·ft, step: 1 lbf·ft}, deviation: 4 %"
    )
    assert torque("31 N·m", kit).setting == "23 lbf·ft"  # 22.86


def test_marks_that_are_no_multiples_of_the_step() -> None:
    # 5, 7, 9, 11: 10 lies midway, the lower is taken; half a step and rounding are 1 each, 4 % of 9 is 0.36
    found = torque("10 N·m", kit_of("range: 5–25 N·m, step: 2 N·m, first_mark: 5 N·m, deviation: 4 %"))
    assert (found.setting, found.error) == ("9 N·m", "± 1.36 N·m (1.00 lbf·ft), 13.6 %")


def test_a_range_wants_a_mark_whose_deviation_stays_inside() -> None:
    # 55–65: mark 60, 60 ± 2.4 stays inside. 59–61: no mark can, with 4 %.
    assert torque("55–65 N·m").setting == "60.0 N·m"
    narrow = torque("59–61 N·m")
    assert not narrow.found
    assert narrow.note == (
        "three-eighths click wrench reaches it, but may be off by 2.65 N·m (1.95 lbf·ft): "
        "that does not stay inside 59–61 N·m"
    )
    # half of 2 is 1 of 60: 1.7 %
    assert narrow.ways_out[0].endswith("is off by at most ± 1.7 %: the range leaves no more")


@pytest.mark.parametrize(
    ("text", "fields", "setting"),
    [
        # 50–57, middle 53.5, 4 %: marks from 50/0.96 = 52.08 to 57/1.04 = 54.81. Step 3: 54 is nearest and inside
        ("50–57 N·m", "step: 3 N·m", "54 N·m"),
        # marks at 52.5, 55 …: 52.5 and 55 lie 1 and 1.5 from 53.5; 55 would be 57.2 at most
        ("50–57 N·m", "step: 2.5 N·m", "52.5 N·m"),
        # 60–80, 10 %: from 66.67 to 72.73, middle 70; marks at 68, 75 by a step of 7 from 26: 68 lies nearer
        ("60–80 N·m", "step: 7 N·m, first_mark: 26 N·m, deviation: 10 %", "68 N·m"),
        # 60–80, 12 %: from 68.18 to 71.43; marks at 67 and 73: 67 and 73 lie 3 off, and neither stays inside
        ("60–80 N·m", "step: 6 N·m, first_mark: 25 N·m, deviation: 12 %", ""),
        # 60–80, 13 %: from 68.97 to 70.80; the mark nearest the middle, 70.9, may pull 80.1; 69.0 stays inside
        ("60–80 N·m", "step: 1.9 N·m, first_mark: 31 N·m, deviation: 13 %", "69.0 N·m"),
        # the middle, 19, lies below the usable part; 20 stays inside 15–23
        ("15–23 N·m", "step: 1 N·m", "20 N·m"),
        # a tolerance: aimed at is the nominal figure, not halfway
        ("60 N·m +10/-4", "step: 1 N·m", "60 N·m"),
        # only one end is given: the mark that stays on the right side of it, 4 % away
        ("max 50 N·m", "step: 1 N·m", "48 N·m"),
        ("at least 50 N·m", "step: 1 N·m", "53 N·m"),
    ],
)
def test_the_mark_of_a_range(text: str, fields: str, setting: str) -> None:
    share = "" if "deviation" in fields else ", deviation: 4 %"
    assert torque(text, kit_of(f"range: 20–100 N·m, {fields}{share}")).setting == setting


def test_a_wrench_whose_mark_stays_inside_goes_before_one_that_is_better_but_does_not() -> None:
    # 40–43: the first has the marks 40 and 45 only; the second 41, 41 ± 1 % stays inside
    kit = kit_of(
        "range: 20–100 N·m, step: 5 N·m, deviation: 1 %", "range: 40–200 N·m, step: 1 N·m, deviation: 2 %"
    )
    assert torque("40–43 N·m", kit).setting == "41 N·m"


def test_direction() -> None:
    back = kit_of("range: 20–100 N·m, step: 1 N·m, direction: counterclockwise")
    assert torque("60 N·m", back).note == (
        "no torque wrench of your kit is said to be good in this direction, for 60 N·m"
    )
    assert torque("60 N·m", back, left_hand=True).found
    unsaid = kit_of("range: 20–100 N·m, step: 1 N·m")
    assert torque("60 N·m", unsaid).found
    assert not torque("60 N·m", unsaid, left_hand=True).found
    assert torque(
        "60 N·m", unsaid.replace("step: 1 N·m", "step: 1 N·m, direction: both"), left_hand=True
    ).found


def with_adapter(angle: str, length: str = ", length: 400 mm") -> str:
    return kit_of(
        f"range: 40–200 N·m, step: 1 N·m, deviation: 4 %{length}",
        more=f"adapters:\n  foot: {{name: crow-foot, length: 100 mm, angle: {angle}}}\n",
    )


def test_an_adapter_straight_out_helps_above_a_range() -> None:
    # 240 N·m at the bolt: 240 · 400 / 500 = 192 N·m on the wrench. Off by 4 % of 240 = 9.6, half a step 0.5 · 1.25
    found = torque("240 N·m", with_adapter("0°"))
    assert (found.tool, found.adapter, found.setting) == ("w1", "foot", "192 N·m")
    assert found.exact == "240 N·m (177.0 lbf·ft)"
    assert found.error == "± 10.2 N·m (7.5 lbf·ft), 4.3 %"
    assert "with the crow-foot straight out" in found.note
    assert "L = 400 mm, E = 100 mm" in found.note
    assert not torque("251 N·m", with_adapter("0°")).found  # 250 is 200 on the wrench


@pytest.mark.parametrize("angle", ["90°", "180°", "135°"])
def test_an_adapter_that_does_not_lengthen_the_lever_does_not_help(angle: str) -> None:
    assert not torque("240 N·m", with_adapter(angle)).found


def test_an_adapter_at_an_angle_by_its_cosine() -> None:
    # cos 60° = 0.5: 220 · 400 / 450 = 195.56, mark 196, which is 220.5 at the bolt
    found = torque("220 N·m", with_adapter("60°"))
    assert (found.setting, found.rounding) == (
        "196 N·m",
        "the scale rounds by 0.5 N·m (0.37 lbf·ft) (+0.2 %)",
    )


@pytest.mark.parametrize("angle", ["0°", "180°"])
def test_an_adapter_is_never_offered_below_a_range(angle: str) -> None:
    found = torque("36 N·m", with_adapter(angle))
    assert not found.found
    assert "crow-foot" not in " ".join((found.note, *found.ways_out))


def test_within_a_range_no_adapter_is_put_on() -> None:
    assert torque("100 N·m", with_adapter("0°")).adapter == ""


def test_without_the_length_of_the_wrench_an_adapter_cannot_be_worked_out() -> None:
    found = torque("240 N·m", with_adapter("0°", length=""))
    assert not found.found
    assert any("write the wrench's length" in way for way in found.ways_out)


def test_a_range_through_an_adapter_is_kept_at_the_bolt() -> None:
    # 230–250 at the bolt is 184–200 on the wrench: marks from 191.67 to 192.31: only 192
    assert torque("230–250 N·m", with_adapter("0°")).setting == "192 N·m"
    assert not torque("235–245 N·m", with_adapter("0°")).found


def test_a_due_check_is_said_with_the_wrench() -> None:
    found = torque(
        "60 N·m", kit_of("range: 20–100 N·m, step: 1 N·m, checked: 2025-02-07, note: in the red box")
    )
    due = "check due since 2026-02-07: last checked on 2025-02-07, good for 12 months (ISO 6789-1:2017)"
    assert (found.check_due, found.note) == (due, f"{due}; in the red box")


def test_of_two_equal_wrenches_the_one_whose_check_is_not_due() -> None:
    same = "range: 20–100 N·m, step: 1 N·m, checked: "
    assert torque("60 N·m", kit_of(f"{same}2020-01-01", f"{same}2026-01-01")).name == "wrench 2"


def test_never_a_torque_wrench_for_loosening() -> None:
    kit = parse_kit(KIT, file="kit.yaml").kit
    assert choose(kit, Stage(loosen="fully")).name == "breaker bar"
    alone = choose(kit.model_copy(update={"turning": {}}), Stage(loosen="fully"))
    assert (alone.tool, alone.name) == ("", "")
    assert "never used for loosening" in alone.note
    assert alone.ways_out[0].startswith("borrow or buy a bar")


def test_a_turn_is_done_with_a_bar_and_measured_by_the_gauge() -> None:
    kit = parse_kit(KIT, file="kit.yaml").kit
    turn = Stage(turn=parse_printed("90°", kind="angle"))
    found = choose(kit, turn)
    assert (found.name, found.driver, found.error) == ("angle gauge", "breaker bar", "± 3°")
    assert found.note == "turn with the breaker bar, not with a torque wrench"
    only_bar = {key: tool for key, tool in kit.turning.items() if tool.kind == "bar"}
    marks = choose(kit.model_copy(update={"turning": only_bar}), turn)
    assert (marks.tool, marks.driver) == ("", "breaker bar")
    assert "turn to the mark" in marks.name


def test_a_turn_with_only_torque_wrenches_is_not_offered_on_one() -> None:
    kit = parse_kit(KIT, file="kit.yaml").kit.model_copy(update={"turning": {}})
    found = choose(kit, Stage(turn=parse_printed("90°", kind="angle")))
    assert (found.tool, found.name) == ("", "")
    assert found.note == (
        "a turn may end far above the range of a torque wrench, and your kit has no bar and no ratchet to turn with"
    )
    assert found.ways_out[0].startswith("borrow or buy a bar")


def test_drawing_down_is_done_by_hand() -> None:
    kit = parse_kit(KIT, file="kit.yaml").kit
    assert choose(kit, Stage.model_validate({"draw down": "180°"})).name == "breaker bar"


def test_a_verifying_torque_is_set_like_any_other() -> None:
    kit = parse_kit(KIT, file="kit.yaml").kit
    assert choose(kit, Stage(verify=parse_printed("60 N·m", kind="torque"))).setting == "60.0 N·m"

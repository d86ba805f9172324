"""Which wrench, which mark of its scale, and what to say when none fits. Expected values by hand."""

import pytest

from gudgeon.bench.tools import Choice, choose
from gudgeon.kit.load import parse_kit
from gudgeon.quantity.written import parse_printed
from gudgeon.sheet.joints import Stage
from tests.unit.bench.benches import KIT


def torque(text: str, kit: str = KIT) -> Choice:
    return choose(parse_kit(kit, file="kit.yaml").kit, Stage(torque=parse_printed(text, kind="torque")))


def test_the_wrench_with_the_least_total_error() -> None:
    # 60 N·m: half-inch 4 % = 2.4 + 0.5 = 2.9; three-eighths 2.4 + 0.25 = 2.65; beam 6 % = 3.6 + 2.5 = 6.1.
    found = torque("60 N·m")
    assert (found.name, found.setting) == ("three-eighths click wrench", "60.0 N·m")
    assert found.error == "± 2.65 N·m (1.95 lbf·ft), 4.4 %"


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


def test_below_every_usable_scale_the_real_ways_out_are_named() -> None:
    # The beam wrench reads 10 N·m, but its usable part begins at a fifth of 150 = 30 N·m.
    found = torque("10 N·m")
    assert not found.found
    assert found.note == "none of your 3 torque wrenches reaches 10 N·m in the usable part of its scale"
    # F = T / L = 10 N·m / 0.25 m = 40 N
    assert "40 N (9.0 lbf)" in found.ways_out[1]
    assert "its maximum at most 50 N·m" in found.ways_out[0]


def test_above_every_scale() -> None:
    assert not torque("210 N·m").found


def test_the_setting_is_in_the_unit_of_the_scale_and_says_what_rounding_makes() -> None:
    kit = KIT.replace("range: 40–200 N·m, step: 1 N·m", "range: 30–150 lbf·ft, step: 1 lbf·ft").replace(
        "range: 20–100 N·m, step: 0.5 N·m", "range: 1–5 N·m, step: 0.5 N·m"
    )
    # 60 N·m = 44.254 lbf·ft -> mark 44 = 59.66 N·m, rounding −0.34 N·m = −0.6 %
    found = torque("60 N·m", kit)
    assert found.setting == "44 lbf·ft"
    assert found.rounding == "the scale rounds by -0.344 N·m (-0.25 lbf·ft) (-0.6 %)"


def test_a_range_wants_a_mark_whose_deviation_stays_inside() -> None:
    # 55–65: mark 60, 60 ± 2.4 stays inside. 59–61: no mark can, with 4 %.
    assert torque("55–65 N·m").setting == "60.0 N·m"
    narrow = torque("59–61 N·m")
    assert not narrow.found
    assert "does not stay inside 59–61 N·m" in narrow.note


def test_never_a_torque_wrench_for_loosening() -> None:
    kit = parse_kit(KIT, file="kit.yaml").kit
    assert choose(kit, Stage(loosen="fully")).name == "breaker bar"
    assert choose(kit, Stage(turn=parse_printed("90°", kind="angle"))).name == "angle gauge"


def test_drawing_down_is_done_by_hand() -> None:
    kit = parse_kit(KIT, file="kit.yaml").kit
    assert choose(kit, Stage.model_validate({"draw down": "180°"})).name == "breaker bar"

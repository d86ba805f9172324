"""joint.turn as a person runs it."""

import pytest

from gudgeon.calc.calculator import run
from gudgeon.calc.input_errors import GivenBoth, InputNeeded

INPUTS = {
    "thread": "M10",
    "strength_class": "10.9",
    "bolt_compliance": "6e-6 mm/N",
    "member_compliance": "2.0 µm/kN",
    "snug_torque": "30 N·m",
    "mu_thread": "0.12",
    "mu_head": "0.12",
    "bearing_diameter": "12.8 mm",
    "angle": "90°",
}


def test_a_turn_through_yield() -> None:
    """HAND: see test_turn.py."""
    found = run("joint.turn", INPUTS)
    assert found["preload_n"] == pytest.approx(48237, abs=2)
    assert found["snug_preload_n"] == pytest.approx(18310, abs=2)
    assert found["permanent_stretch_mm"] == pytest.approx(0.13558, abs=2e-5)
    assert found["yielded"] == "yes"


def test_an_elastic_turn_with_head_and_hole() -> None:
    """HAND: DKm = (16.6 + 9.0) / 2 = 12.8 mm; 45° are 23437.5 N."""
    inputs = {key: value for key, value in INPUTS.items() if key != "bearing_diameter"}
    inputs |= {"head_diameter": "16.6 mm", "hole": "9 mm", "angle": "45°", "hardening": "500 N/mm"}
    found = run("joint.turn", inputs)
    assert found["preload_n"] == pytest.approx(18310 + 23437.5, abs=2)
    assert (found["yielded"], found["permanent_stretch_mm"]) == ("no", 0.0)


def test_what_is_missing_is_named_for_this_calculator() -> None:
    without = {key: value for key, value in INPUTS.items() if key != "strength_class"}
    with pytest.raises(InputNeeded, match=r"joint\.turn"):
        run("joint.turn", without)
    with pytest.raises(GivenBoth):
        run("joint.turn", INPUTS | {"yield_mpa": "940 MPa"})

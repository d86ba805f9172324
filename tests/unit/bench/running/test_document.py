"""The figures of the page on running stand for what the program finds."""

from pathlib import Path

import pytest

from gudgeon.calc.calculator import run
from gudgeon.sources.coolants import least_against_corrosion
from gudgeon.sources.first_run import balance_rules, run_figure

PAGE = " ".join(
    (Path(__file__).parents[4] / "docs/how-it-works/running.md").read_text(encoding="utf-8").split()
)
ENGINE = {"ratio": "9", "intake_closing": "60°", "stroke": "86 mm", "rod_length": "143 mm"}
TESTER = {"supply": "80 psi", "cylinder": "75 psi", "orifice": "0.040 in", "other_orifice": "0.060 in"}


def number(name: str, inputs: dict[str, str], result: str) -> float:
    found = run(name, inputs)[result]
    assert isinstance(found, float)
    return found


def test_the_band_of_the_page_is_ours() -> None:
    assert "r = 7.459, and at the sea 10.28 to 12.80 bar" in PAGE
    name = "engine.cranking-pressure"
    assert f"{number(name, ENGINE, 'dynamic_ratio'):.3f}" == "7.459"
    assert f"{number(name, ENGINE, 'gauge_low_kpa') / 100:.2f}" == "10.28"
    assert f"{number(name, ENGINE, 'gauge_high_kpa') / 100:.2f}" == "12.80"


@pytest.mark.parametrize(("altitude", "kpa"), [("0 m", "101.3"), ("500 m", "95.5"), ("2000 m", "79.5")])
def test_the_air_of_the_page_is_ours(altitude: str, kpa: str) -> None:
    assert f"{kpa} kPa at" in PAGE
    assert f"{number('engine.atmosphere', {'altitude': altitude}, 'pressure_pa') / 1000:.1f}" == kpa


@pytest.mark.parametrize(("rule", "words"), [("pressure", "78.5 % of what"), ("density", "density (82.2 %)")])
def test_both_rules_of_the_page_are_ours(rule: str, words: str) -> None:
    assert words in PAGE
    given = {**ENGINE, "altitude": "2000 m", "minimum": "100 kPa", "rule": rule}
    assert f"{number('engine.cranking-pressure', given, 'minimum_here_kpa'):.1f} %" in words


def test_the_leak_of_the_page_is_ours() -> None:
    assert (
        "6.25 % lost, a hole of 0.71 mm – and on a tester with 0.060 in the same leak shows 78.97 psi, 1.3 %"
        in PAGE
    )
    name = "engine.leak-down"
    assert f"{number(name, TESTER, 'leak_percent'):.2f}" == "6.25"
    assert f"{number(name, TESTER, 'equivalent_hole_mm'):.2f}" == "0.71"
    assert f"{number(name, TESTER, 'other_cylinder_kpa') / 6.894757:.2f}" == "78.97"
    assert f"{number(name, TESTER, 'other_leak_percent'):.1f}" == "1.3"


@pytest.mark.parametrize(("glycol", "celsius"), [("ethylene", "−37"), ("propylene", "−34")])
def test_the_freezing_points_of_the_page_are_ours(glycol: str, celsius: str) -> None:
    assert f"{glycol} glycol" in PAGE
    assert f"at {celsius} °C" in PAGE
    found = number("engine.coolant", {"glycol": glycol, "fraction": "50 %"}, "freeze_c")
    assert f"{found:.0f}".replace("-", "−") == celsius


def test_what_is_drained_on_the_page_is_ours() -> None:
    assert "8.5 L at 33 % come to 50 % when 2.16 L are drained" in PAGE
    given = {"capacity": "8.5 L", "residual": "8.5 L", "present": "33 %", "target": "50 %"}
    assert f"{number('engine.coolant', given, 'drain_l'):.2f}" == "2.16"


def test_the_rules_of_the_page_are_on_file() -> None:
    assert "three rules of the trade" in PAGE
    assert len(balance_rules()) == 3
    assert f"oil raises it by {100 * run_figure('wet_rise_rings').value:.0f} % or more" in PAGE
    assert f"oil raises it by {100 * run_figure('wet_rise_nothing').value:.0f} % or less" in PAGE
    assert f"Less than {100 * least_against_corrosion().value:.0f} %" in PAGE
    assert f"0.040 in below a bore of {run_figure('bore_of_larger_orifice_mm').value / 25.4:.0f} in" in PAGE

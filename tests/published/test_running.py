"""The air, cranking pressure, leaks and coolant against standards, technical manuals and sums by hand.

U.S. Standard Atmosphere 1976; TM 5-3895-359-14&P, TM 10-3930-653-14&P, TM 5-4210-230-14&P-1 and TM 5-2420-230-24-2;
AC 43.13-1B; ASHRAE and Melinder as the library CoolProp has them; Lange's Handbook of Chemistry, 15th edition.
"""

import re

import pytest

from gudgeon.calc.calculator import run
from gudgeon.sources.first_run import acceptance, run_figure
from tests.published.cases import Case, cases, check
from tests.reference import reference_rows


@pytest.mark.parametrize("case", cases("engine_running"), ids=[case.id for case in cases("engine_running")])
def test_a_running_engine_as_published(case: Case) -> None:
    check(case)


def test_a_public_table_of_temperatures_is_not_followed_in_its_error() -> None:
    # A public SI table prints −25.96 °C at 4572 m (15,000 ft); the layer has −14.70.
    kelvin = run("engine.atmosphere", {"altitude": "4572 m"})["temperature_k"]
    assert isinstance(kelvin, float)
    assert abs(kelvin - 273.15 - -25.96) > 11


@pytest.mark.parametrize(
    ("readings", "rule", "limit", "verdict"),
    [
        # TM 5-3895-359-14&P: 25 psi between cylinders
        ("500 psi; 476 psi", "absolute", "25 psi", "inside"),
        ("500 psi; 474 psi", "absolute", "25 psi", "outside"),
        # TM 5-4210-230-14&P-1 p. 883: the lowest at least 75 % of the highest
        ("160 psi; 120 psi", "ratio to highest", "75 %", "inside"),
        ("160 psi; 119 psi", "ratio to highest", "75 %", "outside"),
        # TM 10-3930-653-14&P p. 43: 1.0 kgf/cm² between cylinders
        ("11.0 kgf/cm²; 10.0 kgf/cm²", "absolute", "1.0 kgf/cm²", "inside"),
        ("11.0 kgf/cm²; 9.9 kgf/cm²", "absolute", "1.0 kgf/cm²", "outside"),
        # TM 5-2420-230-24-2 p. 14-22: 100 psi, printed as 690 kPa too
        ("350; 250 psi", "absolute", "100 psi", "inside"),
        ("350; 250 psi", "absolute", "690 kPa", "inside"),
        ("350; 249 psi", "absolute", "100 psi", "outside"),
    ],
)
def test_rules_between_cylinders_as_manuals_print_them(
    readings: str, rule: str, limit: str, verdict: str
) -> None:
    answer = run("engine.compression-spread", {"readings": readings, "rule": rule, "limit": limit})
    assert answer["verdict"] == verdict


def test_one_kilogram_of_eleven_is_nine_percent() -> None:
    # TM 10-3930-653-14&P p. 43: 1.0 of 11.0 kgf/cm² is 9.1 %.
    answer = run(
        "engine.compression-spread", {"readings": "11; 10 kgf/cm²", "rule": "absolute", "limit": "1 kgf/cm²"}
    )
    share = answer["lowest_to_highest"]
    assert isinstance(share, float)
    assert round(100 * (1 - share), 1) == 9.1


def test_the_law_of_weak_solutions_is_not_taken_for_coolant() -> None:
    # Half and half by volume is some 18 mol of glycol in 1 kg of water: 1.86 K each would give −33.27 °C. It is −37.1.
    found = run("engine.coolant", {"glycol": "ethylene", "fraction": "50 %"})["freeze_c"]
    assert isinstance(found, float)
    assert abs(found - -37.1) < 0.05


@pytest.mark.parametrize(("share", "told"), [("32 %", True), ("33 %", False)])
def test_too_little_glycol_against_corrosion_is_said(share: str, told: bool) -> None:
    # TM 5-3805-254-14&P-2: 33 % at least.
    flags = run("engine.coolant", {"fraction": share}).flags
    words = (
        "Less than 33 % glycol by volume does not protect against corrosion "
        "(TM 5-3805-254-14&P-2, least share of glycol that protects against corrosion)."
    )
    assert (words in flags) is told


def test_every_row_of_the_proofs_after_the_start_is_carried_over() -> None:
    carried = {case.id for case in cases("engine_running")}
    rows = [row["id"] for row in reference_rows("engine.csv") if re.match(r"[ACL]\d|F(\d|M\d)", row["id"])]
    assert len(rows) > 45
    missing = [row for row in rows if not any(own.startswith(row) for own in carried)]
    # Held as rules and look-ups: spreads (above), the orifice and what one maker accepts (tests/unit/bench/running), the
    # law of weak solutions and the least share of glycol (above).
    assert missing == ["C06", "C08", "C11", "L01", "L10", "F19", "F20"]


def test_the_orifice_of_a_tester_and_what_one_maker_accepts_are_on_file() -> None:
    # L01: AC 43.13-1B, paragraph 8-14: 0.040 in below a bore of 5.00 in, 0.060 in from there. L10: in words.
    assert run_figure("orifice_mm").value == pytest.approx(0.040 * 25.4)
    assert run_figure("larger_orifice_mm").value == pytest.approx(0.060 * 25.4)
    assert run_figure("bore_of_larger_orifice_mm").value == pytest.approx(5.00 * 25.4)
    words = acceptance().words
    assert all(
        part in words for part in ("70 psi or more and all within 5 psi is good", "under 65 psi, test again")
    )
    assert "under 60 psi, or more than 15 psi apart" in words

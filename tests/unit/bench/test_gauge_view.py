"""What is said of a gauge: how far it may be off and who says so, and whether its check is due.

Permitted errors are PRINTED in their standards and stand in the table of instruments; dates are HAND.
"""

from datetime import date
from pathlib import Path

import pytest

from gudgeon.bench.gauge_view import gauge_check_due, gauge_facts
from gudgeon.bench.kit_view import checks_due, kit_answer
from gudgeon.kit.load import parse_kit
from gudgeon.kit.model import Kit
from tests.unit.bench.benches import KIT, make_job


def kit(lines: str) -> Kit:
    more = "  mike: {name: mike 75–100, kind: outside micrometer, range: 75–100 mm}\n"
    return parse_kit(f"gudgeon: kit 1\ngauges:\n  one: {{name: one, {lines}}}\n{more}", file="kit.yaml").kit


def facts(lines: str) -> dict[str, str]:
    held = kit(lines)
    return dict(gauge_facts(held, held.gauges["one"]))


@pytest.mark.parametrize(
    ("lines", "off"),
    [
        ("kind: caliper, error: 0.02 mm", "± 0.02 mm (your kit)"),
        ("kind: outside micrometer, error: 0.003 mm, stated_as: U (k = 2)",
         "± 0.003 mm (U of its certificate, k = 2)"),
        ("kind: compression gauge, error: 5 %", "± 5 % of the reading (your kit)"),
        ("kind: surface plate, grade: 1, length: 500 mm", "± 0.015 mm (0.00059 in) (DIN 876, "),
        ("kind: knife straightedge, length: 500 mm", "± 0.004 mm (0.00016 in) (DIN 874-2, "),
        ("kind: outside micrometer, range: 75–100 mm", "± 0.005 mm (0.00020 in) (DIN 863-1, "),
        ("kind: compression gauge, range: 0–20 bar", "± 5 % of the reading (Compression gauges, "),
        ("kind: thermometer, range: 0–100 °C", "± 1 K (Thermometers of a garage, "),
        ("kind: telescoping gauge, range: 30–55 mm", "not known"),
        ("kind: caliper", "not known"),
        ("kind: scale, range: 0–5 kg", "not known"),
    ],
)  # fmt: skip
def test_how_far_it_may_be_off_and_who_says_so(lines: str, off: str) -> None:
    assert facts(lines)["May be off"].startswith(off)


def test_what_it_is_zeroed_in_and_made_of() -> None:
    found = facts("kind: bore gauge, range: 50–160 mm, zeroed_in: mike, material: gauge_steel, step: 0.01 mm")
    assert (found["Zeroed in"], found["Made of"], found["Step"]) == ("mike 75–100", "gauge steel", "0.01 mm")
    assert found["Range"] == "50–160 mm"


def test_a_strip_without_figures_is_the_usual_one_and_says_so() -> None:
    found = facts("kind: plastic gauging strip")
    assert found["Range"] == "0.025–0.175 mm (common practice)"
    assert found["Widths"].startswith("0.025, 0.038, 0.051, ")
    assert found["Widths"].endswith(" mm (common practice)")
    assert facts("kind: plastic gauging strip, steps: [0.05 mm, 0.08 mm]")["Widths"] == "0.050, 0.080 mm"


@pytest.mark.parametrize(
    ("lines", "today", "due"),
    [
        ("checked: 2025-02-14", date(2026, 2, 13), ""),
        ("checked: 2025-02-14", date(2026, 2, 14),
         "check due since 2026-02-14: last checked on 2025-02-14, good for 12 months (common practice)"),
        ("checked: 2024-02-29, good_for: 2 years", date(2026, 2, 27), ""),
        ("checked: 2024-02-29, good_for: 2 years", date(2026, 2, 28),
         "check due since 2026-02-28: last checked on 2024-02-29, good for 24 months (your kit)"),
        ("note: never checked", date(2026, 2, 28), ""),
    ],
)  # fmt: skip
def test_a_check_is_due_after_its_time(lines: str, today: date, due: str) -> None:
    held = kit(f"kind: caliper, {lines}")
    assert gauge_check_due(held.gauges["one"], today=today) == due
    assert list(checks_due(held, today=today)) == ([f"one: {due}"] if due else [])


def test_the_page_shows_the_gauges_with_what_is_due(tmp_path: Path) -> None:
    job = make_job(tmp_path, kit=KIT.replace("error: 0.03 mm", "error: 0.03 mm, checked: 2025-01-10"))
    answer = kit_answer(job.bench())
    (gauges,) = (owned for title, owned in answer.groups if title == "Gauges")
    caliper = next(one for one in gauges if one.kind == "caliper")
    said = "check due since 2026-01-10: last checked on 2025-01-10, good for 12 months (common practice)"
    assert caliper.warnings == (said,)
    assert f"caliper: {said}" in answer.due
    assert ("Checked", "2025-01-10") in caliper.facts


def test_the_kit_tells_its_altitude_and_what_shims_cost(tmp_path: Path) -> None:
    prices = "altitude: 1200 m\nshim_price: 4.80 EUR\nshim_prices: {2.35 mm: 6.10 EUR}\n"
    rest = kit_answer(make_job(tmp_path, kit=f"{KIT}\n{prices}").bench()).rest
    assert rest == (("Altitude", "1200 m"), ("A shim", "4.80 EUR"), ("A shim 2.35 mm", "6.10 EUR"))

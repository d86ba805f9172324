"""What differs over several places: its least and its greatest are both there, and each is judged by itself.

Figures are HAND. Bore gauge and micrometer may each be off by ± 0.005 mm: u = 0.00289 of a size; of their difference
√2 times as much, 0.00408, and 1.645 u = 0.0067 mm. What a part is worn by over its heights is no uncertainty.
"""

import pytest

from gudgeon.bench.judging.decision import added, decide
from gudgeon.bench.judging.rows import Row
from gudgeon.bench.measured import measured
from tests.unit.bench.judging.judged import Read, bench_with, by_place, rows_of

CLEARANCE = """\
  bore: {name: Bore, part: block, places: {cylinder: [1], height: [top, low], direction: [across, along]}, source: manual p. 5}
  piston: {name: Piston, part: pistons, places: {cylinder: [1]}, source: manual p. 6}
  clearance: {name: Piston clearance, part: pistons, method: difference, of: [bore, piston], wear_limit: LIMIT,
    source: manual p. 6}
"""
WORN: Read = {
    ("bore", "cylinder 1, top, across"): "72.098", ("bore", "cylinder 1, top, along"): "72.060",
    ("bore", "cylinder 1, low, across"): "72.010", ("bore", "cylinder 1, low, along"): "72.008",
    ("piston", "cylinder 1"): "71.926",
}  # fmt: skip
GAUGES = {"bore": "bore_gauge", "piston": "micrometer"}


def clearance(limit: str) -> Row:
    bench = bench_with(CLEARANCE.replace("LIMIT", limit), WORN, gauge=GAUGES)
    return by_place(bench, "clearance")["cylinder 1"]


@pytest.mark.parametrize(
    ("limit", "verdict", "reason"),
    [
        # 72.098 − 71.926 = 0.172, and 72.008 − 71.926 = 0.082.
        (
            "max 0.12 mm", "outside",
            "outside the wear limit: 0.172 mm (0.0068 in) at its greatest, at top across",
        ),
        (
            "min 0.10 mm", "outside",
            "outside the wear limit: 0.082 mm (0.0032 in) at its least, at low along",
        ),
        ("max 0.18 mm", "inside", "inside the wear limit"),
        ("0.07–0.18 mm", "inside", "inside the wear limit"),
        (
            "0.09–0.16 mm", "outside",
            "outside the wear limit: 0.082 mm (0.0032 in) at its least, at low along and 0.172 mm (0.0068 in) at its "
            "greatest, at top across",
        ),
    ],
)  # fmt: skip
def test_a_clearance_is_outside_where_it_is_greatest_or_least(limit: str, verdict: str, reason: str) -> None:
    found = clearance(limit)
    assert (found.verdict, found.reason) == (verdict, reason)


def test_only_the_gauges_leave_a_clearance_in_doubt() -> None:
    # 0.172 keeps 0.003 from 0.175: half of a guard band. The chance is Φ(0.003/0.00408) = Φ(0.735) = 77 %.
    found = clearance("max 0.175 mm")
    assert (found.verdict, found.reason) == (
        "in doubt",
        "0.172 mm (0.0068 in) at its greatest, at top across: the chance of being inside is 77 %: the gauges cannot tell",
    )


BLADES = """\
  outer: {name: Outer gap, part: block, method: gap, places: {cylinder: [1], side: [left, right]}, source: manual p. 5}
  inner: {name: Inner gap, part: block, method: gap, places: {cylinder: [1]}, source: manual p. 5}
  rest: {name: Rest, part: block, method: difference, of: [outer, inner], wear_limit: LIMIT, source: manual p. 5}
"""


@pytest.mark.parametrize(
    ("limit", "verdict"),
    # The rest is at its greatest between 0.20 − 0.06 = 0.14 and 0.30 − 0.05 = 0.25, at its least between
    # 0.10 − 0.06 = 0.04 and 0.15 − 0.05 = 0.10; what errs of two blades is less than 0.0067 mm.
    [
        ("max 0.13 mm", "outside"), ("max 0.20 mm", "in doubt"), ("max 0.26 mm", "inside"),
        ("min 0.11 mm", "outside"), ("min 0.07 mm", "in doubt"), ("min 0.03 mm", "inside"),
    ],
)  # fmt: skip
def test_of_blades_the_inner_ends_prove_outside(limit: str, verdict: str) -> None:
    read: Read = {
        ("outer", "cylinder 1, left"): ("0.10", "0.15"), ("outer", "cylinder 1, right"): ("0.20", "0.30"),
        ("inner", "cylinder 1"): ("0.05", "0.06"),
    }  # fmt: skip
    (found,) = rows_of(bench_with(BLADES.replace("LIMIT", limit), read), "rest")
    assert found.verdict == verdict


def test_what_is_added_to_a_clearance_that_differs_differs_as_well() -> None:
    # 0.172 + 0.03 = 0.202 at its greatest, 0.082 + 0.03 = 0.112 at its least.
    read: Read = {**WORN, ("rock", "cylinder 1"): "0.03"}
    rock = "  rock: {name: Rock, part: pistons, method: gap, places: {cylinder: [1]}, source: manual p. 6}\n"
    bench = bench_with(CLEARANCE.replace("LIMIT", "max 0.2 mm") + rock, read, gauge=GAUGES | {"rock": "dial"})
    sum_of = added([measured(bench, "clearance")["cylinder 1"], measured(bench, "rock")["cylinder 1"]])
    assert [round(one.value.low, 9) for one in sum_of.extremes] == [0.112, 0.202]
    assert [round(one.value.high, 9) for one in sum_of.extremes] == [0.112, 0.202]
    assert decide(sum_of, low=None, high=0.18).verdict == "outside"
    assert decide(sum_of, low=0.13, high=None).verdict == "outside"
    assert decide(sum_of, low=0.09, high=0.225).verdict == "inside"

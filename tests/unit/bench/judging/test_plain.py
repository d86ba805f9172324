"""A range, a most, a least; and what holds of every verdict."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from gudgeon.bench.judging.decision import Value, decide, inside_as_read
from tests.unit.bench.judging.judged import Read, bench_with, by_place

BORE = """\
  bore: {name: Bore, part: block, places: [a], new_range: 70.00–70.02 mm, wear_limit: max 70.10 mm, source: manual p. 6}
"""


@pytest.mark.parametrize(
    ("value", "verdict", "reason"),
    # HAND: the bore gauge errs by ± 0.005, 1.645 u = 0.0047 mm.
    [
        ("70.01", "inside", "inside the wear limit, as new"),
        ("70.016", "inside", "inside the wear limit, in doubt whether as new"),
        ("70.024", "inside", "inside the wear limit, in doubt whether as new"),
        ("70.025", "inside", "inside the wear limit, no longer as new"),
        ("70.05", "inside", "inside the wear limit, no longer as new"),
        ("70.098", "in doubt", "the chance of being inside is 76 %: the gauge cannot tell"),
        ("70.12", "outside", "outside the wear limit"),
    ],
)
def test_judged_by_the_wear_limit_and_said_whether_as_new(value: str, verdict: str, reason: str) -> None:
    # 0.002/0.00289 = 0.693, Φ = 0.756.
    row = by_place(bench_with(BORE, {("bore", "a"): value}, gauge="bore_gauge"), "bore")["a"]
    assert (row.verdict, row.reason) == (verdict, reason)
    assert (row.new_range, row.wear_limit, row.criterion) == (
        "70.00–70.02 mm",
        "max 70.10 mm",
        "at most 70.10 mm",
    )


def test_a_new_range_with_a_shape_is_said_beside_the_wear_limit() -> None:
    item = """\
  flat: {name: Head face, part: head, method: straightedge lines, places: [lengthwise a], wear_limit: max 0.10 mm,
    source: manual p. 4, limits: [{shape: by direction, overall: max 0.03 mm, stands_for: new range}]}
"""
    for high, told in (("0.02", "as new"), ("0.08", "in doubt whether it is as new")):
        row = by_place(bench_with(item, {("flat", "lengthwise a"): (None, high)}), "flat")["lengthwise a"]
        assert f"{told} (any line, at most 0.03 mm)" in row.notes
        assert row.new_range == "any line, at most 0.03 mm"
        assert row.verdict == "inside"


def test_the_new_range_is_said_by_one_rule_whether_plain_or_with_a_shape() -> None:
    """HAND: a blade of 0.03 that does not enter errs by ± 0.005: 0.03 is on the end of the range, 0.02 is 3.5 u below."""
    plain = """\
  flat: {name: Head face, part: head, method: straightedge lines, places: [a], new_range: max 0.03 mm,
    wear_limit: max 0.10 mm, source: manual p. 4}
"""
    for high, told in (
        ("0.02", "as new"),
        ("0.03", "in doubt whether as new"),
        ("0.08", "in doubt whether as new"),
    ):
        row = by_place(bench_with(plain, {("flat", "a"): (None, high)}), "flat")["a"]
        assert (row.verdict, row.reason) == ("inside", f"inside the wear limit, {told}")


def test_without_a_limit_the_new_range_takes_the_same_rule() -> None:
    item = "  bore: {name: Bore, part: block, places: [a, b, c, d], new_range: 70.00–70.02 mm, source: manual p. 6}\n"
    read: Read = {
        ("bore", place): text
        for place, text in zip("abcd", ("70.01", "70.016", "70.024", "70.025"), strict=True)
    }
    found = by_place(bench_with(item, read, gauge="bore_gauge"), "bore")
    assert [found[place].reason for place in "abcd"] == [
        "within the new range", *["in doubt whether it is within the new range"] * 2,
        "outside the new range: worn or changed",
    ]  # fmt: skip
    assert {one.verdict for one in found.values()} == {"no limit given"}


sizes = st.floats(-1, 1, allow_nan=False).map(lambda one: round(one, 6))
spreads = st.floats(0, 0.3).map(lambda one: round(one, 6))


@settings(max_examples=300, deadline=None)
@given(sizes, spreads, spreads, sizes, st.floats(0, 1) | st.none())
def test_what_is_proven_inside_is_inside_as_read(
    low: float, width: float, u: float, limit: float, span: float | None
) -> None:
    value = Value(low, low + width, u, True)
    lower, upper = limit, None if span is None else limit + span
    found = decide(value, low=lower, high=upper)
    if found.verdict == "inside":
        assert inside_as_read(value, low=lower, high=upper)
        assert decide(value, low=lower, high=upper, as_read=True).verdict == "inside"
    if found.verdict == "outside":
        assert not inside_as_read(value, low=lower, high=upper)


@settings(max_examples=300, deadline=None)
@given(sizes, spreads, sizes, st.floats(0, 0.5))
def test_a_gauge_that_errs_less_never_takes_a_proof_back(
    value: float, u: float, limit: float, share: float
) -> None:
    found = decide(Value(value, value, u, True), low=None, high=limit)
    better = decide(Value(value, value, u * share, True), low=None, high=limit)
    if found.verdict != "in doubt":
        assert better.verdict == found.verdict


@settings(max_examples=300, deadline=None)
@given(sizes, spreads, sizes, st.floats(0, 0.5))
def test_a_smaller_gap_is_never_worse(value: float, u: float, limit: float, less: float) -> None:
    rank = {"inside": 0, "in doubt": 1, "outside": 2}
    more = decide(Value(value, value, u, True), low=None, high=limit)
    fewer = decide(Value(value - less, value - less, u, True), low=None, high=limit)
    assert rank[fewer.verdict] <= rank[more.verdict]


@settings(max_examples=200, deadline=None)
@given(sizes, spreads, spreads, sizes)
def test_an_open_end_proves_no_more_than_a_closed_one(
    low: float, width: float, u: float, limit: float
) -> None:
    assume(width > 0)
    closed = decide(Value(low, low + width, u, True), low=None, high=limit)
    opened = decide(Value(low, math.inf, u, True), low=None, high=limit)
    assert opened.verdict in (closed.verdict, "in doubt")


def test_an_unknown_gauge_proves_outside_and_no_inside() -> None:
    value = Value(0.02, 0.02, 0.0, False)
    assert decide(value, low=None, high=0.05).verdict == "in doubt"
    assert decide(value, low=None, high=0.05, as_read=True).verdict == "inside"
    assert decide(value, low=None, high=0.01).verdict == "outside"


@pytest.mark.parametrize(
    ("low", "high", "verdict"),
    # HAND: a blade errs by ± 0.005, 1.645 u = 0.00475; two of them together, 1.645 · √2 u = 0.00672. The low end 0.20 is
    # one blade, the high end 0.25 is two (0.05 and 0.20). Between 0.195 and 0.30: one blade keeps 0.005, enough for it.
    # With the error of two blades at the low end (0.00408: 11 % below) it would be in doubt.
    [("0.195", "0.30", "inside"), ("0.196", "0.30", "in doubt"), ("0.195", "0.257", "in doubt"), ("0.15", "0.257", "inside")],
)  # fmt: skip
def test_each_end_is_judged_with_the_errors_of_its_own_blades(low: str, high: str, verdict: str) -> None:
    # Both ends near their limits at once: 0.195 leaves 4.2 % below, 0.257 leaves 4.3 % above, together more than 5 %.
    item = (
        f"  gap: {{name: Gap, part: ring, method: gap, wear_limit: {low}–{high} mm, source: manual p. 6}}\n"
    )
    found = by_place(bench_with(item, {("gap", ""): ("0.20", "0.25")}), "gap")
    assert found[""].verdict == verdict
    assert found[""].uncertainty.startswith("± 0.008 mm"), "twice √2 · 0.00289, of the less certain end"


def test_few_repeats_count_for_what_is_worked_out_too() -> None:
    """HAND: u of few degrees of freedom takes Student's factor: with 2 it is 2.92, not 1.645."""
    wide = Value(0.02, 0.05, 0.01, True, dof=2, u_ends=(0.01, 0.01))
    assert decide(wide, low=None, high=0.05 + 0.0165).verdict == "in doubt"
    assert decide(wide, low=None, high=0.05 + 0.0293).verdict == "inside"
    assert decide(replace(wide, dof=math.inf), low=None, high=0.05 + 0.0165).verdict == "inside"

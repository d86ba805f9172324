"""Which piston into which bore: every pair inside, and the one that is worst off with the most room.

Sizes are invented; verdicts are HAND. Bore gauge and micrometer err by ± 0.005 mm each and have nothing in common:
u = 0.00289 · √2 = 0.00408, 1.645 u = 0.0067 mm.
"""

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.calc.engine.assignment import widest_least as best
from tests.unit.bench.judging.judged import Read, bench_with, rows_of

FIT = """\
  bore: {name: Bore, part: block, places: {cylinder: [1, 2, 3]}, new_range: 70.00–70.06 mm, source: manual p. 5}
  piston: {name: Piston, part: pistons, places: {piston: [A, B, C]}, new_range: 69.94–70.00 mm, source: manual p. 5}
  clearance:
    name: Clearance
    part: pistons
    method: difference
    of: [bore, piston]
    source: manual p. 5
    limits: [{shape: matched pairs, clearance: 0.04–0.08 mm}]
"""


def pairs(bores: tuple[str, ...], pistons: tuple[str, ...]) -> list[tuple[str, str, tuple[str, ...]]]:
    read: Read = {("bore", f"cylinder {at}"): one for at, one in enumerate(bores, start=1)}
    read |= {("piston", f"piston {name}"): one for name, one in zip("ABC", pistons, strict=False)}
    found = rows_of(bench_with(FIT, read, gauge="caliper", kit=EXACT), "clearance")
    return [(row.place, row.reason, row.notes) for row in found]


EXACT = """\
gudgeon: kit 1
gauges: {caliper: {name: a very good caliper, kind: other, range: 0–150 mm, error: 0.001 mm}}
"""


def test_large_pistons_go_into_large_bores() -> None:
    # HAND: 70.00, 70.03, 70.06 less 69.94, 69.97, 70.00 in that order is 0.06 each, in the middle of 0.04 to 0.08.
    found = pairs(("70.06", "70.00", "70.03"), ("69.94", "69.97", "70.00"))
    assert [(place, reason.partition(":")[0]) for place, reason, _ in found] == [
        ("cylinder 1", "Piston of piston C into cylinder 1"),
        ("cylinder 2", "Piston of piston A into cylinder 2"),
        ("cylinder 3", "Piston of piston B into cylinder 3"),
    ]
    assert all(
        "inside the limit (matched, so that every pair has 0.04–0.08 mm)" in reason for _, reason, _ in found
    )
    # HAND, from the sheet alone: 70.00 − 70.00 = 0, 70.06 − 69.94 = 0.12 mm.
    assert any("the ranges of new parts alone give 0.00–0.12 mm" in note for note in found[0][2])


def test_a_part_that_breaks_it_is_named() -> None:
    # HAND: 69.80 leaves 0.20 mm at the least. 69.94 fits 70.00 only, with 0.06, and 69.97 fits 70.03 only.
    found = pairs(("70.06", "70.00", "70.03"), ("69.94", "69.97", "69.80"))
    said = "no assignment gives every pair its clearance: nothing fits cylinder 1; Piston of piston C fits nowhere"
    assert said in found[0][2]
    assert [("outside" in reason, reason.partition(":")[0]) for _, reason, _ in found] == [
        (True, "Piston of piston C into cylinder 1"),
        (False, "Piston of piston A into cylinder 2"),
        (False, "Piston of piston B into cylinder 3"),
    ]


def test_places_that_share_too_few_parts_are_named() -> None:
    # Two large bores and one large piston: 70.06 takes 69.98 to 70.02 only, and 69.94 fits 70.00 only.
    found = pairs(("70.06", "70.06", "70.00"), ("70.00", "69.94", "69.94"))
    assert any("only that of piston A fits cylinder 1, cylinder 2" in note for note in found[0][2])


def test_what_is_not_read_is_named() -> None:
    read: Read = {("bore", f"cylinder {at}"): "70.03" for at in (1, 2)}
    (row,) = rows_of(bench_with(FIT, read, gauge="bore_gauge"), "clearance")
    assert row.verdict == "not measured"
    assert row.reason == "no reading: Bore, cylinder 3 and Piston, piston A; piston B; piston C"


def test_a_doubtful_pair_says_what_to_measure_more_finely() -> None:
    read: Read = {("bore", f"cylinder {at}"): "70.06" for at in (1, 2, 3)}
    read |= {("piston", f"piston {name}"): "69.985" for name in "ABC"}
    gauges = {"bore": "bore_gauge", "piston": "micrometer"}
    row = rows_of(bench_with(FIT, read, gauge=gauges), "clearance")[0]
    assert row.verdict == "in doubt"
    said = (
        "measure both parts more finely: Bore and Piston, with gauges borrowed for it: yours do not decide it"
    )
    assert said in row.ways_out


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_the_assignment_is_the_best_of_all(data: st.DataObject) -> None:
    """Against every assignment there is (brute force)."""
    rows = data.draw(st.integers(1, 4))
    columns = data.draw(st.integers(rows, 5))
    margin = st.integers(-5, 5)
    margins = [[float(data.draw(margin)) for _ in range(columns)] for _ in range(rows)]
    allowed = [[data.draw(st.booleans()) for _ in range(columns)] for _ in range(rows)]
    every = [
        chosen
        for chosen in permutations(range(columns), rows)
        if all(allowed[row][column] for row, column in enumerate(chosen))
    ]

    def worth(chosen: tuple[int, ...]) -> tuple[float, float]:
        taken = [margins[row][column] for row, column in enumerate(chosen)]
        return min(taken), sum(taken)

    found = best(margins, allowed=allowed)
    if not every:
        assert found is None
        return
    assert found is not None
    assert found in every
    assert worth(found) == max(map(worth, every))


@pytest.mark.parametrize("count", [12])
def test_a_dozen_cylinders_are_assigned_at_once(count: int) -> None:
    margins = [[-abs(row - column) + 0.0 for column in range(count)] for row in range(count)]
    assert best(margins, allowed=[[True] * count] * count) == tuple(range(count))

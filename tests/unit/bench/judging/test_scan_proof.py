"""What the points of a scan prove, and what they do not: between them, and beside them, nobody has looked.

Figures are HAND. The dial errs by ± 0.01: u = 0.00577 of a point, at most √2 of it of the zone, 1.645 · 0.00816 = 0.0134.
The zone of a pure twist over a rectangle is its twist: two opposite corners are up, two are down.
"""

import pytest

from gudgeon.bench.judging.rows import Row
from gudgeon.bench.judging.spacing import largest_step
from tests.unit.bench.judging.judged import KIT, Scanned, bench_with, rows_of

FACE = """\
  flat: {name: Head face, part: head, method: scanned face, face: head, source: manual p. 4, limits: [LIMIT]}
"""
FACES = """\
faces:
  head:
    name: Head face
    source: manual p. 4
    outline: [{x: 0 mm, y: 0 mm}, {x: 230 mm, y: 0 mm}, {x: 230 mm, y: 230 mm}, {x: 0 mm, y: 230 mm}]
"""
Points = tuple[tuple[str, str, str], ...]
FINE = KIT.replace("range: 0–10 mm, error: 0.01 mm", "range: 0–10 mm, error: 0.001 mm")


def twisted(count: int, *, most: float = 0.08, share: float = 1.0) -> Points:
    """A square of 230 mm in equal steps, twisted so that its zone is `most`; `share` of it along x is scanned."""
    steps = [230.0 * at / (count - 1) for at in range(count)]
    half = most / 2
    return tuple(
        (f"{x}", f"{y}", f"{half * (2 * x / 230 - 1) * (2 * y / 230 - 1):.6f}")
        for x in steps if x <= share * 230 + 1e-9 for y in steps
    )  # fmt: skip


def judged(limit: str, points: Points) -> Row:
    face = FACE.replace("LIMIT", limit)
    (row,) = rows_of(bench_with(face, {}, faces=FACES, scan=Scanned("flat", points), kit=FINE), "flat")
    return row


PER = "{shape: per length, limit: max LIMIT mm, over: 150 mm}"


@pytest.mark.parametrize(
    ("most", "verdict"),
    # Ten by ten points, 230/9 = 25.56 mm apart. A square of 150 mm holds five steps, 127.8 mm. The zone of the twist
    # over a square of side a is 0.08 · (a/230)²: z is bilinear, and its corners differ by that from a plane:
    # 0.0247 at least. A square of 150 + 51.1 = 201.1 mm holds seven steps, 178.9 mm: 0.0484 at most.
    [("0.055", "inside"), ("0.040", "in doubt"), ("0.030", "in doubt"), ("0.020", "outside")],
)  # fmt: skip
def test_a_stretch_is_proven_inside_by_larger_squares_only(most: str, verdict: str) -> None:
    found = judged(PER.replace("LIMIT", most), twisted(10))
    assert (found.place, found.verdict) == ("any 150 mm", verdict)
    if verdict == "in doubt":
        assert found.reason == (
            "the points are 25.6 mm (1.006 in) apart: a stretch of 150 mm may reach further than those that lie in it"
        )
        # The smaller of 25.56/2 = 12.8 mm and a tenth of 150 mm.
        assert found.ways_out == (
            "scan in steps of at most 12.8 mm (0.503 in), or use a straightedge of 150 mm",
        )


def test_the_largest_step_is_that_of_the_wider_way_and_spans_no_opening() -> None:
    grid = [(float(x), float(y), 0.0) for x in range(0, 101, 10) for y in (0, 30, 60, 90, 120)]
    assert largest_step(grid) == 30.0
    holed = [one for one in grid if not (20 < one[0] < 80 and 30 < one[1] < 90)]
    assert largest_step(holed) == 30.0


@pytest.mark.parametrize(
    ("share", "limit", "verdict"),
    # Eleven points along x, 23 mm apart: up to 0.8 · 230 = 184 mm are scanned, or all of it. Their zone is at most 0.08.
    [("0.8", "0.20", "in doubt"), ("1.0", "0.20", "inside"), ("0.8", "0.02", "outside")],
)
def test_what_is_not_scanned_is_not_proven_inside(share: str, limit: str, verdict: str) -> None:
    found = judged(f"{{shape: whole face, limit: max {limit} mm}}", twisted(11, share=float(share)))
    assert found.verdict == verdict
    if verdict == "in doubt":
        assert (
            found.reason
            == "the points reach over only 184 of 230 mm along x: the rest of the face is not scanned"
        )
        assert found.way_out == "scan the whole face, up to its edges, or read the lines with a straightedge"


def test_four_points_prove_nothing_of_what_lies_between() -> None:
    found = judged("{shape: whole face, limit: max 0.2 mm}", twisted(2))
    assert (found.verdict, found.reason) == (
        "in doubt", "4 points are too few to say anything of what lies between them",
    )  # fmt: skip
    assert judged("{shape: whole face, limit: max 0.05 mm}", twisted(2)).verdict == "outside"

"""Points that cannot be those of their face are asked back: the slip is named where one alone would make them fit.

HAND: the outline is 180 mm by 240 mm, so its corners lie 300 mm apart; a scan over all of it reaches 240 mm along y.
"""

from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.face_file import take_face
from gudgeon.bench.measuring_errors import FaceTooLarge, FaceTooSmall, JudgedByPoints
from gudgeon.bench.record import Recorded
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

SHEET = SMALL.replace(
    "joints:\n",
    """\
  deck: {name: Deck, part: block, method: scanned face, face: deck, wear_limit: max 0.10 mm, source: manual p. 4}
faces:
  deck:
    name: Deck
    source: manual p. 4
    outline: [{x: 0 mm, y: 0 mm}, {x: 180 mm, y: 0 mm}, {x: 180 mm, y: 240 mm}, {x: 0 mm, y: 240 mm}]
joints:
""",
    1,
)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=SHEET)
    made.read_code()
    return made


def scan(job: Job, wide: float, long: float, *, unit: str = "mm", sure: bool = False) -> Recorded:
    file = job.book.parent / "deck.csv"
    file.write_text(f"x,y,z\n0,0,0.001\n{wide},0,0\n0,{long},0.0005\n{wide},{long},0\n", encoding="utf-8")
    bench = open_bench(job.book, now=job.now)
    try:
        return take_face(bench, "deck", file=file, unit=unit, instrument="", condition="as found", sure=sure)
    finally:
        bench.store.close()


@pytest.mark.parametrize(
    ("wide", "long", "unit", "reach", "hint"),
    [
        (2250, 3000, "mm", "3000.0 mm (118.110 in)", "Ten-fold too large: did a decimal point slip?"),
        (180, 240, "in", "6096.0 mm (240.000 in)", "25.4-fold too large: was it in mm, and not in inches?"),
        (180_000, 240_000, "mm", "240000.0 mm (9448.819 in)", "A thousand-fold too large: was it in µm?"),
        (400, 700, "mm", "700.0 mm (27.559 in)", "Is the unit right, and is it this face?"),
    ],
)
def test_points_beyond_the_face_are_asked_back(
    job: Job, wide: float, long: float, unit: str, reach: str, hint: str
) -> None:
    count = job.bench().state.count
    with pytest.raises(FaceTooLarge) as refused:
        scan(job, wide, long, unit=unit)
    assert str(refused.value) == (
        f"The points of Deck reach {reach} along x or y; by the sheet the face is 300 mm (11.811 in) across at the widest. "
        f"{hint} If they are this face, add --sure. Nothing was recorded."
    )
    assert job.bench().state.count == count
    assert scan(job, wide, long, unit=unit, sure=True).kind == "face-scanned"


@pytest.mark.parametrize(
    ("wide", "long", "reach", "hint"),
    [
        (7.1, 9.4, "9.4 mm (0.370 in)", "25.4-fold too small: was it in inches?"),
        (18, 24, "24.0 mm (0.945 in)", "A tenth of it: was it in cm, or did a decimal point slip?"),
    ],
)
def test_points_over_hardly_any_of_the_face_are_asked_back(
    job: Job, wide: float, long: float, reach: str, hint: str
) -> None:
    with pytest.raises(FaceTooSmall) as refused:
        scan(job, wide, long)
    assert str(refused.value) == (
        f"The points of Deck reach only {reach} along x and y; by the sheet the face is 300 mm (11.811 in) across at the "
        f"widest. {hint} If they are this face, add --sure. Nothing was recorded."
    )


@pytest.mark.parametrize(("wide", "long"), [(180, 240), (240, 180), (60, 80), (175, 302)])
def test_points_of_the_face_whichever_way_it_lay_are_taken(job: Job, wide: float, long: float) -> None:
    assert scan(job, wide, long).kind == "face-scanned"


def test_a_single_figure_for_a_scanned_face_is_refused_with_what_to_do(job: Job) -> None:
    count = job.bench().state.count
    with pytest.raises(JudgedByPoints) as refused:
        job.record("reading", item="deck", value="0.05 mm")
    assert str(refused.value) == (
        "Deck is judged by the points of the face, and by no single figure: a reading of it would never be judged. Take "
        "the points x, y, z over from a file: gudgeon measure deck --face FILE.csv (on its page: “The face was "
        "scanned”). Nothing was recorded."
    )
    assert job.bench().state.count == count

"""What a picture of a characteristic shows: what was read, where it was read, and nothing else."""

import math
from pathlib import Path

import pytest

from gudgeon.bench.pictures.bore import BorePicture, exaggeration
from gudgeon.bench.pictures.face import FacePicture
from gudgeon.bench.pictures.of import Picture, picture
from gudgeon.bench.pictures.relief import MOST_POINTS, level_step, levels, relief, thinned, um_both
from gudgeon.bench.pictures.spots import SpotPicture
from gudgeon.calc.metrology.contour import Corner
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

FACED = SMALL.replace(
    "    wear_limit: max 0.05 mm (0.002 in)\n    source: manual p. 4\n",
    """\
    wear_limit: max 0.05 mm (0.002 in)
    face: head
    source: manual p. 4
""",
).replace(
    "characteristics:\n",
    """\
faces:
  head:
    name: Head, lower face
    viewed_from: below, pad at the left
    source: manual p. 4
    bolts_of: head
    outline: [{x: 0 mm, y: 0 mm}, {x: 90 mm, y: 0 mm}, {x: 90 mm, y: 90 mm}, {x: 0 mm, y: 90 mm}]
    openings: [{name: chamber, x: 45 mm, y: 45 mm, diameter: 70 mm}]
    lines:
      along: {along: lengthwise, from: {x: 5 mm, y: 5 mm}, to: {x: 85 mm, y: 5 mm}}
      across: {along: crosswise}
characteristics:
  bore:
    name: Bore
    part: cylinder
    places: {cylinder: [1], height: [top, bottom], direction: [across, along]}
    new_range: 70.00–70.02 mm
    wear_limit: max 70.10 mm
    source: manual p. 3
  bore_taper:
    name: Bore taper
    part: cylinder
    method: taper
    of: [bore]
    wear_limit: max 0.05 mm
    source: manual p. 3
""",
).replace("    bolts: 4\n", """\
    bolts:
      1: {x: 5 mm, y: 85 mm}
      2: {x: 85 mm, y: 85 mm}
      3: {x: 5 mm, y: 5 mm}
      4: {x: 85 mm, y: 5 mm}
""")  # fmt: skip
"""The small engine with its head face drawn, and a bore."""


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=FACED)
    made.read_code()
    return made


def face(job: Job) -> FacePicture:
    found = picture(job.bench(), "head_face")
    assert isinstance(found, FacePicture)
    return found


def bores(job: Job, key: str = "bore") -> BorePicture:
    found: Picture = picture(job.bench(), key)
    assert isinstance(found, BorePicture)
    return found


def test_a_face_has_its_bolts_its_openings_and_each_line_with_what_was_read_there(job: Job) -> None:
    job.record(
        "reading", item="head_face", place="along", low="0.08 mm", high="0.09 mm", instrument="feelers"
    )
    found = face(job)
    assert found.outline[1] == (90.0, 0.0)
    assert [(one.name, one.diameter_mm) for one in found.openings] == [("chamber", 70.0)]
    assert [(one.name, one.x_mm, one.y_mm) for one in found.bolts][1] == ("2", 85.0, 85.0)
    along, across = found.lines
    assert (along.start, along.end, along.verdict) == ((5.0, 5.0), (85.0, 5.0), "outside")
    assert along.reading.startswith("0.08–0.09 mm")
    assert (across.start, across.reading, across.verdict) == (None, "", "not measured")
    assert found.words.startswith(
        "Head face, flatness: Head, lower face, seen from below, pad at the left. 2 lines: 1 outside, 1 not measured. "
        "1, along: 0.08–0.09 mm"
    )


def test_a_face_of_which_nothing_was_read_is_drawn_without_readings(job: Job) -> None:
    found = face(job)
    assert {one.verdict for one in found.lines} == {"not measured"}
    assert found.relief is None


def scan(job: Job, points: list[Corner], **more: str) -> None:
    said = {
        "unit": "mm",
        "instrument": "",
        "condition": "as found",
        "file": "head.csv",
        "sha": "0" * 64,
        **more,
    }
    job.record(
        "face-scanned", item="head_face", points=[[f"{one:g}" for one in point] for point in points], **said
    )


ROOF: list[Corner] = [
    (x, y, 0.02 * (1 - abs(x - 45) / 45)) for x in range(0, 91, 15) for y in range(0, 91, 15)
]
"""A ridge of 20 µm along the middle of the face."""


def test_a_scanned_face_is_drawn_over_the_planes_that_its_flatness_is_told_from(job: Job) -> None:
    scan(job, ROOF)
    found = face(job)
    assert found.relief is not None
    # HAND: a roof lies between two level planes 20 µm apart; its ridge 10 µm above the middle, its eaves 10 below
    assert math.isclose(found.relief.highest.height_mm, 0.010, abs_tol=1e-6)
    assert math.isclose(found.relief.lowest.height_mm, -0.010, abs_tol=1e-6)
    assert found.relief.highest.x_mm == 45
    assert found.relief.points == len(ROOF)
    # HAND: 10 µm over 25.4 mm to the inch, 0.000394 in
    assert found.words.endswith("from -10 µm (-0.00039 in) to +10 µm (+0.00039 in).")
    assert found.note == ""


def test_a_scan_from_another_zero_is_not_laid_over_the_outline(job: Job) -> None:
    scan(job, [(x + 500, y, z) for x, y, z in ROOF])
    found = face(job)
    assert found.relief is not None
    assert (found.outline, found.openings, found.bolts) == ((), (), ())
    assert found.note == (
        "Most of the points lie beside the outline that the sheet states: they are counted from another zero, so "
        "outline, openings and bolts are not drawn."
    )


def test_a_bore_is_drawn_height_by_height_from_the_readings(job: Job) -> None:
    for place, value in (("top, across", "70.06"), ("top, along", "70.04"), ("bottom, across", "70.01")):
        job.record("reading", item="bore", place=f"1, {place}", value=f"{value} mm", instrument="")
    found = bores(job)
    (bore,) = found.bores
    top, bottom = bore.sections
    assert [(one.direction, one.value_mm, one.angle_deg) for one in top.across] == [
        ("across", 70.06, 0.0), ("along", 70.04, 90.0),
    ]  # fmt: skip
    assert (bottom.missing, len(bottom.across)) == (("along",), 1)
    # HAND: the middle of 70.00 and 70.02
    assert math.isclose(found.nominal_mm, 70.01)
    assert found.limits_mm == (70.1,)
    # HAND: the limit lies 0.09 mm off; 0.3 × 70.01 / 0.09 = 233, so 200 times
    assert found.exaggerated == 200
    assert found.angles == "across is drawn from left to right, along up and down"


def test_what_is_known_between_two_ends_is_drawn_as_both_and_what_has_an_open_end_is_told(job: Job) -> None:
    job.record("reading", item="bore", place="1, top, across", low="70.02 mm", high="70.06 mm", sure=True)
    job.record("reading", item="bore", place="1, top, along", low="70.02 mm", high=None, sure=True)
    found = bores(job)
    (across,) = found.bores[0].sections[0].across
    assert across.ends_mm == (70.02, 70.06)
    assert found.bores[0].sections[0].missing == ("along",)
    assert [one.partition(":")[0] for one in found.not_drawn] == ["cylinder 1, top, along"]


def test_heights_are_spaced_as_the_sheet_states_them(tmp_path: Path) -> None:
    stated = FACED.replace(
        "    new_range: 70.00–70.02 mm\n",
        "    at_heights: {top: 80 mm, bottom: 1 in}\n    new_range: 70.00–70.02 mm\n",
    )
    made = make_job(tmp_path, sheet=stated)
    made.read_code()
    made.record("reading", item="bore", place="1, top, across", value="70.06 mm")
    sections = bores(made).bores[0].sections
    assert [(one.height, one.at_mm, one.at) for one in sections] == [
        ("bottom", 25.4, "1 in"), ("top", 80.0, "80 mm"),
    ]  # fmt: skip


def test_what_is_worked_out_from_a_bore_has_the_picture_of_the_bore(job: Job) -> None:
    job.record("reading", item="bore", place="1, top, across", value="70.06 mm")
    assert bores(job, "bore_taper") == bores(job)


def spots(job: Job, key: str) -> SpotPicture:
    found = picture(job.bench(), key)
    assert isinstance(found, SpotPicture)
    return found


def test_a_bore_without_a_reading_is_drawn_as_its_places(job: Job) -> None:
    (row,) = spots(job, "bore").rows
    assert row.name == "cylinder 1"
    assert [(one.label, one.reading, one.verdict) for one in row.spots] == [
        ("top, across", "", "not measured"),
        ("top, along", "", "not measured"),
        ("bottom, across", "", "not measured"),
        ("bottom, along", "", "not measured"),
    ]


def test_what_the_sheet_draws_no_face_for_is_drawn_as_its_places(job: Job) -> None:
    job.record("reading", item="journal", place="B", value="29.95 mm", instrument="micrometer")
    found = spots(job, "journal")
    (row,) = found.rows
    first, second = row.spots
    assert (first.label, first.reading, first.verdict) == ("A", "", "not measured")
    assert (second.label, second.verdict) == ("B", "no limit given")  # the sheet states a new range alone
    assert second.reading.startswith("29.95 mm")
    assert found.words.startswith(
        "Crank journal (1 not measured, 1 no limit given). A: no reading, not measured; B: 29.95 mm"
    )


def test_heights_are_told_from_the_plane_in_micrometers() -> None:
    # HAND: a plane that rises 1 mm in 100, and one point 20 µm above it. Square to the plane that is
    # 20 / √1.0001 = 19.999 µm.
    points: list[Corner] = [(x, y, 0.01 * x) for x in range(0, 60, 10) for y in range(0, 40, 10)]
    points[9] = (points[9][0], points[9][1], points[9][2] + 0.020)
    found = relief(points, plane=(0.01, 0.0, 0.0), plane_words="the plane")
    assert math.isclose(found.highest.height_mm, 0.020 / math.sqrt(1.0001))
    assert (found.highest.x_mm, found.highest.y_mm) == points[9][:2]
    assert math.isclose(found.lowest.height_mm, 0.0, abs_tol=1e-12)
    # HAND: 20 µm in at most eight steps of 1, 2, 5 …: 20 / 2 = 10 is too many, 20 / 5 = 4 is not
    assert [line.height for line in found.lines] == [5, 10, 15]


@pytest.mark.parametrize(
    ("range_um", "step"), [(0.4, 1), (8, 1), (9, 2), (16, 2), (17, 5), (41, 10), (100, 20)]
)
def test_steps_are_round(range_um: float, step: float) -> None:
    # HAND: the smallest of 1, 2, 5, 10, 20 … that goes into the range at most eight times
    assert math.isclose(level_step(range_um), step)


def test_levels_lie_between_the_ends() -> None:
    assert levels(-11, high=10, step=5) == [-10, -5, 0, 5]


def test_a_dense_scan_is_thinned_to_points_that_were_read() -> None:
    dense: list[Corner] = [(x, y, float((7 * x + 3 * y) % 11)) for x in range(100) for y in range(100)]
    dense[4321] = (*dense[4321][:2], 99.0)
    kept = thinned(dense)
    assert set(kept) <= set(dense)
    assert dense[4321] in kept, "the highest is always kept"
    assert MOST_POINTS / 4 < len(kept) < 2 * MOST_POINTS


def test_a_height_in_both_systems() -> None:
    # HAND: 25.4 µm are 0.001 in
    assert um_both(25.4, signed=True) == "+25 µm (+0.0010 in)"


@pytest.mark.parametrize(("most_mm", "times"), [(0.1, 200), (0.3, 50), (30.0, 1), (0.0, 1000)])
def test_differences_are_drawn_too_large_by_a_round_number(most_mm: float, times: int) -> None:
    # HAND: 0.3 × 80 / 0.1 = 240, / 0.3 = 80, / 30 = 0.8
    assert exaggeration(most_mm, nominal_mm=80.0) == times

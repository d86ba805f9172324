"""Tracing at the bench: what was pointed at in a photo, checked against a camera of its own; refusals in their words."""

from math import hypot
from pathlib import Path

import pytest
from PIL import Image

from gudgeon.bench.context import Bench, entries_of, open_bench
from gudgeon.bench.photos import Sent, record_photo
from gudgeon.bench.pin_errors import NoSuchPhoto
from gudgeon.bench.template.errors import (
    KnownPointsDisagree,
    KnownTooSmall,
    NothingTraced,
    OffThePhoto,
    PlaceTooLarge,
    PlaceUnreadable,
    SamePlace,
    SidesDisagree,
    TracedTooCoarsely,
)
from gudgeon.bench.template.positions import as_file, read_positions
from gudgeon.bench.template.tracing import (
    PhotoSize,
    TraceAnswer,
    TraceSaid,
    known_said,
    photo_of,
    places_said,
    traced,
)
from gudgeon.calc.errors import NotPositive
from gudgeon.calc.template.homography import Known
from gudgeon.sheet.load import parse_sheet
from gudgeon.written.errors import FileMissing
from tests.pinhole import SHEET, Camera
from tests.unit.book.photos import saved
from tests.unit.paper import cards

HOLES = {"1": (40.0, 240.0), "2": (170.0, 240.0), "3": (150.0, 60.0), "4": (50.0, 50.0)}
CAMERA = Camera()
PHOTO = PhotoSize("cover.jpg", *CAMERA.size)
LAST = (
    "Only what lies in the plane of the known points is traced true: point at the holes of the bare face, not at the "
    "heads of bolts, which stand above it and seem to lie farther from the camera's middle."
)


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return cards.job(tmp_path_factory.mktemp("traced")).bench()


def said(camera: Camera = CAMERA, *, moved_mm: float = 0.0, **more: float) -> TraceSaid:
    known = [Known(str(at), camera.sees(one), one) for at, one in enumerate(SHEET, 1)]
    if moved_mm:
        known += [Known("5", camera.sees((105, 0)), (105, moved_mm))]
    places = {name: camera.sees(spot) for name, spot in HOLES.items()}
    return TraceSaid("many", known, places, **{"pick_px": 1.5, **more})  # type: ignore[arg-type]


def test_a_photo_at_a_slant_gives_the_places_back(bench: Bench) -> None:
    found = traced(bench, PHOTO, said())
    for one in found.places:
        true = HOLES[one.name]
        assert hypot(one.x_mm - true[0], one.y_mm - true[1]) < 1e-6
        assert 0.3 < one.off_mm < 1.0
    assert found.remarks == (LAST,)
    assert found.viewed_from == "above, timing end at the left"


def test_what_the_file_says_goes_into_the_template_and_into_the_sheet(bench: Bench, tmp_path: Path) -> None:
    file = tmp_path / "positions.yaml"
    text = as_file(traced(bench, PHOTO, said()))
    file.write_text(text, encoding="utf-8")
    read = read_positions(file)
    assert {name: (round(x, 1), round(y, 1)) for name, (x, y) in read.places.items()} == HOLES
    assert (read.joint, read.viewed_from, read.said_from) == (
        "many",
        "above, timing end at the left",
        "cover.jpg",
    )
    # Under the joint of a data sheet the lines of the bolts stand as they are.
    bolts = "".join(f"  {line}\n" for line in text.splitlines() if line.startswith(("bolts:", "  ")))
    sheet = cards.sheet()
    begin = sheet.index("    bolts:\n      1:")
    end = sheet.index("    fastener:", begin)
    pasted = parse_sheet(sheet[:begin] + bolts.replace("  bolts:", "    bolts:").replace("\n    ", "\n      ")
                         + sheet[end:], file="sheet.yaml").sheet  # fmt: skip
    assert pasted.joints["many"].bolt("2").x is not None


def test_coarse_pointing_is_said_and_then_refused(bench: Bench) -> None:
    found = traced(bench, PHOTO, said(pick_px=4.0))
    assert found.remarks[0].startswith(
        "Too coarse for a bolt to find its hole, off by more than 1 mm: all of them (up to ± 1."
    )
    with pytest.raises(TracedTooCoarsely) as refused:
        traced(bench, PHOTO, said(pick_px=20.0))
    assert str(refused.value).startswith("Place ")
    assert str(refused.value).endswith(
        " mm; above 3 mm no template is made of it (common practice, no source). Take the photo from nearer and straight "
        "from above, with the known points around the part, and point more exactly."
    )


def test_known_points_that_contradict_each_other(bench: Bench) -> None:
    found = traced(bench, PHOTO, said(moved_mm=3.5))
    assert found.residual_mm > 1
    assert found.remarks[0] == (
        f"The known points contradict each other by {found.residual_mm:.1f} mm: measure them again, or point at them "
        "again."
    )
    with pytest.raises(KnownPointsDisagree) as refused:
        traced(bench, PHOTO, said(moved_mm=12.0))
    assert str(refused.value).endswith(
        " mm; above 3 mm nothing is traced from them (common practice, no source). Measure them again, and point at them "
        "again."
    )


def test_what_was_not_pointed_at_is_named(bench: Bench) -> None:
    whole = said()
    part = TraceSaid("many", whole.known, {"1": whole.places["1"]})
    assert traced(bench, PHOTO, part).remarks == ("Not pointed at yet: 2, 3, 4.", LAST)
    with pytest.raises(NothingTraced) as refused:
        traced(bench, PHOTO, TraceSaid("many", whole.known, {}))
    assert str(refused.value) == (
        "No place was pointed at in the photo. Point at the middle of every hole, by its number in the data sheet: `1`, "
        "`2`, `3`, `4`."
    )


def test_a_pixel_beside_the_photo_is_refused(bench: Bench) -> None:
    with pytest.raises(OffThePhoto) as refused:
        traced(bench, PhotoSize("small.jpg", 1200, 900), said())
    assert str(refused.value) == (
        "Known point 1 lies at {:g},{:g}, and the photo has 1200 × 900 pixels. Count from its upper left corner, to the "
        "right and down, in the photo as it stands upright.".format(*CAMERA.sees(SHEET[0]))
    )


def test_what_is_typed() -> None:
    first, second = known_said(["120,340=0,0", "900, 341.5=8.5,-1"], unit="in")
    assert first == Known("1", (120, 340), (0, 0))
    assert second.photo_px == (900.0, 341.5)
    assert second.true_mm == pytest.approx((215.9, -25.4))
    assert places_said(["1=640,480", "I1a=5,6"]) == {"1": (640, 480), "I1a": (5, 6)}
    with pytest.raises(PlaceUnreadable) as refused:
        known_said(["120,340"])
    assert str(refused.value) == "`120,340` is no place. Write it like 120,340=0,0."
    with pytest.raises(PlaceUnreadable) as refused:
        places_said(["640,480"])
    assert str(refused.value) == "`640,480` is no place. Write it like 1=640,480."
    with pytest.raises(PlaceTooLarge) as too_large:
        known_said(["2010,1390=1500000,0"])
    assert str(too_large.value).startswith(
        "`2010,1390=1500000,0` is too large: no number of a place may be above 100,000"
    )


def test_a_photo_is_a_file_or_one_of_the_book(tmp_path: Path) -> None:
    file = tmp_path / "cover.png"
    file.write_bytes(saved(Image.new("RGB", (40, 30)), "PNG"))
    job = cards.job(tmp_path)
    bench = open_bench(job.book, now=job.now)
    try:
        record_photo(bench, Sent("cover.png", file.read_bytes()), caption="bare face")
    finally:
        bench.store.close()
    bench = open_bench(job.book, now=job.now)
    try:
        photo = bench.state.photos[-1]
        number = next(one.number for one in entries_of(bench) if one.id == photo.entry)
        kept = PhotoSize("“bare face”", 40, 30, photo.sha)
        assert photo_of(bench, str(file)) == PhotoSize("cover.png", 40, 30)
        assert photo_of(bench, str(number)) == photo_of(bench, photo.sha[:8]) == kept
        with pytest.raises(FileMissing):
            photo_of(bench, str(tmp_path / "none.png"))
        for none in ("0123abcd", "999"):
            with pytest.raises(NoSuchPhoto):
                photo_of(bench, none)
    finally:
        bench.store.close()


def test_sides_that_were_exchanged_are_refused_and_a_turn_is_told(bench: Bench) -> None:
    right = said()
    sides = ((0.0, 0.0), (297.0, 0.0), (297.0, 210.0), (0.0, 210.0))
    for true in (sides, (*SHEET[1:], SHEET[0])):
        known = [Known(one.name, one.photo_px, spot) for one, spot in zip(right.known, true, strict=True)]
        with pytest.raises(SidesDisagree) as refused:
            traced(bench, PHOTO, TraceSaid("many", known, right.places))
        assert "Look whether both sides were exchanged" in str(refused.value)
    # Both begun one corner late and with the sides to match: true, but lying.
    turned = [
        Known(one.name, one.photo_px, spot)
        for one, spot in zip(right.known, (*sides[1:], sides[0]), strict=True)
    ]
    found = traced(bench, PHOTO, TraceSaid("many", turned, right.places, pick_px=1.5))
    assert found.remarks[0].startswith("The known points lie turned by 97° in the photo")  # HAND: 90° + 7°


def test_the_worst_place_is_told(bench: Bench) -> None:
    found: TraceAnswer = traced(bench, PHOTO, said())
    assert found.worst_mm == max(one.off_mm for one in found.places)
    assert f"off_by: {found.worst_mm:.1f} mm\n" in as_file(found)


@pytest.mark.parametrize(
    ("share", "read"),
    [((0.001, 0.001), "0.21 × 0.297"), ((0.09, 1), "18.9 × 297")],
    ids=["meters", "a strip"],
)
def test_known_points_that_reach_nowhere_are_refused(
    bench: Bench, share: tuple[float, float], read: str
) -> None:
    """A sheet of 210 × 297 mm, typed as 0.210 × 0.297, and the edge of a ruler."""
    right = said()
    known = [
        Known(one.name, one.photo_px, (one.true_mm[0] * share[0], one.true_mm[1] * share[1]))
        for one in right.known
    ]
    with pytest.raises(KnownTooSmall) as refused:
        traced(bench, PHOTO, TraceSaid("many", known, right.places, pick_px=1.5))
    assert str(refused.value) == (
        f"The known points were read as {read} mm from side to side; below 20 mm nothing is traced from them (common "
        "practice, no source). Look whether they were measured in another unit: 0.21 m is 210 mm. Else take a larger "
        "rectangle, around the part."
    )


def test_two_numbers_at_one_pixel_are_refused(bench: Bench) -> None:
    right = said()
    with pytest.raises(SamePlace) as refused:
        traced(
            bench,
            PHOTO,
            TraceSaid("many", right.known, {**right.places, "2": right.places["1"]}, pick_px=1.5),
        )
    assert str(refused.value).startswith(
        "1 and 2 stand 0.0 mm apart, and no two fasteners stand closer than 3 mm"
    )


@pytest.mark.parametrize("pick", [0.0, -3.0])
def test_nobody_points_exactly(bench: Bench, pick: float) -> None:
    with pytest.raises(NotPositive):
        traced(bench, PHOTO, said(pick_px=pick))

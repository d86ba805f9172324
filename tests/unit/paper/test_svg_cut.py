"""What a cut does as a drawing: well-formed, legible on a phone, true to the answer."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.cut.errors import MoreThanTheHead
from gudgeon.bench.pictures.cut import CutPicture, cut_picture
from gudgeon.paper.svg import SIZE, WIDTH
from gudgeon.paper.svg_cut import cut_svg
from tests.unit.bench.benches import Job
from tests.unit.bench.shop.heads import SHEET, head_job, heights
from tests.unit.bench.stories import invented

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return invented(tmp_path)


@pytest.fixture
def picture(job: Job) -> CutPicture:
    return cut_picture(job.bench(), off="0.14 mm")


def test_every_consequence_has_a_band_with_its_limit(job: Job, picture: CutPicture) -> None:
    # No height was read: no band for it.
    assert [one.name for one in picture.bands] == [
        "Compression ratio", "Squish", "Intake valve to piston", "Exhaust valve to piston", "Free below the head bolts",
    ]  # fmt: skip
    answer = consequences(job.bench(), off="0.14 mm", gasket="standard")
    limits = {one.what: one.surely_mm for one in answer.most.limits}
    for band in picture.bands:
        assert band.crossed_mm == limits[band.name[0].lower() + band.name[1:]]
        cuts = [cut for cut, _, _ in band.points]
        assert cuts == sorted(cuts)
        assert cuts[0] == 0.0
        assert cuts[-1] == pytest.approx(picture.reach_mm)
    squish = picture.bands[1]
    # 0.90 + 0.05 + 0.20 mm uncut, 0.95 mm with a flush pad (HAND).
    assert squish.points[0][1] == pytest.approx(1.15)
    assert squish.points[-1][1] == pytest.approx(0.95)
    assert (squish.limit, squish.crossed_words) == (0.90, "any cut keeps it")
    assert picture.gasket_binds


def test_it_reaches_somewhat_past_the_last_limit_that_is_near(picture: CutPicture) -> None:
    met = [one.crossed_mm for one in picture.bands if one.crossed_mm is not None]
    near = [cut for cut in met if cut < 1.0]
    assert picture.reach_mm == pytest.approx(1.15 * max(near))
    assert picture.bands[-1].crossed_words.endswith("beyond this picture")


def test_least_most_and_the_cut_are_drawn_with_words(picture: CutPicture) -> None:
    assert [(one.kind, one.words) for one in picture.uprights] == [
        ("most", "the most that may surely come off: 0.15 mm (0.0059 in), the gasket binds"),
        ("asked", "asked about: 0.14 mm (0.0055 in)"),
    ]


def test_the_drawing_is_well_formed_and_legible_on_a_phone(picture: CutPicture) -> None:
    root = ElementTree.fromstring(cut_svg(picture))
    width, height = (float(one) for one in root.attrib["viewBox"].split()[2:])
    assert width == WIDTH
    texts = list(root.iter(f"{SVG}text"))
    said = [one.text or "" for one in texts]
    for band in picture.bands:
        assert any(one.startswith(band.name) for one in said)
        assert set(band.ends) <= set(said)
    assert "Taken off, mm" in said
    assert "in" in said
    for one in texts:
        assert float(one.attrib["font-size"]) >= SIZE
        assert 0 <= float(one.attrib["x"]) <= WIDTH
        assert 0 <= float(one.attrib["y"]) <= height
    for drawn in root.iter(f"{SVG}path"):
        for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", drawn.attrib["d"]):
            assert -1 <= float(x) <= WIDTH + 1
            assert -1 <= float(y) <= height + 1


def test_no_picture_is_drawn_of_a_cut_that_no_head_has_room_for(job: Job) -> None:
    # HAND: 15 / 25.4 = 0.5906, 0.30 / 25.4 = 0.0118.
    with pytest.raises(MoreThanTheHead) as refused:
        cut_picture(job.bench(), off="15 mm")
    assert refused.value.message == (
        "15.00 mm (0.5906 in) cannot come off: at most 0.30 mm (0.0118 in) may come off in all (bulletin p. 4). Ask "
        "about less, and check the unit."
    )


def test_a_gasket_that_the_sheet_does_not_state_is_not_named(tmp_path: Path) -> None:
    line = "  gasket_thickness: 1.000 mm\n"
    assert line in SHEET
    job = head_job(tmp_path, sheet=SHEET.replace(line, ""))
    heights(job, *["100.000"] * 4)
    assert cut_picture(job.bench()).under == "Cuts are counted from the head as found."

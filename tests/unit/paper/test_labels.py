"""Labels on the sheet: to a twentieth of a millimeter where they belong, codes that are read back, words that stay in."""

import re
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.labels.ask import Labels, LabelsSaid, labels
from gudgeon.bench.labels.sheets import COMMON, SheetSaid
from gudgeon.cli.main import main
from gudgeon.paper.code_squares import QUIET
from gudgeon.paper.labels import labels_data, labels_pdf, too_small_for_a_picture
from tests.unit.paper.cards import NASTY
from tests.unit.paper.code_reading import read, squares
from tests.unit.paper.reading import pages, program, squashed

DPI = 600
MM = 25.4 / DPI
TOLERANCE_MM = 0.05
BOX = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>')


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    bench = open_bench(folder / "book.gudgeon")
    yield bench
    bench.store.close()


def seen(pdf: bytes, page: int = 1) -> NDArray[np.uint8]:
    """A page as a printer sees it, 600 points to the inch."""
    command = [
        program("pdftoppm"),
        "-gray",
        "-r",
        str(DPI),
        "-f",
        str(page),
        "-l",
        str(page),
        "-singlefile",
        "-",
    ]
    done = subprocess.run(command, input=pdf, capture_output=True, check=True)
    head, _, pixels = done.stdout.partition(b"\n255\n")
    wide, high = (int(figure) for figure in head.split()[1:3])
    return np.frombuffer(pixels, np.uint8).reshape(high, wide)


def lines(ink: NDArray[np.float64]) -> list[float]:
    """Where lines stand across a band, in mm: the middle of each run of ink."""
    found, run = [], list[int]()
    for at in [*np.flatnonzero(ink > 0.2).tolist(), 10**9]:
        if run and at > run[-1] + 2:
            found.append(float(np.average(np.array(run) + 0.5, weights=ink[run])) * MM)
            run = []
        run.append(at)
    return found


def band(
    page: NDArray[np.uint8], *, rows: tuple[float, float], columns: tuple[float, float]
) -> NDArray[np.float64]:
    (top, bottom), (left, right) = ([round(end / MM) for end in one] for one in (rows, columns))
    return 1.0 - page[top:bottom, left:right] / 255.0


def test_labels_stand_where_the_sheet_has_them(demo: Bench) -> None:
    """HAND: 3 × 63.5 and 2 × 2.5 leave 14.5 of 210 mm, 7.25 at each side; 8 × 33.9 leave 25.8 of 297, 12.9 at each."""
    answer = labels(demo, LabelsSaid(outlines=True, start="1,2", sheet=SheetSaid("a4-3x8-63.5x33.9")))
    page = seen(labels_pdf(answer))
    assert page.shape[1] * MM == pytest.approx(210, abs=0.1) and page.shape[0] * MM == pytest.approx(
        297, abs=0.1
    )
    across = lines(band(page, rows=(47.1, 48.0), columns=(0, 210)).mean(axis=0))
    assert across == pytest.approx([7.25, 70.75, 73.25, 136.75, 139.25, 202.75], abs=TOLERANCE_MM)
    down = lines(band(page, rows=(12, 286), columns=(135.4, 136.4)).mean(axis=1))
    assert [12 + at for at in down] == pytest.approx(
        [12.9 + 33.9 * row for row in range(9)], abs=TOLERANCE_MM
    )
    first = band(page, rows=(13.2, 46.0), columns=(7.6, 70.4))
    assert first.max() == 0.0, "nothing is printed on the label that is gone"


def test_the_line_in_the_margin_is_100_mm_long(demo: Bench) -> None:
    page = seen(labels_pdf(labels(demo, LabelsSaid(kinds=("strap",)))))
    (top, bottom), (left, right) = (12.9 - 2.2 - 0.9, 12.9 - 2.2 - 0.3), (40.0, 156.0)
    ends = lines(band(page, rows=(top, bottom), columns=(left, right)).mean(axis=0))
    assert len(ends) == 2 and ends[1] - ends[0] == pytest.approx(100, abs=TOLERANCE_MM)


def codes_on(answer: Labels, pdf: bytes) -> list[tuple[str, str]]:
    """Each picture of a code on the sheets, read off the page, beside the signs that it should hold."""
    found = []
    data = labels_data(answer)
    for number, sheet in enumerate(data["pages"], start=1):
        page = seen(pdf, number)
        for label in sheet["labels"]:
            for half in label["halves"]:
                (x, y, *_), (hx, hy, hw, hh), (px, py, side, _) = label["box"], half["box"], half["picture"]
                turned = half["turn"] == 180
                left = x + hx + (hw - px - side if turned else px)
                top = y + hy + (hh - py - side if turned else py)
                across, down = (slice(round(at / MM), round((at + side) / MM)) for at in (left, top))
                picture = page[down, across]
                text, level = read(squares(picture[::-1, ::-1] if turned else picture, quiet=QUIET))
                assert level == "Q" and side / 29 >= 0.4
                found.append((text, f"GUDGEON {label['signs'].replace(' ', '')}"))
    return found


@pytest.mark.parametrize(
    ("said", "times"),
    [
        (LabelsSaid(kinds=("hose", "strap")), 1),
        (LabelsSaid(kinds=("hose",), sheet=SheetSaid("letter-4x20-1.75x0.5in")), 1),
        (LabelsSaid(kinds=("hose",), wire="6 mm"), 2),
        (
            LabelsSaid(
                kinds=("strap",), wire="4 mm", sheet=SheetSaid(rows="3", columns="5", label="35x80 mm")
            ),
            2,
        ),
    ],
    ids=["usual", "smallest", "flags", "flags that hang"],
)
def test_codes_are_read_back_off_the_page(demo: Bench, said: LabelsSaid, times: int) -> None:
    answer = labels(demo, said)
    found = codes_on(answer, labels_pdf(answer))
    assert len(found) == times * len(answer.labels)
    assert [read_back for read_back, _ in found] == [meant for _, meant in found]
    assert {meant.split()[1] for _, meant in found} == {one.code for one in answer.labels}


@pytest.mark.parametrize("wire", ["", "6 mm"])
def test_nothing_stands_where_printers_leave_white(demo: Bench, wire: str) -> None:
    """COMMON PRACTICE, no source: a printer leaves 4.2 mm white around. HAND: 3 × 70 mm leave no margin on A4."""
    answer = labels(demo, LabelsSaid(wire=wire, sheet=SheetSaid("a4-3x8-70x37")))
    pdf = labels_pdf(answer)
    dark = np.argwhere(seen(pdf) < 128) * MM
    (top, left), (bottom, right) = dark.min(axis=0), dark.max(axis=0)
    assert left >= 4.2 - 0.1 and right <= 210 - 4.2 + 0.1
    # The dashed lines of a flag run from edge to edge; what a printer leaves out of them is not missed.
    assert wire or (top >= 4.2 - 0.1 and bottom <= 297 - 4.2 + 0.1)
    found = codes_on(answer, pdf)
    assert found and [text for text, _ in found] == [meant for _, meant in found]


def test_where_a_picture_would_be_too_fine_the_signs_stand_alone(demo: Bench) -> None:
    answer = labels(demo, LabelsSaid(kinds=("hose",), sheet=SheetSaid(rows="20", columns="5", label="38x10")))
    # HAND: 29 squares to a side of 0.4 mm are 11.6 mm.
    assert too_small_for_a_picture(answer).startswith(
        "These labels have no room for the code as a picture that a phone reads (that takes 12 mm to a side, common "
        "practice, no source). Its six signs stand on them, to be typed. With these sheets it is kept: A4, 3 × 8, "
    )
    assert too_small_for_a_picture(labels(demo)) == ""
    said = squashed(pages(labels_pdf(answer))[0])
    assert all(one.code in said for one in answer.labels)


def test_flags_without_their_picture_name_the_sheets_that_keep_it(demo: Bench) -> None:
    """HAND: 5 mm take a strip of 17.7 mm; half of 66.7 − 17.7 is 24.5, of which 0.45 are 11.0 mm; of 101.6 it is 18.9."""
    flags = {
        one.key: labels(demo, LabelsSaid(wire="5 mm", sheet=SheetSaid(one.key)))
        for one in (*COMMON[:4], *COMMON[5:8])
    }
    said = too_small_for_a_picture(flags["letter-3x10-2.625x1in"])
    assert said.startswith("These flags round a wire of 5 mm have no room for the code as a picture")
    assert said.endswith("With these sheets it is kept: Letter, 2 × 5, 4 × 2 in.")
    for key, answer in flags.items():
        kept = all(
            half["picture"]
            for page in labels_data(answer)["pages"]
            for one in page["labels"]
            for half in one["halves"]
        )
        assert (too_small_for_a_picture(answer) == "") == kept, key


def test_a_word_is_set_smaller_before_it_is_broken_and_a_date_stays_whole(demo: Bench) -> None:
    answer = labels(demo, LabelsSaid(kinds=("hose",), wire="5 mm", sheet=SheetSaid("letter-3x10-2.625x1in")))
    long = replace(answer.labels[0], what="Coolant temperature sensor", number="7", since="Oct 28")
    shown = pages(labels_pdf(replace(answer, labels=(long,), places=answer.places[:1])))[0]
    assert shown.count("temperature") == 2  # once on each half
    other = replace(long, what="Hose", number="", where="")
    flat = labels(demo, LabelsSaid(sheet=SheetSaid(rows="5", columns="4", label="40x30 mm")))
    shown = pages(labels_pdf(replace(flat, labels=(other,), places=flat.places[:1])))[0]
    assert "\nOct 28\n" in shown.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("sheet", "wire", "name"),
    [
        ("a4-5x13-38.1x21.2", "", "x" * 300),
        ("letter-4x20-1.75x0.5in", "", "long words of a name " * 14),
        ("letter-4x20-1.75x0.5in", "3 mm", "x" * 300),
        ("a4-2x7-99.1x38.1", "8 mm", "long words of a name " * 14),
        ("a4-3x8-63.5x33.9", "", NASTY),
    ],
)
def test_no_word_leaves_its_label(demo: Bench, tmp_path: Path, sheet: str, wire: str, name: str) -> None:
    answer = labels(demo, LabelsSaid(kinds=("hose",), wire=wire, sheet=SheetSaid(sheet)))
    long = tuple(replace(one, what=name, where=name, number=name[:60]) for one in answer.labels[:3])
    answer = replace(answer, labels=long, places=answer.places[:3])
    file = tmp_path / "labels.pdf"
    file.write_bytes(labels_pdf(answer))
    done = subprocess.run(
        [program("pdftotext"), "-bbox", str(file), "-"], capture_output=True, check=True, text=True
    )
    data = labels_data(answer)
    boxes, signs = [], 0
    for label in data["pages"][0]["labels"]:
        for half in label["halves"]:
            for part in ("words", "signs"):
                left, top = (label["box"][k] + half["box"][k] + half[part][k] for k in (0, 1))
                boxes.append((left, top, left + half[part][2], top + half[part][3]))
    lowest = max(bottom for *_, bottom in boxes) + 1
    for found in BOX.findall(done.stdout):
        left, top, right, bottom = (float(figure) * 25.4 / 72 for figure in found[:4])
        if bottom < min(box[1] for box in boxes) or top > lowest:
            continue  # the line and the note in the margins
        # The box of a word is that of its font, taller than its letters: its middle counts upward.
        middle = (top + bottom) / 2
        assert any(
            box[0] - 0.1 <= left and right <= box[2] + 0.1 and box[1] <= middle <= box[3] for box in boxes
        ), found
        signs += 1
    assert signs >= 6
    assert "…" in done.stdout or name == NASTY


@pytest.mark.parametrize("sheet", ["a4-3x8-63.5x33.9", "a4-3x8-70x37", "letter-4x20-1.75x0.5in"])
def test_every_page_names_its_book(demo: Bench, sheet: str) -> None:
    answer = labels(demo, LabelsSaid(sheet=SheetSaid(sheet)))
    found = pages(labels_pdf(answer))
    assert len(found) == answer.sheets
    heading = answer.heading
    for number, page in enumerate(found, start=1):
        said = squashed(page)
        for words in (
            heading.engine, heading.build, heading.notice, heading.head[:12], f"page {number} of {len(found)}",
            "print at full size (100 %)", "Labels",
        ):  # fmt: skip
            assert squashed(words) in said, words


def test_a_narrow_margin_at_the_side_holds_the_note(demo: Bench) -> None:
    sheet = SheetSaid(rows="8", columns="3", label="65 x 37 mm", margins="3 x 0.5 mm", gaps="0x0 mm")
    answer = labels(demo, LabelsSaid(kinds=("hose",), sheet=sheet))
    (page,) = labels_data(answer)["pages"]
    assert page["turned"] and page["note"][0] >= 3 + 3 * 65 and page["note"][0] + page["note"][2] <= 210
    assert squashed(answer.heading.head[:12]) in squashed("".join(pages(labels_pdf(answer))))


def test_the_file_asks_not_to_be_scaled(demo: Bench) -> None:
    """MEMORY: ISO 32000-1, table 150: the print dialog begins without scaling."""
    made = labels_pdf(labels(demo, LabelsSaid(kinds=("strap",))))
    assert re.search(rb"/ViewerPreferences\s*<<[^>]*/PrintScaling\s*/None", made)


def test_one_answer_gives_the_same_bytes(demo: Bench) -> None:
    answer = labels(demo, LabelsSaid(kinds=("strap",)))
    assert labels_pdf(answer) == labels_pdf(answer)

"""The wish not to be scaled: read back by a reader of its own, and the file is whole for other programs."""

import re
import subprocess
from pathlib import Path

import pytest

from gudgeon.paper.card import card_pdf
from gudgeon.paper.unscaled import NotExtendable, unscaled
from tests.unit.paper import cards
from tests.unit.paper.reading import pages, program


@pytest.fixture(scope="module")
def card(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    return card_pdf(cards.card_of(tmp_path_factory.mktemp("card")), size="a4")


def catalog_of(pdf: bytes) -> bytes:
    """The catalog as a reader finds it: from the last startxref to the table, from the table to the object."""
    start = int(re.findall(rb"startxref\s+(\d+)", pdf)[-1])
    places: dict[int, int] = {}
    root = 0
    while True:
        table, _, trailer = pdf[start:].partition(b"trailer")
        assert table.startswith(b"xref\n")
        lines = table.split(b"\n")[1:]
        while lines and lines[0].strip():
            first, count = map(int, lines.pop(0).split())
            for number in range(first, first + count):
                entry = lines.pop(0)
                if entry.split()[2] == b"n":
                    places.setdefault(number, int(entry[:10]))  # what was written last counts
        head = trailer[: trailer.index(b"startxref")]
        root = root or int(re.search(rb"/Root (\d+) 0 R", head)[1])  # type: ignore[index]
        before = re.search(rb"/Prev (\d+)", head)
        if before is None:
            break
        start = int(before[1])
    found = pdf[places[root] :]
    assert found.startswith(b"%d 0 obj" % root)
    return found[: found.index(b"endobj")]


def test_the_wish_stands_in_the_catalog(card: bytes) -> None:
    """PRINTED: ISO 32000-1:2008, table 150: PrintScaling None, in the viewer preferences of the catalog."""
    assert b"PrintScaling" not in catalog_of(card)
    made = unscaled(card)
    preferences = re.search(rb"/ViewerPreferences\s*<<(.*?)>>", catalog_of(made))
    assert preferences is not None
    assert b"/PrintScaling/None" in preferences[1]
    assert b"/Direction/L2R" in preferences[1], "what stood there stays"
    assert catalog_of(made).count(b"/ViewerPreferences") == 1
    assert made.startswith(card), "no byte before is changed"
    assert unscaled(made) == made


def test_other_programs_read_it_as_before(card: bytes, tmp_path: Path) -> None:
    made = unscaled(card)
    file = tmp_path / "made.pdf"
    file.write_bytes(made)
    told = subprocess.run([program("pdfinfo"), str(file)], check=True, capture_output=True, encoding="utf-8")
    before = subprocess.run(
        [program("pdfinfo"), "-"], input=card, check=True, capture_output=True
    ).stdout.decode("utf-8")
    lines = [one for one in told.stdout.splitlines() if not one.startswith("File size")]
    assert lines == [one for one in before.splitlines() if not one.startswith("File size")]
    assert pages(made) == pages(card)
    drawn = [
        subprocess.run(
            [program("pdftoppm"), "-r", "40", "-"], input=one, check=True, capture_output=True
        ).stdout
        for one in (card, made)
    ]
    assert drawn[0] == drawn[1]


def test_a_catalog_without_preferences_gets_them() -> None:
    """HAND: the smallest file with a catalog, its table counted out."""
    head = b"%PDF-1.7\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n2 0 obj\n<</Type/Pages/Kids[]/Count 0>>\nendobj\n"
    second = head.index(b"2 0 obj")
    table = b"xref\n0 3\n0000000000 65535 f \n%010d 00000 n \n%010d 00000 n \n" % (9, second)
    small = head + table + b"trailer\n<</Size 3/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF" % len(head)
    assert catalog_of(small) == b"1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\n"
    assert (
        catalog_of(unscaled(small))
        == b"1 0 obj\n<</Type/Catalog/Pages 2 0 R/ViewerPreferences<</PrintScaling/None>>>>\n"
    )


@pytest.mark.parametrize("other", [b"", b"a letter", b"%PDF-1.7\nstartxref\n9\n%%EOF\n"])
def test_a_file_that_the_typesetter_never_makes_is_a_fault_of_ours(other: bytes) -> None:
    with pytest.raises(NotExtendable):
        unscaled(other)

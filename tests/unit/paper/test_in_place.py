"""Every print keeps its words in their places; and the helper that says so is able to say that one does not."""

import pytest

from tests.unit.paper.in_place import misplaced


def bad_pdf(*drawn: str) -> bytes:
    """A page of A4 with what is drawn on it, written by hand: ISO 32000-1, 7.5 and 8 to 9."""
    stream = "\n".join(drawn).encode("latin-1")
    parts = [
        b"<</Type/Catalog/Pages 2 0 R>>",
        b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
        b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Contents 4 0 R/Resources<</Font<</F 5 0 R>>>>>>",
        b"<</Length %d>>stream\n%s\nendstream" % (len(stream), stream),
        b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>",
    ]
    made, places = b"%PDF-1.4\n", []
    for number, part in enumerate(parts, start=1):
        places.append(len(made))
        made += b"%d 0 obj%s\nendobj\n" % (number, part)
    rows = b"".join(b"%010d 00000 n \n" % place for place in places)
    return made + b"xref\n0 6\n0000000000 65535 f \n%strailer<</Size 6/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF" % (
        rows, len(made),
    )  # fmt: skip


def word(text: str, x: float, y: float, *, size: float = 12) -> str:
    return f"BT /F {size} Tf 1 0 0 1 {x} {y} Tm ({text}) Tj ET"


def rule(x: float, y: float, to_x: float, to_y: float) -> str:
    return f"0.4 w 0.47 G {x} {y} m {to_x} {to_y} l S"


CELL = (rule(95, 385, 200, 385), rule(95, 420, 200, 420), rule(95, 385, 95, 420), rule(200, 385, 200, 420))
GRAY = "0.92 g 95 385 105 35 re f 0 g"


def test_words_in_their_places_are_left_alone() -> None:
    assert misplaced(bad_pdf(GRAY, *CELL, word("torque", 100, 400), word("gasket", 150, 400))) == []
    assert misplaced(bad_pdf(word("first", 100, 400), word("second", 100, 388), rule(95, 398, 200, 398))) == []
    assert misplaced(bad_pdf(word("tiny", 100, 400, size=6), word("fill", 29, 30), word("edge", 530, 803))) == []


@pytest.mark.parametrize(
    ("drawn", "said"),
    [
        ([word("leftmost", 20, 400)], "page 1: “leftmost” is 7.1 mm from the left edge"),
        ([word("rightmost", 530, 400)], "page 1: “rightmost” is "),
        ([word("foot", 100, 15)], "page 1: “foot” is "),
        ([word("overlapping", 100, 400), word("another", 140, 402)], "page 1: “another” lies over “overlapping”"),
        ([word("above", 100, 400), word("below", 100, 396)], "page 1: “above” lies over “below”"),
        ([*CELL, word("interchangeable", 140, 400)], "page 1: a rule runs down through “interchangeable”"),
        ([rule(60, 404, 300, 404), word("stricken", 100, 400)], "page 1: a rule runs across “stricken”"),
        (["q 95 385 40 35 re W n", word("interrupted", 100, 400), "Q"], "page 1: “interrupted” is cut off"),
        (["q 95 404 140 35 re W n", word("lowered", 100, 400), "Q"], "page 1: “lowered” is cut off"),
        ([word("covered", 100, 400), "1 g 120 380 60 40 re f"], "page 1: “covered” is cut off"),
    ],
)  # fmt: skip
def test_a_word_out_of_its_place_is_named(drawn: list[str], said: str) -> None:
    found = misplaced(bad_pdf(*drawn))
    assert len(found) == 1
    assert found[0].startswith(said)

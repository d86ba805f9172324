"""Every print keeps its words in their places; and the helper that says so is able to say that one does not."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import cos, pi, sin
from pathlib import Path

import pytest

from gudgeon.bench import begin
from gudgeon.bench.buying.ask import buy
from gudgeon.bench.closed.ask import closed_book
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.costs.costs import costs
from gudgeon.bench.on_paper.counts_sheet import lists_and_counts
from gudgeon.bench.pull_list import card, loosening_card
from gudgeon.bench.ready import ready
from gudgeon.bench.shims.shims import shims
from gudgeon.bench.shop.order import shop_order
from gudgeon.bench.template.template import template
from gudgeon.paper.card import card_pdf
from gudgeon.paper.closed import closed_pdf
from gudgeon.paper.estimate import estimate_pdf
from gudgeon.paper.lists import lists_pdf
from gudgeon.paper.order import order_pdf
from gudgeon.paper.shims import shims_pdf
from gudgeon.paper.shopping import shopping_pdf
from gudgeon.paper.template import template_pdf
from gudgeon.paper.why_not import why_not_pdf
from tests.unit.bench.costs.priced import asked, ceiling, cost, paid, priced_job
from tests.unit.paper.cards import card_of
from tests.unit.paper.in_place import misplaced
from tests.unit.paper.reading import pages, squashed
from tests.unit.paper.sets import AT, LONG, NAMED, printed


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
    assert (
        misplaced(bad_pdf(word("first", 100, 400), word("second", 100, 388), rule(95, 398, 200, 398))) == []
    )
    assert (
        misplaced(bad_pdf(word("tiny", 100, 400, size=6), word("fill", 29, 30), word("edge", 530, 803))) == []
    )


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


@pytest.mark.parametrize(
    ("which", "size"),
    [("demo", "a4"), ("demo", "letter"), ("locked", "letter"), ("nasty", "a4"), ("nasty", "letter")],
)
def test_a_bench_set_keeps_its_words_in_place(which: str, size: str) -> None:
    assert misplaced(printed(which, size).pdf) == []


def test_an_estimate_in_millions_keeps_the_words_beside_its_bars_apart(tmp_path: Path) -> None:
    made = priced_job(tmp_path)
    cost(made, "Machine shop", "1430000", "2550000", "5970000", currency="JPY")
    ceiling(made, "9000000", currency="JPY")
    paid(made, "Deposit", "1234567", currency="JPY")
    assert misplaced(estimate_pdf(asked(made), size="a4")) == []


Make = Callable[[Bench, str], bytes]
PRINTS: dict[str, Make] = {
    "card": lambda bench, size: card_pdf(card(bench, "camshaft_caps"), size=size),
    "loosening": lambda bench, size: card_pdf(loosening_card(bench, "head"), size=size),
    "why not": lambda bench, size: why_not_pdf(ready(bench, milestone="drive"), size=size),
    "shims": lambda bench, size: shims_pdf(shims(bench), size=size),
    "buy": lambda bench, size: shopping_pdf(buy(bench), size=size),
    "estimate": lambda bench, size: estimate_pdf(costs(bench), size=size),
    "closing account": lambda bench, size: estimate_pdf(costs(bench, closing=True), size=size),
    "shop order": lambda bench, size: order_pdf(shop_order(bench, part="head"), size=size),
    "lists": lambda bench, size: lists_pdf(lists_and_counts(bench), size=size),
}
"""What is printed by itself; measuring sheets, hold points and all cards are in the set."""


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    """The invented job."""
    folder = tmp_path_factory.mktemp("demo") / "job"
    begin.open_demo(folder, now=AT)
    found = open_bench(folder / "book.gudgeon", now=AT)
    yield found
    found.store.close()


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("what", PRINTS)
def test_a_print_keeps_its_words_in_place(bench: Bench, what: str, size: str) -> None:
    assert misplaced(PRINTS[what](bench, size)) == []


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_a_card_of_many_stages_keeps_its_words_in_place(tmp_path: Path, size: str) -> None:
    assert (
        misplaced(card_pdf(card_of(tmp_path, bolts=20, stages=8, where=NAMED, name=NAMED), size=size)) == []
    )


IN_WORDS = (
    "Two point zero liter four cylinder engine with exhaust turbocharger and balance shafts, out of the van of the "
    "neighbor next door"
)
WIDE = "MWMWMWMWMWMWMWMWMWMWMWM"
"""Shorter than what is broken anywhere, and wider than the line of a title."""


LONG_PRINTS: dict[str, Make] = PRINTS | {
    "template": lambda bench, size: template_pdf(template(bench, "head"), size=size),
    "book": lambda bench, size: closed_pdf(
        closed_book(bench), size=size, folder=Path("none"), with_photos=False
    ),
}


@pytest.fixture(scope="module")
def long_named(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    """The invented job under a long name of its engine, in words, and one of its build that is hard to break."""
    folder = tmp_path_factory.mktemp("long") / "job"
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(begin, "DEMO_BUILD", f"{WIDE} {LONG}"[:127])
        begin.open_demo(folder, now=AT)
    found = open_bench(folder / "book.gudgeon", now=AT)
    engine = found.sheet.engine.model_copy(update={"name": IN_WORDS})
    sheet = found.sheet.model_copy(update={"engine": engine})
    yield replace(found, papers=replace(found.papers, sheet=sheet))
    found.store.close()


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("what", LONG_PRINTS)
def test_long_names_of_engine_and_build_stand_beside_the_title(
    long_named: Bench, what: str, size: str
) -> None:
    found = misplaced(LONG_PRINTS[what](long_named, size))
    # Past their first page these two hold drawings, whose numbers stand on their lines.
    assert [one for one in found if what in PRINTS or one.startswith("page 1:")] == []


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("joint", [WIDE, LONG])
def test_a_long_name_of_a_joint_beside_that_of_an_engine_keeps_its_lines(
    tmp_path: Path, joint: str, size: str
) -> None:
    answer = card_of(tmp_path, stages=1, name=joint)
    ordinary = len(pages(card_pdf(answer, size=size)))
    long = card_pdf(replace(answer, heading=replace(answer.heading, engine=LONG, build=IN_WORDS)), size=size)
    assert misplaced(long) == []
    assert len(pages(long)) <= ordinary + 1


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize(
    ("count", "wide"), [(20, 600), (40, 600), (60, 500)], ids=["beside", "across", "dots"]
)
def test_a_pattern_of_many_bolts_is_drawn(tmp_path: Path, count: int, wide: float, size: str) -> None:
    """As the sheet places them: around a pan, as many as a joint may have."""
    answer = card_of(tmp_path, bolts=count, stages=1, placed=True)
    places = [
        replace(one, where="", x_mm=wide / 2 * cos(way), y_mm=wide / 3 * sin(way))
        for one in answer.places
        for way in [2 * pi * int(one.bolt) / count]
    ]
    pdf = card_pdf(replace(answer, places=tuple(places)), size=size)
    assert misplaced(pdf) == []
    assert "Nottoscale" in squashed(pages(pdf)[0])

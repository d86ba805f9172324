"""What belongs together on paper stands together: heads with their rows, a row with its box, a word with itself."""

import subprocess
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.closed.ask import closed_book
from gudgeon.bench.context import open_bench
from gudgeon.bench.on_paper.counts_sheet import lists_and_counts
from gudgeon.bench.open_lists import Item
from gudgeon.bench.shop.order import shop_order
from gudgeon.bench.template.template import Template, template
from gudgeon.paper.card import card_pdf
from gudgeon.paper.closed import closed_pdf
from gudgeon.paper.lists import lists_pdf
from gudgeon.paper.order import order_pdf
from gudgeon.paper.template import template_pdf
from tests.unit.bench.benches import START
from tests.unit.bench.shop.heads import blades, head_job
from tests.unit.paper.cards import card_of, job
from tests.unit.paper.reading import pages, program, squashed, words
from tests.unit.paper.sets import printed

DPI = 300
RUNNING_MM = 15.0
"""Above it stands what each page is of, and a line below that."""
LEAST_ROW_MM = 3.3
"""A row to write in is 7 mm high, the head of a table 3.7 mm."""


def rows_mm(pdf: bytes, folder: Path, *, across: range) -> list[float]:
    """How high the rows of the tables are: the distances between hair lines that run through all of these millimeters."""
    (folder / "rows.pdf").write_bytes(pdf)
    subprocess.run(
        [program("pdftoppm"), "-gray", "-r", str(DPI), str(folder / "rows.pdf"), str(folder / "rows")],
        check=True,
    )
    found: list[float] = []
    for picture in sorted(folder.glob("rows*.pgm")):
        head, _, pixels = picture.read_bytes().partition(b"\n255\n")
        wide = int(head.split()[1])
        cut = [pixels[round(at / 25.4 * DPI) :: wide] for at in across]
        lightest = [max(one) for one in zip(*cut, strict=False)]
        below = round(RUNNING_MM / 25.4 * DPI)
        hair = [
            at
            for at, one in enumerate(lightest)
            if at > below and one < 200 and min(lightest[at - 4 : at + 5]) > 60
        ]
        found += [(after - before) * 25.4 / DPI for before, after in pairwise(hair) if after - before > 3]
    return found


@pytest.mark.parametrize("more", [0, 4, 5])
def test_a_row_to_write_in_is_never_parted_between_two_pages(tmp_path: Path, more: int) -> None:
    answer = lists_and_counts(job(tmp_path).bench())
    item = Item("one", "one", "here", "", "Sun Nov 29, 19:50", "crank")
    filled = [replace(answer.lists[0], items=(item,) * more), *answer.lists[1:]]
    made = lists_pdf(replace(answer, lists=tuple(filled)), size="letter")
    rows = rows_mm(made, tmp_path, across=range(45, 70))
    assert len(rows) > 40
    assert min(rows) > LEAST_ROW_MM


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_a_milestone_stands_on_the_page_of_its_first_hold(size: str) -> None:
    ends = [
        squashed(page[page.rindex("Before you ") :])
        for page in pages(printed("demo", size).pdf)
        if "Hold points" in page and "Before you " in page
    ]
    assert len(ends) >= 3
    assert [text for text in ends if "valueseen:" not in text and "proof:" not in text] == []


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_a_head_within_a_table_stands_above_a_row_and_is_said_again(tmp_path: Path, size: str) -> None:
    open_demo(tmp_path / "demo", now=START)
    bench = open_bench(tmp_path / "demo" / "book.gudgeon", now=START)
    book = closed_book(bench)
    bench.store.close()
    told = [squashed(page) for page in pages(closed_pdf(book, size=size, folder=tmp_path))]
    findings = next(one for one in book.sections if one.title == "Findings")
    heads = [squashed(row.cells[0]) for table in findings.tables for row in table.rows if row.mark == "group"]
    foot = "Tarnwick18D4(invented)·demo·"
    orphans = [one for one in heads for page in told if page.partition(one)[2].startswith(foot)]
    assert orphans == []
    again = [one for one in heads if sum(one in page for page in told) > 1]
    assert again, "no rows of one head go on upon the next page: this proves nothing"


def test_a_word_is_broken_only_where_no_line_holds_it(tmp_path: Path) -> None:
    name = "Bolzen des Überlandstraßen-Großhubkolbenmotors, Einspritzpumpenregler außen"
    said = " ".join(pages(card_pdf(card_of(tmp_path, name=name, where=name), size="letter"))).split()
    for whole in ("Großhubkolbenmotors,", "Einspritzpumpenregler"):
        assert said.count(whole) >= 4, whole
    assert not {"Einspri", "Überl", "Großhub"} & set(said)


def test_a_word_that_no_line_holds_is_broken_all_the_same(tmp_path: Path) -> None:
    for name in ("x" * 90 + "-" + "y" * 90, "1-" * 90, "-" * 150, "a-" + "b" * 150):
        folder = tmp_path / str(len(name)) / name[:3]
        folder.mkdir(parents=True)
        assert squashed(name) in words(card_pdf(card_of(folder, name=name, where=name), size="a4"))


def test_a_template_has_no_column_for_places_that_nobody_named(tmp_path: Path) -> None:
    made: Template = template(job(tmp_path, placed=True).bench(), "many")
    assert "Where" in pages(template_pdf(made, size="a4"))[0]
    bare = replace(made, holes=tuple(replace(one, where="") for one in made.holes))
    assert "Where" not in pages(template_pdf(bare, size="a4"))[0]


def test_what_the_least_takes_for_granted_has_a_head(tmp_path: Path) -> None:
    begun = head_job(tmp_path)
    blades(begun, "along", "0.10", "0.12")
    answer = shop_order(begun.bench())
    assert answer.room.assumes
    head = squashed("Taken for granted in the least that cleans it up")
    assert head + squashed(f"– {answer.room.assumes[0]}") in words(order_pdf(answer, size="a4"))

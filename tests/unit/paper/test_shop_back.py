"""What came back from the shop on paper: filled in or blank, all of it there, at both sizes, nothing to type."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import open_bench
from gudgeon.bench.shop.found import PartKind
from gudgeon.bench.shop.return_sheet import ReturnSheet, return_sheet
from gudgeon.paper.shop_back import shop_back_data, shop_back_pdf
from tests.unit.bench.shop.heads import blades, head_job, heights
from tests.unit.bench.shop.test_return_sheet import sent
from tests.unit.paper.cards import NASTY
from tests.unit.paper.reading import least_white_mm, numbered, pages, squashed, words


@pytest.fixture
def returned(tmp_path: Path) -> ReturnSheet:
    job = sent(tmp_path)
    job.record("shop-back", part="Cylinder head", found="cleaned up at 0.14")
    heights(job, "99.860", "99.860", "99.820", "99.820", condition="as left")
    blades(job, "along", "0.02", "0.03", condition="as left")
    return return_sheet(job.bench())


def everything(sheet: ReturnSheet) -> list[str]:
    """Every text of the sheet that he fills in or reads."""
    data = shop_back_data(sheet)
    texts = [data["title"], data["shop"], data["ordered"], data["said"], data["basis"], *data["accepted"]]
    texts += [text for row in data["rows"] for text in row.values()]
    texts += [text for one in data["figures"] for place in one["places"] for text in place]
    texts += [*data["plain"], *data["askew"][1:], *data["askew_follows"]] if data["back"] else []
    texts += [text for row in data["after"] for text in row]
    return [text for text in texts if text and text != "not measured"]


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_nothing_of_it_is_lost(returned: ReturnSheet, tmp_path: Path, size: str) -> None:
    pdf = shop_back_pdf(returned, size=size)
    told = words(pdf).lower()
    assert [text for text in everything(returned) if squashed(text).lower() not in told] == []
    assert "gudgeon" not in told
    assert numbered(pdf) == [(at, len(pages(pdf))) for at in range(1, len(pages(pdf)) + 1)]
    assert least_white_mm(pdf, tmp_path) >= 10.0


@pytest.mark.parametrize("part", ["head", "block"])
def test_before_it_is_back_it_is_a_blank(tmp_path: Path, part: PartKind) -> None:
    sheet = return_sheet((sent if part == "head" else head_job)(tmp_path).bench(), part=part)
    told = words(shop_back_pdf(sheet, size="letter")).lower()
    assert squashed("to be filled in") in told
    assert [text for text in everything(sheet) if squashed(text).lower() not in told] == []
    assert "gudgeon" not in told
    assert "chamber_volume" not in told


def test_markup_is_only_shown(returned: ReturnSheet) -> None:
    check = replace(returned.check, part=NASTY, said=NASTY, ordered=NASTY, accepted=(NASTY,))
    rows = tuple(replace(one, read=NASTY) for one in returned.rows)
    told = words(shop_back_pdf(replace(returned, check=check, rows=rows), size="a4"))
    assert told.count(squashed(NASTY)) >= 4 + len(rows)


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_last_page_is_not_there_for_a_few_lines(tmp_path: Path, size: str) -> None:
    open_demo(tmp_path / "job", now=datetime(2026, 11, 28, 20, 0, tzinfo=UTC))
    bench = open_bench(tmp_path / "job" / "book.gudgeon")
    bench.store.close()
    last = pages(shop_back_pdf(return_sheet(bench), size=size))[-1]
    assert squashed("by") in squashed(last)
    assert squashed("Taken off in all") in squashed(last)


def test_a_face_that_lies_askew_names_no_key_of_the_sheet(returned: ReturnSheet) -> None:
    askew = returned.check.askew
    assert askew is not None
    said = "by how much cannot be told without the mouth area (cylinder: chamber_mouth_area)"
    check = replace(returned.check, askew=replace(askew, follows=(said,)))
    assert shop_back_data(replace(returned, check=check))["askew_follows"] == [said.partition(" (")[0]]

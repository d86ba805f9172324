"""The page “Does it run right?”: the same answer, its form, and what is refused."""

from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from gudgeon.bench.running.question import running
from tests.paired import paired
from tests.unit.bench.running.engines import ENGINE, engine, read


@pytest.fixture
def page(tmp_path: Path) -> Iterator[TestClient]:
    job = engine(tmp_path, altitude="500 m")
    read(job, "cranking", "11.0", "6.0", "6.1", "10.9")
    read(job, "cranking_wet", "11.2", "8.0", "6.2", "11.0")
    read(job, "leak", "75", "40", "42", "76", unit="psi")
    read(job, "oil_idle", "1.6", gauge="oil")
    with paired(job.book) as client:
        yield client


def words(client: TestClient, address: str = "/running") -> str:
    return " ".join(unescape(client.get(address).text).split())


def test_every_figure_of_the_answer_stands_on_the_page(tmp_path: Path) -> None:
    job = engine(tmp_path, altitude="500 m")
    read(job, "cranking", "11.0", "6.0", "6.1", "10.9")
    answer = running(job.bench())
    with paired(job.book) as client:
        text = words(client)
    assert answer.compression.expected is not None
    assert answer.coolant is not None
    wanted = [answer.compression.expected.text, answer.coolant.concentrate, answer.coolant.water]
    wanted += [
        end for one in answer.compression.limits for end in (one.printed, one.by_pressure, one.by_density)
    ]
    wanted += [one.dry for one in answer.compression.cylinders]
    wanted += [*answer.cautions, *answer.coolant.bleed, answer.oil.stop]
    assert [one for one in wanted if one not in text] == []


def test_cylinders_leaks_and_oil_have_their_verdicts(page: TestClient) -> None:
    text = words(page)
    assert "Cylinder 2 and cylinder 3, beside each other, are both low" in text
    assert "to be repaired (common practice)" in text
    assert "1.6 bar (160 kPa, 23.2 psi)" in text


def test_units_keep_their_letters(page: TestClient) -> None:
    text = words(page)
    assert "Half and half by volume freezes at -37 °C (-35 °F)" in text
    assert "kpa" not in text


def test_the_form_counts_what_is_still_in_the_system(page: TestClient) -> None:
    text = words(page, "/running?left-in=2+L&glycol=30+%25")
    assert "3.19 L (3.37 US qt)" in text
    assert 'value="30 %"' in text


def test_what_is_no_volume_is_said_and_the_rest_stands(page: TestClient) -> None:
    answer = page.get("/running?left-in=2+apples")
    assert answer.status_code == 422
    text = " ".join(unescape(answer.text).split())
    assert "coolant still in it: `apples` is not a known unit of volume." in text
    assert "3.79 L (4.00 US qt)" in text
    assert 'value="2 apples"' in text


def test_it_stands_after_may_i_start_it(page: TestClient) -> None:
    text = words(page, "/")
    assert text.index("May I start it?") < text.index("Does it run right?") < text.index("What is open?")


def test_an_empty_sheet_has_a_page_of_what_is_missing(tmp_path: Path) -> None:
    job = engine(
        tmp_path, sheet=ENGINE.split("after_start:")[0].replace("  rod_length: 143.0 mm\n", ""), altitude=None
    )
    with paired(job.book) as client:
        text = words(client)
    assert "A gauge should show" not in text
    assert (
        "Rod length What the gauge should show cannot be worked out. Data sheet: "
        '<a href="/sheet/figure?path=cylinder.rod_length">Cylinder: connecting rod length</a>, line 14.'
        in (text.replace("</strong><br>", " ").replace('<span class="soft">', ""))
    )

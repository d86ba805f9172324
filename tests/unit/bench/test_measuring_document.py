"""The page on measuring says the figures that the program uses, and its examples work."""

import csv
import io
import re
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from gudgeon.bench import at_20, budget, plausible, warmth
from gudgeon.bench.context import open_bench
from gudgeon.bench.face_file import take_face
from gudgeon.bench.measuring import typed
from gudgeon.bench.measuring_table import COLUMNS, Usual, fill
from gudgeon.book.bodies_measuring import MOST_POINTS
from tests.house.code import ROOT
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.bench.test_budget import GAUGES, SHEET

TEXT = (ROOT / "docs" / "how-it-works" / "measuring.md").read_text("utf-8")
PAGE = " ".join(TEXT.split())
TABLE, FACE = re.findall(r"```csv\n(.*?)```", TEXT, re.DOTALL)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    kit = KIT[: KIT.index("gauges:")] + GAUGES + KIT[KIT.index("turning:") :]
    made = make_job(tmp_path, sheet=SHEET.replace("70.0", "81.6"), kit=kit)
    made.read_code()
    return made


def test_the_figures_are_those_of_the_program() -> None:
    assert f"{at_20.GARAGE_C.celsius:g} ± {at_20.GARAGE_C.error:g} °C" in PAGE
    assert f"± {at_20.UNNAMED_K:g} °C (common practice" in PAGE
    assert f"({at_20.most_per_k() * 1e6:g} µm/(m·K))" in PAGE
    assert f"within {budget.NEAR_MM:g} mm" in PAGE
    assert f"at most {MOST_POINTS:,} points" in PAGE
    assert f"below −{-warmth.LEAST_C:g} or above {warmth.MOST_C:g} °C" in PAGE
    assert (
        "From {:g} to {:g} °C: was it °F? From {:g} to {:g} °F".format(
            *warmth.AS_FAHRENHEIT, *warmth.AS_CELSIUS
        )
        in PAGE
    )
    assert plausible.TEN_FOLD == 9.0
    assert "nine-fold apart or more" in PAGE


def test_all_columns_of_a_table_are_named() -> None:
    named = PAGE[PAGE.index("The first line names the columns") :]
    assert re.findall(r"`([a-z_]+)`", named)[: len(COLUMNS)] == list(COLUMNS)


def test_the_lines_mean_what_the_page_says() -> None:
    assert typed("0.05/0.06") == {"low": "0.05", "high": "0.06"}
    assert (typed("<0.05"), typed(">0.05")) == ({"high": "0.05"}, {"low": "0.05"})


def test_its_table_is_taken_over(job: Job) -> None:
    file = job.book.parent / "block.csv"
    file.write_text(TABLE, encoding="utf-8")
    with closing(open_bench(job.book, now=job.now).store) as store:
        bench = replace(job.bench(), store=store)
        done = fill(bench, "block", file=file, usual=Usual())
    assert done.readings == len(list(csv.DictReader(io.StringIO(TABLE)))) == 2


def test_its_face_is_taken_over(job: Job) -> None:
    file = job.book.parent / "deck.csv"
    file.write_text(FACE, encoding="utf-8")
    with closing(open_bench(job.book, now=job.now).store) as store:
        bench = replace(job.bench(), store=store)
        take_face(bench, "deck", file=file, unit=None, instrument="clock", condition="as found")
    (scan,) = job.bench().state.scans.values()
    assert scan.points[1] == ("300.0", "0.0", "0.022")

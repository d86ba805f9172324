"""Paper is read away from a terminal, by the owner, the shop or at the engine: nothing on it is typed there."""

from dataclasses import replace
from pathlib import Path

import pytest

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import open_bench, wrong_words
from gudgeon.bench.costs.costs import costs
from gudgeon.bench.ready import ready
from gudgeon.paper.estimate import estimate_pdf
from gudgeon.paper.why_not import why_not_pdf
from gudgeon.paper.words import page_words
from tests.unit.bench.benches import make_job
from tests.unit.paper.reading import squashed, words


@pytest.mark.parametrize("closing", [False, True])
def test_the_estimate_before_the_engine_code_was_read(tmp_path: Path, closing: bool) -> None:
    job = make_job(tmp_path)
    bench = open_bench(job.book, now=job.now)
    said = words(estimate_pdf(costs(bench, closing=closing), size="a4"))
    bench.store.close()
    assert "gudgeon" not in said.lower()
    where = bench.sheet.engine.code_is_read
    assert squashed("Figures are locked: the engine code has not been read off the engine.") in said
    assert squashed(f"Read it off the engine: {where}:") in said


def test_the_estimate_of_an_engine_with_another_code(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    job.record("identity-read", code="Z9", read_from="pad")
    bench = open_bench(job.book, now=job.now)
    said = words(estimate_pdf(costs(bench), size="a4"))
    bench.store.close()
    assert (
        squashed("`Z9` was read off the engine, the sheet is for L1-A. Use the sheet of this engine:") in said
    )
    assert "gudgeon" not in said.lower()


@pytest.mark.parametrize("count", [1, 3])
def test_a_photo_that_is_missing_is_told_without_what_is_typed(tmp_path: Path, count: int) -> None:
    answer = ready(make_job(tmp_path).bench(), milestone="crank")
    heading = replace(answer.heading, remarks=(wrong_words(count),))
    said = words(why_not_pdf(replace(answer, heading=heading, reasons=()), size="a4"))
    assert squashed(f"Note: {wrong_words(count).partition(':')[0]}") in said
    assert "gudgeon" not in said.lower()


def test_other_remarks_stay_whole() -> None:
    remark = "The code read off the engine, L2, is not the sheet's. Why it serves: same head, cast: 1994"
    heading = Heading("", "", "", "", "2026-11-29T12:00:00+00:00", "", "", (remark,))
    assert page_words(heading, about="")["remarks"] == [remark]

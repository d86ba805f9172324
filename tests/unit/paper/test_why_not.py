"""The list of what stands in the way: every reason, in words for somebody without a terminal."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.ready import Readiness, ready
from gudgeon.bench.reason import MILESTONES
from gudgeon.cli.main import main
from gudgeon.paper.why_not import why_not_data, why_not_pdf
from tests.unit.paper.cards import NASTY
from tests.unit.paper.reading import least_white_mm, numbered, pages, squashed, words


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    bench = open_bench(folder / "book.gudgeon")
    bench.store.close()
    return bench


def everything(answer: Readiness) -> list[str]:
    texts = [answer.answer.upper(), *answer.accepted, *answer.cautions]
    texts += [text.removesuffix(" (gudgeon judge)") for text in answer.aside]
    for one in answer.reasons:
        why = one.why.split(": ")[0] if one.items else one.why
        texts += [f"{one.what}: {why}", one.how, one.value, *one.items]
    texts += [f"{one.what}: {one.why}" for one in answer.later]
    return [re.sub(r", [^,]*min to go$", "", text) for text in texts]  # stale as soon as it is printed


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("milestone", MILESTONES)
def test_nothing_of_the_answer_is_lost(demo: Bench, tmp_path: Path, milestone: str, size: str) -> None:
    answer = ready(demo, milestone=milestone)
    pdf = why_not_pdf(answer, size=size)
    said = words(pdf)
    assert [text for text in everything(answer) if squashed(text) not in said] == []
    assert "mintogo" not in said
    count = len(pages(pdf))
    assert numbered(pdf) == [(number, count) for number in range(1, count + 1)]
    assert least_white_mm(pdf, tmp_path) >= 10.0


@pytest.mark.parametrize("milestone", MILESTONES)
def test_paper_needs_no_terminal(demo: Bench, milestone: str) -> None:
    answer = ready(demo, milestone=milestone)
    assert all(one.how and one.value and "gudgeon" not in one.how for one in answer.reasons + answer.later)
    assert "gudgeon" not in words(why_not_pdf(answer, size="a4")).lower()


def test_what_is_counted_in_groups_is_ticked_one_by_one(demo: Bench) -> None:
    families = {one["name"]: one for one in why_not_data(ready(demo, milestone="crank"))["families"]}
    assert families["plugged"]["count"] == 8
    (openings,) = families["plugged"]["reasons"]
    assert openings["what"] == "8 openings" and openings["why"] == "still closed"
    assert openings["items"][0] == "Plug in intake port 1"


def test_yes_and_markup(demo: Bench) -> None:
    answer = replace(
        ready(demo, milestone="crank"),
        answer="yes",
        reasons=(),
        later=(),
        accepted=(NASTY,),
        aside=(NASTY + "!",),
    )
    said = words(why_not_pdf(answer, size="letter"))
    assert "YES" in said and "Nothingthatisduebeforeitisopen." in said
    assert said.count(squashed(NASTY)) == 2

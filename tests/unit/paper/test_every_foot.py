"""The head and foot of every page: engine, build, job, date, head of the book, notice, page of pages; never over the edge."""

from dataclasses import replace
from pathlib import Path

import pytest

from gudgeon.bench.answer import NOTICE, RULES
from gudgeon.bench.pull_list import JointCard, card
from gudgeon.bench.ready import ready
from gudgeon.paper.card import card_pdf
from gudgeon.paper.why_not import why_not_pdf
from gudgeon.paper.words import page_words
from tests.unit.bench.benches import Job
from tests.unit.paper.cards import job
from tests.unit.paper.reading import least_white_mm, pages, squashed


@pytest.fixture
def long_card(tmp_path: Path) -> JointCard:
    """A card of more than one page."""
    return card(job(tmp_path, bolts=30, stages=8).bench(), "many")


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_every_page_says_what_it_is_of(long_card: JointCard, size: str) -> None:
    heading = replace(long_card.heading, notice=NOTICE)
    printed = pages(card_pdf(replace(long_card, heading=heading), size=size))
    assert len(printed) > 1
    for number, page in enumerate(printed, start=1):
        said = squashed(page)
        for text in (
            heading.engine, heading.build, "job: Top end", long_card.name, NOTICE, heading.head[:12], RULES,
            page_words(heading, about="")["as_of"], f"page {number} of {len(printed)}",
        ):  # fmt: skip
            assert squashed(text) in said, (number, text)


def test_the_job_is_the_one_chosen_in_the_book(tmp_path: Path) -> None:
    made: Job = job(tmp_path)
    made.record("job-chosen", job="cover_reseal")
    answer = ready(made.bench(), milestone="crank")
    assert answer.heading.job == "Valve cover reseal"
    assert squashed("job: Valve cover reseal") in squashed(pages(why_not_pdf(answer, size="a4"))[-1])


def test_names_of_any_length_keep_foot_and_head_within_their_lines(
    long_card: JointCard, tmp_path: Path
) -> None:
    name = "WHATEVER MAY BE THE NAME OF IT " * 5
    heading = replace(long_card.heading, engine=name, build=name, job=name, notice=NOTICE)
    pdf = card_pdf(replace(long_card, name=name, heading=heading), size="letter")
    assert least_white_mm(pdf, tmp_path) >= 10.0
    in_short = page_words(heading, about=name)["in_short"]
    assert len(in_short) <= 104
    assert in_short.count("…") == 4


def test_short_names_are_not_shortened(long_card: JointCard) -> None:
    heading = replace(long_card.heading, engine="E", build="B", job="Top end")
    said = page_words(heading, about="Shop order: Cylinder head of the left bank")
    assert said["in_short"] == "E · B · job: Top end · Shop order: Cylinder head of the left b…"

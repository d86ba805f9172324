"""Every kind of the plan and of money is written once by its form and once in the terminal, and both say the same."""

import re
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.plan_fields import KINDS
from gudgeon.bench.recordable import RECORDABLES
from gudgeon.cli.main import main
from tests.paired import paired
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.job_player import BELT

SOON = (datetime.now(UTC) + timedelta(days=30)).date().isoformat()
"""A promise is for a day to come, and the hour of these entries is the machine's."""

FORMS: dict[str, tuple[dict[str, str], list[str], dict[str, Any]]] = {
    "job": ({"job": "timing_belt"}, ["timing belt only"], {"job": "timing_belt"}),
    "add-task": (
        {"title": "Paint it", "minutes": "60", "after": "wash_head", "before": "lay_gasket", "needs_more": "paint, brush"},
        ["Paint it", "--minutes", "60", "--after", "wash the head once more", "--then", "lay_gasket", "--needs", "paint",
         "--needs", "brush"],
        {"task": "paint_it", "after": ["wash_head"], "before": ["lay_gasket"], "needs": ["paint", "brush"], "minutes": 60},
    ),
    "drop-task": (
        {"task": "clean_crowns", "why": "clean"}, ["clean_crowns", "--why", "clean"], {"task": "clean_crowns"},
    ),
    "task-minutes": (
        {"task": "wash_head", "minutes": "60", "low": "50", "high": "90"},
        ["wash_head", "--minutes", "60", "--at-best", "50", "--at-worst", "90"], {"low": 50, "minutes": 60, "high": 90},
    ),
    "task-order": (
        {"task": "flush_radiator", "after": "clean_head", "after_more": "clean_manifolds"},
        ["flush_radiator", "--after", "clean_head", "--after", "clean_manifolds"],
        {"after": ["clean_head", "clean_manifolds"]},
    ),
    "day": (
        {"day": SOON, "hours_more": "9:00-12:00, 13:00-17:00", "whose": "own"},
        [SOON, "--hours", "9:00-12:00", "--hours", "13:00-17:00"], {"hours": ["09:00-12:00", "13:00-17:00"]},
    ),
    "promised": (
        {"what": "head", "of": "shop", "on": SOON}, ["head", "shop", "--on", SOON], {"on": SOON, "of": "shop"},
    ),
    "ordered": (
        {"part": "gasket", "supplier": "Mill Lane", "quantity": "2", "amount": "84,50", "currency": "eur"},
        ["gasket", "--supplier", "Mill Lane", "--quantity", "2", "--amount", "84.50", "--currency", "EUR"],
        {"quantity": 2, "amount": "84.50", "currency": "EUR"},
    ),
    "price": (
        {"part": "gasket", "supplier": "Mill Lane", "price": "40", "currency": "EUR", "days": "0"},
        ["gasket", "Mill Lane", "40", "EUR", "--days", "0"], {"price": "40", "days": 0},
    ),
    "age": (
        {"part": "belt", "distance": "84000", "unit": "km", "how_known": "book"},
        ["belt", "--distance", "84000", "--unit", "km", "--basis", "book"], {"distance": "84000", "basis": "book"},
    ),
    "life": (
        {"part": "belt", "shape": "3", "life": "160000", "unit": "km", "until": "90000", "cost": "2000", "currency": "EUR",
         "how_known": "guess"},
        ["belt", "--shape", "3", "--life", "160000", "--unit", "km", "--until", "90000", "--cost", "2000", "--currency",
         "EUR", "--basis", "guess"],
        {"shape": "3", "cost": "2000"},
    ),
    "cost": (
        {"what": "bore", "low": "80", "likely": "100", "high": "120", "currency": "EUR", "chance": "0,3"},
        ["bore", "--low", "80", "--likely", "100", "--high", "120", "--currency", "EUR", "--chance", "0.3"], {"chance": "0.3", "likely": "100"},
    ),
    "estimate": (
        {"at": "start", "low": "400", "middle": "600", "high": "900", "currency": "EUR", "to": "Ada"},
        ["start", "--low", "400", "--middle", "600", "--high", "900", "--currency", "EUR", "--to", "Ada"], {"middle": "600", "to": "Ada"},
    ),
    "ceiling": (
        {"amount": "1000", "currency": "EUR", "by": "Ada"}, ["1000", "EUR", "--by", "Ada"], {"amount": "1000"},
    ),
    "approval": (
        {"what": "bore", "answer": "yes", "by": "Ada"}, ["bore", "yes", "--by", "Ada"], {"answer": "yes", "by": "Ada"},
    ),
}  # fmt: skip
"""By the name of the form: its fields, the words of the terminal, and what of it stands in the book."""
KIND = {one.name: one.kind for one in RECORDABLES}


def test_every_kind_is_tried_here() -> None:
    assert {KIND[name] for name in FORMS} == KINDS


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return make_job(tmp_path, sheet=BELT)


def last(job: Job) -> tuple[str, dict[str, Any]]:
    bench = open_bench(job.book, now=job.now)
    try:
        entry = bench.store.entries(bench.build)[-1]
        return entry.kind, dict(entry.body)
    finally:
        bench.store.close()


def fits(job: Job, name: str) -> None:
    kind, body = last(job)
    assert kind == KIND[name]
    assert FORMS[name][2].items() <= body.items()


@pytest.mark.parametrize("name", FORMS)
def test_by_its_form(job: Job, name: str) -> None:
    with paired(job.book) as client:
        page = client.get(f"/record/{name}").text
        fields = set(re.findall(r'name="([^"]+)"', page))
        assert set(FORMS[name][0]) <= fields, "the form has every field that is filled in"
        sent = client.post(f"/record/{name}", data=FORMS[name][0], follow_redirects=False)
        assert sent.status_code == 303, sent.text
    fits(job, name)


@pytest.mark.parametrize("name", FORMS)
def test_in_the_terminal(job: Job, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GUDGEON_BOOK", str(job.book))
    assert main(["record", name, *FORMS[name][1]]) == 0
    fits(job, name)


def test_a_day_off_is_a_day_without_hours(job: Job) -> None:
    with paired(job.book) as client:
        page = client.get("/record/day").text
        assert "nothing of the list" not in page, "no list to choose from where there is none"
        client.post("/record/day", data={"day": SOON, "hours_more": "", "whose": "own"})
    assert last(job)[1]["hours"] == []


def test_a_build_is_begun_with_a_job_in_the_terminal(
    job: Job, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    papers = ["--sheet", str(tmp_path / "sheet.yaml"), "--kit", str(tmp_path / "kit.yaml")]
    book = tmp_path / "other.gudgeon"
    assert main(["begin", "it", *papers, "--book", str(book), "--job", "whole car"]) == 2
    assert capsys.readouterr().err.strip() == (
        "`whole car` is no job here. Known: Top end, Top end and bottom end, Timing belt only, Valve cover reseal."
    )
    assert not book.exists()
    assert main(["begin", "it", *papers, "--book", str(book), "--job", "Timing belt only"]) == 0
    assert last(Job(book)) == ("job-chosen", {"job": "timing_belt", "why": ""})

"""Costs of an invented job, for tests. All amounts invented."""

from pathlib import Path
from typing import Any

from gudgeon.bench.context import open_bench
from gudgeon.bench.costs.costs import costs
from gudgeon.bench.costs.model import Account, CostLine, Costs
from gudgeon.bench.network import tasks_of
from tests.unit.bench.benches import Job, make_job


def asked(job: Job, *, closing: bool = False) -> Costs:
    """What it will cost, as the book stands."""
    bench = open_bench(job.book, now=job.now)
    try:
        return costs(bench, closing=closing)
    finally:
        bench.store.close()


def account(job: Job, currency: str = "EUR", *, closing: bool = False) -> Account:
    return next(one for one in asked(job, closing=closing).accounts if one.currency == currency)


def line(job: Job, what: str, currency: str = "EUR") -> CostLine:
    return next(one for one in account(job, currency).lines if one.what == what)


def cost(job: Job, what: str, *amounts: str, **more: Any) -> None:
    """What something will cost: one amount for certain, or low, likely and high."""
    low, likely, high = amounts if len(amounts) == 3 else amounts * 3
    job.record("cost-expected", what=what, low=low, likely=likely, high=high, **({"currency": "EUR"} | more))


def paid(job: Job, what: str, amount: str, **more: Any) -> None:
    job.record("money", what=what, amount=amount, **({"currency": "EUR"} | more))


def ceiling(job: Job, amount: str, **more: Any) -> None:
    job.record("ceiling-agreed", amount=amount, **({"currency": "EUR", "by": "Ada"} | more))


def answered(job: Job, what: str, answer: str = "yes", **more: Any) -> None:
    job.record("approval", what=what, answer=answer, by="Ada", **more)


def priced_job(folder: Path, **papers: str) -> Job:
    made = make_job(folder, **papers)
    made.read_code()
    return made


def first_task(job: Job) -> str:
    bench = job.bench()
    return tasks_of(bench.sheet, bench.state)[0].key

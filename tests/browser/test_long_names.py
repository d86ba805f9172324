"""Names of one very long word on the pages of plan, parts and money: nothing rolls sideways, nothing is cut off."""

from datetime import UTC, datetime
from pathlib import Path

from gudgeon.bench.context import open_bench
from gudgeon.bench.record import record
from tests.browser.conftest import Arrive, fresh_demo
from tests.browser.test_plan import opened, unfolded
from tools.served import Served

LONG = "Ventildeckeldichtung" * 14


def written(folder: Path) -> Path:
    """The invented job, with a name that no screen holds wherever one can be written."""
    book = fresh_demo(folder)
    bench = open_bench(book, now=datetime.now(UTC))
    try:
        record(
            bench,
            "task-added",
            {
                "title": LONG,
                "minutes": 60,
                "after": [],
                "before": [],
                "two_people": False,
                "needs": [],
                "due_before": "fire",
                "why": "",
            },
        )
        record(
            bench,
            "part-ordered",
            {"part": LONG, "supplier": LONG, "amount": "123456789012.99", "currency": "EUR"},
        )
        record(bench, "money", {"what": f"{LONG} y", "amount": "3.5", "currency": "EUR", "to": LONG})
        record(
            bench,
            "cost-expected",
            {"what": f"{LONG} x", "low": "1", "likely": "2", "high": "3", "currency": "EUR"},
        )
    finally:
        bench.store.close()
    return book


def test_a_long_word_is_broken(arrive: Arrive, tmp_path: Path, size: tuple[int, int]) -> None:
    with Served(written(tmp_path)) as server:
        visitor = arrive(server, size=size)
        opened(visitor)
        for address in ("/when", "/buy", "/money"):
            visitor.go(address)
            unfolded(visitor)
            assert visitor.faults() == [], address

"""A part is one, however it is written, for what is bought and for what it costs. All names invented."""

from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.costs.expected import key_of as key_of_a_cost
from gudgeon.bench.part_keys import key_of, part_key
from tests.unit.bench.buying.purchases import SHEET, buying_job

BOLTS = '  head_bolts: {name: Head bolts, quantity: "10"}\n'


@pytest.mark.parametrize(
    ("said", "key"),
    [
        ("Head bolts", "head_bolts"), ("head bolt", "head_bolts"), ("HEAD_BOLT", "head_bolts"),
        ("Exhaust nut", "exhaust_nuts"), ("Head nut", "head nuts"), ("head nuts", "head nuts"),
        ("Spark_plugs", "spark plugs"),
    ],
)  # fmt: skip
def test_one_key_for_every_way_to_write_it(tmp_path: Path, said: str, key: str) -> None:
    job = buying_job(tmp_path, sheet=SHEET + BOLTS)
    bench = open_bench(job.book, now=job.now)
    try:
        assert key_of(bench.sheet, said) == key
        assert key_of_a_cost(bench, said) == key
        listed = key in bench.sheet.parts
        assert part_key(bench.sheet, said) == (key if listed else said)
    finally:
        bench.store.close()


def test_a_cost_and_an_order_that_are_written_otherwise_are_one_thing(tmp_path: Path) -> None:
    job = buying_job(tmp_path, sheet=SHEET + BOLTS)
    job.record("part-ordered", part="head bolt", supplier="north", quantity=10)
    bench = open_bench(job.book, now=job.now)
    try:
        assert [one.part for one in bench.state.buying.orders] == ["head_bolts"]
    finally:
        bench.store.close()

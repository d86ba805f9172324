"""Benches for the plan: the invented engine with hours of its own, asked while its book is open."""

from collections.abc import Iterator
from contextlib import contextmanager
from importlib import resources
from pathlib import Path

from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.planning.answer import PlanAnswer
from gudgeon.bench.planning.question import plan_answer
from tests.unit.bench.benches import Job, make_job

DEMO = resources.files("gudgeon.demo")
HOURS = """\
hours:
  week:
    Tuesday: 19:00-21:00
    Thursday: 19:00-21:00
    Saturday: [10:00-13:00, 14:00-17:00]
    Sunday: 10:00-13:00
  second_person:
    week: {Saturday: 10:00-17:00}
  late: 20:30
"""


def kit(hours: str = HOURS) -> str:
    """The kit of the invented job with other hours."""
    text = (DEMO / "kit.yaml").read_text(encoding="utf-8")
    before, after = text.split("\nhours:\n")
    return f"{before}\n{hours}\nrates:\n{after.split(chr(10) + 'rates:' + chr(10))[1]}"


def planned_job(folder: Path, *, hours: str = HOURS) -> Job:
    """The invented engine, its code read and nothing else done; begun on a Saturday at ten."""
    job = make_job(folder, sheet=(DEMO / "sheet.yaml").read_text(encoding="utf-8"), kit=kit(hours))
    job.record("identity-read", code="TW18-D4", read_from="pad")
    return job


@contextmanager
def opened(job: Job) -> Iterator[Bench]:
    """The bench with its book open, as a face has it."""
    bench = open_bench(job.book, now=job.now)
    try:
        yield bench
    finally:
        bench.store.close()


def asked(job: Job, *, simulate: bool = False, quick: bool = True) -> PlanAnswer:
    """What is answered now; the plan by its rules alone, where nothing else is wanted."""
    with opened(job) as bench:
        return plan_answer(bench, simulate=simulate, quick=quick)

"""A bench for tests: a small invented engine, a modest kit, a real book in a folder of its own."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from gudgeon.bench.acts import pull_fields
from gudgeon.bench.begin import begin
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.record import Recorded, record
from tests.unit.sheet.sheets import SMALL

KIT = """\
gudgeon: kit 1
wrenches:
  half: {name: half-inch click wrench, kind: click, range: 40–200 N·m, step: 1 N·m, deviation: 4 %}
  three: {name: three-eighths click wrench, kind: click, range: 20–100 N·m, step: 0.5 N·m, deviation: 4 %}
  beam: {name: beam wrench, kind: beam, range: 0–150 N·m, step: 5 N·m, deviation: 6 %}
gauges:
  feelers: {name: feeler blades, kind: feeler blades, error: 0.005 mm}
  caliper: {name: caliper, kind: caliper, range: 0–150 mm, step: 0.01 mm, error: 0.03 mm}
  micrometer: {name: micrometer 25–50, kind: outside micrometer, range: 25–50 mm, step: 0.01 mm, error: 0.004 mm}
turning:
  bar: {name: breaker bar, kind: bar}
  gauge: {name: angle gauge, kind: angle gauge, error: 3°}
"""

START = datetime(2026, 3, 7, 10, 0, tzinfo=UTC)


@dataclass
class Job:
    """One build, opened anew for every act, a minute later each time."""

    book: Path
    now: datetime = field(default=START)

    def bench(self) -> Bench:
        """What the book says now; the book is let go of at once."""
        bench = open_bench(self.book, now=self.now)
        bench.store.close()
        return bench

    def record(self, kind: str, **fields: Any) -> Recorded:
        self.now += timedelta(minutes=1)
        bench = open_bench(self.book, now=self.now)
        try:
            return record(bench, kind, fields)
        finally:
            bench.store.close()

    def read_code(self) -> None:
        self.record("identity-read", code="L1-A", read_from="pad")

    def pull(self, stage: int, bolt: str, outcome: str = "done", **more: Any) -> Recorded:
        return self.record("pull", joint="head", stage=stage, bolt=bolt, outcome=outcome, **more)

    def tighten_all(self) -> None:
        for stage, outcome in (
            (1, "done"),
            (2, "clicked while turning"),
            (3, "clicked while turning"),
            (4, "angle reached"),
        ):
            for bolt in ("1", "3", "2", "4"):
                self.pull(stage, bolt, outcome)


def make_job(folder: Path, *, sheet: str = SMALL, kit: str = KIT) -> Job:
    """Begin a build in a folder."""
    (folder / "sheet.yaml").write_text(sheet, encoding="utf-8")
    (folder / "kit.yaml").write_text(kit, encoding="utf-8")
    book = folder / "book.gudgeon"
    begin(book, build="mine", sheet=folder / "sheet.yaml", kit=folder / "kit.yaml", at=START)
    return Job(book)


PULL: dict[str, Any] = {
    "joint": "head", "bolt": None, "stage": None, "round": None, "angle_deg": None, "tool": None, "setting": None,
    "why": "", "outcome": "clicked",
}  # fmt: skip
"""The next pull of the head as a person says it who says nothing but that it clicked."""


def said_pull(job: Job, **said: Any) -> Recorded:
    """The next pull as a person says it."""
    bench = open_bench(job.book, now=job.now)
    try:
        return record(bench, "pull", pull_fields(bench, {**PULL, **said}))
    finally:
        bench.store.close()


Maker = Callable[..., Job]

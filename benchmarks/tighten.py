"""How long 10,000 simulated tightenings of ten bolts in nine stages take, against a plain loop, in one run.

The machine differs from day to day: what can be compared is the ratio to the loop, which does one trial after the
other with the same answers. The limits are what a person should not wait longer, and the memory of a small machine.
The pull list of the same joint is timed beside it. `python -m benchmarks.tighten` ends with 1 when a limit is broken.
"""

import sys
import tempfile
import time
import tracemalloc
from collections.abc import Callable
from dataclasses import fields
from datetime import UTC, datetime
from pathlib import Path
from statistics import median

import numpy as np

from gudgeon.bench.begin import begin
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.pull_list import card
from gudgeon.bench.record import record
from gudgeon.calc.joint.program import Act, BoltSpec, Draws, JointModel, Kind, Tightened, tighten
from gudgeon.calc.joint.program_loop import Outcome, Trial, tighten_one
from gudgeon.calc.joint.thread import read_thread

TRIALS, BOLTS, LOOPED, ROUNDS = 10_000, 10, 10, 5
LIMIT_S, LIMIT_MB, LIST_LIMIT_S = 2.0, 500.0, 0.020
ORDER = (4, 5, 6, 7, 2, 3, 8, 9, 0, 1)
STAGES: tuple[tuple[Kind, float], ...] = (
    ("snug", 500.0),
    ("torque", 20.0),
    ("torque", 40.0),
    ("torque", 60.0),
    ("verify", 60.0),
    ("loosen", 180.0),
    ("torque", 30.0),
    ("turn", 90.0),
    ("turn", 90.0),
)
PROGRAM = (
    "hand-run", "torque: 20 N·m", "torque: 40 N·m", "torque: 60 N·m", "verify: 60 N·m", "loosen: 180°",
    "torque: 30 N·m", "turn: 90°", "turn: 90°",
)  # fmt: skip
SHEET = f"""gudgeon: data sheet 1
invented: yes
engine: {{name: E, codes: [E], code_is_read: on the pad, layout: inline, cylinders: 4, numbered_from: front}}
sources: {{manual: {{title: Manual, edition: first}}}}
joints:
  head:
    name: Head bolts
    role: cylinder head
    fastener: {{thread: M10, strength_class: "10.9"}}
    bolts: {BOLTS}
    order: [{", ".join(str(bolt + 1) for bolt in ORDER)}]
    thread_state: engine oil on the threads
    program:
{"".join(f"      - {stage}{chr(10)}" for stage in PROGRAM)}    source: manual p. 1
"""
KIT = """gudgeon: kit 1
wrenches: {click: {name: click wrench, kind: click, range: 10–100 N·m, step: 0.5 N·m, deviation: 4 %}}
turning: {bar: {name: breaker bar, kind: bar}, gauge: {name: angle gauge, kind: angle gauge, error: 3°}}
"""


def joint() -> JointModel:
    """Ten bolts in two rows on parts that carry the load of one to its neighbors; figures invented."""
    bolt = BoltSpec(read_thread("M10"), 940.0, 14.0, 4.5e-6, hardening_n_per_mm=4500.0)
    place = np.array([(number // 2 * 100.0, number % 2 * 90.0) for number in range(BOLTS)])
    apart = np.linalg.norm(place[:, None] - place[None], axis=2)
    return JointModel((bolt,) * BOLTS, 2.5e-6 * np.exp(-apart / 80.0))


def drawn(acts: list[Act]) -> Draws:
    """Frictions common to the set and by bolt, breakaway, wrench and angle; the same in every run."""
    random = np.random.default_rng(1)
    by_bolt, by_act = (TRIALS, BOLTS), (TRIALS, len(acts))
    common = np.exp(0.1 * random.standard_normal((TRIALS, 1)))
    return Draws(
        mu_thread=0.12 * common * np.exp(0.05 * random.standard_normal(by_bolt)),
        mu_head=0.12 * common * np.exp(0.05 * random.standard_normal(by_bolt)),
        breakaway=random.uniform(1.0, 1.15, by_bolt),
        torque_factor=1 + 0.03 * random.standard_normal(by_act),
        angle_error_deg=2.0 * random.standard_normal(by_act),
    )


def timed(work: Callable[[], object]) -> float:
    """Seconds, the median of the rounds."""
    found = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return median(found)


def peak_mb(work: Callable[[], object]) -> float:
    """The most memory that the work held at once [MB]."""
    tracemalloc.start()
    work()
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return most / 1e6


def farthest(fast: Tightened, slow: list[Outcome]) -> float:
    """How far the two lie from each other, against the greatest preload."""
    looped = np.array([one.preload_n for one in slow])
    return float(np.abs(fast.preload_n[: len(slow)] - looped).max() / looped.max())


def bench_of(folder: Path) -> Bench:
    """A book on that joint, opened, with nothing pulled yet."""
    for name, text in (("sheet.yaml", SHEET), ("kit.yaml", KIT)):
        (folder / name).write_text(text, encoding="utf-8")
    book, at = folder / "book.gudgeon", datetime(2026, 3, 7, tzinfo=UTC)
    begin(book, build="mine", sheet=folder / "sheet.yaml", kit=folder / "kit.yaml", at=at)
    for kind, body in (("identity-read", {"code": "E", "read_from": "pad"}), ("note", {"text": "begun"})):
        bench = open_bench(book, now=at)
        record(bench, kind, body)
        bench.store.close()
    bench = open_bench(book, now=at)
    bench.store.close()
    return bench


def simulation() -> bool:
    """Time both simulations and say it; whether the limits are kept."""
    model = joint()
    acts = [Act(stage, bolt, *what) for stage, what in enumerate(STAGES, start=1) for bolt in ORDER]
    draws = drawn(acts)
    names = [one.name for one in fields(Trial)]
    trials = [Trial(*(getattr(draws, name)[k].tolist() for name in names)) for k in range(LOOPED)]
    fast = timed(lambda: tighten(model, acts=acts, draws=draws))
    slow = timed(lambda: [tighten_one(model, acts=acts, trial=one) for one in trials]) / LOOPED * TRIALS
    most = peak_mb(lambda: tighten(model, acts=acts, draws=draws))
    apart = farthest(
        tighten(model, acts=acts, draws=draws),
        [tighten_one(model, acts=acts, trial=one) for one in trials],
    )
    print(
        f"{TRIALS} trials of {BOLTS} bolts in {len(STAGES)} stages: {fast:.2f} s, at most {most:.0f} MB; "
        f"the plain loop would take {slow:.0f} s ({LOOPED} trials timed), {slow / fast:.0f} times as long; "
        f"the preloads differ by {apart:.0e}"
    )
    return fast < LIMIT_S and most < LIMIT_MB and apart < 1e-9


def pull_list() -> bool:
    """Time the pull list of the same joint and say it; whether the limit is kept."""
    with tempfile.TemporaryDirectory() as folder:
        bench = bench_of(Path(folder))
    pulls = len(card(bench, "head").pulls)
    taken = timed(lambda: card(bench, "head"))
    print(f"pull list of {pulls} pulls: {taken * 1000:.1f} ms")
    return taken < LIST_LIMIT_S


def main() -> int:
    """Time all and say it."""
    return 0 if all([simulation(), pull_list()]) else 1


if __name__ == "__main__":
    sys.exit(main())

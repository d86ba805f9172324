"""A job worked through in a real book: whatever may be begun is done, and what is to be proved is proved."""

import shutil
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.doing import Known
from gudgeon.bench.evidence import joints_of
from gudgeon.bench.holds import IDENTITY, standings
from gudgeon.bench.network import Task, tasks_of
from gudgeon.bench.progress import progress
from gudgeon.bench.ready import ready
from gudgeon.bench.record import draft, writer_here
from gudgeon.bench.standing import Network
from tests.unit.bench.benches import Job, make_job

ROLES = (
    "cylinder head", "camshaft caps", "camshaft sprockets", "belt tensioner", "crank pulley", "valve cover",
    "intake manifold", "exhaust manifold", "water pump", "thermostat housing", "seal carrier", "timing cover",
    "engine mount", "spark plugs", "oil drain plug", "oil pan", "flywheel", "rod caps", "main caps",
)  # fmt: skip


def sheet_of(*lacks: str, cylinders: int = 4, roles: tuple[str, ...] = ROLES) -> str:
    """An invented engine with a joint of one bolt for every role, and one that plays none."""
    joints = "".join(
        f"""\
  {(role or "bracket").replace(" ", "_")}:
    name: The {role or "bracket"}
{f"    role: {role}" if role else "    # no role"}
    fastener: {{thread: M10x1.25, strength_class: "10.9"}}
    bolts: 1
    order: [1]
    thread_state: dry
    due_before: {"fire" if role == "spark plugs" else "crank"}
    program:
      - torque: 60 N·m
    source: manual p. 9
"""
        for role in (*roles, "")
    )
    return f"""\
gudgeon: data sheet 1
invented: yes
engine:
  name: Invented one
  codes: [L1-A]
  code_is_read: pad beside the filler
  layout: {"single" if cylinders == 1 else "inline"}
  cylinders: {cylinders}
  numbered_from: {"only one cylinder" if cylinders == 1 else "timing end"}
  does_not_have: [{", ".join(lacks)}]
sources:
  manual: {{title: Invented manual, edition: 1st}}
joints:
{joints}"""


BELT = sheet_of(
    "timing chain", "timing gears", "screw adjusters", "hydraulic lifters", "turbocharger", "wet liners"
)
AIR = sheet_of(
    "timing belt", "timing chain", "shims", "hydraulic lifters", "liquid cooling", "wet liners", "turbocharger",
    "fuel injection", "overhead cam", "camshaft caps", cylinders=1, roles=("cylinder head", "crank pulley",
    "valve cover", "intake manifold", "exhaust manifold", "spark plugs", *ROLES[-5:]),
)  # fmt: skip
CHAIN = sheet_of(
    "timing belt", "timing gears", "shims", "screw adjusters", "turbocharger", "wet liners",
    roles=tuple(role for role in ROLES if role != "belt tensioner"),
)  # fmt: skip


def begun(folder: Path, *, sheet: str, job: str) -> Job:
    """A build with its job chosen."""
    made = make_job(folder, sheet=sheet)
    if job:
        made.record("job-chosen", job=job)
    return made


def able_to_be_cranked(folder: Path) -> Job:
    """An engine of which all is done: played to its end, and its one joint without a role pulled."""
    job = begun(folder, sheet=AIR, job="")
    play(job)
    write(job, pulled("bracket"))
    return job


def copied(job: Job, folder: Path) -> Job:
    """A copy of it, in a folder that is not there yet."""
    shutil.copytree(job.book.parent, folder)
    return Job(folder / job.book.name, job.now)


def why_not(job: Job, milestone: str = "crank") -> dict[str, str]:
    """What stands in the way of a milestone, and why."""
    return {one.what: one.why for one in ready(job.bench(), milestone=milestone).reasons}


def network(bench: Bench) -> Network:
    """The tasks of a bench as they stand."""
    return Network(bench, tasks_of(bench.sheet, bench.state))


def play(job: Job, *, until: str = "", most: int = 400) -> list[str]:
    """Do all that may be begun until nothing is left, or until a task may be begun that is not to be done; its keys."""
    done: list[str] = []
    while len(done) < most:
        found = network(job.bench())
        ready = [key for key in found.order if found.stand(key).where == "ready"]
        if until in ready:
            return done
        write(job, [one for key in ready for one in entries_of(found.tasks[key], found.bench)])
        done += ready
        if not ready and not wait(job, found):
            return done
    raise AssertionError(f"it goes on after {most} tasks")


Said = tuple[str, dict[str, object]]


def entries_of(task: Task, bench: Bench) -> Iterator[Said]:
    """Everything that the task is: its pulls, its proofs, its way to the shop, and the word that it is done."""
    for key in joints_of(task, bench.sheet):
        if not progress(bench.sheet.joints[key], bench.state.joints.get(key)).complete:
            yield from pulled(key)
    if task.shop_when == "sent":
        yield "shop-out", {"part": task.shop_part, "shop": "Mill Lane", "ordered": "as the order says"}
    asked = {one.hold.id for one in standings(bench.sheet, bench.state)}
    yield "task-done", {"task": task.key}
    for hold in task.proves:
        if hold == IDENTITY:
            yield "identity-read", {"code": "L1-A", "read_from": "pad"}
        elif hold in asked:
            yield "hold-proved", {"hold": hold, "value": "seen"}


def pulled(joint: str) -> tuple[Said, Said]:
    """The one bolt of a joint pulled and marked."""
    pull = {"joint": joint, "stage": 1, "bolt": "1", "outcome": "clicked while turning", "tool": "half",
            "setting": "60 N·m"}  # fmt: skip
    return ("pull", pull), ("joint-marked", {"joint": joint, "how": "paint"})


def write(job: Job, entries: Iterable[Said]) -> None:
    """Entries a minute apart, all at once and without the remarks that recording one by one would make."""
    bench = open_bench(job.book, now=job.now)
    known, drafts = Known.of(bench.state), []
    try:
        for kind, fields in entries:
            job.now += timedelta(minutes=1)
            by, papers = writer_here(), bench.papers
            drafts.append(
                draft(
                    papers,
                    build=bench.build,
                    kind=kind,
                    fields=fields,
                    at=job.now,
                    basis="",
                    by=by,
                    known=known,
                )
            )
            known.note(bench.sheet, kind=kind, fields=fields)
        bench.store.append_many(drafts)
    finally:
        bench.store.close()


def wait(job: Job, found: Network) -> bool:
    """Let the next thing that runs by itself come to its end, or fetch a part; false when nothing runs."""
    ends = [running.ends for key in found.tasks if (running := found.own_wait(key)) is not None]
    away = [part for part, one in found.bench.state.shop.items() if not one.back]
    if ends:
        job.now = max(job.now, min(ends)) + timedelta(minutes=1)
    elif away:
        write(job, [("shop-back", {"part": away[0], "found": "as ordered"})])
    return bool(ends or away)


def without_proof(bench: Bench, hold: str) -> Bench:
    """The same bench before one of its proofs was written."""
    holds = {key: one for key, one in bench.state.holds.items() if key != hold}
    return replace(bench, state=replace(bench.state, holds=holds))

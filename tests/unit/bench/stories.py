"""For tests that tell how something goes wrong: a bench of the invented engine with an empty book, and what stops it."""

from importlib import resources
from pathlib import Path

from gudgeon.bench.ready import ready
from gudgeon.bench.start import held_back
from tests.unit.bench.benches import Job, make_job

DEMO = resources.files("gudgeon.demo")


def invented(folder: Path, *changes: tuple[str, str]) -> Job:
    """The invented engine of four cylinders, belt and shims, its code read and nothing else done; its sheet may be changed."""
    sheet = (DEMO / "sheet.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert sheet.count(old) == 1, old
        sheet = sheet.replace(old, new)
    job = make_job(folder, sheet=sheet, kit=(DEMO / "kit.yaml").read_text(encoding="utf-8"))
    job.record("identity-read", code="TW18-D4", read_from="pad")
    return job


def open_before(job: Job, milestone: str = "crank") -> dict[str, str]:
    """What is open before a milestone, each with why."""
    return {one.what: one.why for one in ready(job.bench(), milestone=milestone).reasons}


def held(job: Job, task: str) -> str:
    """What holds a task back when somebody asks to begin it; nothing when it may be begun."""
    return "; ".join(held_back(job.bench(), task))


def change_sheet(job: Job, old: str, new: str) -> None:
    """A figure of the sheet is another one from now on."""
    path = job.book.parent / "sheet.yaml"
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, old
    path.write_text(text.replace(old, new), encoding="utf-8")

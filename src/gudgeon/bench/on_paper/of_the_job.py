"""What of the sheet belongs to the job that was chosen: the characteristics it measures, the joints it tightens."""

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib import resources

from gudgeon.bench.buying.part_tasks import Rule
from gudgeon.bench.context import Bench
from gudgeon.bench.errors import EngineDiffers
from gudgeon.bench.job_choice import untouched
from gudgeon.bench.network import job_of, tasks_of
from gudgeon.sheet.inspections import Characteristic


@lru_cache(maxsize=1)
def measuring_rules() -> tuple[Rule, ...]:
    """Which tasks measure what, in the order in which the rules count."""
    file = resources.files("gudgeon.bench").joinpath("data/measures.toml")
    read = tomllib.loads(file.read_text(encoding="utf-8"))
    return tuple(Rule(tuple(one["words"]), tuple(one["tasks"])) for one in read["measured"])


def measured_by(item: Characteristic) -> tuple[str, ...]:
    """The tasks, of any job, that measure a characteristic; none where no rule knows it."""
    for said in (item.name, item.part):
        found = next((rule.tasks for rule in measuring_rules() if rule.knows(said)), ())
        if found:
            return found
    return ()


def to_be_measured(bench: Bench) -> tuple[dict[str, Characteristic], tuple[str, ...]]:
    """The characteristics of the job by their keys, in the order of the sheet, and the names of all others.

    What has been read already belongs to it, whatever the job. What no rule knows belongs to every whole job.
    """
    known = bench.sheet.characteristics
    tasks = {task.key for task in tasks_of(bench.sheet, bench.state)}
    whole = job_of(bench.state).whole
    read = {key for key, _, _ in bench.state.readings} | {key for key, _ in bench.state.scans}
    own = {}
    for key, item in known.items():
        by = measured_by(item)
        if tasks & set(by) or (whole and not by) or _is_read(key, read, known):
            own[key] = item
    return own, tuple(item.name for key, item in known.items() if key not in own)


def _is_read(key: str, read: set[str], known: Mapping[str, Characteristic]) -> bool:
    """Whether the book has it; of what is worked out, whether it has all that it is worked out of."""
    item = known[key]
    return key in read or (item.computed and all(name in read for name in item.of))


def joints_of_job(bench: Bench) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The keys of the joints that the job asks for, and the names of those that it leaves alone."""
    left = untouched(bench)
    own = tuple(key for key in bench.sheet.joints if key not in left)
    return own, tuple(bench.sheet.joints[key].name for key in left)


def left_out_words(bench: Bench) -> str:
    """Why no figure is printed, and what to do about it; nothing where figures are not locked."""
    locked = bench.locked
    if locked is None:
        return ""
    why = locked.message.splitlines()[0]
    if isinstance(locked, EngineDiffers):
        return f"{why} Use the sheet of this engine."
    return f"{why} Read it off the engine: {bench.sheet.engine.code_is_read}."

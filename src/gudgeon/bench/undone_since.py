"""What was taken apart by the book and not put together since: by no entry at all, or before it was taken apart again.

A task that takes apart is written down in words alone, and says nothing of the joint, the fluid or the connectors that
another task puts back. So the order of both tells: what takes apart comes first, and when its word is the later one,
either it was done once more, or it was only written down late. Nobody knows which, until somebody says so.
"""

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from functools import lru_cache
from importlib import resources

from gudgeon.bench.context import Bench
from gudgeon.bench.evidence import is_shop_part, joints_of
from gudgeon.bench.network import Task
from gudgeon.bench.reason import Reason, when
from gudgeon.book.state import TaskState

DISTURBED = "gudgeon record disturbed {} --why …"
NEVER = "Do it, and say that it is done."
AGAIN = (
    "Look whether it is still as it was done. If it was taken apart again, do it again; if that was only "
    "written down late, strike it."
)


@lru_cache(maxsize=1)
def _rules() -> dict[str, dict[str, str]]:
    file = resources.files("gudgeon.bench").joinpath("data/put_back.toml")
    return tomllib.loads(file.read_text(encoding="utf-8"))


def put_back() -> Mapping[str, str]:
    """Each task of a job that takes apart, and the one that puts the same together again."""
    return _rules()["put_back"]


def left_for_the_shop() -> Mapping[str, str]:
    """Each task that takes a part to the machine shop, and the one without whose undoing the part cannot leave."""
    return _rules()["left_for_the_shop"]


def reasons(bench: Bench, of_job: Iterable[Task]) -> Iterator[Reason]:
    """Every task of a job that puts together again what was taken apart by the book, and was not done since."""
    tasks = {task.key: task for task in of_job}
    for apart, back in put_back().items():
        said = bench.state.tasks.get(apart)
        if said is None or said.status != "done" or apart not in tasks or back not in tasks:
            continue
        done = last_of(tasks[back], bench)
        if done < said.order:
            yield _back(tasks[back], bench, tasks[apart], said, never=not done)
    for sent, back in left_for_the_shop().items():
        if sent not in tasks or back not in tasks:
            continue
        done = last_of(tasks[back], bench)
        for part, one in bench.state.shop.items():
            there = is_shop_part(tasks[sent], part) and one.back
            if there and 0 < done < one.order:
                why = f"after it {part} left for {one.shop} ({_said(one.out)})"
                close = _typed(tasks[back], bench, at_joint=DISTURBED)
                yield _reason(tasks[back], why, AGAIN, close, about=f"part:{part}")


def _back(task: Task, bench: Bench, apart: Task, said: TaskState, *, never: bool) -> Reason:
    words, about = f"“{apart.title}” was written down as done ({_said(said.since)})", f"entry:{said.entry}"
    if never:
        close = _typed(task, bench, at_joint="gudgeon tighten {}")
        return _reason(task, f"{words}, and nothing says that this was", NEVER, close, about=about)
    close = f"{_typed(task, bench, at_joint=DISTURBED)}, or written late: gudgeon strike {said.order} --why …"
    return _reason(task, f"after it {words}", AGAIN, close, about=about)


def _typed(task: Task, bench: Bench, *, at_joint: str) -> str:
    """What closes it: a command at the first joint that the task tightens, else the word that it is done."""
    joint = next(iter(joints_of(task, bench.sheet)), "")
    return at_joint.format(joint) if joint else f"gudgeon record task-done {task.key}"


def _said(moment: str) -> str:
    return when(datetime.fromisoformat(moment))


def _reason(task: Task, why: str, how: str, close: str, *, about: str) -> Reason:
    return Reason("made fast", task.title, why, task.due_before, close, how, "what you see", about=about)


def last_of(task: Task, bench: Bench) -> int:
    """The number of the last entry by which a task is done, its pulls, its proofs or its word; 0 where there is none.

    Of several joints that it tightens the one counts that was pulled the longest ago. By hours a clock that runs
    behind would make what came later the earlier.
    """
    state = bench.state
    joints = [state.joints[key].last_pull for key in joints_of(task, bench.sheet) if key in state.joints]
    pulled = min((last.order if last is not None else 0 for last in joints), default=0)
    proofs = [state.holds[hold].order for hold in task.proves if hold in state.holds]
    word = state.tasks.get(task.key)
    said = word.order if word is not None and word.status == "done" else 0
    return max([pulled, *proofs, said])

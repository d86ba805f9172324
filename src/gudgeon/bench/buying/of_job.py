"""Which parts the chosen job does not come to: the work that would need them is not in it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from gudgeon.bench.buying.model import RENEW, REWORK, Disposition
from gudgeon.bench.buying.part_tasks import tasks_by_name
from gudgeon.bench.buying.said import SaidOfPart
from gudgeon.bench.context import Bench
from gudgeon.bench.network import JOBS, job, job_of, tasks_of

NAMED = 6
"""So many are named; of more the rest is counted."""


@dataclass(frozen=True, slots=True)
class LeftOut:
    """The keys of the parts that are left out, and the sentence that says so."""

    keys: frozenset[str] = frozenset()
    words: tuple[str, ...] = ()


def left_out(bench: Bench, parts: Sequence[Disposition], *, said: Mapping[str, SaidOfPart]) -> LeftOut:
    """The parts of work that is not in the job; not what was decided, ordered or came, nor what speaks for itself."""
    elsewhere = of_other_jobs(bench)
    gone = [one for one in parts if _waits_for_nothing(one, said) and elsewhere(one.name)]
    if not gone:
        return LeftOut()
    names = [one.name for one in sorted(gone, key=lambda one: not one.one_time)]
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    many = "1 part is left out, as the work on it"
    if len(names) > 1:
        many = f"{len(names)} parts are left out, as the work on them"
    own = job_of(bench.state)
    words = (
        f"{many} is not in the job “{own.name}”: {', '.join(names[:NAMED])}{more}. What you decide to renew all the "
        "same is on the list"
    )
    return LeftOut(frozenset(one.part for one in gone), (words,))


def _waits_for_nothing(one: Disposition, said: Mapping[str, SaidOfPart]) -> bool:
    book = said.get(one.part, SaidOfPart())
    speaks = not one.one_time and one.proposal in (RENEW, REWORK)
    return not (one.decision or speaks or book.orders or book.state.received)


def of_other_jobs(bench: Bench) -> Callable[[str], bool]:
    """Whether a part of a name is needed in another job and by no task of this one."""
    if job_of(bench.state).whole and not bench.state.plan.dropped:
        return lambda name: False
    here = {one.key for one in tasks_of(bench.sheet, bench.state)}
    every = {one.key for name in JOBS for one in job(name).for_engine(bench.sheet)}

    def elsewhere(name: str) -> bool:
        tasks = tasks_by_name(name)
        return any(key in every for key in tasks) and not any(key in here for key in tasks)

    return elsewhere

"""What may still go wrong in this job: what is behind can show nothing any more."""

from collections.abc import Iterator, Mapping

from gudgeon.bench.planning.answer import Setback as Told
from gudgeon.bench.planning.figures import Mishap, figures, mishaps
from gudgeon.bench.planning.lay import Job
from gudgeon.bench.planning.words import days_words, hours_words
from gudgeon.calc.planning.finishes import Setback

ANY = "*"


def setbacks(job: Job) -> tuple[Setback, ...]:
    """What may go wrong, as extra works of a trial; one for each task in which it may show."""
    return tuple(one for mishap in mishaps() for one in _of(job, mishap))


def told(job: Job, hits: Mapping[str, int], *, trials: int) -> tuple[Told, ...]:
    """What may go wrong, in words, the likeliest first."""
    found = []
    for mishap in mishaps():
        some = list(_of(job, mishap))
        if some:
            came = sum(hits.get(one.key, 0) for one in some)
            found.append(
                Told(
                    mishap.key, mishap.title, 100 * sum(one.chance for one in some), 100 * came / max(trials, 1),
                    hours_words(mishap.minutes), days_words(mishap.wait / 1440) if mishap.wait else "", mishap.needs,
                    figures().source,
                )
            )  # fmt: skip
    return tuple(sorted(found, key=lambda one: -one.percent))


def _of(job: Job, mishap: Mishap) -> Iterator[Setback]:
    """A mishap in each of the tasks that may still show it, with its share of the chance."""
    works = job.works
    share = mishap.chance / len(mishap.shows)
    for number, (at, before) in enumerate(mishap.shows):
        if at == ANY:
            yield Setback(mishap.key, (), (job.goal,), share, mishap.minutes, wait=mishap.wait)
        elif at in works:
            held = before if before in works and _comes_after(job, before, at) else job.goal
            if _comes_after(job, held, at):
                yield Setback(
                    f"{mishap.key} {number}", (at,), (held,), share, mishap.minutes, wait=mishap.wait
                )


def _comes_after(job: Job, key: str, other: str) -> bool:
    """Whether a task comes after another one, so that something may lie between the two."""
    seen: set[str] = set()
    todo = list(job.works[key].after)
    while todo:
        one = todo.pop()
        if one == other:
            return True
        if one not in seen:
            seen.add(one)
            todo += job.works[one].after
    return False

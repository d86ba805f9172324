"""How every task of a job stands: ready, running, waiting, blocked or done, and why.

A book that names no task still answers: whoever is at a task has been through all that comes before
it, so that is taken as done and counted apart. Nothing here is stored; it is worked out anew each time.

That inference rests on the order of the work having been kept. Where the book itself says that it was not –
a task is said to be begun or finished while something before it was begun and is not done, or while something
is open that must be closed before it – the word is a breach. It is kept and told, and proves nothing of what
comes before: else “First start”, said after half of the head's pulls, would tick off the whole job. Pulls, parts
at the shop and proofs are things that happened, and go on proving what they prove.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from gudgeon.bench.context import Bench
from gudgeon.bench.doing import of_task
from gudgeon.bench.evidence import BEGUN, UNFINISHED, Evidence, at_shop, evidence
from gudgeon.bench.gates import refusals
from gudgeon.bench.holds import Standing, standings
from gudgeon.bench.network import Task
from gudgeon.bench.places import stands_in
from gudgeon.bench.ready import ready
from gudgeon.bench.reason import WORDS, here, left
from gudgeon.bench.timers import AFTER_THE_JOB, waits

Where = Literal["ready", "running", "waiting", "blocked", "done"]

NAMED = 3
"""How many causes a sentence names; the rest are counted."""


@dataclass(frozen=True, slots=True)
class Stand:
    """How one task stands. `far` counts the unfinished tasks before it, `ahead` the minutes that hang on it."""

    task: Task
    where: Where
    why: str
    since: datetime | None
    taken: bool
    unproved: tuple[str, ...]
    joint: str
    far: int
    ahead: int


@dataclass(frozen=True, slots=True)
class Running:
    """A wait that runs by itself, from the job or from the book; `said` where the book says until when."""

    name: str
    ends: datetime
    clock: bool
    said: str = ""


class Network:
    """The tasks of one engine laid over its book."""

    def __init__(self, bench: Bench, tasks: Iterable[Task]) -> None:
        self.bench = bench
        self.tasks = {task.key: task for task in tasks}
        self.timers = waits(bench)
        self.order = _topological(self.tasks)
        self.after_that = _dependents(self.tasks)
        self.holds = {one.hold.id: one for one in standings(bench.sheet, bench.state)}
        self.own = {key: self._evidence(task) for key, task in self.tasks.items()}
        self.breaches = self._breaches()
        self.still_open = self._still_open()
        self.because = self._because()
        self.shaken = self._shaken()
        self.behind_shop = self._behind_shop()
        self.at_shop = at_shop(self.tasks, bench.state)
        self.before = self._before()
        self.ahead = self._ahead()

    def _evidence(self, task: Task) -> Evidence:
        holds = [hold for hold in task.proves if hold in self.holds]
        return evidence(task, self.bench.sheet, self.bench.state, holds=holds)

    def _breaches(self) -> dict[str, str]:
        """The tasks that are said to be begun or done against a block that the book knows, and what blocks them."""
        found: dict[str, str] = {}
        unfinished: dict[str, dict[str, None]] = {}
        for key in self.order:
            task, own = self.tasks[key], self.own[key]
            before: dict[str, None] = {}
            for name in task.after:
                before |= unfinished[name]
                if self.own[name].status in UNFINISHED:
                    before[name] = None
            unfinished[key] = before
            if own.said:
                open_now = [self._unfinished_words(name) for name in before if self._stood_before(own, name)]
                open_now += self._gate(task.gate) if task.gate and own.status != "done" else []
                if open_now:
                    found[key] = _few(open_now)
        return found

    def _stood_before(self, word: Evidence, name: str) -> bool:
        """Whether a task was unfinished already when a later one was spoken of, and not only undone since."""
        under = self.own[name]
        if under.joint:
            return under.order < word.order
        return under.since is not None and word.since is not None and under.since <= word.since

    def _unfinished_words(self, name: str) -> str:
        why = self.own[name].why
        return f"“{self.tasks[name].title}” ({why or self.own[name].status})"

    def _still_open(self) -> set[str]:
        """The tasks that nobody speaks of behind a joint that is only half pulled, or a part that is away.

        Whatever was begun beside or after them, they cannot have been done: no camshaft lies in a head
        that is still being tightened.
        """
        found: set[str] = set()
        for key in self.order:
            for name in self.tasks[key].after:
                under = self.own[name]
                half = under.status in ("running", "away") and not under.said
                if self.own[key].status == "none" and (half or name in found):
                    found.add(key)
        return found

    def _because(self) -> dict[str, str]:
        """For what is taken as done: the nearest later task that was begun, by which that is known."""
        found: dict[str, str] = {}
        for key in reversed(self.order):
            later = self.after_that[key]
            begun = [name for name in later if self.own[name].status in BEGUN and name not in self.breaches]
            known = begun or [found[name] for name in later if name in found]
            if known:
                found[key] = known[0]
        return found

    def _shaken(self) -> dict[str, str]:
        """For what rests on something undone: what that is."""
        found: dict[str, str] = {}
        for key in self.order:
            for name in self.tasks[key].after:
                root = name if self.own[name].status == "undone" else found.get(name)
                if root is not None:
                    found.setdefault(key, root)
        return found

    def _behind_shop(self) -> dict[str, frozenset[str]]:
        """The tasks in which the shop has a part once more, by what comes after them with only done ones between."""
        found: dict[str, frozenset[str]] = {}
        for key in self.order:
            roots = [
                frozenset([name]) if self.own[name].status == "away" else found[name]
                for name in self.tasks[key].after
                if self.own[name].status == "away" or self.finished(name)
            ]
            found[key] = frozenset().union(*roots)
        return found

    def waits_for(self, key: str) -> list[str]:
        """The unfinished tasks right before one, and what the shop has that was back when those after it were done."""
        names = [name for name in self.tasks[key].after if not self.finished(name)]
        return [*names, *sorted(self.behind_shop[key].difference(names), key=self.order.index)]

    def taken(self, key: str) -> bool:
        """Whether a task is taken as done because a later one was begun, and nothing half done stands before it."""
        return self.own[key].status == "none" and key in self.because and key not in self.still_open

    def finished(self, key: str) -> bool:
        """Whether a task is done, by the book or by what came after, and nothing under it was undone."""
        return (self.own[key].status == "done" or self.taken(key)) and key not in self.shaken

    def _before(self) -> dict[str, frozenset[str]]:
        """The unfinished tasks that have to be done before each."""
        found: dict[str, frozenset[str]] = {}
        for key in self.order:
            names = self.waits_for(key)
            found[key] = frozenset(names).union(*(found[name] for name in names))
        return found

    def _ahead(self) -> dict[str, int]:
        """Minutes of the longest chain of work and waiting that hangs on each task, itself included."""
        found: dict[str, int] = {}
        for key in reversed(self.order):
            task = self.tasks[key]
            own = 0 if self.finished(key) else task.minutes + (task.wait.minutes if task.wait else 0)
            found[key] = own + max((found[name] for name in self.after_that[key]), default=0)
        return found

    def stand(self, key: str) -> Stand:
        """How one task stands."""
        task, own = self.tasks[key], self.own[key]
        where, why = self._where(task, own)
        done = where == "done"
        return Stand(
            task, where, why, own.since, done and self.taken(key),
            tuple(one.hold.name for one in self._missing(task)) if done else (),
            own.joint, len(self.before[key]), self.ahead[key],
        )  # fmt: skip

    def _where(self, task: Task, own: Evidence) -> tuple[Where, str]:
        if self.finished(task.key):
            return "done", self._done_words(task, own)
        if own.status in ("running", "paused"):
            return "running", "; ".join(filter(None, [own.why, self._breach_words(task)]))
        if own.status == "away":
            return "waiting", own.why
        again = f"again, {own.why}" if own.status == "undone" else ""
        if own.status == "done" or self.taken(task.key):
            root = self.tasks[self.shaken[task.key]]
            return "blocked", f"was done, in doubt now: it rests on “{root.title}” ({self.own[root.key].why})"
        causes, waits = self._causes(task), list(self._waits(task))
        if causes:
            return "blocked", "; ".join(
                filter(None, [again, self._named(task, causes), *map(self._until, waits)])
            )
        if task.minutes == 0:
            return "waiting", "; ".join(map(self._until, waits)) or "for the machine shop"
        if waits:
            return "waiting", "; ".join(filter(None, [again, *map(self._until, waits)]))
        return "ready", again

    def _done_words(self, task: Task, own: Evidence) -> str:
        said = []
        if self.taken(task.key):
            later = self.tasks[self.because[task.key]]
            word = "is done" if self.own[later.key].status == "done" else "was begun"
            said.append(f"taken as done, because “{later.title}” {word}")
        elif own.why:
            said.append(own.why)
        if task.key in self.breaches:
            said.append(f"recorded as finished although blocked: {self.breaches[task.key]}")
        said += [f"its proof is missing: {one.hold.name} ({one.why_not})" for one in self._missing(task)]
        running = self.own_wait(task.key)
        if running is not None:
            said.append(self._until(running))
        return "; ".join(said)

    def _breach_words(self, task: Task) -> str:
        """For a task that is said to be in hand: what blocks it all the same."""
        if not self.own[task.key].said:
            return ""
        against = [self.breaches[task.key]] if task.key in self.breaches else []
        against += map(self._until, self._waits(task))
        return f"begun although blocked: {'; '.join(against)}" if against else ""

    def blocked_by(self, key: str) -> str:
        """What a task would wait for if nobody had said that it was begun; nothing when it may be begun."""
        task = self.tasks[key]
        causes, waits = self._causes(task), list(self._waits(task))
        named = [self._named(task, causes)] if causes else []
        return "; ".join([*named, *map(self._until, waits)])

    def _missing(self, task: Task) -> list[Standing]:
        """The holds of a task that do not stand."""
        return [
            self.holds[hold] for hold in task.proves if hold in self.holds and not self.holds[hold].stands
        ]

    def _causes(self, task: Task) -> list[str]:
        """What a task waits for that is not done or not proved, nearest first."""
        names = self.waits_for(task.key)
        names.sort(key=lambda name: (len(self.before[name]), self.order.index(name)))
        found = [f"“{self.tasks[name].title}”{self._beside(name)}" for name in names]
        found += [f"{part} is at the machine shop" for part, key in self.at_shop.items() if key == task.key]
        holds = [
            one
            for name in task.after
            if self.finished(name) and not self.taken(name)
            for one in self._missing(self.tasks[name])
        ]
        holds += [
            self.holds[hold] for hold in task.after_hold if hold in self.holds and not self.holds[hold].stands
        ]
        # What is proved in a task that is not done yet needs no word of its own.
        coming = {hold for name in self.before[task.key] for hold in self.tasks[name].proves}
        found += [f"proof: {one.hold.name} ({one.why_not})" for one in holds if one.hold.id not in coming]
        if not found:
            found += self._gate(task.gate) if task.gate else []
            acts = of_task(self.bench.sheet, task.key).acts
            found += [f"gate: {one.why}" for one in refusals(self.bench, acts)]
        return list(dict.fromkeys(found))

    def _beside(self, name: str) -> str:
        return {"running": " (running)", "paused": " (left standing)"}.get(self.own[name].status, "")

    def _gate(self, milestone: str) -> list[str]:
        """The acts that are milestones themselves ask everything else that is due before them."""
        reasons = ready(self.bench, milestone=milestone).reasons
        if not reasons:
            return []
        things = "1 thing" if len(reasons) == 1 else f"{len(reasons)} things"
        return [f"{things} open before you may {WORDS[milestone]}, first: {reasons[0].what}"]

    def _named(self, task: Task, causes: list[str]) -> str:
        """A few causes by name, the others and what stands behind them by number."""
        shown = "; ".join(causes[:NAMED])
        rest = max(len(self.before[task.key]), len(causes)) - len(causes[:NAMED])
        return f"{shown}; and {rest} more before it" if rest > 0 else shown

    def own_wait(self, key: str) -> Running | None:
        """The wait that a finished task has set going, while it runs."""
        task, own = self.tasks[key], self.own[key]
        if task.wait is None or own.since is None or own.status != "done":
            return None
        ends = own.since + timedelta(minutes=task.wait.minutes)
        return Running(task.wait.what, ends, task.wait.clock) if ends > self.bench.now else None

    def _waits(self, task: Task) -> Iterator[Running]:
        """What has to run out before a task can begin."""
        for name in task.after:
            running = self.own_wait(name) if self.finished(name) else None
            if running is not None:
                yield running
        for timer in self.timers:
            wanted = task.no_timer and timer.kind not in AFTER_THE_JOB
            if timer.blocks and (wanted or timer.task == task.key):
                plain = timer.ends is not None and timer.words.endswith(" to go")
                yield Running(timer.name, timer.ends or self.bench.now, True, "" if plain else timer.words)

    def _until(self, one: Running) -> str:
        if one.said:
            return f"{one.name}, {one.said}"
        until = "until" if one.clock else "expected"
        return f"{one.name}, {until} {here(one.ends)} ({left(one.ends, now=self.bench.now)} to go)"


def _few(causes: list[str]) -> str:
    rest = len(causes) - NAMED
    return "; ".join(causes[:NAMED]) + (f"; and {rest} more" if rest > 0 else "")


def meant(said: str, tasks: Mapping[str, Task]) -> list[str]:
    """The tasks that are meant: the one of that key or title, else every one whose title holds the words."""
    wanted = said.strip().lower()
    for key, task in tasks.items():
        if wanted in (key, key.replace("_", " "), task.title.lower()):
            return [key]
    return [key for key, task in tasks.items() if wanted and stands_in(task.title, said=wanted)]


def _dependents(tasks: Mapping[str, Task]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {key: [] for key in tasks}
    for key, task in tasks.items():
        for name in task.after:
            found[name].append(key)
    return found


def _topological(tasks: Mapping[str, Task]) -> list[str]:
    """Every task after all that comes before it; the order of the file where that leaves a choice."""
    placed: dict[str, None] = {}
    waiting = list(tasks)
    while waiting:
        free = [key for key in waiting if all(name in placed for name in tasks[key].after)]
        placed.update(dict.fromkeys(free))
        waiting = [key for key in waiting if key not in placed]
    return list(placed)

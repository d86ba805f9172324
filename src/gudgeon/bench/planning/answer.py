"""The answer to “When will it run?”, as terminal, page, drawing and calendar show it.

Every moment comes as a time, for drawings, and in words, for reading. Words carry no key of a task; `task` is that key,
for links and for programs.
"""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from gudgeon.bench.answer import Heading

SpanKind = Literal["work", "wait", "shop", "delivery"]
"""Hands; something that runs by itself; away at the machine shop; on its way here."""
BarState = Literal["done", "running", "planned"]
MarkKind = Literal["today", "promise", "delivery", "timer", "recall", "start planned", "start likely"]
LinkKind = Literal["shop", "delivery", "wait", "hands", "second person", "long hours", "early hours", "start"]


@dataclass(frozen=True, slots=True)
class SlotTask:
    """A task within a slot: the minutes planned for it there, and of how many minutes that are left of it in all.

    `rest` says, in words, that it goes on in another slot; empty where it is done in this one.
    """

    task: str
    title: str
    phase: str
    minutes: int
    of: int
    begins: datetime
    ends: datetime
    two_people: bool
    rest: str
    cautions: tuple[str, ...]
    late: bool


@dataclass(frozen=True, slots=True)
class Slot:
    """A time at the engine: what is done in it, and what has to lie on the bench for that.

    `begins` and `ends` are the first and the last planned minute; `words` says both as a person does. `late` is the
    caution where torque or timing work falls into late hours; empty otherwise. `runs_on` names waits that are begun in
    it and run by themselves afterwards.
    """

    begins: datetime
    ends: datetime
    words: str
    minutes: int
    tasks: tuple[SlotTask, ...]
    needs: tuple[str, ...]
    cautions: tuple[str, ...]
    two_people: bool
    late: str = ""
    runs_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Chance:
    """How likely the first start is by the end of a day; `why` says what day that is, like “as planned”."""

    by: date
    words: str
    percent: float
    why: str


@dataclass(frozen=True, slots=True)
class Week:
    """The share of the simulated finishes that fall into one week, Monday to Sunday; `up_to` with all before it."""

    begins: date
    ends: date
    words: str
    percent: float
    up_to: float


@dataclass(frozen=True, slots=True)
class Setback:
    """Something that may still go wrong: how likely, what it costs in hands and waiting, where the figures come from.

    `percent` is the chance that was taken, `came` the share of the trials in which it came.
    """

    key: str
    title: str
    percent: float
    came: float
    hands: str
    wait: str
    needs: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Distribution:
    """The date of the first start as a distribution of so many trials.

    In one case of ten it is reached by `early`, as often before as after `middle`, in nine cases of ten by `late`; None
    where that lies beyond the days that were planned. `beyond` is the share of trials that did not finish in them.
    """

    trials: int
    early: datetime | None
    middle: datetime | None
    late: datetime | None
    early_words: str
    middle_words: str
    late_words: str
    chances: tuple[Chance, ...]
    weeks: tuple[Week, ...]
    setbacks: tuple[Setback, ...]
    beyond: float
    said: str


@dataclass(frozen=True, slots=True)
class Driver:
    """One link of the chain that leads to the date, in the order of time; `days` is its length by the calendar."""

    kind: LinkKind
    task: str
    words: str
    begins: datetime
    ends: datetime
    days: float


@dataclass(frozen=True, slots=True)
class Share:
    """How much of the time until the date one kind of cause takes, such as the machine shop or his own hours."""

    what: str
    days: float
    percent: float
    words: str


@dataclass(frozen=True, slots=True)
class Doable:
    """A task that can be done meanwhile, and in which slot it is planned."""

    task: str
    title: str
    minutes: int
    planned: str


@dataclass(frozen=True, slots=True)
class Meanwhile:
    """What is done while something is away, on its way, or runs by itself; each task is told once.

    Of waits that lie within another one the names stand in `what`.
    """

    what: str
    begins: datetime
    ends: datetime
    words: str
    minutes: int
    tasks: tuple[Doable, ...]


@dataclass(frozen=True, slots=True)
class First:
    """What should be found out first so that a part can leave earlier: the tasks before that, least slack first.

    `days_earlier` is how many days earlier it can leave when these are done before anything else; 0 where the plan
    has them first already.
    """

    part: str
    leaves: datetime
    leaves_words: str
    tasks: tuple[Doable, ...]
    slack: tuple[str, ...]
    days_earlier: float
    words: str


@dataclass(frozen=True, slots=True)
class Late:
    """What was promised or expected, is not here, and whose day is over; or a wait that was missed."""

    what: str
    promised: str
    days: int
    words: str


@dataclass(frozen=True, slots=True)
class InHand:
    """A task that was begun: since when, and how much of it is taken to be left."""

    task: str
    title: str
    since: str
    left: int
    words: str


@dataclass(frozen=True, slots=True)
class Done:
    """A task that is done: when, and in how many minutes, where that was said."""

    task: str
    title: str
    when: str
    minutes: int | None
    taken: bool


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of real days in a bar."""

    kind: SpanKind
    begins: datetime
    ends: datetime
    words: str


@dataclass(frozen=True, slots=True)
class Bar:
    """A task over real days. `drives` says that it is in the chain that leads to the date."""

    task: str
    title: str
    phase: str
    state: BarState
    spans: tuple[Span, ...]
    drives: bool
    minutes: int
    words: str


@dataclass(frozen=True, slots=True)
class PhaseBar:
    """A phase over real days, from its first minute to its last, with the spans of its tasks."""

    phase: str
    spans: tuple[Span, ...]
    tasks: int
    done: int
    minutes: int
    words: str


@dataclass(frozen=True, slots=True)
class Mark:
    """A day or an hour that has a line of its own in the drawing; `about` names what comes, or what runs out."""

    kind: MarkKind
    at: datetime
    words: str
    late: bool = False
    about: str = ""


@dataclass(frozen=True, slots=True)
class Taken:
    """Minutes really taken against planned ones, per kind of task.

    `factor` is what the plan uses: it lies between 1 and the mean of what was taken, the nearer to the mean the more
    tasks are known.
    """

    kind: str
    tasks: int
    planned: int
    taken: int
    mean: float
    factor: float
    words: str


@dataclass(frozen=True, slots=True)
class Gap:
    """What keeps the plan from a date: what is missing, and what to do about it."""

    what: str
    do: str


@dataclass(frozen=True, slots=True)
class PlanAnswer:
    """The answer to “When will it run?”.

    `dated` says whether there is a date. Where there is none, `cannot` says why, and `next_tasks` still holds what to
    do next, `hands` and `longest` how long the rest takes in hours of hands and along its longest chain.
    `distribution` is None as long as it was not simulated. `first_start` is the planned date, `gap_days` how many days
    it is at most above the best that any plan could reach, proved.
    """

    heading: Heading
    dated: bool
    said: str
    cannot: tuple[Gap, ...]
    goal: str
    first_start: datetime | None
    first_start_words: str
    finish: datetime | None
    finish_words: str
    gap_days: float | None
    gap_words: str
    distribution: Distribution | None
    next_slot: Slot | None
    slots: tuple[Slot, ...]
    next_tasks: tuple[Doable, ...]
    hands: str
    longest: str
    drives: tuple[Driver, ...]
    shares: tuple[Share, ...]
    meanwhile: tuple[Meanwhile, ...]
    first: tuple[First, ...]
    late: tuple[Late, ...]
    running: tuple[InHand, ...]
    done: tuple[Done, ...]
    bars: tuple[Bar, ...]
    phases: tuple[PhaseBar, ...]
    marks: tuple[Mark, ...]
    taken: tuple[Taken, ...]
    hours: tuple[str, ...]
    assumed: tuple[str, ...]
    sources: tuple[str, ...]
    remarks: tuple[str, ...]
    tries: int = 0
    seed: int = 0

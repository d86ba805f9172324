"""What the entries say of the plan, of parts to be had, and of money that was agreed."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class AddedTask:
    """A task of his own."""

    task: str
    title: str
    after: tuple[str, ...]
    before: tuple[str, ...]
    minutes: int
    two_people: bool
    needs: tuple[str, ...]
    due_before: str
    why: str


@dataclass(frozen=True, slots=True)
class OwnMinutes:
    """How long he thinks a task takes him: at best, as a rule, at worst."""

    low: int
    likely: int
    high: int
    why: str


@dataclass(frozen=True, slots=True)
class Promise:
    """The day on which something is promised, the span around it, and the hour at which that was said."""

    what: str
    of: str
    on: str
    earliest: str
    latest: str
    by: str
    said: str


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """Hours of one day that differ from those of other weeks."""

    day: str
    hours: tuple[str, ...]
    whose: str
    why: str


@dataclass(frozen=True, slots=True)
class PlanState:
    """The job as chosen and changed; `job` is empty while nothing was chosen."""

    job: str = ""
    why: str = ""
    added: Mapping[str, AddedTask] = field(default_factory=dict)
    dropped: Mapping[str, str] = field(default_factory=dict)
    minutes: Mapping[str, OwnMinutes] = field(default_factory=dict)
    after: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    promises: Mapping[tuple[str, str], Promise] = field(default_factory=dict)
    """By what it is of (shop, delivery) and what is promised; the latest word counts."""
    days: Mapping[tuple[str, str], PlannedDay] = field(default_factory=dict)
    """By whose day it is, and the day."""


@dataclass(frozen=True, slots=True)
class Order:
    """A part that was ordered."""

    entry: str
    part: str
    supplier: str
    quantity: int
    expected: str
    amount: str
    currency: str
    note: str
    time: str


@dataclass(frozen=True, slots=True)
class Price:
    """What a supplier asks for a part, as it was seen last; `days` is None where it was not said."""

    part: str
    supplier: str
    price: str
    currency: str
    pack: int
    days: int | None
    article: str
    time: str


@dataclass(frozen=True, slots=True)
class Age:
    """How long a part has been in the engine; empty where it was not said."""

    distance: str
    unit: str
    months: int | None
    basis: str


@dataclass(frozen=True, slots=True)
class Life:
    """How parts like this one wear out, and what a failure costs."""

    shape: str
    life: str
    unit: str
    until: str
    cost: str
    currency: str
    basis: str


@dataclass(frozen=True, slots=True)
class BuyingState:
    """What was ordered, what is asked for it, and how worn what is there may be."""

    orders: tuple[Order, ...] = ()
    prices: Mapping[tuple[str, str, str], Price] = field(default_factory=dict)
    """By part, supplier and currency, the newest at the end."""
    ages: Mapping[str, Age] = field(default_factory=dict)
    lives: Mapping[str, Life] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Cost:
    """What something is expected to cost, and after which stop point that was known."""

    what: str
    of: str
    low: str
    likely: str
    high: str
    currency: str
    chance: str
    due: str
    basis: str
    time: str


@dataclass(frozen=True, slots=True)
class Told:
    """A range that was told to the owner."""

    at: str
    low: str
    middle: str
    high: str
    currency: str
    to: str
    note: str
    time: str


@dataclass(frozen=True, slots=True)
class Ceiling:
    """The most that the job may cost, as agreed."""

    amount: str
    currency: str
    by: str
    until: str
    note: str
    time: str


@dataclass(frozen=True, slots=True)
class Approved:
    """A yes or a no of a named person."""

    what: str
    answer: str
    by: str
    amount: str
    currency: str
    note: str
    time: str


@dataclass(frozen=True, slots=True)
class AgreedState:
    """What was expected, told and agreed about money, in the order in which it was said."""

    costs: Mapping[str, Cost] = field(default_factory=dict)
    """By what it is for; the latest word counts."""
    told: tuple[Told, ...] = ()
    ceilings: tuple[Ceiling, ...] = ()
    approvals: tuple[Approved, ...] = ()

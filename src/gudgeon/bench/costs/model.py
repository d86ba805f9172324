"""The answer to “What will it cost?”, as terminal, page, drawing and paper show it.

Amounts are texts: exact, as they were written and summed. A range is simulated; it carries its numbers for the
drawing, rounded to three figures as its words are.
"""

from dataclasses import dataclass
from typing import Literal

from gudgeon.bench.answer import Heading

Point = Literal["start", "diagnosis", "strip", "measuring"]
POINTS: tuple[Point, ...] = ("start", "diagnosis", "strip", "measuring")
POINT_WORDS: dict[str, str] = {
    "start": "at the start",
    "diagnosis": "after finding out",
    "strip": "after taking it apart",
    "measuring": "after measuring",
    "today": "today",
    "closing": "at the end",
}
LineState = Literal["expected", "agreed", "spent", "declined"]


@dataclass(frozen=True, slots=True)
class Payment:
    """One amount: for what, to whom, which way it went."""

    when: str
    what: str
    amount: str
    currency: str
    way: str
    part: str
    to: str


@dataclass(frozen=True, slots=True)
class Sum:
    """What was spent in one currency, less what came back."""

    currency: str
    spent: str
    back: str
    total: str


@dataclass(frozen=True, slots=True)
class Range:
    """In one case of ten it is less than `low`, in one more than `high`; as often more as less than `middle`."""

    low: float
    middle: float
    high: float
    words: str


@dataclass(frozen=True, slots=True)
class CostLine:
    """One line of an account: what was expected of it, what is agreed, what was spent.

    `low`, `likely` and `high` are empty where nothing was expected, as is `expected`, which says it in words; `chance`
    is empty where it comes for certain. `known` says since which point it is known, `counts` what of it is in the sum
    today.
    """

    what: str
    kind: str
    low: str
    likely: str
    high: str
    chance: str
    expected: str
    known: str
    basis: str
    state: LineState
    agreed: str
    spent: str
    counts: str
    note: str


@dataclass(frozen=True, slots=True)
class PointLine:
    """What was expected at one stop point, and what was told to the owner then; no range before it is reached."""

    at: str
    words: str
    reached: bool
    range: Range | None
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """A finding that changed the estimate, and at which point it came."""

    at: str
    words: str


@dataclass(frozen=True, slots=True)
class ApprovalLine:
    """A yes or a no, by whom and when; `effect` says what it does to the ceiling."""

    what: str
    answer: str
    by: str
    when: str
    amount: str
    effect: str
    note: str


@dataclass(frozen=True, slots=True)
class CeilingLine:
    """The most that the job may cost: as agreed, what was approved on top of it, and how likely it is kept.

    `limit` is the ceiling with what was approved on top; `within` is in words. `amount_number` is for the drawing.
    """

    agreed: str
    limit: str
    limit_number: float
    by: str
    when: str
    until: str
    note: str
    within: str
    chance_within: float


@dataclass(frozen=True, slots=True)
class ClosingLine:
    """One line of the closing account; the expectation of what was not certain is weighed with its chance."""

    what: str
    expected: str
    spent: str
    difference: str
    note: str


@dataclass(frozen=True, slots=True)
class Closing:
    """The closing account of one currency: expected against spent, exact."""

    lines: tuple[ClosingLine, ...]
    expected: str
    spent: str
    difference: str
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Account:
    """Everything in one currency; currencies are never mixed.

    `over` is the warning where it is, or is likely to be, above the ceiling; empty where it is not. `unapproved` are
    the findings since the ceiling was agreed that nobody has said yes to.
    """

    currency: str
    said: str
    lines: tuple[CostLine, ...]
    points: tuple[PointLine, ...]
    today: Range
    spent: str
    spent_number: float
    agreed: str
    to_come: Range | None
    ceiling: CeilingLine | None
    over: str
    unapproved: tuple[str, ...]
    changes: tuple[Change, ...]
    approvals: tuple[ApprovalLine, ...]
    remarks: tuple[str, ...]
    closing: Closing | None


@dataclass(frozen=True, slots=True)
class OwnHours:
    """His own hours: never in a sum of money."""

    done: str
    left: str
    worth: str
    rate: str


@dataclass(frozen=True, slots=True)
class NoCost:
    """Something that will cost, or has cost, without an amount in the book."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class Costs:
    """The answer to “What will it cost?”. `over` says whether any account asks to be spoken of before going on."""

    heading: Heading
    job: str
    where: str
    reached: str
    accounts: tuple[Account, ...]
    missing: tuple[NoCost, ...]
    hours: OwnHours
    payments: tuple[Payment, ...]
    sums: tuple[Sum, ...]
    over: bool
    closed: bool
    behind: tuple[str, ...]

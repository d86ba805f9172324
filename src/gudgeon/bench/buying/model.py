"""The answer to “What do I buy?”, as terminal, page and paper show it."""

from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.supplies.model import Lacking, Supply

RENEW, REWORK, REUSE, ACCEPT, OPEN = "renew", "rework", "reuse", "accept", ""
TO_ORDER, ORDERED, LATE, RECEIVED, COMPARED, FITTED = (
    "to order", "ordered", "late", "received", "compared", "fitted",
)  # fmt: skip
STATES = (TO_ORDER, LATE, ORDERED, RECEIVED, COMPARED, FITTED)
"""What has to be done first stands first."""


@dataclass(frozen=True, slots=True)
class Ground:
    """One thing that speaks for what becomes of a part: what it proposes (nothing: it only asks), and whose word."""

    proposes: str
    words: str
    source: str = ""


@dataclass(frozen=True, slots=True)
class WhileOpen:
    """The sums of renewing a part while it is open, in words; it never decides.

    `speaks_for` is `renewing`, `keeping`, or nothing where the figures do not tell. `chance_kept` and `chance_new` are
    in percent, amounts in `currency`; None where a figure is missing.
    """

    said: str
    sums: tuple[str, ...]
    best_age: str
    missing: tuple[str, ...]
    speaks_for: str
    basis: str
    chance_kept: float | None = None
    chance_new: float | None = None
    kept: float | None = None
    renewed: float | None = None
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Disposition:
    """What becomes of one part.

    `decision` is what the person decided, empty while nothing was; `proposal` the gravest of the `grounds`. `differs`
    says where the decision is another one. `asks` says what is to be done to decide.
    """

    part: str
    name: str
    decision: str
    why: str
    proposal: str
    grounds: tuple[Ground, ...]
    differs: str
    asks: str
    one_time: bool
    while_open: WhileOpen | None = None

    @property
    def counts(self) -> str:
        """What is reckoned with: the decision, else what is renewed every time."""
        return self.decision or (RENEW if self.one_time else OPEN)


@dataclass(frozen=True, slots=True)
class Ordered:
    """One order of a part: of whom, how many, when it should come; `late` in words where that day is over."""

    supplier: str
    quantity: int
    expected: str
    late: str
    amount: str


@dataclass(frozen=True, slots=True)
class Asked:
    """What a supplier asks for a part; `article` is its number or make, `seen` when the person saw the price."""

    supplier: str
    price: str
    pack: int
    days: str
    article: str
    seen: str


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the list.

    `quantity` is how many are needed, `to_order` how many of them are neither ordered nor there. `before` is the title
    of the task that needs it, `day` when that is planned. `compare` is what is looked at when the new one is laid on
    the old, `old` what may be done with the old one. `records` pairs what may be recorded now with its command.
    """

    part: str
    name: str
    size: str
    quantity: int
    counted: str
    to_order: int
    one_time: bool
    why: str
    source: str
    before: str
    before_task: str
    day: str
    state: str
    orders: tuple[Ordered, ...]
    compare: str
    old: str
    asked: tuple[Asked, ...]
    notes: tuple[str, ...]
    records: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Bought:
    """One part within a purchase: packs and pieces, and what they cost together."""

    part: str
    name: str
    pieces: int
    packs: int
    article: str
    cost: str


@dataclass(frozen=True, slots=True)
class FromSupplier:
    """What is bought from one supplier: goods, shipping, both together, and the days until the last of it comes."""

    supplier: str
    lines: tuple[Bought, ...]
    goods: str
    shipping: str
    total: str
    days: str
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Buying:
    """The purchase in one currency: from whom, what it costs, whether none costs less, and what one alone would cost.

    `cannot` says why there is none.
    """

    currency: str
    orders: tuple[FromSupplier, ...]
    total: str
    proven: bool
    proof: str
    alone: tuple[str, ...]
    too_late: tuple[str, ...]
    cannot: str = ""


@dataclass(frozen=True, slots=True)
class BuyAnswer:
    """The answer: every part, the list, the purchases, what is used up and what is lacking.

    `may_come` are the parts of which nothing is decided yet; `nobody` those to order that no supplier has.
    """

    heading: Heading
    said: str
    no_delay: bool
    parts: tuple[Disposition, ...]
    lines: tuple[Line, ...]
    may_come: tuple[str, ...]
    purchases: tuple[Buying, ...]
    nobody: tuple[str, ...]
    supplies: tuple[Supply, ...]
    tools: tuple[Lacking, ...]
    remarks: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def open(self) -> int:
        """How many lines are still to be ordered."""
        return sum(one.to_order > 0 for one in self.lines)

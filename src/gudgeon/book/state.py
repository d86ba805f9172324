"""The state of a build, as the entries add up to it."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class IdentityState:
    """The code as read off the engine."""

    entry: str
    code: str
    read_from: str
    matches: bool
    why_not: str | None


@dataclass(frozen=True, slots=True)
class ReadingState:
    """The latest reading of one place in one condition; `order` is the number of its entry in the chain."""

    entry: str
    item: str
    place: str
    value: str | None
    low: str | None
    high: str | None
    unit: str
    instrument: str
    condition: str
    time: str
    sheet: str
    kit: str = ""
    shown: Mapping[str, str] = field(default_factory=dict)
    who: str = ""
    order: int = 0


@dataclass(frozen=True, slots=True)
class PullState:
    """The latest action recorded for one bolt in one stage; `order` is its number in the chain.

    `why` says what is doubtful about a doubtful pull, and else what the person remarked. What the list said that
    day: the setting it `asked` for, with which `adapter`, how far off that it may be (`room`), and, in `unfitted`,
    that it named no wrench.
    """

    entry: str
    order: int
    outcome: str
    angle_deg: str | None
    doubtful: bool
    why: str
    time: str
    tool: str
    setting: str
    who: str = ""
    sheet: str = ""
    target: str = ""
    asked: str = ""
    adapter: str = ""
    room: str = ""
    unfitted: str = ""


@dataclass(frozen=True, slots=True)
class JointState:
    """Pulls since the joint was last slackened, by stage, round and bolt; `history` holds the earlier ones.

    `marked` ends with the next pull, `disturbed_why` with the first one after the disturbance.
    `doubts` are those that belong to the joint and to none of its pulls; `disturbed_order` is the
    number in the chain of the last disturbance, 0 for none. `loosened` holds what was done of the loosening
    program; it ends with the next pull.
    """

    pulls: Mapping[tuple[int, int, str], PullState] = field(default_factory=dict)
    marked: bool = False
    disturbed_why: str = ""
    doubts: tuple[str, ...] = ()
    history: tuple[PullState, ...] = ()
    disturbed_order: int = 0
    loosened: Mapping[tuple[int, int, str], PullState] = field(default_factory=dict)

    @property
    def last_pull(self) -> PullState | None:
        """The pull that was recorded last."""
        return max(self.pulls.values(), key=lambda pull: pull.order, default=None)

    @property
    def in_doubt(self) -> bool:
        """Whether anything about the joint is in doubt."""
        return bool(self.doubts) or any(pull.doubtful for pull in self.pulls.values())


@dataclass(frozen=True, slots=True)
class OpenItem:
    """Something on one of the four open lists."""

    entry: str
    item: str
    name: str
    where: str
    why: str
    due_before: str
    due_task: str
    since: str
    group: str
    joint: str | None


@dataclass(frozen=True, slots=True)
class Count:
    """How many of a group came off, and how many of them are back; the difference is on the list `left over`."""

    off: int
    on: int


@dataclass(frozen=True, slots=True)
class HoldState:
    """A hold: proved, or void with the reason.

    `void_by` is the entry that voided it; `void_path` leads from what that entry touched to what
    this hold rests on, like `("joint:head", "hold:timing")`. `time` is when it was proved last.
    """

    entry: str
    status: str
    value: str
    why_void: str
    rests_on: tuple[str, ...]
    void_by: str = ""
    void_path: tuple[str, ...] = ()
    time: str = ""


@dataclass(frozen=True, slots=True)
class TimerState:
    """A wait, and when it ends by itself."""

    entry: str
    name: str
    started: str
    ends: str
    ended: bool
    task: str
    due_before: str
    how: str = ""


@dataclass(frozen=True, slots=True)
class TaskState:
    """What was recorded last of a task: `running`, `paused` or `done`, and since when.

    `order` is the number of that entry in the chain; `said` is why it was left, or the remark on finishing it.
    """

    entry: str
    status: str
    since: str
    order: int
    minutes: int | None = None
    said: str = ""


@dataclass(frozen=True, slots=True)
class PartState:
    """What becomes of a part, and whether the new one was compared."""

    decision: str = ""
    why: str = ""
    received: bool = False
    compared: bool = False


@dataclass(frozen=True, slots=True)
class ShopState:
    """A part at the machine shop, or back from it."""

    shop: str
    ordered: str
    most_off: str | None
    out: str
    back: bool
    found: str


@dataclass(frozen=True, slots=True)
class Accepted:
    """Something outside its limit that a named person accepts."""

    entry: str
    what: str
    by: str
    why: str


@dataclass(frozen=True, slots=True)
class Paused:
    """A stop: what is in the hand and what comes next."""

    entry: str
    hand: str
    next_action: str
    time: str


@dataclass(frozen=True, slots=True)
class Struck:
    """Which entry struck another, and why."""

    by: str
    why: str
    who: str


@dataclass(frozen=True, slots=True)
class State:
    """Everything that the entries of one build add up to.

    `doubtful` pairs an entry with what is in doubt about it. It leaves the list when it is struck, or when
    the same is recorded anew; a pull also when its joint is slackened. A pull that its own recorder called
    doubtful is not on it: the joint carries that.
    `made_final` holds what was provisional and is said to be final.
    """

    build: str
    identity: IdentityState | None
    readings: Mapping[tuple[str, str, str], ReadingState]
    joints: Mapping[str, JointState]
    provisional: Mapping[str, OpenItem]
    left_in: Mapping[str, OpenItem]
    plugged: Mapping[str, OpenItem]
    left_over: Mapping[str, OpenItem]
    counts: Mapping[str, Count]
    holds: Mapping[str, HoldState]
    timers: Mapping[str, TimerState]
    tasks: Mapping[str, TaskState]
    parts: Mapping[str, PartState]
    shop: Mapping[str, ShopState]
    accepted: tuple[Accepted, ...]
    paused: Paused | None
    doubtful: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    struck: Mapping[str, Struck]
    head: str
    count: int
    made_final: Mapping[str, OpenItem] = field(default_factory=dict)

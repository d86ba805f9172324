"""The state of a build, as the entries add up to it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from gudgeon.book.plan_state import AgreedState, BuyingState, PlanState


@dataclass(frozen=True, slots=True)
class IdentityState:
    """The code as read off the engine, and when."""

    entry: str
    code: str
    read_from: str
    matches: bool
    why_not: str | None
    time: str = ""


@dataclass(frozen=True, slots=True)
class ReadingState:
    """The latest reading of one place in one condition; `order` is the number of its entry in the chain.

    Of `repeats` the value is the mean. Temperatures are in `temperature_unit`; the gauge was as warm as the part where
    `gauge_as_part` says so.
    """

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
    repeats: tuple[str, ...] = ()
    part_temperature: str | None = None
    gauge_temperature: str | None = None
    temperature_unit: str | None = None
    gauge_as_part: bool = False


@dataclass(frozen=True, slots=True)
class ScanState:
    """The latest points of one face in one condition, as they were taken over from a file."""

    entry: str
    item: str
    condition: str
    unit: str
    points: tuple[tuple[str, str, str], ...]
    instrument: str
    file: str
    sha: str
    time: str
    sheet: str
    kit: str
    shown: Mapping[str, str] = field(default_factory=dict)
    who: str = ""
    order: int = 0


@dataclass(frozen=True, slots=True)
class PullState:
    """The latest action recorded for one bolt in one stage; `order` is its number in the chain.

    `why` says what is doubtful about a doubtful pull, and else what the person remarked. What the list said that
    day: the setting it `asked` for, with which `adapter`, how far off that it may be (`room`), and, in `unfitted`,
    that it named no wrench. `shown` holds all of it, with the figures of sheet and kit that the pull was made to;
    `doubt` is the kind of doubt that its own recorder named.
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
    shown: Mapping[str, str] = field(default_factory=dict)
    doubt: str = ""
    kit: str = ""
    stage: int = 0
    bolt: str = ""


@dataclass(frozen=True, slots=True)
class LookedAt:
    """After a stop an action was looked at: which entry, when, what was seen, and whether it is as recorded."""

    entry: str
    time: str
    seen: str
    as_recorded: bool


@dataclass(frozen=True, slots=True)
class JointState:
    """Pulls since the joint was last slackened, by stage, round and bolt; `history` holds the earlier ones.

    `marked` ends with the next pull, `disturbed_why` with the first one after the disturbance.
    `doubts` are those that belong to the joint and to none of its pulls; `disturbed_order` is the
    number in the chain of the last disturbance, 0 for none. `loosened` holds what was done of the loosening
    program; it ends with the next pull. `witnessed` says who had a second look at the mark, and what was seen; it
    ends with the mark. `looked` says when the last pull was looked at after a stop, and `stopped_order` where in the
    chain work on it last went on after one. `renewed` gives by the bolt, or `all`, where in the chain it was said
    that a new one is in hand.
    """

    pulls: Mapping[tuple[int, int, str], PullState] = field(default_factory=dict)
    marked: bool = False
    disturbed_why: str = ""
    doubts: tuple[str, ...] = ()
    history: tuple[PullState, ...] = ()
    disturbed_order: int = 0
    loosened: Mapping[tuple[int, int, str], PullState] = field(default_factory=dict)
    witnessed: str = ""
    looked: LookedAt | None = None
    stopped_order: int = 0
    renewed: Mapping[str, int] = field(default_factory=dict)

    @property
    def last_pull(self) -> PullState | None:
        """The pull that was recorded last."""
        return max(self.pulls.values(), key=lambda pull: pull.order, default=None)

    def new_in_hand(self, bolt: str) -> int:
        """Where in the chain it was said last that a new one is in hand for a bolt, or for all; 0 where it was not."""
        return max(self.renewed.get(bolt, 0), self.renewed.get("all", 0))

    @property
    def in_doubt(self) -> bool:
        """Whether anything about the joint is in doubt."""
        return bool(self.doubts) or any(pull.doubtful for pull in self.pulls.values())


@dataclass(frozen=True, slots=True)
class OpenItem:
    """Something on one of the four open lists.

    `off` counts how many of it are still off, and `of` how many came off together in one `bag`. What is left in may
    hold the timing, or take torque: `holds`.
    """

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
    off: int = 1
    of: int = 1
    bag: str = ""
    holds: str = "nothing"


@dataclass(frozen=True, slots=True)
class Count:
    """How many of a group came off, and how many of them are back; the difference is on the list `left over`.

    What came off twice counts twice in `off`, once in `named`: as many pieces have a name on the list. `due` is the
    strictest milestone that any of them is due before.
    """

    off: int
    on: int
    named: int = 0
    due: str = "crank"


@dataclass(frozen=True, slots=True)
class HoldState:
    """A hold: proved, or void with the reason.

    `void_by` is the entry that voided it; `void_path` leads from what that entry touched to what this hold rests on,
    like `("joint:head", "hold:timing")`. `time` is when it was proved last, `photo` the hash of a photo that proves
    it, `order` the number in the chain of that proof, `shown` the figures it was held against.
    """

    entry: str
    status: str
    value: str
    why_void: str
    rests_on: tuple[str, ...]
    void_by: str = ""
    void_path: tuple[str, ...] = ()
    time: str = ""
    photo: str = ""
    order: int = 0
    sheet: str = ""
    shown: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class TimerState:
    """A wait, and when it ends by itself; one by distance has no `ends` but ends when the odometer shows `until`.

    `minutes` is how long it lasts; None where nobody knows, and for a distance. `bead` is the sealant whose bead it
    is a clock of, `stated` where its time stands. `behind` is the hour it counts from where its device showed an
    earlier one than the book knew already.
    """

    entry: str
    name: str
    started: str
    ends: str
    ended: bool
    task: str
    due_before: str
    how: str = ""
    kind: str = "other"
    joint: str = ""
    until: str = ""
    unit: str = ""
    order: int = 0
    minutes: int | None = None
    bead: str = ""
    stated: str = ""
    behind: str = ""


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
    """What becomes of a part, and whether the new one was compared.

    `covers` are the entries of the readings that counted when it was decided; of a new part, when it came. `decided`
    is the number of the entry that spoke last of the part as a whole, not of one of its fasteners, and `renewed` the
    same where it said that it is renewed; 0 where there is none.
    """

    decision: str = ""
    why: str = ""
    received: bool = False
    compared: bool = False
    covers: frozenset[str] = field(default=frozenset(), repr=False)
    decided: int = 0
    renewed: int = 0


@dataclass(frozen=True, slots=True)
class ShopState:
    """A part at the machine shop, or back from it; `out` and `returned` say when it left and came.

    `back_before` says when it came back from the time before, where it is not there for the first time. `order` is the
    number of the entry by which it left: what came before that says nothing of it as it is now, whatever a clock shows.
    """

    shop: str
    ordered: str
    most_off: str | None
    out: str
    back: bool
    found: str
    returned: str = ""
    back_before: str = ""
    order: int = 0


@dataclass(frozen=True, slots=True)
class Accepted:
    """Something outside its limit that a named person accepts.

    `covers` are the entries of the readings that counted then: it stands for those, and for no later one.
    """

    entry: str
    what: str
    by: str
    why: str
    covers: frozenset[str] = field(default=frozenset(), repr=False)


@dataclass(frozen=True, slots=True)
class Paused:
    """A stop: what is in the hand and what comes next.

    `screen` was in front of him, `joint` and `task` were in hand.
    """

    entry: str
    hand: str
    next_action: str
    time: str
    screen: str = ""
    joint: str = ""
    task: str = ""


@dataclass(frozen=True, slots=True)
class EngineState:
    """The engine as a whole, as far as the entries say it; None where nothing was said."""

    crank: str | None = None
    cams: str | None = None
    belt: str | None = None
    pins: str | None = None
    holder: str | None = None
    followers: str | None = None


@dataclass(frozen=True, slots=True)
class Breach:
    """An act against a gate: which entry, which act, what the gate said; `passed_by` names the override that it used.

    It blocks until an inspection says what was found, unless it was passed by somebody's override.
    """

    entry: str
    order: int
    gate: str
    act: str
    why: str
    time: str
    who: str
    found: str = ""
    inspected_by: str = ""
    passed_by: str = ""

    @property
    def open(self) -> bool:
        """Whether it still blocks."""
        return not self.found and not self.passed_by


@dataclass(frozen=True, slots=True)
class Overridden:
    """What a named person let pass; `stands` as long as nothing has happened since to what it is about."""

    entry: str
    order: int
    about: str
    by: str
    why: str
    shown: str
    time: str
    stands: bool


@dataclass(frozen=True, slots=True)
class PhotoState:
    """A photo in the folder beside the book."""

    entry: str
    sha: str
    type: str
    caption: str
    about: tuple[str, ...]
    time: str
    taken: str
    width: int
    height: int
    pins: tuple[Mapping[str, object], ...] = ()


@dataclass(frozen=True, slots=True)
class MoneyState:
    """Money spent on the job, or got back."""

    entry: str
    what: str
    amount: str
    currency: str
    way: str
    part: str
    to: str
    time: str


@dataclass(frozen=True, slots=True)
class SignedOff:
    """A named person stands for the engine before a milestone; `order` is the number of the entry."""

    entry: str
    order: int
    milestone: str
    by: str
    words: str
    time: str


@dataclass(frozen=True, slots=True)
class Tally:
    """What was counted by hand: how many of a kind came off, and how many went back; None where nobody counted.

    `missing` and `over` explain, piece by piece, what was counted back too few or too many.
    """

    off: int | None = None
    back: int | None = None
    missing: tuple[str, ...] = ()
    over: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TightenedAgain:
    """A finished joint was tightened again; `order` is the number of the entry."""

    entry: str
    order: int
    seen: str
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
    `made_final` holds what was provisional and is said to be final. `odometer` is the most that it showed, and its
    unit. `last_run` is when the starter turned the engine last. `photos_wrong` says by the hash what is wrong with
    photos: entries alone do not know it, whoever asks looks.
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
    last_time: str = ""
    made_final: Mapping[str, OpenItem] = field(default_factory=dict)
    engine: EngineState = field(default_factory=EngineState)
    breaches: tuple[Breach, ...] = ()
    overrides: tuple[Overridden, ...] = ()
    photos: tuple[PhotoState, ...] = ()
    money: tuple[MoneyState, ...] = ()
    signed: tuple[SignedOff, ...] = ()
    tallies: Mapping[str, Tally] = field(default_factory=dict)
    odometer: tuple[str, str] | None = None
    tightened_again: Mapping[str, TightenedAgain] = field(default_factory=dict)
    last_run: str = ""
    scans: Mapping[tuple[str, str], ScanState] = field(default_factory=dict)
    photos_wrong: Mapping[str, str] = field(default_factory=dict)
    plan: PlanState = field(default_factory=PlanState)
    buying: BuyingState = field(default_factory=BuyingState)
    agreed: AgreedState = field(default_factory=AgreedState)

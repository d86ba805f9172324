"""A joint's program expanded into steps, and how far the book says they are done.

A step is one action of one tool on one bolt. The order of the steps is the order of the work.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Generic, TypeVar

from gudgeon.bench.changed_figures import STAGE_KIND, of_order, of_thread
from gudgeon.bench.same import same_figure
from gudgeon.book.state import JointState, PullState
from gudgeon.errors import InputError
from gudgeon.quantity.written import Printed, parse_amount, parse_printed
from gudgeon.sheet.doubts import rule_at
from gudgeon.sheet.joints import Joint, Stage

T = TypeVar("T")

OUTCOMES: dict[str, tuple[str, ...]] = {
    "hand-run": ("done", "doubtful"),
    "draw down": ("done", "doubtful"),
    "torque": ("clicked while turning", "clicked at once", "done", "doubtful"),
    "turn": ("angle reached", "stopped at", "doubtful"),
    "loosen": ("done", "doubtful"),
    "verify": ("clicked at once", "clicked while turning", "doubtful"),
    "stretch": ("done", "doubtful"),
    "wait": ("done",),
}
"""What can have happened in a stage of each kind. A beam wrench does not click: `done`."""

GOOD = ("clicked while turning", "angle reached", "done")
"""Outcomes that complete a step. A wrench that clicked at once has moved nothing, which is
right only where the bolt was pulled to this torque before (a second pass, a verification)."""

UNSAID = "nothing says with what it was pulled"
"""The doubt of a pull for which the list named no wrench, and its recorder none."""

MARKED = ("torque", "turn", "draw down")
"""Kinds of stage of which every pull leaves a mark of its own on the head."""


@dataclass(frozen=True, slots=True)
class Step:
    """One action on one bolt; `turn_before` and `turn_after` count from the last torque stage.

    `marks` is how many dots (torque), strokes (turn) or chalk ticks (draw down) its head carries after
    it, since it was last loosened.
    """

    number: int
    stage: int
    round: int
    bolt: str
    kind: str
    turn_before: float
    turn_after: float
    at_once_is_good: bool
    pull: PullState | None
    marks: int = 0

    @property
    def done(self) -> bool:
        """Whether the book holds a good outcome for it."""
        if self.pull is None or self.pull.doubtful:
            return False
        if self.pull.outcome == "clicked at once":
            return self.at_once_is_good
        return self.pull.outcome in GOOD and self.kind != "verify"


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a joint is. `stop` is the stage after which it stays provisional for now, 0 for none.

    `to_renew` names the bolts of which the sheet orders a new one after a doubt, and none is in the book.
    `let_go` and `to_let_go` count the steps of loosening that are done, and all of them, while it is taken apart.
    """

    steps: tuple[Step, ...]
    marked: bool
    doubts: tuple[str, ...]
    bolts_are: str = "new"
    stop: int = 0
    let_go: int = 0
    to_let_go: int = 0
    to_renew: tuple[str, ...] = ()
    witnessed: bool = False
    disturbed: str = ""

    @property
    def taken_apart(self) -> bool:
        """Whether some of it is loosened and some is not: neither tight nor off."""
        return 0 < self.let_go < self.to_let_go

    @property
    def done(self) -> int:
        """How many steps are done."""
        return sum(step.done for step in self.steps)

    @property
    def next(self) -> Step | None:
        """The first step that is not done."""
        return next((step for step in self.steps if not step.done), None)

    @property
    def last(self) -> Step | None:
        """The step recorded last, by time of recording."""
        pulled = [step for step in self.steps if step.pull is not None]
        return max(pulled, key=lambda step: step.pull.order if step.pull else 0, default=None)

    @property
    def started(self) -> bool:
        """Whether anything of it has been recorded."""
        return any(step.pull is not None for step in self.steps)

    @property
    def halted(self) -> bool:
        """Whether it stands at its stop: nothing of what comes after it has been begun."""
        return bool(self.stop) and not any(step.pull for step in self.steps if step.stage > self.stop)

    @property
    def complete(self) -> bool:
        """Every step done, and nothing about it in doubt."""
        return bool(self.steps) and all(step.done for step in self.steps) and not self.doubts


def progress(joint: Joint, state: JointState | None, *, bolts_are: str = "") -> Progress:
    """Expand a joint's program and lay the book's pulls over it.

    Where the program differs for new and for used bolts, the pulls in the book say which they are; before the
    first of those they count as new, unless `bolts_are` says otherwise.
    """
    return _laid(_Itself(joint), _Itself(state), bolts_are)


@dataclass(frozen=True, slots=True, eq=False)
class _Itself(Generic[T]):
    """What never changes once it is made, known again by being the same thing."""

    it: T

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Itself) and self.it is other.it

    def __hash__(self) -> int:
        return id(self.it)


@lru_cache(maxsize=256)
def _laid(one: _Itself[Joint], other: _Itself[JointState | None], bolts_are: str) -> Progress:
    """Each question of a page asks for it anew; it is laid once for a joint and its state."""
    joint, state = one.it, other.it
    pulls = state.pulls if state is not None else {}
    are = _bolts_are(joint, pulls) or bolts_are or "new"
    steps = _steps(joint, pulls, bolts_are=are, loosening=False)
    to_renew = _to_renew(joint, state)
    doubts = (*_doubts(joint, steps, state), *_of_the_other_list(joint, pulls, are), *to_renew.values())
    stop = 0 if doubts else _stop(joint, steps)
    apart = loosening(joint, state) if state is not None and state.loosened else None
    let_go, to_let_go = (apart.done, len(apart.steps)) if apart is not None else (0, 0)
    return Progress(
        tuple(steps), bool(state and state.marked), doubts, are, stop, let_go, to_let_go, tuple(to_renew),
        witnessed=bool(state and state.witnessed), disturbed=state.disturbed_why if state is not None else "",
    )  # fmt: skip


def loosening(joint: Joint, state: JointState | None) -> Progress:
    """Expand a joint's loosening program and lay over it what the book says was loosened."""
    steps = _steps(joint, state.loosened if state is not None else {}, bolts_are="used", loosening=True)
    return Progress(tuple(steps), marked=False, doubts=())


def _bolts_are(joint: Joint, pulls: Mapping[tuple[int, int, str], PullState]) -> str:
    """Whether the pulls in the book belong to stages for new or for used bolts; nothing where none tells."""
    told = {
        joint.program[stage - 1].for_bolts: pull.order
        for (stage, _, _), pull in sorted(pulls.items(), key=lambda one: one[1].order)
        if stage <= len(joint.program) and joint.program[stage - 1].for_bolts
    }
    return max(told, key=lambda are: told[are], default=None) or ""


def _steps(
    joint: Joint, pulls: Mapping[tuple[int, int, str], PullState], *, bolts_are: str, loosening: bool
) -> list[Step]:
    steps: list[Step] = []
    turned: dict[str, float] = {}
    pulled: dict[str, float] = {}
    marks: dict[tuple[str, str], int] = {}
    for number, stage in joint.stages(bolts_are=bolts_are, loosening=loosening):
        bolts = joint.stage_bolts(stage, loosening=loosening) if stage.kind != "wait" else ("all",)
        for turn in range(1, stage.repeat + 1):
            for bolt in bolts:
                before, after = _turn(stage, turned, bolt)
                at_once = _at_once_is_good(stage, pulled, bolt)
                marked = _marks(stage, marks, bolt)
                pull = pulls.get((number, turn, bolt))
                steps.append(
                    Step(len(steps) + 1, number, turn, bolt, stage.kind, before, after, at_once, pull, marked)
                )
    return steps


def _marks(stage: Stage, marks: dict[tuple[str, str], int], bolt: str) -> int:
    """A dot for a torque, a stroke for a turn, a tick for drawing down; all wiped off when the bolt is loosened."""
    if stage.kind == "loosen":
        for kind in MARKED:
            marks.pop((bolt, kind), None)
    if stage.kind in MARKED:
        marks[(bolt, stage.kind)] = marks.get((bolt, stage.kind), 0) + 1
    return marks.get((bolt, stage.kind if stage.kind in MARKED else "torque"), 0)


def _stop(joint: Joint, steps: list[Step]) -> int:
    """The last stage that leaves the joint provisional, where it is reached and what comes after it is not done."""
    for number in range(len(joint.program), 0, -1):
        if joint.program[number - 1].provisional:
            reached = all(step.done for step in steps if step.stage <= number)
            if reached and any(not step.done for step in steps if step.stage > number):
                return number
    return 0


def _turn(stage: Stage, turned: dict[str, float], bolt: str) -> tuple[float, float]:
    before = turned.get(bolt, 0.0)
    if stage.kind in ("torque", "loosen", "draw down", "hand-run"):
        turned[bolt] = 0.0
        return 0.0, 0.0
    if stage.kind == "turn" and stage.turn is not None:
        turned[bolt] = before + stage.turn.middle_in("°")
    return before, turned.get(bolt, 0.0)


def _at_once_is_good(stage: Stage, pulled: dict[str, float], bolt: str) -> bool:
    if stage.kind == "loosen":
        pulled.pop(bolt, None)
    if stage.kind not in ("torque", "verify") or stage.figure is None:
        return False
    torque = stage.figure.middle_in("N·m")
    reached = pulled.get(bolt, 0.0)
    pulled[bolt] = max(reached, torque)
    return stage.kind == "verify" or reached >= torque


def _doubts(joint: Joint, steps: list[Step], state: JointState | None) -> tuple[str, ...]:
    """What the book leaves in doubt: a doubtful pull, a skipped stage, a pull at another figure."""
    found = []
    behind: dict[str, int] = {}
    unsaid = _unsaid(steps)
    for step in steps:
        where = f"bolt {step.bolt}, stage {step.stage}"
        if step.pull is not None:
            found += [f"{where}: {why}" for why in _doubts_of(joint.program[step.stage - 1], step.pull)]
        if step.number in unsaid:
            found.append(f"{where}: {UNSAID}")
        if not step.done:
            behind.setdefault(step.bolt, step.stage)
        elif step.bolt in behind and step.stage > behind[step.bolt]:
            found.append(
                f"bolt {step.bolt}: stage {step.stage} is recorded, stage {behind[step.bolt]} is not"
            )
    found.extend(state.doubts if state is not None else ())
    found.extend(_made_otherwise(joint, steps, state.pulls if state is not None else {}))
    return tuple(dict.fromkeys(found))


def _to_renew(joint: Joint, state: JointState | None) -> dict[str, str]:
    """The bolts of which the sheet orders a new one after a doubt, and none was said to be in hand since; and why."""
    found: dict[str, str] = {}
    if state is None or not joint.doubts:
        return found
    for pull in (*state.history, *state.pulls.values()):
        rule = rule_at(joint.doubts, pull.doubt, stage=pull.stage) if pull.outcome == "doubtful" else None
        if rule is None or rule.rule != "renew":
            continue
        if state.new_in_hand(pull.bolt) < pull.order:
            found[pull.bolt] = (
                f"bolt {pull.bolt}: it has to be renewed since stage {pull.stage} ({pull.why}), "
                "and no new one is in the book"
            )
    return found


def _of_the_other_list(
    joint: Joint, pulls: Mapping[tuple[int, int, str], PullState], are: str
) -> Iterator[str]:
    """Pulls of the list for new bolts beside those of the list for used ones: such a bolt would be offered again."""
    for stage, _, bolt in pulls:
        kind = joint.program[stage - 1].for_bolts if stage <= len(joint.program) else None
        if kind not in (None, are):
            yield (
                f"bolt {bolt}, stage {stage}: it is recorded as of {kind} bolts, and a later pull as of {are} ones"
            )


def _made_otherwise(
    joint: Joint, steps: list[Step], pulls: Mapping[tuple[int, int, str], PullState]
) -> Iterator[str]:
    """Pulls that the program no longer has, in another order or with another thread than the sheet now says."""
    for (stage, turn, bolt), pull in pulls.items():
        if not _has(joint, stage, turn, bolt):
            yield f"bolt {bolt}, stage {stage}: it is recorded, and the program of the sheet no longer has it"
            continue
        for one in (*of_order(pull, joint, key="", stage=stage), *of_thread("", pull, joint)):
            what = one.what.removeprefix(f"{joint.name}, ")
            yield f"{what} was {one.before} when it was pulled, the sheet now says {one.now}"


def _has(joint: Joint, stage: int, turn: int, bolt: str) -> bool:
    if stage > len(joint.program):
        return False
    wanted = joint.program[stage - 1]
    return turn <= wanted.repeat and (wanted.kind == "wait" or bolt in joint.stage_bolts(wanted))


def _unsaid(steps: list[Step]) -> set[int]:
    """Steps that no wrench does, of which, and of none before in the stage, anybody said with what they were made."""
    told: dict[int, int] = {}
    for step in steps:
        if step.pull is not None and (step.pull.tool or step.pull.setting or step.pull.why):
            told[step.stage] = min(step.pull.order, told.get(step.stage, step.pull.order))
    return {
        step.number
        for step in steps
        if step.pull is not None
        and step.pull.unfitted
        and not told.get(step.stage, step.pull.order + 1) <= step.pull.order
    }


def _doubts_of(stage: Stage, pull: PullState) -> list[str]:
    said = []
    if pull.doubtful or pull.outcome == "doubtful":
        said.append(pull.why or pull.outcome)
    if stage.kind == "verify" and pull.outcome == "clicked while turning":
        said.append("the bolt moved under the verifying torque")
    now = stage.figure.text if stage.figure is not None else str(stage.loosen or "")
    was = pull.shown.get("kind", stage.kind)
    if was != stage.kind:
        said.append(f"it was done as “{was} {pull.target}”, the sheet now says “{stage.kind} {now}”")
    elif now and pull.target and not same_figure(pull.target, now=now, kind=STAGE_KIND.get(stage.kind, "")):
        said.append(f"it was done to {pull.target}, the sheet now says {now}")
    return said + _setting_doubt(stage, pull)


def _setting_doubt(stage: Stage, pull: PullState) -> list[str]:
    """A wrench set to something else than was asked for, by more than its scale could round or it may deviate.

    Through an adapter only the setting that the list asked for counts: the figure of the stage is that at the bolt.
    """
    if stage.kind not in ("torque", "verify") or stage.figure is None or not pull.setting:
        return []
    try:
        setting = parse_amount(pull.setting, kind="torque").to("N·m")
    except InputError:
        return [f"the setting `{pull.setting}` is no torque"]
    room = parse_amount(pull.room, kind="torque").to("N·m") if pull.room else None
    asked = parse_printed(pull.asked, kind="torque") if pull.asked else None
    if asked is not None and _near(setting, asked, room):
        return []
    if pull.adapter:
        return [
            f"the wrench was set to {pull.setting}; with {pull.adapter}, the list asks for {pull.asked}, "
            f"which is {stage.figure.text} at the bolt"
        ]
    if _near(setting, stage.figure, room if stage.figure.first.single or room is None else 0.0):
        return []
    return [f"the wrench was set to {pull.setting}, the stage asks for {stage.figure.text}"]


def _near(setting_nm: float, wanted: Printed, room_nm: float | None) -> bool:
    """Within the room of what is wanted; an older entry does not say how much that was."""
    low, high = wanted.low_in("N·m"), wanted.high_in("N·m")
    if low is None or high is None:
        return True
    room = 0.05 * high if room_nm is None else room_nm * (1 + 1e-6)
    return low - room <= setting_nm <= high + room

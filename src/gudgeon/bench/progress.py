"""A joint's program expanded into steps, and how far the book says they are done.

A step is one action of one tool on one bolt. The order of the steps is the order of the work.
"""

from dataclasses import dataclass

from gudgeon.book.state import JointState, PullState
from gudgeon.errors import InputError
from gudgeon.quantity.written import parse_amount, parse_printed
from gudgeon.sheet.joints import Joint, Stage

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


@dataclass(frozen=True, slots=True)
class Step:
    """One action on one bolt; `turn_before` and `turn_after` count from the last torque stage."""

    number: int
    stage: int
    round: int
    bolt: str
    kind: str
    turn_before: float
    turn_after: float
    at_once_is_good: bool
    pull: PullState | None

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
    """How far a joint is."""

    steps: tuple[Step, ...]
    marked: bool
    doubts: tuple[str, ...]

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
    def complete(self) -> bool:
        """Every step done, and nothing about it in doubt."""
        return bool(self.steps) and all(step.done for step in self.steps) and not self.doubts


def progress(joint: Joint, state: JointState | None, *, bolts_are: str = "new") -> Progress:
    """Expand a joint's program and lay the book's pulls over it."""
    pulls = dict(state.pulls) if state is not None else {}
    steps: list[Step] = []
    turned: dict[str, float] = {}
    pulled: dict[str, float] = {}
    for stage_number, stage in joint.stages(bolts_are=bolts_are):
        for round_number in range(1, stage.repeat + 1):
            for bolt in joint.stage_bolts(stage) if stage.kind != "wait" else ("all",):
                before, after = _turn(stage, turned, bolt)
                at_once = _at_once_is_good(stage, pulled, bolt)
                pull = pulls.get((stage_number, round_number, bolt))
                number = len(steps) + 1
                steps.append(
                    Step(number, stage_number, round_number, bolt, stage.kind, before, after, at_once, pull)
                )
    return Progress(tuple(steps), bool(state and state.marked), _doubts(joint, steps, state))


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
    for step in steps:
        where = f"bolt {step.bolt}, stage {step.stage}"
        if step.pull is not None:
            found += [f"{where}: {why}" for why in _doubts_of(joint.program[step.stage - 1], step.pull)]
        if not step.done:
            behind.setdefault(step.bolt, step.stage)
        elif step.bolt in behind and step.stage > behind[step.bolt]:
            found.append(
                f"bolt {step.bolt}: stage {step.stage} is recorded, stage {behind[step.bolt]} is not"
            )
    found.extend(state.doubts if state is not None else ())
    return tuple(dict.fromkeys(found))


def _doubts_of(stage: Stage, pull: PullState) -> list[str]:
    said = []
    if pull.doubtful or pull.outcome == "doubtful":
        said.append(pull.why or pull.outcome)
    if stage.kind == "verify" and pull.outcome == "clicked while turning":
        said.append("the bolt moved under the verifying torque")
    now = stage.figure.text if stage.figure is not None else ""
    if now and pull.target and not _same_figure(stage, pull.target):
        said.append(f"it was done to {pull.target}, the sheet now says {now}")
    return said + _setting_doubt(stage, pull)


def _same_figure(stage: Stage, target: str) -> bool:
    """Whether a recorded target is still what the sheet says, however it is written."""
    assert stage.figure is not None
    if stage.figure.text == target:
        return True
    kind = {
        "turn": "angle",
        "draw down": "angle",
        "loosen": "angle",
        "torque": "torque",
        "verify": "torque",
    }.get(stage.kind)
    if kind is None:
        return False
    base = "°" if kind == "angle" else "N·m"
    try:
        before = parse_printed(target, kind=kind)
    except InputError:
        return False
    ends = [(figure.low_in(base), figure.high_in(base)) for figure in (before, stage.figure)]
    return ends[0] == ends[1]


def _setting_doubt(stage: Stage, pull: PullState) -> list[str]:
    """A wrench set to something else than the stage asks for, by more than its scale could round."""
    if stage.kind not in ("torque", "verify") or stage.figure is None or not pull.setting:
        return []
    try:
        setting = parse_amount(pull.setting, kind="torque").to("N·m")
    except InputError:
        return [f"the setting `{pull.setting}` is no torque"]
    low, high = stage.figure.low_in("N·m"), stage.figure.high_in("N·m")
    if low is None or high is None:
        return []
    room = 0.05 * high
    if low - room <= setting <= high + room:
        return []
    return [f"the wrench was set to {pull.setting}, the stage asks for {stage.figure.text}"]

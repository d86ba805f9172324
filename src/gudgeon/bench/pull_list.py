"""What do I set? The pull list of a joint, resumed where the book says."""

from collections.abc import Iterable
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.progress import OUTCOMES, Progress, Step, progress
from gudgeon.bench.tools import Choice, choose
from gudgeon.book.fold_joints import TURNED_TWICE
from gudgeon.sheet.fasteners import Fastener
from gudgeon.sheet.joints import Joint, Stage


@dataclass(frozen=True, slots=True)
class StageLine:
    """One stage of the program, with its tool and the setting on its own scale."""

    stage: int
    of: int
    kind: str
    words: str
    bolts: tuple[str, ...]
    tool: Choice
    done: int
    total: int
    figure: str = ""


@dataclass(frozen=True, slots=True)
class Pull:
    """One action of one tool on one bolt."""

    number: int
    total: int
    stage: int
    round: int
    bolt: str
    where: str
    action: str
    tool: str
    setting: str
    exact: str
    turned_before: str
    turned_after: str
    mark: str
    done_when: str
    state: str


@dataclass(frozen=True, slots=True)
class BoltPlace:
    """Where one fastener is: in words, and [mm] to the right and upward where the sheet places it."""

    bolt: str
    where: str
    thread: str
    x_mm: float | None
    y_mm: float | None


@dataclass(frozen=True, slots=True)
class JointCard:
    """The answer to “What do I set?” for one joint."""

    heading: Heading
    joint: str
    name: str
    state: str
    thread: str
    thread_state: str
    numbered_from: str
    viewed_from: str
    before_work: tuple[str, ...]
    cautions: tuple[str, ...]
    reuse: str
    stages: tuple[StageLine, ...]
    pulls: tuple[Pull, ...]
    next_pull: int | None
    outcomes: tuple[str, ...]
    look_first: str
    doubts: tuple[str, ...]
    in_doubt: str
    source: str
    called: str
    free_order: bool
    places: tuple[BoltPlace, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class JointLine:
    """One joint in the list of all."""

    joint: str
    name: str
    state: str
    done: int
    total: int
    tools: str
    missing: str


@dataclass(frozen=True, slots=True)
class JointList:
    """Every joint of the sheet, how far it is, and which tools it takes."""

    heading: Heading
    joints: tuple[JointLine, ...]


NO_RULE = "The sheet gives no rule for a bolt in doubt: ask the manual before going on."


def doubt_words(joint: Joint, doubts: Iterable[str]) -> str:
    """What to do about a joint in doubt: by the sheet; where one pull stands twice, a wrong entry comes first."""
    rule = joint.doubt or NO_RULE
    if any(TURNED_TWICE in one for one in doubts):
        return (
            "Two entries stand for one pull: look first which of them is wrong, and strike it "
            f"(gudgeon strike NUMBER --why …). Only if both are true: {rule}"
        )
    return rule


def state_words(joint: Joint, found: Progress, *, provisional: bool = False) -> str:
    """The state of a joint in words."""
    side = ", provisional" if provisional else ""
    if found.doubts:
        return f"in doubt{side}"
    if found.complete:
        return f"complete and marked{side}" if found.marked else f"complete, not marked{side}"
    if not found.started:
        return f"not started{side}"
    step = found.next
    assert step is not None
    return f"stage {step.stage} of {len(joint.program)}, {found.done} of {len(found.steps)} pulls done{side}"


def all_joints(bench: Bench) -> JointList:
    """Every joint with its state and tools."""
    bench.unlock()
    lines = []
    for key, joint in bench.sheet.joints.items():
        found = _progress(bench, key, joint)
        choices = [choose(bench.kit, stage) for _, stage in joint.stages()]
        tools = tuple(dict.fromkeys(choice.name for choice in choices if choice.found))
        missing = next((choice.note for choice in choices if choice.ways_out), "")
        provisional = key in {item.joint for item in bench.state.provisional.values()}
        words = state_words(joint, found, provisional=provisional)
        lines.append(
            JointLine(key, joint.name, words, found.done, len(found.steps), "; ".join(tools), missing)
        )
    return JointList(bench.heading("What do I set?"), tuple(lines))


def _progress(bench: Bench, key: str, joint: Joint) -> Progress:
    return progress(joint, bench.state.joints.get(key))


def card(bench: Bench, key: str) -> JointCard:
    """The pull list of one joint."""
    bench.unlock()
    joint = joint_of(bench.sheet, key)
    found = _progress(bench, key, joint)
    choices = {number: choose(bench.kit, stage) for number, stage in joint.stages()}
    step = found.next if not found.doubts else None
    fastener = joint.fastener or next(iter(joint.families.values()), None)
    provisional = key in {item.joint for item in bench.state.provisional.values()}
    return JointCard(
        heading=bench.heading("What do I set?"),
        joint=key,
        name=joint.name,
        state=state_words(joint, found, provisional=provisional),
        thread=_thread(fastener) if fastener else "",
        thread_state=joint.thread_state,
        numbered_from=joint.numbered_from or "",
        viewed_from=joint.viewed_from or "",
        before_work=joint.before_work,
        cautions=joint.cautions,
        reuse=_reuse(joint),
        stages=tuple(
            _stage_line(joint, number, stage, choices[number], found) for number, stage in joint.stages()
        ),
        pulls=tuple(_pull(joint, one, choices[one.stage], len(found.steps), step) for one in found.steps),
        next_pull=step.number if step is not None else None,
        outcomes=OUTCOMES[step.kind] if step is not None else (),
        look_first=_look_first(joint, found),
        doubts=found.doubts,
        in_doubt=doubt_words(joint, found.doubts),
        source=str(joint.source or ""),
        called=joint.called,
        free_order=joint.order == "free",
        places=tuple(_place(joint, name) for name in joint.sequence),
        sources=_sources(bench, joint),
    )


def _place(joint: Joint, name: str) -> BoltPlace:
    bolt, fastener = joint.bolt(name), joint.fastener_of(name)
    return BoltPlace(
        name,
        bolt.where or "",
        _thread(fastener) if fastener else "",
        bolt.x.middle_in("mm") if bolt.x is not None else None,
        bolt.y.middle_in("mm") if bolt.y is not None else None,
    )


def _thread(fastener: Fastener) -> str:
    return " ".join(filter(None, [fastener.thread, fastener.strength_class]))


def _sources(bench: Bench, joint: Joint) -> tuple[str, ...]:
    """Every page that the card rests on, with the title and the edition behind its key."""
    stated = [joint.source, joint.total_turn.source if joint.total_turn is not None else None]
    if joint.reuse is not None:
        limit = joint.reuse.limit
        stated += [joint.reuse.source, limit.source if limit is not None else None]
    said = []
    for cited in dict.fromkeys(one for one in stated if one is not None):
        book = bench.sheet.sources[cited.key]
        said.append(f"{cited}: {book.title}, {book.edition}")
    return tuple(said)


def _reuse(joint: Joint) -> str:
    if joint.reuse is None:
        return "not stated"
    limit = f", {joint.reuse.limit.value.text}" if joint.reuse.limit is not None else ""
    return f"{joint.reuse.rule}{limit}"


def _stage_line(joint: Joint, number: int, stage: Stage, choice: Choice, found: Progress) -> StageLine:
    own = [step for step in found.steps if step.stage == number]
    bolts = joint.stage_bolts(stage)
    done = sum(step.done for step in own)
    figure = stage.figure.text if stage.figure is not None else ""
    of = len(joint.program)
    return StageLine(number, of, stage.kind, stage_words(stage), bolts, choice, done, len(own), figure)


def stage_words(stage: Stage) -> str:
    """A stage in words: `torque to 25 N·m`, `turn by 90° ± 5°`, `loosen fully, reversed order`."""
    figure = stage.figure.text if stage.figure is not None else ""
    words = {
        "hand-run": "run in to contact",
        "draw down": f"draw down by {figure} a pass, every bolt before the next pass, until seated",
        "torque": f"torque to {figure}",
        "turn": f"turn by {figure}",
        "loosen": "loosen fully" if stage.loosen == "fully" else f"loosen by {figure}",
        "verify": f"verify with {figure}: the bolt must not move",
        "stretch": f"tighten to a stretch of {figure}",
        "wait": f"wait {figure}",
    }[stage.kind]
    if stage.kind == "loosen" and stage.order is None:
        words += ", in reversed order"
    elif stage.order in ("reversed", "free"):
        words += f", {stage.order} order"
    if stage.only:
        words += f", only bolts {', '.join(stage.only)}"
    if stage.repeat > 1:
        words += f", {stage.repeat} passes"
    return words + (f" ({stage.note})" if stage.note else "")


_DONE_WHEN = {
    "hand-run": "it turns freely by hand and touches",
    "draw down": "the part is seated",
    "torque": "the wrench clicks or shows it while the bolt turns",
    "turn": "the paint mark has reached its place",
    "loosen": "it is loose",
    "verify": "the wrench clicks and the bolt has not moved",
    "stretch": "the measured length has grown by it",
    "wait": "the time has run out",
}


def _pull(joint: Joint, step: Step, choice: Choice, total: int, following: Step | None) -> Pull:
    stage = joint.program[step.stage - 1]
    turning = step.kind == "turn"
    made = step.pull is not None and step.kind in ("torque", "verify")
    return Pull(
        number=step.number,
        total=total,
        stage=step.stage,
        round=step.round,
        bolt=step.bolt,
        where=joint.bolt(step.bolt).where or "" if step.bolt != "all" else "",
        action=_done_words(stage, step),
        tool=choice.name if choice.found or not choice.ways_out else "no wrench of yours",
        setting=step.pull.setting if made and step.pull is not None else choice.setting,
        exact=choice.exact,
        turned_before=f"{step.turn_before:g}°" if turning else "",
        turned_after=f"{step.turn_after:g}°" if turning else "",
        mark=f"from {clock(step.turn_before)} to {clock(step.turn_after)}" if turning else "",
        done_when=_DONE_WHEN[step.kind],
        state=_state(step, following),
    )


def _done_words(stage: Stage, step: Step) -> str:
    """What is to be done; of a pull that is in the book, what was done, at the figure of that day."""
    target = step.pull.target if step.pull is not None else ""
    now = stage.figure.text if stage.figure is not None else ""
    words = stage_words(stage)
    return words.replace(now, target) if target and now and target != now else words


def clock(angle_deg: float) -> str:
    """Where a mark painted at 12 o'clock points after a turn to the right, as a clock hand."""
    hours, minutes = divmod(round(angle_deg % 360 * 2), 60)
    return f"{hours or 12} o'clock" if minutes == 0 else f"{hours or 12}:{minutes:02d} o'clock"


def _state(step: Step, following: Step | None) -> str:
    if step.done:
        assert step.pull is not None
        return step.pull.outcome
    following_it = following is not None and step.number == following.number
    if step.pull is not None:
        angle = f" {step.pull.angle_deg}°" if step.pull.angle_deg else ""
        return f"{step.pull.outcome}{angle}: not done" + (", NEXT" if following_it else "")
    return "next" if following_it else ""


def _look_first(joint: Joint, found: Progress) -> str:
    """After a stop the last recorded pull is verified by looking, never by pulling again."""
    last = found.last
    if last is None or found.complete or last.pull is None:
        return ""
    where = joint.bolt(last.bolt).where
    place = f"{bolt_words(joint, last.bolt)} ({where})" if where else bolt_words(joint, last.bolt)
    said = f"Last recorded: {place}, stage {last.stage} of {len(joint.program)}, {last.pull.outcome}"
    again = "do not pull it again. If you cannot see it, record it as doubtful."
    if last.pull.outcome == "stopped at":
        reached = last.turn_before + float(last.pull.angle_deg or 0)
        return f"{said} {last.pull.angle_deg}°. Look whether its mark stands at {clock(reached)}; go on from there."
    if last.pull.outcome == "clicked at once" and not last.done:
        return (
            f"{said}: the wrench moved nothing. The {joint.called} was at this torque already, or it binds: "
            "slacken it and pull it again, or record it as doubtful."
        )
    if last.pull.outcome == "doubtful":
        return f"{said}: {last.pull.why}."
    if last.kind == "turn":
        return f"{said}. Look whether its mark stands at {clock(last.turn_after)}; {again}"
    if last.kind in ("torque", "verify"):
        return f"{said}. Look whether it carries its dot; {again}"
    return f"{said}. Look at it before you go on."


def bolt_words(joint: Joint, name: str) -> str:
    """`bolt 4`, `nut 2`; a single fastener is only called what it is."""
    return name if name in (joint.called, "all") else f"{joint.called} {name}"

"""What do I set? The pull list of a joint, resumed where the book says."""

from dataclasses import dataclass, replace
from typing import Literal

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.doing import Known, of_loosening, of_pull
from gudgeon.bench.doubt_rules import in_doubt_lines
from gudgeon.bench.errors import NoLoosening
from gudgeon.bench.gates import Refusal, refusals
from gudgeon.bench.marks import Datum, clock, datums, in_flats, leaves
from gudgeon.bench.progress import OUTCOMES, Progress, Step, progress
from gudgeon.bench.progress import loosening as loosening_progress
from gudgeon.bench.provisional import condition, until
from gudgeon.bench.provisional import provisional as provisional_list
from gudgeon.bench.pull_words import as_called, done_when, look_first, stage_words
from gudgeon.bench.scale_read import READ_KINDS, ScaleRead, scale_read
from gudgeon.bench.stops import LookAt, look_due
from gudgeon.bench.timers import sealing
from gudgeon.bench.tools import Choice, choose, is_left_hand
from gudgeon.bench.wrench_state import Override, overrides
from gudgeon.sheet.fasteners import Fastener
from gudgeon.sheet.joints import Joint, Stage


@dataclass(frozen=True, slots=True)
class StageLine:
    """One stage of the program, with its tool and the setting on its own scale.

    `scale_showed` is what its wrench was read to be set to, in the words of the book.
    """

    stage: int
    of: int
    kind: str
    words: str
    bolts: tuple[str, ...]
    tool: Choice
    done: int
    total: int
    figure: str = ""
    stop: str = ""
    scale_showed: str = ""


@dataclass(frozen=True, slots=True)
class Pull:
    """One action of one tool on one bolt; `tool` names the adapter too, `through` the adapter alone."""

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
    flats: str = ""
    leaves: str = ""
    through: str = ""

    @property
    def set_to(self) -> str:
        """The setting, never without the adapter with which alone it counts."""
        return f"{self.setting} with {self.through}" if self.setting and self.through else self.setting


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
    """The answer to “What do I set?” for one joint: its program, or how it is taken apart.

    `scale` is what the wrench of the next pull was read to be set to, or why it has to be read; nothing where
    the next pull takes no wrench with a scale. Where the joint is left provisional, `go_on_when` says what has to be
    so before the next pull, and no pull is called the next one. Nor is one while a gate refuses it: `refused`,
    or while the last pull has to be looked at before: `look`. `figures_left_out` says why no figure is on it.
    `in_doubt_lines` is `in_doubt` line by line.
    """

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
    program: Literal["tightening", "loosening"] = "tightening"
    made_of: tuple[tuple[str, str], ...] = ()
    datums: tuple[Datum, ...] = ()
    provisional: str = ""
    go_on_when: str = ""
    next_words: str = ""
    scale: ScaleRead | None = None
    bolts_are: str = ""
    can_loosen: bool = False
    sealing: tuple[str, ...] = ()
    refused: tuple[Refusal, ...] = ()
    look: LookAt | None = None
    to_renew: tuple[str, ...] = ()
    figures_left_out: str = ""
    in_doubt_lines: tuple[str, ...] = ()


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


def state_words(joint: Joint, found: Progress, *, provisional: bool = False) -> str:
    """The state of a joint in words."""
    side = ", provisional" if provisional or found.stop else ""
    if found.taken_apart:
        return f"being taken apart, {found.let_go} of {found.to_let_go} steps done{side}"
    if found.doubts:
        return f"in doubt{side}"
    if found.complete and found.marked:
        return f"complete, marked and witnessed{side}" if found.witnessed else f"complete and marked{side}"
    if found.complete:
        return f"complete, not marked{side}"
    if not found.started:
        return (
            f"disturbed ({found.disturbed}), to begin again{side}"
            if found.disturbed
            else f"not started{side}"
        )
    step = found.next
    assert step is not None
    counted = f"{found.done} of {len(found.steps)} pulls done{side}"
    before = {joint.program[number - 1].kind for number in range(1, step.stage)}
    if before and not any(one.pull for one in found.steps if one.stage >= step.stage):
        if before == {"hand-run"}:
            return f"run in by hand, {counted}"
        if len(before - {"hand-run"}) == 1 and step.stage == 2 + ("hand-run" in before):
            return f"snug, {counted}"
    return f"stage {step.stage} of {len(joint.program)}, {found.done} of {len(found.steps)} pulls done{side}"


def all_joints(bench: Bench) -> JointList:
    """Every joint with its state and tools."""
    bench.unlock()
    lines = []
    loose = {item.joint for item in provisional_list(bench).values()}
    for key, joint in bench.sheet.joints.items():
        found = _progress(bench, key, joint)
        choices = [_choice(bench, joint, stage) for _, stage in joint.stages()]
        tools = tuple(dict.fromkeys(choice.name for choice in choices if choice.found))
        missing = next((choice.note for choice in choices if choice.ways_out), "")
        words = state_words(joint, found, provisional=key in loose)
        lines.append(
            JointLine(key, joint.name, words, found.done, len(found.steps), "; ".join(tools), missing)
        )
    return JointList(bench.heading("What do I set?"), tuple(lines))


def _choice(bench: Bench, joint: Joint, stage: Stage, below: tuple[Override, ...] = ()) -> Choice:
    """The tool of a stage, with what was done in it below the usable part of a wrench."""
    choice = choose(bench.kit, stage, today=bench.now.date(), left_hand=is_left_hand(joint))
    said = [one.words for one in below]
    return replace(choice, note="; ".join(filter(None, (choice.note, *said)))) if said else choice


def _progress(bench: Bench, key: str, joint: Joint) -> Progress:
    return progress(joint, bench.state.joints.get(key))


def card(bench: Bench, key: str, *, bolts_are: str = "") -> JointCard:
    """The pull list of one joint."""
    bench.unlock()
    joint = joint_of(bench.sheet, key)
    found = progress(joint, bench.state.joints.get(key), bolts_are=bolts_are)
    made = _card(bench, key, joint, found=found, loosening=False)
    step = found.next if not found.doubts else None
    reads = step is not None and step.kind in READ_KINDS
    either = any(stage.for_bolts for stage in joint.program)
    acts = of_pull(bench.sheet, Known.of(bench.state), joint=key, stage=step.stage).acts if step else ()
    made = _held_back(made, refusals(bench, acts))
    look = look_due(bench, key, found=found)
    return replace(
        made,
        look=look,
        to_renew=found.to_renew,
        pulls=_none_next(made.pulls) if look is not None else made.pulls,
        look_first=look.words if look is not None else look_first(joint, found),
        sealing=sealing(bench, key),
        datums=datums(joint, found),
        provisional=_stop_words(joint, found.stop) if found.halted else "",
        go_on_when=condition(joint, found.stop) if found.halted else "",
        next_words=_next_words(joint, found),
        scale=scale_read(bench, key, stage=step.stage, tool=None)
        if step is not None and reads and not made.refused
        else None,
        bolts_are=found.bolts_are if either else "",
    )


def loosening_card(bench: Bench, key: str) -> JointCard:
    """How a joint is taken apart: the pull list of its loosening program."""
    bench.unlock()
    joint = joint_of(bench.sheet, key)
    if not joint.loosening:
        raise NoLoosening(joint.name)
    found = loosening_progress(joint, bench.state.joints.get(key))
    made = _card(bench, key, joint, found=found, loosening=True)
    made = replace(made, state=_loosening_state(joint, found), program="loosening")
    return _held_back(made, refusals(bench, of_loosening(bench.sheet, joint=key).acts) if found.next else ())


def _held_back(made: JointCard, refused: tuple[Refusal, ...]) -> JointCard:
    """A card on which no pull is the next one, because a gate refuses it."""
    if not refused:
        return made
    return replace(made, pulls=_none_next(made.pulls), next_pull=None, outcomes=(), refused=refused)


def _none_next(pulls: tuple[Pull, ...]) -> tuple[Pull, ...]:
    """The pulls, and none of them called the next one."""
    return tuple(replace(one, state=one.state.removesuffix(", NEXT").removesuffix("next")) for one in pulls)


def _stop_words(joint: Joint, stage: int) -> str:
    return f"Stop after stage {stage}: the joint stays provisional {until(joint, stage)}." if stage else ""


def _next_words(joint: Joint, found: Progress) -> str:
    """What comes next where the joint is left provisional: first the condition, then the stage."""
    if not found.halted or found.next is None:
        return ""
    return f"left provisional {until(joint, found.stop)}; when that is done: stage {found.next.stage}"


def _loosening_state(joint: Joint, found: Progress) -> str:
    cold = ", cold only" if joint.loosening_cold else ""
    if found.complete:
        return f"loosened{cold}"
    return f"to be loosened: {found.done} of {len(found.steps)} steps done{cold}"


def _card(bench: Bench, key: str, joint: Joint, *, found: Progress, loosening: bool) -> JointCard:
    """What both programs of a joint show alike."""
    program = joint.loosening if loosening else joint.program
    staged = tuple(joint.stages(bolts_are=found.bolts_are, loosening=loosening))
    below = overrides(bench.kit, None if loosening else bench.state.joints.get(key))
    choices = {number: _choice(bench, joint, stage, below.get(number, ())) for number, stage in staged}
    step = found.next if not found.doubts else None
    fastener = joint.fastener or next(iter(joint.families.values()), None)
    provisional = key in {item.joint for item in bench.state.provisional.values()}
    cold = (COLD,) if loosening and joint.loosening_cold else ()
    lines = in_doubt_lines(joint, found)
    return JointCard(
        heading=bench.heading("What do I set?"),
        joint=key,
        name=joint.name,
        state=state_words(joint, found, provisional=provisional),
        thread=_thread(fastener) if fastener else "",
        thread_state=joint.thread_state,
        numbered_from=joint.numbered_from or "",
        viewed_from=joint.viewed_from or "",
        before_work=() if loosening else joint.before_work,
        cautions=(*cold, *joint.cautions),
        reuse=_reuse(joint),
        stages=tuple(
            _stage_line(joint, stage, choices[number], found, number=number, loosening=loosening)
            for number, stage in staged
        ),
        pulls=tuple(
            _pull(joint, one, choice, stage=program[one.stage - 1], found=found, loosening=loosening)
            for one in found.steps
            for choice in (_in_hand(bench, one, choices[one.stage]),)
        ),
        next_pull=step.number if step is not None else None,
        outcomes=OUTCOMES[step.kind] if step is not None else (),
        look_first="",
        doubts=found.doubts,
        in_doubt=LOOSENED_ODDLY if loosening else " ".join(lines),
        in_doubt_lines=() if loosening else lines,
        source=str(joint.source or ""),
        called=joint.called,
        free_order=joint.order == "free",
        places=tuple(bolt_place(joint, name) for name in _worked(joint, loosening=loosening)),
        sources=_sources(bench, joint),
        made_of=_made_of(joint, fastener),
        can_loosen=bool(joint.loosening),
    )


def _worked(joint: Joint, *, loosening: bool) -> tuple[str, ...]:
    """The bolts in the order in which they are worked; taken apart, that of the stage that has them all."""
    if not loosening:
        return joint.sequence
    orders = [joint.stage_bolts(stage, loosening=True) for stage in joint.loosening if stage.kind != "wait"]
    return max(orders, key=len, default=joint.sequence)


LOOSENED_ODDLY = (
    "Write down what was odd: one that creaked, came loose at once or came out wet tells something."
)
COLD = "Loosen it with the engine cold, and not before: a warm head that is let go of warps."


def _made_of(joint: Joint, fastener: Fastener | None) -> tuple[tuple[str, str], ...]:
    """What else the sheet says of the joint, as it is looked up at the bench."""
    gasket = joint.gasket
    said = {
        "Head": fastener.head if fastener else "",
        "Washer": fastener.washer if fastener else "",
        "Holes": ", ".join(filter(None, [fastener.hole_kind, fastener.into])) if fastener else "",
        "Gasket": ", ".join(filter(None, [gasket.name, gasket.thickness.text if gasket.thickness else ""]))
        if gasket
        else "",
        "Dowels": joint.dowels or "",
    }
    return tuple((name, text) for name, text in said.items() if text)


def bolt_place(joint: Joint, name: str) -> BoltPlace:
    """Where one fastener is, and its thread."""
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


def _stage_line(
    joint: Joint, stage: Stage, choice: Choice, found: Progress, *, number: int, loosening: bool
) -> StageLine:
    own = [step for step in found.steps if step.stage == number]
    return StageLine(
        stage=number,
        of=len(joint.loosening if loosening else joint.program),
        kind=stage.kind,
        words=stage_words(stage, backwards=not (loosening and joint.loosening_order)),
        bolts=joint.stage_bolts(stage, loosening=loosening),
        tool=choice,
        done=sum(step.done for step in own),
        total=len(own),
        figure=stage.figure.text if stage.figure is not None else "",
        stop=f"stop here: provisional {until(joint, number)}" if stage.provisional else "",
        scale_showed=", ".join(
            dict.fromkeys(one.pull.setting for one in own if one.pull is not None and one.pull.setting)
        ),
    )


def _in_hand(bench: Bench, step: Step, choice: Choice) -> Choice:
    """What a pull was made with, where that was another wrench than the list names: then without its adapter."""
    used = bench.kit.wrenches.get(step.pull.tool) if step.pull is not None else None
    if step.pull is None or used is None or step.pull.tool == choice.tool:
        return choice
    return replace(choice, tool=step.pull.tool, name=used.name, through="")


def _pull(
    joint: Joint, step: Step, choice: Choice, *, stage: Stage, found: Progress, loosening: bool
) -> Pull:
    following = found.next if not found.doubts and not found.halted else None
    turning = step.kind == "turn"
    made = step.pull is not None and step.kind in ("torque", "verify")
    return Pull(
        number=step.number,
        total=len(found.steps),
        stage=step.stage,
        round=step.round,
        bolt=step.bolt,
        where=joint.bolt(step.bolt).where or "" if step.bolt != "all" else "",
        action=_done_words(joint, stage, step),
        tool=choice.name if choice.found or not choice.ways_out else "no wrench of yours",
        setting=step.pull.setting if made and step.pull is not None else choice.setting,
        exact=choice.exact,
        turned_before=f"{step.turn_before:g}°" if turning else "",
        turned_after=f"{step.turn_after:g}°" if turning else "",
        mark=f"from {clock(step.turn_before)} to {clock(step.turn_after)}" if turning else "",
        done_when=as_called(joint, done_when(stage)),
        state=_state(step, following),
        flats=in_flats(joint, step),
        leaves=leaves(step, loosening=loosening),
        through=choice.through,
    )


def _done_words(joint: Joint, stage: Stage, step: Step) -> str:
    """What is to be done; of a pull that is in the book, what was done, at the figure of that day."""
    target = step.pull.target if step.pull is not None and stage.figure is not None else ""
    words = stage_words(stage, figure=target, of_pass=step.round, backwards=False)
    printed = f" ({stage.note})" if stage.note else ""
    return as_called(joint, words.removesuffix(printed)) + printed


def _state(step: Step, following: Step | None) -> str:
    if step.done:
        assert step.pull is not None
        return step.pull.outcome
    following_it = following is not None and step.number == following.number
    if step.pull is not None:
        angle = f" {step.pull.angle_deg}°" if step.pull.angle_deg else ""
        return f"{step.pull.outcome}{angle}: not done" + (", NEXT" if following_it else "")
    return "next" if following_it else ""

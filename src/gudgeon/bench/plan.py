"""The pulls of a joint that may be shown one after the other without asking the book in between.

A device that has lost the laptop goes on by this plan. It ends before everything that only the book can know: a wait, a
stop at which the joint stays provisional, a gate, the end of the program.
"""

from dataclasses import dataclass

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.doing import Known, of_loosening, of_pull
from gudgeon.bench.gates import refusals
from gudgeon.bench.marks import Datum
from gudgeon.bench.pattern import Spot, spots_of
from gudgeon.bench.progress import GOOD, OUTCOMES, Progress, Step, progress
from gudgeon.bench.progress import loosening as loosening_progress
from gudgeon.bench.provisional import until
from gudgeon.bench.pull_figure import BigFigure, big_figure, in_both
from gudgeon.bench.pull_list import JointCard, Pull, StageLine, card, loosening_card
from gudgeon.bench.pull_words import bolt_words, stage_words
from gudgeon.bench.scale_read import READ_KINDS
from gudgeon.bench.spoken import pull_speech
from gudgeon.errors import InputError
from gudgeon.quantity.unit_table import ROWS
from gudgeon.quantity.written import parse_amount
from gudgeon.sheet.joints import Joint

DOING = {
    "torque": "Torque",
    "verify": "Verify",
    "turn": "Turn by",
    "draw down": "Draw down by",
    "loosen": "Loosen by",
    "stretch": "Stretch by",
    "wait": "Wait",
}
"""What is done with the figure, in the words before it."""


SILENT = ("beam", "dial")
"""Kinds of torque wrench that show the torque on a scale and do not click."""


@dataclass(frozen=True, slots=True)
class Shown:
    """One pull as it stands on the screen of the bench.

    `asks` says why the scale of its wrench has to be read, and is empty where it need not be; `reads` is how the
    setting may be written so that it is the one the list asks for. `goes_on` are the outcomes after which the next pull
    may be shown before the book has answered. `deliberate` says why its answer has to be given deliberately. `turned`
    are the angles [°] at which the paint mark stands before and after, nothing where none is turned. `paint` is the
    line that has to be on the heads before it, where nobody has said yet that it is.
    """

    pull: Pull
    stage: StageLine
    name: str
    action: str
    figure: BigFigure
    doing: str
    speech: str
    outcomes: tuple[str, ...]
    asks: str
    reads: tuple[str, ...]
    goes_on: tuple[str, ...]
    deliberate: str
    turned: tuple[float, float] | None
    spots: tuple[Spot, ...]
    paint: Datum | None = None

    @property
    def words(self) -> str:
        """The pull in a line: `Bolt 4, stage 3 of 5, 25.0 N·m`."""
        return f"{self.name[0].upper()}{self.name[1:]}, stage {self.stage.stage} of {self.stage.of}, {self.figure.text}"


@dataclass(frozen=True, slots=True)
class Plan:
    """The card of a joint, the pulls that may be shown from its next one on, and what comes after the last of them."""

    card: JointCard
    pulls: tuple[Shown, ...]
    then: str
    viewed_from: str


def plan(
    bench: Bench,
    key: str,
    *,
    bolts_are: str = "",
    loosening: bool = False,
    go_on: bool = False,
    painted: int = 0,
    most: int | None = None,
) -> Plan:
    """The plan of a joint, or of how it is taken apart; `most` is how many pulls of it are wanted.

    Where the joint is left provisional no pull is shown, unless it is to `go_on`; `painted` is the stage of which
    somebody has said that the line is on the heads.
    """
    shown = loosening_card(bench, key) if loosening else card(bench, key, bolts_are=bolts_are)
    joint, state = joint_of(bench.sheet, key), bench.state.joints.get(key)
    found = loosening_progress(joint, state) if loosening else progress(joint, state, bolts_are=bolts_are)
    awaited = shown.next_pull if (go_on or not shown.go_on_when) and shown.look is None else None
    if awaited is None:
        return Plan(shown, (), "", joint.viewed_from or "")
    places = spots_of(joint, done=(), following="")
    ahead = tuple(one for one in found.steps if not one.done and one.number >= (shown.next_pull or 0))
    course = _Course(bench, key, joint, shown, found, ahead, loosening, places, painted)
    steps, then = course.steps()
    wanted = steps if most is None else steps[:most]
    pulls = tuple(course.shown(step, last=step is steps[-1]) for step in wanted)
    return Plan(shown, pulls, then, joint.viewed_from or "")


@dataclass(frozen=True, slots=True)
class _Course:
    """What is needed to say what comes after what; `ahead` is what is not done, from the next step on."""

    bench: Bench
    key: str
    joint: Joint
    card: JointCard
    found: Progress
    ahead: tuple[Step, ...]
    loosening: bool
    places: tuple[Spot, ...]
    painted: int

    def steps(self) -> tuple[list[Step], str]:
        """The steps from the next one on, up to what only the book can know, and what that is."""
        taken: list[Step] = []
        for step in self.ahead:
            why = self._stops(taken[-1], step) if taken else ""
            if why:
                return taken, why
            taken.append(step)
        return taken, self._at_the_end()

    def _at_the_end(self) -> str:
        if self.loosening:
            return "Every bolt of this list is loosened when the book has these."
        return "This was the last pull. When the book has them all, look at every mark once more, then mark the joint."

    def _stops(self, before: Step, step: Step) -> str:
        """Why the step is not shown before the book has the one before it; nothing where it may be."""
        if before.stage == step.stage:
            return ""
        stage = f"stage {step.stage} of {self._stage(step.stage).of}"
        if "wait" in (before.kind, step.kind):
            what = "a wait" if step.kind == "wait" else "after the wait"
            return f"Next comes {stage}, {what}: {self._stage(step.stage).words}. The book is asked first."
        program = self.joint.loosening if self.loosening else self.joint.program
        if program[before.stage - 1].provisional and not self.loosening:
            return f"Stop after stage {before.stage}: the joint stays provisional {until(self.joint, before.stage)}."
        acts = self._acts(step)
        if acts and refusals(self.bench, acts):
            return f"Before {stage} something about the engine has to be in the book. It is asked first."
        return ""

    def _acts(self, step: Step) -> tuple[str, ...]:
        """What of the pull a gate asks after."""
        if self.loosening:
            return of_loosening(self.bench.sheet, joint=self.key).acts
        known = Known.of(self.bench.state)
        if step.number != self.card.next_pull:
            known.note(self.bench.sheet, kind="pull", fields={"joint": self.key})
        return of_pull(self.bench.sheet, known, joint=self.key, stage=step.stage).acts

    def _stage(self, number: int) -> StageLine:
        return next(one for one in self.card.stages if one.stage == number)

    def shown(self, step: Step, *, last: bool) -> Shown:
        """One step as it stands on the screen."""
        pull = next(one for one in self.card.pulls if one.number == step.number)
        stage = self._stage(step.stage)
        raw = (self.joint.loosening if self.loosening else self.joint.program)[step.stage - 1]
        fastener = self.joint.fastener_of(step.bolt) if step.kind == "turn" else None
        figure = big_figure(
            raw, setting=pull.setting, exact=pull.exact, units=self.bench.kit.units,
            hexagon=fastener is not None and fastener.has_flats,
        )  # fmt: skip
        name = bolt_words(self.joint, step.bolt)
        doing = DOING.get(step.kind, "") if not figure.word else stage_words(raw, backwards=False)
        printed = raw.figure if step.kind in ("torque", "verify") else None
        asks = self._asks(step)
        place = f"{name}, {pull.where}" if pull.where else name
        return Shown(
            pull=pull,
            stage=stage,
            name=name,
            action=in_both(pull.action, printed=printed, units=self.bench.kit.units),
            figure=figure,
            doing=doing,
            speech=pull_speech(place=place, doing=doing, figure=figure, through=pull.through, mark=pull.mark),
            outcomes=self._outcomes(step, stage),
            asks=asks,
            reads=spellings(pull.setting) if asks else (),
            goes_on=() if last else self._goes_on(step, stage),
            deliberate=self._deliberate(step, last=last),
            turned=(step.turn_before, step.turn_after) if step.kind == "turn" else None,
            spots=self._spots(step),
            paint=self._paint(step),
        )

    def _paint(self, step: Step) -> Datum | None:
        """The line to paint before a step: it is the first turn from that line since another stage was worked."""
        if self.painted == step.stage:
            return None
        at = self.ahead.index(step)
        before = self.ahead[at - 1] if at else self.found.last
        if before is not None and before.stage == step.stage:
            return None
        lines = (one for one in self.card.datums if one.before_stage == step.stage)
        return next((one for one in lines if step.bolt in one.bolts), None)

    def _asks(self, step: Step) -> str:
        """Why the scale has to be read: of the next pull as the book says, later at the first pull of a stage."""
        if step.kind not in READ_KINDS:
            return ""
        if step.number == self.card.next_pull:
            return self.card.scale.why if self.card.scale is not None and not self.card.scale.setting else ""
        first = next(one for one in self.found.steps if one.stage == step.stage and not one.done)
        current = next(one for one in self.found.steps if one.number == self.card.next_pull)
        if first.number != step.number or first.stage == current.stage:
            return ""
        return "nobody has said yet what it shows"

    def _outcomes(self, step: Step, stage: StageLine) -> tuple[str, ...]:
        """What can have happened, first what a key stands for: a beam or a dial shows the torque and never clicks."""
        known, wrench = OUTCOMES[step.kind], self.bench.kit.wrenches.get(stage.tool.tool)
        if step.kind != "torque" or wrench is None or wrench.kind not in SILENT:
            return known
        return ("done", *(one for one in known if one != "done"))

    def _goes_on(self, step: Step, stage: StageLine) -> tuple[str, ...]:
        """The outcomes that complete a step, and leave nothing to be asked."""
        if stage.tool.ways_out or step.kind == "wait":
            return ()
        said = [one for one in OUTCOMES[step.kind] if one in GOOD and step.kind != "verify"]
        if step.at_once_is_good:
            said.append("clicked at once")
        return tuple(said)

    def _deliberate(self, step: Step, *, last: bool) -> str:
        """Why an answer may not slip: nothing can be made good after it, or work stops there until the book agrees."""
        if self._acts(step):
            return "the engine has to be ready for it"
        if step.kind in ("verify", "wait"):
            return "a check" if step.kind == "verify" else "a wait"
        if not self.loosening and step.stage == self.found.steps[-1].stage:
            return "the last stage"
        if self.card.go_on_when and step.number == self.card.next_pull:
            return "the first pull after a stop"
        return "the last pull before a stop" if last and not self.loosening else ""

    def _spots(self, step: Step) -> tuple[Spot, ...]:
        own = [one for one in self.found.steps if (one.stage, one.round) == (step.stage, step.round)]
        done = {one.bolt for one in own if one.done or one.number < step.number}
        told = dict.fromkeys(done, "done") | {step.bolt: "next"}
        return tuple(Spot(one.bolt, one.x_mm, one.y_mm, told.get(one.bolt, "open")) for one in self.places)


def spellings(setting: str) -> tuple[str, ...]:
    """How a setting may be written, without what stands between its letters, so that it is taken: `25Nm`, `25.0Nm`.

    Example:
        >>> spellings("25.0 N·m")
        ('25Nm', '25.0Nm')
    """
    try:
        amount = parse_amount(setting, kind="torque")
    except InputError:
        return ()
    printed = setting.split(" ")[0]
    short = printed.rstrip("0").rstrip(".") if "." in printed else printed
    numbers = dict.fromkeys((short, printed, f"{short}.0" if "." not in short else short))
    written = [(row[1], *row[6]) for row in ROWS if row[0] == "torque" and row[1] == amount.unit.symbol]
    units = dict.fromkeys(_bare(one) for row in written for one in row)
    return tuple(f"{number}{unit}" for unit in units if _is_taken(unit) for number in numbers)


def _bare(text: str) -> str:
    return "".join(one for one in text if one not in " ·-*.")


def _is_taken(unit: str) -> bool:
    try:
        parse_amount(f"1 {unit}", kind="torque")
    except InputError:
        return False
    return True

"""From a joint's program and the kit to acts on bolts, each with how far it may be off."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from math import inf

from gudgeon.bench.clamp_errors import WhatIfUnknown, WrenchDoesNot
from gudgeon.bench.clamp_model import Notes
from gudgeon.bench.tools import choose, is_left_hand
from gudgeon.bench.wrench_fit import Fit, Wanted, fits, fits_with_adapter, share_of, wanted
from gudgeon.calc.joint.program import Act, Kind
from gudgeon.calc.joint.scatter import PullError
from gudgeon.kit.model import Kit, Turning
from gudgeon.sheet.joints import Joint, Stage
from gudgeon.sources.tables import friction_classes
from gudgeon.sources.tightening import usual
from gudgeon.sources.tools import permitted_deviation

SETTLED = "minutes later"


@dataclass(frozen=True, slots=True)
class WhatIf:
    """One thing done otherwise: `friction=A`, `skip=2`, `wrench=KEY` or `by-eye`; nothing for as written."""

    friction: str = ""
    skip: int = 0
    wrench: str = ""
    by_eye: bool = False


AS_WRITTEN = WhatIf()


@dataclass(frozen=True, slots=True)
class Doing:
    """One act, and how far it may be off."""

    act: Act
    error: PullError


@dataclass(frozen=True, slots=True)
class Doings:
    """All acts of a program in order, and how many chances they take; `settles` after which stage the gasket does."""

    acts: tuple[Doing, ...]
    chances: int
    settles: int = 0


def read_what_if(text: str, *, joint: Joint, kit: Kit) -> WhatIf:
    """A what-if as it is written, tried against the joint and the kit."""
    name, _, value = (part.strip() for part in text.partition("="))
    if name == "by-eye" and not value:
        return WhatIf(by_eye=True)
    if name == "friction" and value.upper() in {one.name for one in friction_classes() if one.high}:
        return WhatIf(friction=value.upper())
    if name == "skip" and value.isdigit() and 1 <= int(value) <= len(joint.program) > 1:
        return WhatIf(skip=int(value))
    if name == "wrench" and value in kit.wrenches:
        return WhatIf(wrench=value)
    raise WhatIfUnknown(text, [spec for spec, _ in offered(joint, kit)])


def offered(joint: Joint, kit: Kit) -> tuple[tuple[str, str], ...]:
    """The what-ifs that make sense for a joint, with their words."""
    found = [
        (
            f"friction={one.name}",
            f"other lubricant: friction {one.low:.2f} to {one.high:.2f}, class {one.name}",
        )
        for one in friction_classes()
        if one.high is not None and (joint.friction is not None or one.name != joint.friction_class)
    ]
    for number, stage in enumerate(joint.program, start=1):
        if len(joint.program) > 1 and stage.kind != "hand-run":
            figure = (
                f" ({stage.kind} {stage.figure.text})" if stage.figure is not None else f" ({stage.kind})"
            )
            found.append((f"skip={number}", f"stage {number} left out{figure}"))
    if any(stage.kind == "turn" for stage in joint.program):
        found.append(("by-eye", "no gauge and no marks: every turn by eye"))
    for key, wrench in kit.wrenches.items():
        torques = [wanted(stage.figure) for stage in joint.program if stage.kind == "torque" and stage.figure]
        if torques and all(_best(kit, one, key) is not None for one in torques):
            found.append((f"wrench={key}", f"with the {wrench.name}"))
    return tuple(found)


def words(what: WhatIf, *, joint: Joint, kit: Kit) -> str:
    """A what-if in words."""
    spec = (
        f"friction={what.friction}" if what.friction else f"skip={what.skip}" if what.skip
        else f"wrench={what.wrench}" if what.wrench else "by-eye"
    )  # fmt: skip
    return dict(offered(joint, kit)).get(spec, spec)


def doings(
    joint: Joint, kit: Kit, notes: Notes, *, bolts_are: str, what_if: WhatIf, today: date
) -> Doings | None:
    """The acts of a program as the wrenches of the kit do them; None where a stage cannot be simulated."""
    made = _Making(joint, kit, notes, what_if, today)
    acts: list[Doing] = []
    for number, stage in joint.stages(bolts_are=bolts_are):
        acts += made.stage(number, stage)
    kept = _settle(joint, acts, notes, skip=what_if.skip)
    if notes.stopped or not kept:
        return None
    return Doings(
        tuple(_from_marks(kept, made.marked)),
        max(made.count, len(kit.wrenches) + 1, 1),
        next((one.act.stage for one in kept if one.act.kind == "creep"), 0),
    )


class _Making:
    """Acts one by one; every pull of the program as it is written takes a chance of its own."""

    def __init__(self, joint: Joint, kit: Kit, notes: Notes, what_if: WhatIf, today: date) -> None:
        self.joint, self.kit, self.notes = joint, kit, notes
        self.what_if, self.today = what_if, today
        self.places = {name: place for place, name in enumerate(joint.bolt_names)}
        self.count = 0
        self.marked: set[int] = set()

    def stage(self, number: int, stage: Stage) -> list[Doing]:
        """The acts of one stage."""
        if stage.kind == "wait":
            return []
        if stage.kind == "stretch":
            self.notes.lacks(
                f"a model for stage {number}, which is measured by stretch",
                therefore="what the stage leaves in the bolts: it is not simulated, so no clamp is said",
                stops=True,
            )
            return []
        kind, amount, error, once = self._pull(number, stage)
        first, found = self.count, []
        for bolt in self.joint.stage_bolts(stage) * stage.repeat:
            own = replace(error, angle=self.count, set_once=first if once else self.count)
            found.append(Doing(Act(number, self.places[bolt], kind, amount), own))
            self.count += 1
        return found

    def _pull(self, number: int, stage: Stage) -> tuple[Kind, float, PullError, bool]:
        """Kind and amount of a stage's acts, their error, and whether a wrench is set once for all of them."""
        if stage.kind in ("hand-run", "draw down"):
            return "snug", 0.0, PullError(), False
        if stage.kind == "loosen":
            if stage.loosen == "fully" or stage.figure is None:
                return "loosen", inf, PullError(), False
            return "loosen", stage.figure.middle_in("°"), PullError(angle_deg=usual("by_eye").value), False
        if stage.kind == "turn" and stage.figure is not None:
            error = PullError(angle_deg=self._angle_error(number, stage))
            return "turn", stage.figure.middle_in("°"), error, False
        assert stage.figure is not None  # a torque has its figure
        kind: Kind = "verify" if stage.kind == "verify" else "torque"
        return kind, *self._torque(number, wanted(stage.figure))

    def _angle_error(self, number: int, stage: Stage) -> float:
        """Half-width of where a turn ends: the gauge or the marks of the kit, else by eye."""
        key = choose(self.kit, stage, today=self.today).tool
        tool = None if self.what_if.by_eye else self.kit.turning.get(key)
        marks = not self.what_if.by_eye and (tool is None or tool.kind == "paint marks")
        if marks:
            self.marked.add(number)
        error = _stated_error(tool)
        if error is not None and tool is not None:
            self.notes.takes(f"every turn within ± {error:g}°: {tool.name}, as your kit says")
            return error
        figure = usual("paint_marks" if marks else "by_eye")
        how = "by eye, without gauge and marks" if self.what_if.by_eye else "to paint marks"
        self.notes.takes(f"every turn within ± {figure.value:g}°, {how}; source: {figure.source}")
        return figure.value

    def _torque(self, number: int, asked: Wanted) -> tuple[float, PullError, bool]:
        """The torque at the bolt when the wrench is set to its mark, and how far it may be off."""
        if self.what_if.wrench:
            best = _best(self.kit, asked, self.what_if.wrench)
            if best is None and self.what_if.skip != number:
                raise WrenchDoesNot(self.kit.wrenches[self.what_if.wrench].name, number, asked.text)
        else:
            best = _best(self.kit, asked, self._chosen(asked, number))
        if best is None:
            share = permitted_deviation("click", asked.target_nm)
            self.notes.lacks(
                f"a wrench of yours for stage {number} ({asked.text})",
                therefore=f"how far that torque may be off: one of ± {100 * share.value:g} % is taken, "
                f"as {share.source} permits",
            )
            borrowed = PullError(wrench=len(self.kit.wrenches), deviation=share.value)
            return asked.target_nm, borrowed, True
        at = list(self.kit.wrenches).index(best.key)
        share_read = best.scale.step.middle_in(best.scale.unit) / 2 / best.mark
        once = best.wrench.kind in ("click", "electronic")
        self.notes.takes(
            f"stage {number}: the {best.wrench.name} at {best.setting}, ± {100 * share_of(best.wrench):g} % by its "
            f"class or your kit, the same on every bolt; {'set once' if once else 'read at every pull'} to half a mark"
        )
        amount = asked.target_nm + best.rounding_nm
        return amount, PullError(wrench=at, deviation=share_of(best.wrench), setting=share_read), once

    def _chosen(self, asked: Wanted, number: int) -> str:
        stage = self.joint.program[number - 1]
        return choose(self.kit, stage, today=self.today, left_hand=is_left_hand(self.joint)).tool


def _best(kit: Kit, asked: Wanted, key: str) -> Fit | None:
    """One wrench at its best mark for a torque, with an adapter where it needs one; None where it does not reach."""
    if key not in kit.wrenches:
        return None
    alone = kit.model_copy(update={"wrenches": {key: kit.wrenches[key]}})
    found = fits(alone, asked) or fits_with_adapter(alone, asked)
    return min(found, key=lambda fit: fit.error_nm, default=None)


def _stated_error(tool: Turning | None) -> float | None:
    if tool is None or tool.error is None:
        return None
    low, high = tool.error.low_in("°"), tool.error.high_in("°")
    return max(abs(low or 0.0), abs(high or 0.0)) or None


def _from_marks(acts: list[Doing], marked: set[int]) -> Iterator[Doing]:
    """Turns that end at a mark painted before the first of them: what one was off by, the next makes good."""
    before: dict[int, int] = {}
    for one in acts:
        if one.act.kind == "turn" and one.act.stage in marked:
            yield replace(one, error=replace(one.error, ends_from=before.get(one.act.bolt)))
            before[one.act.bolt] = one.error.angle
            continue
        if one.act.kind not in ("verify", "creep"):
            before.pop(one.act.bolt, None)
        yield one


def _settle(joint: Joint, every: list[Doing], notes: Notes, *, skip: int) -> list[Doing]:
    """The gasket settles once: where the program waits after a torque, else minutes after the last stage.

    It settles whether one waits for it or not: without the wait it does so afterwards.
    """
    gasket, acts = joint.gasket, [one for one in every if one.act.stage != skip]
    if gasket is None or not acts:
        return acts
    if gasket.creep is None or gasket.thickness is None:
        notes.lacks(
            "how much the gasket settles (`creep` and `thickness`)", therefore="the clamp minutes later"
        )
        return acts
    lost = gasket.creep.middle_in("1") * gasket.thickness.middle_in("mm")
    waits = [
        number
        for number, stage in enumerate(joint.program, start=1)
        if stage.kind == "wait" and number != skip
    ]
    loaded = [
        number for number in waits if any(one.act.kind == "torque" and one.act.stage < number for one in acts)
    ]
    last = every[-1].act.stage + 1
    at = loaded[0] if loaded else last
    creep = [Doing(Act(at, bolt, "creep", lost), PullError()) for bolt in range(len(joint.bolt_names))]
    where = f"while stage {at} waits" if loaded else SETTLED
    notes.takes(
        f"the gasket {gasket.name} loses {lost * 1000:.0f} µm of its thickness, {where}, under every bolt alike"
    )
    before = [one for one in acts if one.act.stage < at]
    return [*before, *creep, *(one for one in acts if one.act.stage > at)]

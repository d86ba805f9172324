"""What of a whole data sheet no owned torque wrench can measure, and the one wrench that would close most of it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from gudgeon.bench.tools import choose, is_left_hand
from gudgeon.bench.ways_out import usual_wrenches
from gudgeon.bench.wrench_fit import Fit, Wanted, end_nm, fits, wanted
from gudgeon.kit.model import Kit
from gudgeon.quantity.format import both
from gudgeon.sheet.model import DataSheet


@dataclass(frozen=True, slots=True)
class GapStage:
    """One stage whose torque no owned wrench can measure."""

    joint: str
    name: str
    stage: int
    of: int
    torque: str
    why: str


@dataclass(frozen=True, slots=True)
class ClosingWrench:
    """The one torque wrench that would close most of the gap, as it is usually sold."""

    range: str
    step: str
    error: str
    closes: tuple[GapStage, ...]
    leaves: tuple[GapStage, ...]
    any_that: str
    """Which other wrench would do as well: where it begins, and where it ends."""


@dataclass(frozen=True, slots=True)
class WrenchGap:
    """What the kit cannot measure of a sheet."""

    joints: int
    stages: tuple[GapStage, ...]
    closing: ClosingWrench | None
    words: tuple[str, ...]

    @property
    def joints_in_gap(self) -> tuple[str, ...]:
        """The joints with such a stage, by their names."""
        return tuple(dict.fromkeys(one.name for one in self.stages))


def wrench_gap(kit: Kit, sheet: DataSheet, *, today: date | None = None) -> WrenchGap:
    """The stages that no owned wrench can measure, and the one usual wrench that would close most of them.

    Most: of the joints first, then of the stages, then with the least error.
    """
    asked = dict(_unmeasured(kit, sheet, today))
    measured = sum(
        any(stage.torque or stage.verify for stage in joint.program) for joint in sheet.joints.values()
    )
    closing = _closing(asked)
    return WrenchGap(measured, tuple(asked), closing, tuple(_words(measured, tuple(asked), closing)))


def _unmeasured(kit: Kit, sheet: DataSheet, today: date | None) -> Iterator[tuple[GapStage, Wanted]]:
    for key, joint in sheet.joints.items():
        for number, stage in enumerate(joint.program, start=1):
            if stage.kind not in ("torque", "verify") or stage.figure is None:
                continue
            choice = choose(kit, stage, today=today, left_hand=is_left_hand(joint))
            if not choice.found:
                of = len(joint.program)
                gap = GapStage(key, joint.name, number, of, stage.figure.text, choice.note)
                yield gap, wanted(stage.figure)


def _closing(asked: dict[GapStage, Wanted]) -> ClosingWrench | None:
    found: dict[str, dict[GapStage, Fit]] = {}
    for gap, one in asked.items():
        for fit in fits(usual_wrenches(), one):
            if fit.inside:
                found.setdefault(fit.key, {})[gap] = fit
    if not found:
        return None

    def better(closed: dict[GapStage, Fit]) -> tuple[int, int, float, float]:
        open_still = {gap.joint for gap in asked if gap not in closed}
        joints = {gap.joint for gap in closed} - open_still
        error = sum(fit.error_nm / asked[gap].target_nm for gap, fit in closed.items())
        return (
            len(joints),
            len(closed),
            -round(error, 9),
            -next(iter(end_nm(fit.wrench) for fit in closed.values())),
        )

    closed = max(found.values(), key=better)
    wrench = next(iter(closed.values())).wrench
    targets = [asked[gap].target_nm for gap in closed]
    worst = max(fit.error_nm / asked[gap].target_nm for gap, fit in closed.items())
    return ClosingWrench(
        range=wrench.range.text,
        step=wrench.step.text,
        error=f"± {100 * worst:.1f} % or better",
        closes=tuple(closed),
        leaves=tuple(gap for gap in asked if gap not in closed),
        any_that=_any_that(min(targets), highest_nm=max(targets)),
    )


def _any_that(lowest_nm: float, *, highest_nm: float) -> str:
    """The scale begins at the lowest of them; a fifth of its end lies no higher either."""
    begins = both(lowest_nm, kind="torque")
    ends = f"{both(highest_nm, kind='torque')} and {both(5 * lowest_nm, kind='torque')}"
    return f"begins at {begins} or below and ends between {ends}"


def _these(number: int) -> str:
    return f"these {number} joints" if number > 1 else "this 1 joint"


def _words(joints: int, stages: tuple[GapStage, ...], closing: ClosingWrench | None) -> Iterator[str]:
    gap = {one.joint for one in stages}
    if not joints:
        return
    if not gap:
        yield (
            f"Your wrenches measure every torque of the {joints} joints of the sheet that have one."
            if joints > 1
            else "Your wrenches measure every torque of the 1 joint of the sheet that has one."
        )
        return
    yield (
        f"{len(gap)} of the {joints} {'joint' if joints == 1 else 'joints'} with a torque "
        f"{'has' if len(gap) == 1 else 'have'} one that no wrench of yours can measure."
    )
    if closing is None:
        yield "No torque wrench as usually sold would measure one of them: look at the ways out of each joint."
        return
    still = {one.joint for one in closing.leaves}
    yield (
        f"One torque wrench of {closing.range} would close {len(gap - still)} of {_these(len(gap))} "
        f"({len(closing.closes)} of {len(stages)} stages, {closing.error}). "
        f"So would any that {closing.any_that}."
    )

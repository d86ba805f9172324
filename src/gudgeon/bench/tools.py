"""Which of his tools does a stage, what to set on its own scale, and what to do when none does."""

from dataclasses import dataclass

from gudgeon.calc.joint.wrench import (
    mark_in_range,
    permitted_deviation,
    scale_setting,
    spring_scale_force,
    usable_range,
)
from gudgeon.kit.model import Kit, Wrench
from gudgeon.quantity.format import both, number
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import Printed
from gudgeon.sheet.joints import Stage
from gudgeon.sources.tools import default_deviation

ARM_MM = 250.0
"""Arm for the spring-scale way out: a length that a garage has."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A tool for a stage: what to set on it, and how far off it may be."""

    tool: str
    name: str
    setting: str
    exact: str
    rounding: str
    error: str
    note: str
    ways_out: tuple[str, ...]

    @property
    def found(self) -> bool:
        """Whether one of his tools does it."""
        return bool(self.tool)


@dataclass(frozen=True, slots=True)
class _Fit:
    key: str
    wrench: Wrench
    mark: float
    rounding_nm: float
    error_nm: float
    inside: bool


def choose(kit: Kit, stage: Stage) -> Choice:
    """The tool for a stage: the torque wrench with the least total error, an angle gauge, a bar, or none."""
    if stage.kind in ("torque", "verify") and stage.figure is not None:
        return _torque(kit, stage.figure)
    if stage.kind == "draw down":
        return _turning(kit, ("ratchet", "bar"), "a ratchet, by hand")
    if stage.kind == "turn":
        return _turning(
            kit,
            ("angle gauge", "paint marks"),
            "no angle gauge in the kit: mark the head and turn to the mark",
        )
    if stage.kind == "loosen":
        return _turning(kit, ("bar", "ratchet"), "a bar; never a torque wrench for loosening")
    words = {"hand-run": "by hand", "wait": "a clock", "stretch": "a micrometer over the bolt"}[stage.kind]
    return Choice("", words, "", "", "", "", "", ())


def _turning(kit: Kit, kinds: tuple[str, ...], without: str) -> Choice:
    for kind in kinds:
        for key, tool in kit.turning.items():
            if tool.kind == kind:
                error = f"± {tool.error.text.lstrip('± ')}" if tool.error is not None else ""
                return Choice(key, tool.name, "", "", "", error, "", ())
    return Choice("", without, "", "", "", "", "", ())


def _torque(kit: Kit, wanted: Printed) -> Choice:
    fits = [fit for key, wrench in kit.wrenches.items() if (fit := _fit(key, wrench, wanted)) is not None]
    good = [fit for fit in fits if fit.inside]
    if not good:
        return _none(kit, wanted, fits)
    best = min(good, key=lambda fit: (fit.error_nm, fit.key))
    target = wanted.middle_in("N·m")
    return _shown(best, target)


def _shown(fit: _Fit, target_nm: float) -> Choice:
    wrench, unit = fit.wrench, fit.wrench.unit
    decimals = wrench.step.first.low.decimals if wrench.step.first.low is not None else 0
    error = f"± {both(fit.error_nm, kind='torque')}, {100 * fit.error_nm / target_nm:.1f} %"
    rounding = ""
    if abs(fit.rounding_nm) > 1e-6:
        share = f"{100 * fit.rounding_nm / target_nm:+.1f} %"
        rounding = f"the scale rounds by {both(fit.rounding_nm, kind='torque')} ({share})"
    setting = f"{number(fit.mark, decimals=decimals)} {unit}"
    return Choice(
        fit.key, wrench.name, setting, both(target_nm, kind="torque"), rounding, error, wrench.note or "", ()
    )


def _fit(key: str, wrench: Wrench, wanted: Printed) -> _Fit | None:
    """How a wrench would do it, or nothing where its scale does not reach."""
    scale = wrench.range.first
    low, high = scale.low_in("N·m"), scale.high_in("N·m")
    assert low is not None
    assert high is not None
    usable = usable_range(low, scale_max=high)
    share = wrench.deviation or default_deviation(wrench.kind, high)
    mark = _mark(wrench, wanted, share)
    inside = mark is not None
    if mark is None:
        in_unit = wanted.middle_in(wrench.unit)
        mark = scale_setting(in_unit, step=wrench.step.middle_in(wrench.unit)).setting
    mark_nm = convert(mark, frm=wrench.unit, to="N·m", kind="torque")
    if not usable[0] - 1e-9 <= mark_nm <= usable[1] + 1e-9:
        return None
    half = permitted_deviation(mark_nm, scale_max=high, relative=share)
    error = half + wrench.step.middle_in("N·m") / 2
    return _Fit(key, wrench, mark, mark_nm - wanted.middle_in("N·m"), error, inside)


def _mark(wrench: Wrench, wanted: Printed, share: float) -> float | None:
    """The mark of the scale: nearest to a single figure; for a range, one whose deviation stays inside it."""
    step, unit = wrench.step.middle_in(wrench.unit), wrench.unit
    low, high = wanted.low_in(unit), wanted.high_in(unit)
    if wanted.first.single or low is None or high is None:
        return scale_setting(wanted.middle_in(unit), step=step).setting
    found = mark_in_range(low, high=high, step=step, relative=share)
    return found.setting if found is not None else None


def _none(kit: Kit, wanted: Printed, fits: list[_Fit]) -> Choice:
    """Say plainly that none fits, and the real ways out; never round a guess."""
    target = wanted.middle_in("N·m")
    force = spring_scale_force(target, arm_mm=ARM_MM)
    ways = [
        f"borrow or buy a torque wrench that reads {both(target, kind='torque')} above a fifth of its maximum "
        f"(its maximum at most {both(5 * target, kind='torque', decimals=0)})",
        f"a spring scale at {both(ARM_MM, kind='length', decimals=0)} from the bolt, pulled at a right angle: "
        f"{both(force, kind='force', decimals=0)}; 5 % of the scale or of the arm is 5 % of the torque",
        "the manual's own angle for this bolt, if it gives one",
    ]
    if fits:
        best = min(fits, key=lambda fit: fit.error_nm)
        note = (
            f"{best.wrench.name} reaches it, but may be off by {both(best.error_nm, kind='torque')}: "
            f"that does not stay inside {wanted.text}"
        )
    else:
        note = f"none of your {len(kit.wrenches)} torque wrenches reaches {wanted.text} in the usable part of its scale"
    return Choice("", "", "", both(target, kind="torque"), "", "", note, tuple(ways))

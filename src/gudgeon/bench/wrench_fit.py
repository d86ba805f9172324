"""How well one torque wrench, on each of its scales and with or without an adapter, does one torque."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.calc.errors import StepNotUsable
from gudgeon.calc.joint.wrench import (
    adapter_setting,
    mark_in_range,
    permitted_deviation,
    scale_setting,
    usable_range,
)
from gudgeon.kit.model import Kit
from gudgeon.kit.torque import Adapter, Scale, Wrench
from gudgeon.quantity.format import both, number
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import Printed
from gudgeon.sources.figures import Figure
from gudgeon.sources.tools import permitted_deviation as standard_deviation

_SAME = 1e-6  # of a figure: converted between units it is the same figure


@dataclass(frozen=True, slots=True)
class Wanted:
    """The torque of a stage [N·m]: what to aim at, and the ends that must be kept, where there are any.

    `inch` is the unit of inch and pound in which it is printed besides; empty where it is not.
    """

    text: str
    target_nm: float
    low_nm: float | None
    high_nm: float | None
    single: bool
    inch: str = ""

    def in_words(self, torque_nm: float, *, decimals: int | None = None) -> str:
        """Another torque in the two units in which this one is printed."""
        return both(torque_nm, kind="torque", decimals=decimals, inch=self.inch)


@dataclass(frozen=True, slots=True)
class Fit:
    """One wrench with one scale, one mark of it, and how far off the bolt may be."""

    key: str
    wrench: Wrench
    scale: Scale
    mark: float
    rounding_nm: float
    error_nm: float
    inside: bool
    adapter: str = ""

    @property
    def setting(self) -> str:
        """The mark in the unit of its scale, with the digits that the scale has."""
        return f"{number(self.mark, decimals=self.scale.decimals)} {self.scale.unit}"


def wanted(printed: Printed) -> Wanted:
    """What a printed torque asks for; of an open one, the end that is given."""
    span = printed.first
    low, high = span.low_in("N·m"), span.high_in("N·m")
    inch = next((one.unit.symbol for one in printed.spans if one.unit.system == "inch"), "")
    if low is not None and high is not None:
        return Wanted(printed.text, span.middle_in("N·m"), low, high, span.single, inch)
    either = low if low is not None else high
    assert either is not None  # a span has at least one end
    return Wanted(printed.text, either, low, high, single=False, inch=inch)


def share_of(wrench: Wrench) -> float:
    """The permitted deviation as a share: as the kit says, else by type and class, else by kind."""
    return wrench.deviation or standard_share(wrench).value


def standard_share(wrench: Wrench) -> Figure:
    """The permitted deviation of a wrench by the standard."""
    return standard_deviation(wrench.kind, end_nm(wrench), iso_class=wrench.iso_class)


def end_nm(wrench: Wrench) -> float:
    """The largest torque of a wrench [N·m]."""
    return max(_nm(scale.high, scale) for scale in wrench.scales)


def usable(scale: Scale) -> tuple[float, float]:
    """Between which marks a scale may be used [its unit]."""
    return usable_range(scale.low, scale_max=scale.high)


def usable_words(scale: Scale) -> str:
    """The usable part of a scale, like `20–100 N·m`."""
    low, high = usable(scale)
    return f"{low:g}–{high:g} {scale.unit}"


def serves(wrench: Wrench, *, left_hand: bool) -> bool:
    """Whether a wrench is good in the direction of tightening; for a left-hand thread its kit must say so."""
    if left_hand:
        return wrench.direction in ("counterclockwise", "both")
    return wrench.direction != "counterclockwise"


def fits(kit: Kit, asked: Wanted) -> list[Fit]:
    """Every wrench that reaches a torque in the usable part of a scale, on the better of its scales."""
    found = (_fit(key, wrench, asked) for key, wrench in kit.wrenches.items())
    return [fit for fit in found if fit is not None]


def fits_with_adapter(kit: Kit, asked: Wanted) -> list[Fit]:
    """What an adapter reaches beyond the end of a wrench: straight out it lowers the setting.

    Below a scale no adapter is offered: it would have to be folded back over the grip.
    """
    found = []
    for key, wrench in kit.wrenches.items():
        if wrench.length_mm is None or asked.target_nm <= end_nm(wrench):
            continue
        for name, adapter in outward(kit):
            ratio = adapter_setting(
                1.0,
                wrench_length_mm=wrench.length_mm,
                adapter_length_mm=adapter.length_mm,
                adapter_angle_deg=adapter.angle_deg,
            )
            fit = _fit(key, wrench, asked, ratio=ratio, adapter=name)
            if fit is not None:
                found.append(fit)
    return found


def outward(kit: Kit) -> Iterator[tuple[str, Adapter]]:
    """The adapters that lengthen the lever; one that stands square to the wrench does not."""
    for name, adapter in kit.adapters.items():
        if math.cos(math.radians(adapter.angle_deg)) > _SAME:
            yield name, adapter


def _fit(key: str, wrench: Wrench, asked: Wanted, *, ratio: float = 1.0, adapter: str = "") -> Fit | None:
    """The better scale of a wrench; `ratio` is its setting as a share of the torque at the bolt.

    Its deviation is the same on both, so what tells them apart is the step and what rounding to it makes.
    """
    found = [
        fit
        for scale in wrench.scales
        if (fit := _on_scale(key, wrench, scale, asked, ratio=ratio, adapter=adapter)) is not None
    ]

    def off(fit: Fit) -> tuple[bool, float]:
        return not fit.inside, fit.scale.step.middle_in("N·m") / 2 + abs(fit.rounding_nm)

    return min(found, key=off, default=None)


def _on_scale(
    key: str, wrench: Wrench, scale: Scale, asked: Wanted, *, ratio: float, adapter: str
) -> Fit | None:
    target = _in_unit(asked.target_nm * ratio, scale)
    ends = usable(scale)
    mark, inside = _inside(wrench, scale, asked, ratio=ratio), True
    if mark is None:
        if not ends[0] * (1 - _SAME) <= target <= ends[1] * (1 + _SAME):
            return None
        mark, inside = _nearest(scale, target, ends), asked.single
    if mark is None:
        return None
    half = permitted_deviation(mark, scale_max=scale.high, relative=share_of(wrench))
    error = half + max(scale.step.middle_in(scale.unit) / 2, abs(mark - target))
    return Fit(
        key,
        wrench,
        scale,
        mark,
        _nm(mark - target, scale) / ratio,
        _nm(error, scale) / ratio,
        inside,
        adapter,
    )


def _inside(wrench: Wrench, scale: Scale, asked: Wanted, *, ratio: float) -> float | None:
    """The mark nearest to the middle of a range whose deviation stays inside it; none for a single figure."""
    if asked.single:
        return None
    least, most = usable(scale)
    share = share_of(wrench)
    low = _in_unit(asked.low_nm * ratio, scale) if asked.low_nm is not None else least * (1 - share)
    high = _in_unit(asked.high_nm * ratio, scale) if asked.high_nm is not None else most * (1 + share)
    if not 0 < low <= high:
        return None
    found = mark_in_range(
        low,
        high=high,
        step=scale.step.middle_in(scale.unit),
        relative=share,
        start=_start(scale),
        middle=_in_unit(asked.target_nm * ratio, scale),
        least=least,
        most=most,
    )
    return found.setting if found is not None else None


def _nearest(scale: Scale, target: float, ends: tuple[float, float]) -> float | None:
    """The nearest mark in the usable part of a scale; none where the step leaps over that part."""
    least, most = ends
    step = scale.step.middle_in(scale.unit)
    try:
        return scale_setting(target, step=step, start=_start(scale), least=least, most=most).setting
    except StepNotUsable:
        return None


def _start(scale: Scale) -> float:
    return scale.first_mark.middle_in(scale.unit) if scale.first_mark is not None else 0.0


def _nm(value: float, scale: Scale) -> float:
    return convert(value, frm=scale.unit, to="N·m", kind="torque")


def _in_unit(value_nm: float, scale: Scale) -> float:
    return convert(value_nm, frm="N·m", to=scale.unit, kind="torque")

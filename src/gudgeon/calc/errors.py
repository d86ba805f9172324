"""Values that no engine, bolt or gauge can have; one class per cause."""

import math

from gudgeon.errors import InputError


class NotPositive(InputError):
    """Zero or less, where only more than zero can be."""

    def __init__(self, what: str, value: float, unit: str) -> None:
        super().__init__(
            f"{what} {value:g} {unit}".rstrip() + " cannot be: it is above 0. Check the figure and its sign."
        )


class Negative(InputError):
    """Below zero, where nothing below zero can be."""

    def __init__(self, what: str, value: float, unit: str) -> None:
        super().__init__(
            f"{what} {value:g} {unit}".rstrip()
            + " cannot be: it is 0 or more. Check the figure and its sign."
        )


class NotFinite(InputError):
    """NaN or infinity among the inputs."""

    def __init__(self, what: str, value: float) -> None:
        super().__init__(f"{what} {value} is not a finite number. Give the number that was read.")


class RodTooShort(InputError):
    """The crank could not turn over."""

    def __init__(self, rod_mm: float, least_mm: float) -> None:
        super().__init__(
            f"Rod length {rod_mm:g} mm cannot be: it is more than half the stroke plus the pin offset "
            f"({least_mm:g} mm), or the crank does not turn over. Measure from center to center."
        )


class RatioImpossible(InputError):
    """A compression ratio of one or less."""

    def __init__(self, ratio: float) -> None:
        super().__init__(
            f"Compression ratio {ratio:g} cannot be: it is above 1. "
            "Give (swept + clearance) / clearance volume."
        )


class ClearanceGone(InputError):
    """The parts given leave no volume at top dead center."""

    def __init__(self, clearance_cm3: float) -> None:
        super().__init__(
            f"Clearance volume {clearance_cm3:.3g} cm³ cannot be: it is above 0. "
            "Check the signs: a dish adds to it, a dome and a piston proud of the deck take from it."
        )


class CutTooDeep(InputError):
    """More volume would be cut away than there is."""

    def __init__(self, cut_mm: float, most_mm: float) -> None:
        super().__init__(
            f"Cut {cut_mm:g} mm cannot be: at {most_mm:.3g} mm no clearance volume is left. "
            "Check cut and mouth area."
        )


class RatioNotRaised(InputError):
    """A cut asked to lower the ratio."""

    def __init__(self, wanted: float, now: float) -> None:
        super().__init__(
            f"Ratio {wanted:g} is below the present {now:.4g}; a cut only raises it. Take a thicker gasket."
        )


class AdapterTurnsBack(InputError):
    """The adapter points back beyond the grip: no lever is left."""

    def __init__(self, adapter_mm: float, angle_deg: float, wrench_mm: float) -> None:
        super().__init__(
            f"Adapter {adapter_mm:g} mm at {angle_deg:g}° leaves no lever on a wrench of {wrench_mm:g} mm. "
            "Measure both from center to center, and the angle from straight out (0°)."
        )


class StepNotUsable(InputError):
    """A target below half of the first mark."""

    def __init__(self, target: float, step: float) -> None:
        super().__init__(
            f"Target {target:g} lies below half a scale step ({step:g}). Use a wrench with a finer scale."
        )


class ScaleUpsideDown(InputError):
    """The scale ends before it begins."""

    def __init__(self, start: float, end: float) -> None:
        super().__init__(
            f"Scale {start:g}–{end:g} cannot be: it ends above its start. Read both ends off the wrench."
        )


class LimitMissing(InputError):
    """Nothing to judge against."""

    def __init__(self) -> None:
        super().__init__(
            "No limit is given, so nothing can be judged. Give the lower limit, the upper, or both."
        )


class LimitsCrossed(InputError):
    """The lower limit lies above the upper."""

    def __init__(self, lower: float, upper: float) -> None:
        super().__init__(f"Lower limit {lower:g} lies above the upper {upper:g}. Exchange or mend them.")


class ReadingCrossed(InputError):
    """The blade that enters is thicker than the one that does not."""

    def __init__(self, low: float, high: float) -> None:
        super().__init__(
            f"Reading {low:g}–{high:g} runs downward. Give what enters first, then what does not."
        )


class ReadingMissing(InputError):
    """Neither end of a reading."""

    def __init__(self) -> None:
        super().__init__("Neither end of the reading is given. Give what enters, what does not, or both.")


class RiskOutOfRange(InputError):
    """A risk that is no risk."""

    def __init__(self, risk: float) -> None:
        super().__init__(
            f"Risk {risk:g} cannot be used: it lies above 0 and below 0.5 (JCGM 106:2012). 0.05 is usual."
        )


def finite(value: float, what: str) -> float:
    """The value, when it is a finite number."""
    if not math.isfinite(value):
        raise NotFinite(what, value)
    return value


def positive(value: float, what: str, unit: str) -> float:
    """The value, when it is above zero."""
    if finite(value, what) <= 0:
        raise NotPositive(what, value, unit)
    return value


def not_negative(value: float, what: str, unit: str) -> float:
    """The value, when it is zero or more."""
    if finite(value, what) < 0:
        raise Negative(what, value, unit)
    return value

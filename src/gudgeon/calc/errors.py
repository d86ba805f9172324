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


class ThreadUnreadable(InputError):
    """The text is no designation of a thread."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"`{text}` is no thread that can be read. "
            "Write it like M12, M10x1.25, 1/2-13 UNC, 3/8-24 UNF or #10-32 UNF."
        )


class ThreadPitchNeeded(InputError):
    """A size whose pitch the series does not tell."""

    def __init__(self, text: str, example: str) -> None:
        super().__init__(f"`{text}` has no pitch, and no series gives one. Write it too, like {example}.")


class SeriesContradicts(InputError):
    """A pitch and a series that do not belong together."""

    def __init__(self, text: str, series: str, threads_per_inch: int) -> None:
        super().__init__(
            f"`{text}` contradicts itself: {series} of that size has {threads_per_inch} threads per inch "
            "(ASME B1.1). Write the pitch that was measured, without the series."
        )


class PitchTooCoarse(InputError):
    """More pitch than the diameter can carry; often a length was written for the pitch."""

    def __init__(self, nominal_mm: float, pitch_mm: float) -> None:
        super().__init__(
            f"Pitch {pitch_mm:g} mm cannot be on a diameter of {nominal_mm:g} mm: it is at most a third. "
            "Write diameter and pitch; the length of the bolt is no part of it."
        )


class StrengthUnknown(InputError):
    """A strength class that is not on file for that diameter."""

    def __init__(self, name: str, known: str) -> None:
        super().__init__(
            f"`{name}` is no strength class known for this diameter. Give one of: {known}; or yield_mpa."
        )


class FrictionUnusual(InputError):
    """No friction at all, or more than any metal has."""

    def __init__(self, what: str, value: float) -> None:
        super().__init__(
            f"{what} {value:g} cannot be: friction lies above 0 and below 1. 0.08 to 0.20 is usual."
        )


class UtilisationOutOfRange(InputError):
    """More than the yield, or nothing of it."""

    def __init__(self, value: float) -> None:
        super().__init__(
            f"Utilisation {value:g} cannot be: it is above 0 and at most 1, a share of yield. "
            "0.9 is usual (VDI 2230)."
        )


class HeadInsideHole(InputError):
    """A head that would fall through its hole."""

    def __init__(self, head_mm: float, hole_mm: float) -> None:
        super().__init__(
            f"Head diameter {head_mm:g} mm is not larger than the hole {hole_mm:g} mm. "
            "Give the bearing face of the head, measured outside."
        )


class BearingTooSmall(InputError):
    """The head rests on less than the thread."""

    def __init__(self, bearing_mm: float, nominal_mm: float) -> None:
        super().__init__(
            f"Bearing diameter {bearing_mm:g} mm cannot be: it is above the thread's {nominal_mm:g} mm. "
            "Give the mean of head and hole diameter."
        )


class BandTooWide(InputError):
    """A band that reaches down to no preload at all."""

    def __init__(self, band: float) -> None:
        super().__init__(
            f"A band of ±{100 * band:g} % cannot be: it is below ±100 %, or no preload would be left. "
            "Write 25 % as 0.25."
        )


class FactorBelowOne(InputError):
    """The greatest preload would be less than the least."""

    def __init__(self, factor: float) -> None:
        super().__init__(
            f"Tightening factor {factor:g} cannot be: it is greatest against least preload, so 1 or more. "
            "1.4 to 1.8 is usual with a torque wrench (VDI 2230)."
        )


class ShareOutOfRange(InputError):
    """A share of the preload that is none."""

    def __init__(self, share: float) -> None:
        super().__init__(
            f"Share of the snug torque {share:g} cannot be: it lies from 0 to 1. Write 30 % as 0.3."
        )


class OutsideInsideHole(InputError):
    """Parts that would be all hole."""

    def __init__(self, outside_mm: float, hole_mm: float) -> None:
        super().__init__(
            f"Outside diameter {outside_mm:g} mm is not larger than the hole {hole_mm:g} mm. "
            "Give the width of the parts around the bolt."
        )


class HalfAngleUnusual(InputError):
    """No cone at all."""

    def __init__(self, angle_deg: float) -> None:
        super().__init__(
            f"Half angle {angle_deg:g}° cannot be: it lies above 0° and below 90°. 30° is usual (Shigley)."
        )


class NothingClamped(InputError):
    """A list without any length in it."""

    def __init__(self, what: str) -> None:
        super().__init__(f"No {what} is given, so nothing gives. Name at least one, each with its length.")


class LayersDiffer(InputError):
    """A fitted stiffness asked for a sandwich."""

    def __init__(self) -> None:
        super().__init__(
            "The fitted stiffness holds for one material, and the layers differ. "
            "Give layers of one modulus, or take method textbook or vdi."
        )


def finite(value: float, what: str) -> float:
    """The value, when it is a finite number."""
    if not math.isfinite(value):
        raise NotFinite(what, value)
    return value


def positive(value: float, what: str, *, unit: str = "") -> float:
    """The value, when it is above zero."""
    if finite(value, what) <= 0:
        raise NotPositive(what, value, unit)
    return value


def not_negative(value: float, what: str, *, unit: str = "") -> float:
    """The value, when it is zero or more."""
    if finite(value, what) < 0:
        raise Negative(what, value, unit)
    return value

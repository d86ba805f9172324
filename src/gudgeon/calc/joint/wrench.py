"""The torque wrench in the hand: where it may be used, what to set, how wrong it may be."""

import math
from dataclasses import dataclass

from gudgeon.calc.errors import (
    AdapterTurnsBack,
    ScaleUpsideDown,
    StepNotUsable,
    finite,
    not_negative,
    positive,
)

LEAST_SHARE = 0.2  # of the largest setting, below which ISO 6789-1:2017 proves nothing
_SAME = 1e-9  # of a step: quotients of decimal figures are not whole in floats


@dataclass(frozen=True, slots=True)
class ScaleSetting:
    """A mark of the scale, and how far it lies from the torque wanted (plus: above)."""

    setting: float
    error: float


def usable_range(scale_min: float, *, scale_max: float) -> tuple[float, float]:
    """Where on its scale a torque wrench may be used.

    Equation:
        low = max(scale_min, 0.2 · scale_max); high = scale_max

    Parameters:
        scale_min: first mark of the scale [unit of the scale]
        scale_max: last mark of the scale [unit of the scale]

    Returns:
        lowest and highest usable setting [unit of the scale]

    Valid for:
        hand torque tools, indicating and setting

    Source:
        ISO 6789-1:2017, conformance is proved from 20 % to 100 % of the largest torque.

    Example:
        >>> usable_range(10.0, scale_max=110.0)
        (22.0, 110.0)

    Not covered:
        tools whose maker proves them below 20 %.
    """
    not_negative(scale_min, "Start of the scale")
    if finite(scale_max, "End of the scale") <= scale_min:
        raise ScaleUpsideDown(scale_min, scale_max)
    return max(scale_min, LEAST_SHARE * scale_max), scale_max


def permitted_deviation(target: float, *, scale_max: float, relative: float) -> float:
    """How far the torque may lie from the setting while the wrench is still within its class.

    Equation:
        half-width = relative · max(target, 0.2 · scale_max)

    Parameters:
        target: torque set [unit of the scale]
        scale_max: last mark of the scale [unit of the scale]
        relative: permitted deviation of its class, as a share [1]

    Returns:
        half-width of the permitted deviation [unit of the scale]

    Valid for:
        targets inside the usable range; below 20 % of the scale the half-width of 20 % is kept

    Source:
        ISO 6789-1:2017, maximum permissible relative deviation, which is of the setting.

    Example:
        >>> round(permitted_deviation(95.0, scale_max=200.0, relative=0.04), 3)
        3.8

    Not covered:
        drift since the last check, and how the wrench is pulled.
    """
    positive(scale_max, "End of the scale")
    positive(relative, "Permitted deviation")
    return relative * max(positive(target, "Target"), LEAST_SHARE * scale_max)


def scale_setting(
    target: float, *, step: float, start: float = 0.0, least: float | None = None, most: float | None = None
) -> ScaleSetting:
    """The mark of the scale nearest to a torque; midway between two marks, the lower.

    Equation:
        setting = start + step · round((target − start) / step), kept between least and most

    Parameters:
        target: torque wanted [unit of the scale]
        step: distance of two marks [unit of the scale]
        start: a mark of the scale, where marks are not multiples of the step [unit of the scale]
        least: no mark below this one is taken, where given [unit of the scale]
        most: no mark above this one is taken, where given [unit of the scale]

    Returns:
        the mark, and mark less target [unit of the scale]

    Valid for:
        scales with even steps

    Source:
        HAND: nearest multiple.

    Example:
        >>> scale_setting(67.8, step=5.0)
        ScaleSetting(setting=70.0, error=2.2)

    Not covered:
        whether the mark lies on the scale at all, unless its ends are given: see usable_range.
    """
    positive(step, "Scale step")
    steps = _lower_of_nearest((positive(target, "Target") - start) / step)
    first, last = _marks_between(least, most, start=start, step=step)
    setting = round(start + min(max(steps, first), last) * step, 9)
    if setting <= 0 or first > last:
        raise StepNotUsable(target, step)
    return ScaleSetting(setting, round(setting - target, 9))


def _lower_of_nearest(steps: float) -> float:
    return math.ceil(steps - 0.5 - _SAME)


def _marks_between(
    least: float | None, most: float | None, *, start: float, step: float
) -> tuple[float, float]:
    """The first and the last mark between two ends, counted in steps from the start."""
    first = -math.inf if least is None else math.ceil((least - start) / step - _SAME)
    last = math.inf if most is None else math.floor((most - start) / step + _SAME)
    return first, last


def mark_in_range(
    low: float,
    *,
    high: float,
    step: float,
    relative: float,
    start: float = 0.0,
    middle: float | None = None,
    least: float | None = None,
    most: float | None = None,
) -> ScaleSetting | None:
    """The mark nearest to the middle of a torque range whose deviation stays inside it.

    Equation:
        m · (1 − relative) ≥ low and m · (1 + relative) ≤ high, with m = start + a multiple of the step

    Parameters:
        low: lower end of the range [unit of the scale]
        high: upper end of the range [unit of the scale]
        step: distance of two marks [unit of the scale]
        relative: permitted deviation of the wrench, as a share [1]
        start: a mark of the scale, where marks are not multiples of the step [unit of the scale]
        middle: what the mark shall lie near, where that is not halfway [unit of the scale]
        least: no mark below this one is taken, where given [unit of the scale]
        most: no mark above this one is taken, where given [unit of the scale]

    Returns:
        the mark and its distance from the middle [unit of the scale], or None where no mark fits

    Valid for:
        scales with even steps

    Source:
        HAND: the permitted deviation of ISO 6789-1:2017 laid on either side of the mark.

    Example:
        >>> mark_in_range(78.0, high=93.0, step=5.0, relative=0.04)
        ScaleSetting(setting=85.0, error=-0.5)

    Not covered:
        friction, which moves the clamp far more than the wrench does.
    """
    positive(relative, "Permitted deviation")
    positive(step, "Scale step")
    if finite(high, "Upper end") < positive(low, "Lower end"):
        raise ScaleUpsideDown(low, high)
    wanted = (low + high) / 2 if middle is None else middle
    inside = max(low / (1 - relative), least or 0.0), min(high / (1 + relative), most or math.inf)
    first, last = _marks_between(*inside, start=start, step=step)
    if first > last:
        return None
    nearest = min(max(_lower_of_nearest((wanted - start) / step), first), last)
    setting = round(start + nearest * step, 9)
    return ScaleSetting(setting, round(setting - wanted, 9))


def total_error(target: float, *, scale_max: float, relative: float, step: float) -> float:
    """The most by which the torque at the bolt may miss, from the wrench and from reading its scale.

    Equation:
        error = permitted deviation + step / 2

    Parameters:
        target: torque set [unit of the scale]
        scale_max: last mark of the scale [unit of the scale]
        relative: permitted deviation of its class, as a share [1]
        step: distance of two marks [unit of the scale]

    Returns:
        half-width of the error [unit of the scale]

    Valid for:
        choosing between wrenches; both parts may act the same way, so they are added

    Source:
        ISO 6789-1:2017 for the deviation; half a step is the rounding of a read scale (HAND).

    Example:
        >>> round(total_error(95.0, scale_max=200.0, relative=0.04, step=5.0), 3)
        6.3

    Not covered:
        friction, the hand, an adapter.
    """
    deviation = permitted_deviation(target, scale_max=scale_max, relative=relative)
    return deviation + not_negative(step, "Scale step") / 2


def adapter_setting(
    torque_nm: float, *, wrench_length_mm: float, adapter_length_mm: float, adapter_angle_deg: float = 0.0
) -> float:
    """What to set on a torque wrench that carries an adapter at its head.

    Equation:
        setting = T · L / (L + E · cos a)

    Parameters:
        torque_nm: torque wanted at the bolt, T [N·m]
        wrench_length_mm: center of the grip to center of the drive, L [mm]
        adapter_length_mm: center of the drive to center of the bolt, E [mm]
        adapter_angle_deg: adapter against the wrench, a; 0 straight out, 90 square, 180 folded back [°]

    Returns:
        setting of the wrench [N·m]

    Valid for:
        a hand pull at the middle of the grip, square to the wrench

    Source:
        TM 9-2350-261-20-1, page 2-29 (setting = T · L / (L + E)); the cosine by HAND: only the
        part of the adapter along the wrench lengthens the lever.

    Example:
        >>> round(adapter_setting(40.0, wrench_length_mm=300.0, adapter_length_mm=100.0), 2)
        30.0

    Not covered:
        extensions along the bolt axis (they change nothing but the twist), and wrenches that must be
        pulled elsewhere than at the grip.
    """
    positive(torque_nm, "Torque", unit="N·m")
    positive(wrench_length_mm, "Wrench length", unit="mm")
    not_negative(adapter_length_mm, "Adapter length", unit="mm")
    along = adapter_length_mm * math.cos(math.radians(finite(adapter_angle_deg, "Adapter angle")))
    if wrench_length_mm + along <= 0:
        raise AdapterTurnsBack(adapter_length_mm, adapter_angle_deg, wrench_length_mm)
    return torque_nm * wrench_length_mm / (wrench_length_mm + along)


def spring_scale_force(torque_nm: float, *, arm_mm: float) -> float:
    """The pull to read on a spring scale hooked to a lever, where no wrench fits.

    Equation:
        F = T / L

    Parameters:
        torque_nm: torque wanted at the bolt, T [N·m]
        arm_mm: center of the bolt to the hook, square to the pull, L [mm]

    Returns:
        pull [N]

    Valid for:
        a slow pull square to the lever

    Source:
        HAND: definition of a moment.

    Example:
        >>> round(spring_scale_force(9.0, arm_mm=300.0), 3)
        30.0

    Not covered:
        the weight of the lever: hold it level with the pull straight up or down accordingly.
    """
    return positive(torque_nm, "Torque", unit="N·m") / (positive(arm_mm, "Arm", unit="mm") / 1000)


def spring_scale_error(
    torque_nm: float, *, arm_mm: float, force_error_n: float, arm_error_mm: float
) -> float:
    """The most by which a torque pulled with a spring scale at a measured arm may miss.

    Equation:
        error = (F + dF) · (L + dL) − F · L, with F = T / L

    Parameters:
        torque_nm: torque wanted at the bolt, T [N·m]
        arm_mm: center of the bolt to the hook, L [mm]
        force_error_n: how far the spring scale may be off, dF [N]
        arm_error_mm: how well the arm is measured, dL [mm]

    Returns:
        half-width of the error [N·m]

    Valid for:
        a slow pull square to the lever; both errors taken at their worst, the same way

    Source:
        HAND: definition of a moment.

    Example:
        >>> round(spring_scale_error(10.0, arm_mm=250.0, force_error_n=1.0, arm_error_mm=2.0), 3)
        0.332

    Not covered:
        a pull that is not square: 10° off loses 1.5 %.
    """
    force_n = spring_scale_force(torque_nm, arm_mm=arm_mm)
    most_n = force_n + not_negative(force_error_n, "Error of the spring scale", unit="N")
    most_mm = arm_mm + not_negative(arm_error_mm, "Error of the arm", unit="mm")
    return most_n * most_mm / 1000 - torque_nm

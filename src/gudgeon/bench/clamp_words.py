"""Where the spread of the clamp comes from, in plain words."""

import math
from collections.abc import Iterable, Mapping

from gudgeon.calc.joint.scatter import CAUSES, Cause
from gudgeon.quantity.format import in_order, number
from gudgeon.quantity.units import convert
from gudgeon.sheet.joints import Joint

NAMES: dict[Cause, str] = {
    "shared friction": "friction that all bolts share",
    "own friction": "friction that differs from bolt to bolt",
    "wrench": "the wrench itself",
    "setting": "setting and reading its scale",
    "angle": "where the angles end",
}
CARE: dict[Cause, str] = {
    "shared friction": "use the lubricant that the manual names, and the same one on every bolt",
    "own friction": "clean every thread and hole, and oil every thread and head alike",
    "wrench": "a wrench of a better class, newly checked, would pay",
    "setting": "a finer scale, set and read with care, would pay",
    "angle": "a gauge, or marks that are looked at squarely, pay",
}
SMALL = 0.005
NO_GAIN = ": no gain, for the model does not see what the stage is for"
OF_YIELD = (
    "Of yield: the clamp as a share of the force at which this bolt begins to yield while it is being turned."
)


def sentence(joint: Joint, causes: Mapping[Cause, float], band: float) -> str:
    """What the spread comes from, and what the wrench has to do with it."""
    shares = _of_one(causes)
    if not any(shares.values()) or band < SMALL / 10:
        return f"With what is stated, the clamp of the {joint.called}s does not scatter."
    first = max(shares, key=lambda cause: shares[cause])
    how = "Most of the spread" if shares[first] > 0.5 else "The largest part of the spread"
    said = f"{how} of ± {100 * band:.0f} % is {NAMES[first]} ({_percent(shares[first])}); {CARE[first]}."
    if first == "wrench":
        friction = shares["shared friction"] + shares["own friction"]
        return f"{said} Friction makes {_percent(friction)} of it."
    return (
        f"{said} The wrench, with its setting, makes {_percent(shares['wrench'] + shares['setting'])} of it."
    )


def shares_words(causes: Mapping[Cause, float]) -> tuple[tuple[str, str], ...]:
    """Every cause with its share, the largest first."""
    shares = _of_one(causes)
    order = sorted(CAUSES, key=lambda cause: -shares[cause])
    return tuple((NAMES[cause], _percent(shares[cause])) for cause in order if shares[cause] > 0)


def _of_one(causes: Mapping[Cause, float]) -> dict[Cause, float]:
    """Shares that add up to the whole: what causes do together is laid on them by their size."""
    whole = sum(causes.values())
    return {cause: causes[cause] / whole if whole > 0 else 0.0 for cause in CAUSES}


def _percent(share: float) -> str:
    return "less than 1 %" if 0 < share < 0.01 else f"{100 * share:.0f} %"


def compared(clamp_n: float, *, band: float, was: tuple[float, float], no_gain: bool = False) -> str:
    """A what-if against the program as it is written; a stage left out never reads as a gain."""
    before, band_before = was
    if before <= 1:
        return ""
    if clamp_n <= 1:
        return "no clamp at all"
    change = 100 * (clamp_n / before - 1)
    level = (
        f"{abs(change):.0f} % {'more' if change > 0 else 'less'} clamp"
        if abs(change) >= 0.5
        else "the same clamp"
    )
    wider = 100 * (band - band_before)
    spread = (
        "the same spread"
        if abs(wider) < 0.5
        else f"± {100 * band:.0f} % instead of ± {100 * band_before:.0f} %"
    )
    worse = (change <= -0.5 or wider >= 0.5) and change < 0.5 and wider > -0.5
    return f"{level}, {spread}" + (NO_GAIN if no_gain and not worse else "")


def stage_name(joint: Joint, stage: int, *, settles: int) -> str:
    """A stage as it is called in a list of stages."""
    if stage > len(joint.program):
        return "minutes later, when the gasket has settled"
    of = joint.program[stage - 1]
    figure = f" {of.figure.text}" if of.figure is not None else " fully" if of.kind == "loosen" else ""
    return f"{of.kind}{figure}" + (", the gasket settles" if stage == settles else "")


def percent(ends: Iterable[float]) -> str:
    """A share, with the ends of its band where they differ from it."""
    low, middle, high = (number(100 * float(one), decimals=0) for one in ends)
    return f"{middle} %" if low == high else f"{middle} % ({low} to {high})"


def force(force_n: float) -> str:
    """A force in the digits that are meant, in both systems; none below a newton."""
    if force_n <= 1:
        return "none"
    return in_order(f"{_three(force_n / 1000)} kN", inch=f"{_three(_lbf(force_n))} lbf")


def forces(low: float, *, high: float) -> str:
    """A range of forces, each end once."""
    if low <= 1:
        return f"none to {force(high)}" if high > 1 else "none"
    metric = dict.fromkeys(_three(one / 1000) for one in (low, high))
    inch = dict.fromkeys(_three(_lbf(one)) for one in (low, high))
    return in_order(f"{'–'.join(metric)} kN", inch=f"{'–'.join(inch)} lbf")


def _lbf(force_n: float) -> float:
    return convert(force_n, frm="N", to="lbf", kind="force")


def _three(value: float) -> str:
    """Three digits: more are not meant."""
    places = 2 - math.floor(math.log10(max(abs(value), 0.01)))
    return number(round(value, places), decimals=max(places, 0))

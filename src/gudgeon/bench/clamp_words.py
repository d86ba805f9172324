"""Where the spread of the clamp comes from, in plain words."""

from collections.abc import Mapping

from gudgeon.calc.joint.scatter import CAUSES, Cause
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


def compared(clamp_n: float, *, band: float, was: tuple[float, float]) -> str:
    """A what-if against the program as it is written."""
    before, band_before = was
    if before <= 1:
        return ""
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
    return f"{level}, {spread}"


def stage_name(joint: Joint, stage: int, *, settles: int) -> str:
    """A stage as it is called in a list of stages."""
    if stage > len(joint.program):
        return "minutes later, when the gasket has settled"
    of = joint.program[stage - 1]
    figure = f" {of.figure.text}" if of.figure is not None else " fully" if of.kind == "loosen" else ""
    return f"{of.kind}{figure}" + (", the gasket settles" if stage == settles else "")

"""What is left where no torque wrench fits: which to borrow, a spring scale at an arm, the manual's angle."""

from collections.abc import Iterator
from functools import lru_cache

from gudgeon.bench.wrench_fit import Fit, Wanted, end_nm, fits, outward
from gudgeon.calc.joint.wrench import spring_scale_error, spring_scale_force
from gudgeon.kit.model import Kit
from gudgeon.kit.torque import SpringScale, Wrench
from gudgeon.quantity.format import both
from gudgeon.sources.tools import usual_ranges

ARMS_MM = (250.0, 500.0, 1000.0)
"""Arms for the spring scale: levers that a garage has, the handiest first."""
ARM_ERROR_MM = 2.0  # a tape laid from the center of the bolt to the hook
COMMON_PULL_N = 250.0  # what a common spring scale reads, and a hand pulls steadily
COMMON_SHARE = 0.02  # a common spring scale, of its reading; said with the figure, as his may be another


@lru_cache(maxsize=1)
def usual_wrenches() -> Kit:
    """A kit of the torque wrenches that are usually sold, to find which of them would do."""
    made = {
        f"usual_{number}": Wrench.model_validate(
            {
                "name": f"{one.from_nm:g}–{one.to_nm:g} N·m",
                "kind": "click",
                "range": f"{one.from_nm:g}–{one.to_nm:g} N·m",
                "step": f"{one.step_nm:g} N·m",
            }
        )
        for number, one in enumerate(usual_ranges())
    }
    return Kit(gudgeon="kit 1", wrenches=made)


def usual_fits(asked: Wanted) -> list[Fit]:
    """The usual wrenches that would do a torque, the one with the least error first."""
    return sorted(
        (fit for fit in fits(usual_wrenches(), asked) if fit.inside),
        key=lambda fit: (fit.error_nm, end_nm(fit.wrench)),
    )


def ways_out(kit: Kit, asked: Wanted) -> Iterator[str]:
    """The real ways out, each with what it can do."""
    yield _borrow(asked)
    yield from _spring_scale(kit, asked)
    yield from _length_missing(kit, asked)
    yield "the manual's own angle for this bolt, if it gives one"


def _borrow(asked: Wanted) -> str:
    target, usual = asked.target_nm, usual_fits(asked)
    said = (
        f"borrow or buy a torque wrench that reads {asked.in_words(target)} above a fifth of its maximum "
        f"(its maximum at most {asked.in_words(5 * target, decimals=0)})"
    )
    if usual:
        return f"{said}: usual is one of {usual[0].wrench.name}"
    if asked.low_nm and asked.high_nm and not asked.single:
        share = (asked.high_nm - asked.low_nm) / (asked.high_nm + asked.low_nm)
        return f"{said} and is off by at most ± {100 * share:.1f} %: the range leaves no more"
    return said


def _length_missing(kit: Kit, asked: Wanted) -> Iterator[str]:
    adapters = [adapter.name for _, adapter in outward(kit)]
    for wrench in kit.wrenches.values():
        if adapters and wrench.length is None and asked.target_nm > end_nm(wrench):
            yield (
                f"an adapter straight out ({', '.join(adapters)}) makes the {wrench.name} pull more than it shows: "
                "write the wrench's length from grip to drive in your kit, and it is worked out"
            )


def _spring_scale(kit: Kit, asked: Wanted) -> Iterator[str]:
    owned = [said for one in kit.spring_scales.values() if (said := _owned(one, asked)) is not None]
    if owned:
        yield from owned
        return
    target = asked.target_nm
    arm = next(
        (arm for arm in ARMS_MM if spring_scale_force(target, arm_mm=arm) <= COMMON_PULL_N), ARMS_MM[-1]
    )
    force = spring_scale_force(target, arm_mm=arm)
    if force <= 2 * COMMON_PULL_N:
        off = f"one good to ± {100 * COMMON_SHARE:g} % of its reading"
        yield _pull_words("a spring scale", asked, arm, force_error_n=COMMON_SHARE * force, off=off)


def _owned(one: SpringScale, asked: Wanted) -> str | None:
    """His own spring scale, at the first arm at which its range holds the pull."""
    low, high = one.range.low_in("N"), one.range.high_in("N")
    assert low is not None  # refused when it was read
    assert high is not None
    off = one.error or one.step
    for arm in ARMS_MM:
        force = spring_scale_force(asked.target_nm, arm_mm=arm)
        if low <= force <= high:
            error = off.middle_in("N") if off is not None else COMMON_SHARE * force
            said = (
                f"off by {off.text.lstrip('± ')}"
                if off is not None
                else f"good to ± {100 * COMMON_SHARE:g} %"
            )
            return _pull_words(f"your {one.name}", asked, arm, force_error_n=error, off=f"the scale {said}")
    return None


def _pull_words(what: str, asked: Wanted, arm_mm: float, *, force_error_n: float, off: str) -> str:
    force = spring_scale_force(asked.target_nm, arm_mm=arm_mm)
    error = spring_scale_error(
        asked.target_nm, arm_mm=arm_mm, force_error_n=force_error_n, arm_error_mm=ARM_ERROR_MM
    )
    beyond = ""
    if asked.low_nm and asked.high_nm and not asked.single:
        inside = asked.low_nm <= asked.target_nm - error and asked.target_nm + error <= asked.high_nm
        beyond = "" if inside else f", which does not stay inside {asked.text}"
    return (
        f"{what} at {both(arm_mm, kind='length', decimals=0)} from the bolt, pulled at a right angle: "
        f"{both(force, kind='force', decimals=0)} (F = T / L); with {off} and the arm measured to "
        f"{both(ARM_ERROR_MM, kind='length', decimals=0)} that is ± {asked.in_words(error)}, "
        f"{100 * error / asked.target_nm:.1f} %{beyond}"
    )

"""One valve: which shim brings its clearance to what is wanted, and what the nearest size leaves."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.calc.engine.shim_errors import SeriesTooLong, SeriesUneven, ShimNotPositive, WantedCrossed
from gudgeon.calc.errors import finite, not_negative, positive

NM = 1_000_000
"""So many nanometers in a millimeter: sizes printed in mm and those printed in inches are whole numbers of them."""
MOST_SIZES = 1000


@dataclass(frozen=True, slots=True)
class Lash:
    """The shim that would be exactly right, the size that is fitted, and what it leaves; all in mm."""

    exact_mm: float
    fitted_mm: float | None
    clearance_after_mm: float | None
    flags: tuple[str, ...] = ()


def exact_shim_mm(old_shim_mm: float, *, measured_mm: float, wanted_mm: float) -> float:
    """The thickness that turns the clearance measured into the one wanted.

    Equation:
        N = T + (A − V)

    Parameters:
        old_shim_mm: shim in place when the clearance was measured, T; 0 where none was [mm]
        measured_mm: clearance measured with it, A [mm]
        wanted_mm: clearance wanted, V [mm]

    Returns:
        thickness of the new shim, N [mm]

    Valid for:
        shims and buckets that the cam acts on directly, one for one

    Source:
        Engine repair manual of a diesel engine, edition of September 2003, valve clearance; HAND: what the shim
        grows by, the clearance loses.

    Example:
        >>> round(exact_shim_mm(2.80, measured_mm=0.45, wanted_mm=0.25), 3)
        3.0

    Not covered:
        a shim under a rocker, which moves the clearance by the rocker's ratio; a valve held open, whose clearance
        reads 0 whatever it is.
    """
    old, measured = (
        not_negative(old_shim_mm, "Old shim", unit="mm"),
        not_negative(measured_mm, "Clearance", unit="mm"),
    )
    exact = old + (measured - not_negative(wanted_mm, "Wanted clearance", unit="mm"))
    if round(exact * NM) <= 0:
        raise ShimNotPositive(round(exact, 6))
    return exact


def even_series_nm(
    first_mm: float, *, last_mm: float, step_mm: float, hidden_mm: float = 0.0
) -> tuple[int, ...]:
    """The sizes from the first to the last, one step apart.

    Equation:
        size = first + k · (last − first) / n, with n the whole number of steps between them

    Parameters:
        first_mm: thinnest size [mm]
        last_mm: thickest size [mm]
        step_mm: from one size to the next [mm]
        hidden_mm: what the rounding of the printed ends may hide; less than this they may miss a whole step by [mm]

    Returns:
        every size [nm], the thinnest first

    Valid for:
        even series; others are listed

    Source:
        HAND: equal steps.

    Example:
        >>> [size / 1e6 for size in even_series_nm(2.0, last_mm=2.2, step_mm=0.05)]
        [2.0, 2.05, 2.1, 2.15, 2.2]

    Not covered:
        series whose step changes on the way.
    """
    first, last = positive(first_mm, "First size", unit="mm"), positive(last_mm, "Last size", unit="mm")
    step = positive(step_mm, "Step", unit="mm")
    span = round(last * NM) - round(first * NM)
    steps = round(span / (step * NM)) if span > 0 else 0
    if steps + 1 > MOST_SIZES:
        raise SeriesTooLong(steps + 1, MOST_SIZES)
    left = abs(span - steps * round(step * NM))
    if span < 0 or (left > 0 and (steps == 0 or left >= round(hidden_mm * NM))):
        raise SeriesUneven(first, last, step)
    return tuple(
        round(first * NM) + round(span * at / steps) if steps else round(first * NM)
        for at in range(steps + 1)
    )


def uneven_words(sizes_nm: Sequence[int], *, step_mm: float) -> tuple[str, ...]:
    """What is to be said of a series whose ends miss a whole number of steps by no more than their rounding.

    Equation:
        last − first ≠ (sizes − 1) · step

    Parameters:
        sizes_nm: every size of the series, the thinnest first [nm]
        step_mm: from one size to the next, as printed [mm]

    Returns:
        a sentence, or nothing where the steps fit

    Valid for:
        even series

    Source:
        HAND: equal steps.

    Example:
        >>> uneven_words((2_000_000, 2_050_000), step_mm=0.05)
        ()

    Not covered:
        series that miss by more: those are refused by even_series_nm.
    """
    steps = len(sizes_nm) - 1
    if steps < 1 or sizes_nm[-1] - sizes_nm[0] == steps * round(step_mm * NM):
        return ()
    return (
        f"{_mm(sizes_nm[0])} to {_mm(sizes_nm[-1])} mm is no whole number of steps of {_mm(round(step_mm * NM))} mm; "
        f"it is off by less than the ends are rounded, so {steps} equal steps are taken. Check the series.",
    )


def nearest_nm(exact_nm: int, *, sizes_nm: Sequence[int]) -> int:
    """The size nearest to a thickness; of two equally near the thinner one.

    Equation:
        the size with the least |size − exact|

    Parameters:
        exact_nm: thickness that would be exactly right [nm]
        sizes_nm: sizes that can be had, at least one [nm]

    Returns:
        the nearest size [nm]

    Valid for:
        any sizes in any order

    Source:
        Service manual of a three-cylinder gasoline engine, edition not stated, shim selection: halfway between two
        sizes the smaller one is taken. HAND: least difference.

    Example:
        >>> [nearest_nm(exact, sizes_nm=(2_350_000, 2_400_000)) for exact in (2_375_000, 2_376_000)]
        [2350000, 2400000]

    Not covered:
        whether the nearest one brings the clearance inside: see lash.
    """
    return min(sizes_nm, key=lambda size: (abs(size - exact_nm), size))


def lash(
    old_shim_mm: float,
    *,
    measured_mm: float,
    wanted_low_mm: float,
    wanted_high_mm: float,
    sizes_nm: Sequence[int] = (),
) -> Lash:
    """The shim for one valve: exact, the nearest that can be had, and the clearance it leaves.

    Equation:
        N = T + (A − V), with V the middle of what is wanted; after = A + T − fitted

    Parameters:
        old_shim_mm: shim in place when the clearance was measured, T [mm]
        measured_mm: clearance measured with it, A [mm]
        wanted_low_mm: least clearance wanted [mm]
        wanted_high_mm: most clearance wanted; the same where one value is wanted [mm]
        sizes_nm: sizes that can be had; without any only the exact thickness is told [nm]

    Returns:
        exact thickness, size fitted, clearance after [mm], with flags

    Valid for:
        shims and buckets that the cam acts on directly

    Source:
        Engine repair manual of a diesel engine, edition of September 2003, valve clearance (formula, nearest size).

    Example:
        >>> sizes = (2_350_000, 2_400_000)
        >>> found = lash(2.45, measured_mm=0.24, wanted_low_mm=0.25, wanted_high_mm=0.35, sizes_nm=sizes)
        >>> round(found.exact_mm, 3), found.fitted_mm, round(found.clearance_after_mm, 3)
        (2.39, 2.4, 0.29)

    Not covered:
        what gauges err: see shim_choice, which carries it.
    """
    low, high = finite(wanted_low_mm, "Wanted clearance"), finite(wanted_high_mm, "Wanted clearance")
    if low > high:
        raise WantedCrossed(low, high)
    exact = exact_shim_mm(old_shim_mm, measured_mm=measured_mm, wanted_mm=(low + high) / 2)
    flags = [HELD_OPEN] if measured_mm == 0 else []
    if not sizes_nm:
        return Lash(exact, None, None, tuple(flags))
    fitted = nearest_nm(round(exact * NM), sizes_nm=sizes_nm)
    after = round(measured_mm * NM) + round(old_shim_mm * NM) - fitted
    flags += _flags(round(exact * NM), fitted, after, (round(low * NM), round(high * NM)), sorted(sizes_nm))
    return Lash(exact, fitted / NM, after / NM, tuple(flags))


HELD_OPEN = (
    "A clearance of 0 may hide that the valve is held open: what lacks is then unknown. Fit a thinner shim, and "
    "measure with that."
)


def _flags(exact: int, fitted: int, after: int, wanted: tuple[int, int], sizes: Sequence[int]) -> list[str]:
    low, high = wanted
    flags, good = [], low < high and low <= after <= high
    if not sizes[0] <= exact <= sizes[-1] and fitted != exact and not good:
        end, more = ("thinnest", "thinner") if exact < sizes[0] else ("thickest", "thicker")
        flags.append(f"The series ends: its {end} size is {_mm(fitted)} mm, and a {more} one is wanted.")
    if after < 0:
        flags.append(f"With the nearest size the valve is held open by {_mm(-after)} mm.")
    if low < high and not low <= after <= high:
        flags.append(
            f"The nearest size, {_mm(fitted)} mm, leaves {_mm(after)} mm: outside {_mm(low)} to {_mm(high)} mm."
        )
        if sizes[0] <= exact <= sizes[-1]:
            flags.append("The series is too coarse for this range: no size brings the clearance inside.")
    return flags


def _mm(nm: int) -> str:
    return f"{nm / NM:.6f}".rstrip("0").rstrip(".")

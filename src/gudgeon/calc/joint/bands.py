"""How far the preload of a bolt may lie from the wanted one."""

import math
from dataclasses import dataclass

from gudgeon.calc.errors import BandTooWide, FactorBelowOne, ShareOutOfRange, finite, not_negative, positive


@dataclass(frozen=True, slots=True)
class Spreads:
    """Relative half-widths, all of one confidence: of friction, of the tool, of the angle."""

    friction: float = 0.0
    tool: float = 0.0
    angle: float = 0.0


def tightening_factor(band: float) -> float:
    """The tightening factor of a band about the wanted preload.

    Equation:
        αA = Fmax / Fmin = (1 + b) / (1 − b)

    Parameters:
        band: half-width of the band as a share of the preload, b [1]

    Returns:
        tightening factor [1]

    Valid for:
        bands below 1, laid evenly about the middle

    Source:
        VDI 2230:2003, symbol αA.

    Example:
        >>> round(tightening_factor(0.25), 3)
        1.667

    Not covered:
        embedding and relaxation after tightening.
    """
    if not_negative(band, "Band") >= 1:
        raise BandTooWide(band)
    return (1 + band) / (1 - band)


def band_of_factor(factor: float) -> float:
    """The band about the middle preload that a tightening factor means.

    Equation:
        b = (αA − 1) / (αA + 1)

    Parameters:
        factor: tightening factor, greatest against least preload, αA [1]

    Returns:
        half-width of the band as a share of the middle preload [1]

    Valid for:
        factors of 1 and more

    Source:
        VDI 2230:2003, symbol αA.

    Example:
        >>> round(band_of_factor(1.6), 3)
        0.231

    Not covered:
        where in the band a bolt lies.
    """
    if finite(factor, "Tightening factor") < 1:
        raise FactorBelowOne(factor)
    return (factor - 1) / (factor + 1)


def least_preload(greatest_n: float, *, factor: float) -> float:
    """The least preload to count with when the bolt was sized for the greatest.

    Equation:
        Fmin = Fmax / αA

    Parameters:
        greatest_n: greatest preload, Fmax [N]
        factor: tightening factor, αA [1]

    Returns:
        least preload [N]

    Valid for:
        factors of 1 and more

    Source:
        VDI 2230:2003, symbol αA.

    Example:
        >>> round(least_preload(41900.0, factor=1.8), -2)
        23300.0

    Not covered:
        embedding and relaxation after tightening.
    """
    if finite(factor, "Tightening factor") < 1:
        raise FactorBelowOne(factor)
    return positive(greatest_n, "Greatest preload", unit="N") / factor


def combined_band(spreads: Spreads, *, snug_share: float | None = None) -> float:
    """The band of the preload from spreads that have nothing to do with each other.

    Equation:
        b = √(friction² + tool² + angle²); where a snug torque makes the share s of the preload and an angle the
        rest, b = √(s² · (friction² + tool²) + (1 − s)² · angle²)

    Parameters:
        spreads: half-widths of friction, tool and angle, relative [1]
        snug_share: share of the preload that the snug torque makes, s; without it the spreads act in full [1]

    Returns:
        half-width of the band as a share of the preload [1]

    Valid for:
        independent spreads of one confidence, small enough to add linearly; below yield

    Source:
        HAND: root of the sum of squares, as JCGM 100:2008, equation 10, for a product of quantities.

    Example:
        >>> round(combined_band(Spreads(friction=0.24, tool=0.04, angle=0.05)), 3)
        0.248
        >>> round(combined_band(Spreads(friction=0.24, tool=0.04, angle=0.05), snug_share=0.3), 3)
        0.081

    Not covered:
        friction that all bolts share (it moves them together), yield, which narrows the band.
    """
    friction, tool, angle = (
        not_negative(value, what)
        for value, what in (
            (spreads.friction, "Spread of friction"),
            (spreads.tool, "Spread of the tool"),
            (spreads.angle, "Spread of the angle"),
        )
    )
    if snug_share is None:
        return math.hypot(friction, tool, angle)
    if not 0 <= finite(snug_share, "Share of the snug torque") <= 1:
        raise ShareOutOfRange(snug_share)
    return math.hypot(snug_share * friction, snug_share * tool, (1 - snug_share) * angle)

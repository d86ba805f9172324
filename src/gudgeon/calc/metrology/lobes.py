"""What gauges with two or three contacts see of a part that is not round, and what they are blind to."""

import math
from typing import Literal

from gudgeon.calc.errors import finite
from gudgeon.calc.metrology.round_errors import LobesUnusual, VeeAngleOutOfRange

SetUp = Literal["two-point", "three-point inside", "V-block"]
HARDLY_SEEN = 0.5
"""Less movement than this for a deviation of one does not count as seen."""
MOST_NAMED = 7
MOST_LOBES = 15  # beyond it lobes are waviness, which wear and clamping do not make


def v_block(lobes: float, *, angle_deg: float) -> float:
    """How much an indicator over a V-block moves, for the deviation of a part with equal lobes turned in it.

    Equation:
        f = |1 + cos(n · (90° + θ/2)) / sin(θ/2)|

    Parameters:
        lobes: high places in one turn, n [1]
        angle_deg: angle between the faces of the V, θ [°]

    Returns:
        movement of the indicator over the difference of greatest and least radius [1]

    Valid for:
        the indicator over the middle of the V, lobes small against the radius; θ = 180° is a flat face

    Source:
        JSPE 43 (514), 1977, page 1167, abstract.

    Example:
        >>> round(v_block(3, angle_deg=60), 9), abs(round(v_block(5, angle_deg=60), 9))
        (3.0, 0.0)

    Not covered:
        lobes of different height in one part: their movements add up, and may hide each other.
    """
    number = _lobes(lobes)
    if not 0 < finite(angle_deg, "Angle of the V") <= 180:
        raise VeeAngleOutOfRange(angle_deg)
    half = math.radians(angle_deg) / 2
    turned = math.fmod(number * (90 + angle_deg / 2), 360)
    return abs(1 + math.cos(math.radians(turned)) / math.sin(half))


def two_point(lobes: float) -> float:
    """How much the diameter by two contacts across from each other changes, for the deviation of a part with lobes.

    Equation:
        f = |1 + cos(n · 180°)|: 2 for an even number of lobes, 0 for an odd one

    Parameters:
        lobes: high places in one turn, n [1]

    Returns:
        difference of greatest and least diameter over that of greatest and least radius [1]

    Valid for:
        micrometers and bore gauges with two contacts, lobes small against the radius

    Source:
        JSPE 43 (514), 1977, page 1167, abstract, with θ = 180°. HAND: r(φ) + r(φ + 180°).

    Example:
        >>> two_point(2), two_point(3)
        (2.0, 0.0)

    Not covered:
        lobes of different height in one part.
    """
    return 0.0 if _lobes(lobes) % 2 else 2.0


def three_point(lobes: float) -> float:
    """How much the diameter by three contacts at 120° changes, for the deviation of a bore with lobes.

    Equation:
        d = 2/3 · (r(φ) + r(φ + 120°) + r(φ + 240°)); f = 2 where n is a multiple of 3, else 0

    Parameters:
        lobes: high places in one turn, n [1]

    Returns:
        difference of greatest and least diameter over that of greatest and least radius [1]

    Valid for:
        inside gauges whose three contacts center themselves, lobes small against the radius

    Source:
        HAND: the gauge moves to where its contacts move out alike, so its diameter is twice their mean radius.

    Example:
        >>> [three_point(n) for n in (2, 3, 4, 5, 6)]
        [0.0, 2.0, 0.0, 0.0, 2.0]

    Not covered:
        lobes of different height in one part.
    """
    return 0.0 if _lobes(lobes) % 3 else 2.0


def blind_to(
    set_up: SetUp, *, angle_deg: float = 90.0, threshold: float = HARDLY_SEEN, most_lobes: int = MOST_LOBES
) -> tuple[int, ...]:
    """The numbers of lobes that a set-up does not see, or shows far too small.

    Equation:
        all n from 2 to the most with f(n) below the threshold

    Parameters:
        set_up: two-point, three-point inside or V-block
        angle_deg: angle of the V; of no account for the others [°]
        threshold: least movement over deviation that counts as seen [1]
        most_lobes: numbers of lobes looked at [1]

    Returns:
        numbers of lobes [1]

    Valid for:
        equal lobes

    Source:
        HAND: from v_block, two_point and three_point.

    Example:
        >>> blind_to("two-point", most_lobes=7)
        (3, 5, 7)
        >>> blind_to("V-block", angle_deg=60)
        (2, 4, 5, 7, 8, 10, 11, 13, 14)

    Not covered:
        which lobes a part has: a three-jaw chuck makes three, a split cap or a cylinder wall two.
    """

    def seen(lobes: int) -> float:
        if set_up == "V-block":
            return v_block(lobes, angle_deg=angle_deg)
        return two_point(lobes) if set_up == "two-point" else three_point(lobes)

    return tuple(lobes for lobes in range(2, most_lobes + 1) if seen(lobes) < threshold)


def blind_words(set_up: SetUp, *, angle_deg: float = 90.0) -> str:
    """What a set-up is blind to, in words for whoever holds the gauge.

    Equation:
        the numbers of lobes by blind_to, up to seven

    Parameters:
        set_up: two-point, three-point inside or V-block
        angle_deg: angle of the V; of no account for the others [°]

    Returns:
        one sentence

    Valid for:
        equal lobes

    Source:
        HAND: from blind_to.

    Example:
        >>> blind_words("two-point")
        'A two-point gauge (micrometer, bore gauge) does not see an odd number of lobes: 3, 5, 7.'

    Not covered:
        what to do: turn the part in a V-block of another angle, or take points all around from one center.
    """
    if set_up == "two-point":
        blind = ", ".join(str(lobes) for lobes in blind_to("two-point", most_lobes=7))
        return f"A two-point gauge (micrometer, bore gauge) does not see an odd number of lobes: {blind}."
    if set_up == "three-point inside":
        return "A three-point inside gauge does not see ovality, nor any lobes but 3, 6, 9."
    lobes = blind_to("V-block", angle_deg=angle_deg, most_lobes=MOST_NAMED)
    if not lobes:
        return f"An indicator over a V-block of {angle_deg:g}° sees 2 to 7 lobes."
    blind = ", ".join(str(one) for one in lobes)
    return f"An indicator over a V-block of {angle_deg:g}° hardly sees these numbers of lobes: {blind}."


def _lobes(lobes: float) -> int:
    if not 2 <= lobes <= 1000 or lobes != int(lobes):
        raise LobesUnusual(lobes)
    return int(lobes)

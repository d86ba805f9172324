"""Standard uncertainties from what is known of a gauge, and their sum."""

import math

from gudgeon.calc.errors import not_negative


def from_permitted_error(half_width: float) -> float:
    """The standard uncertainty of a gauge that keeps within its permitted error.

    Equation:
        u = a / √3

    Parameters:
        half_width: permitted error, ±a [unit of the reading]

    Returns:
        standard uncertainty [unit of the reading]

    Valid for:
        errors anywhere inside ±a, all equally likely (rectangular)

    Source:
        JCGM 100:2008, 4.3.7.

    Example:
        >>> round(from_permitted_error(0.005), 5)
        0.00289

    Not covered:
        a gauge with a certificate: use its stated uncertainty.
    """
    return not_negative(half_width, "Permitted error") / math.sqrt(3)


def from_resolution(step: float) -> float:
    """The standard uncertainty that the last digit of a gauge hides.

    Equation:
        u = d / √12

    Parameters:
        step: one of the last digit, d [unit of the reading]

    Returns:
        standard uncertainty [unit of the reading]

    Valid for:
        readings rounded to the step

    Source:
        JCGM 100:2008, F.2.2.1.

    Example:
        >>> round(from_resolution(0.001), 5)
        0.00029

    Not covered:
        scatter of repeats.
    """
    return not_negative(step, "Resolution") / math.sqrt(12)


def combined(*components: float) -> float:
    """Standard uncertainties that do not depend on each other, added.

    Equation:
        u = √(u₁² + u₂² + …)

    Parameters:
        components: standard uncertainties [one unit]

    Returns:
        standard uncertainty of the sum [the same unit]

    Valid for:
        sensitivities of one and no correlation

    Source:
        JCGM 100:2008, 5.1.2.

    Example:
        >>> round(combined(0.00033, 0.00029, 0.00025), 5)
        0.00051

    Not covered:
        errors that are correlated, such as those of one gauge used twice in a difference: see propagation.combine.
    """
    return math.hypot(*(not_negative(one, "Standard uncertainty") for one in components))

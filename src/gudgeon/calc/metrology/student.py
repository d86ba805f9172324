"""Student's distribution: how much wider a statement must be when the scatter is known from few readings."""

import math

from gudgeon.calc.metrology.uncertainty_errors import DofTooFew, ProbabilityOutOfRange


def tail(t: float, *, dof: float = math.inf) -> float:
    """The probability that an error exceeds t standard uncertainties.

    Equation:
        P(T > t), T after Student; after Gauss where the degrees of freedom have no end

    Parameters:
        t: error in standard uncertainties [1]
        dof: degrees of freedom of the standard uncertainty [1]

    Returns:
        probability [1]

    Valid for:
        errors that are normally distributed, their scatter estimated with so many degrees of freedom

    Source:
        JCGM 100:2008, C.3.8 and G.3.2.

    Example:
        >>> round(tail(1.6449), 4), round(tail(2.92, dof=2), 3)
        (0.05, 0.05)

    Not covered:
        errors that are far from normal.
    """
    checked_dof(dof)
    if math.isinf(dof):
        return math.erfc(t / math.sqrt(2)) / 2
    from scipy.special import stdtr

    return float(stdtr(dof, -t))


def one_sided_factor(risk: float, *, dof: float = math.inf) -> float:
    """The error in standard uncertainties that is exceeded with a probability of `risk`.

    Equation:
        t with P(T > t) = risk

    Parameters:
        risk: probability of a greater error [1]
        dof: degrees of freedom of the standard uncertainty [1]

    Returns:
        factor [1]

    Valid for:
        errors that are normally distributed, their scatter estimated with so many degrees of freedom

    Source:
        JCGM 100:2008, G.3.2; JCGM 106:2012, 8.3.2 (1.645 for a risk of 0.05).

    Example:
        >>> round(one_sided_factor(0.05), 3), round(one_sided_factor(0.05, dof=2), 2)
        (1.645, 2.92)

    Not covered:
        two-sided statements: see coverage_factor.
    """
    checked_probability(risk)
    checked_dof(dof)
    # The small tail is asked for, not one less it, so that the digits of a small risk are kept.
    if math.isinf(dof):
        from statistics import NormalDist

        return -NormalDist().inv_cdf(risk)
    from scipy.special import stdtrit

    return -float(stdtrit(dof, risk))


def coverage_factor(probability: float, *, dof: float = math.inf) -> float:
    """The k with which ± k u covers the true value with a probability.

    Equation:
        k = t with P(|T| ≤ t) = p

    Parameters:
        probability: p, how often the statement shall be true [1]
        dof: degrees of freedom of the standard uncertainty [1]

    Returns:
        coverage factor [1]

    Valid for:
        errors that are normally distributed, their scatter estimated with so many degrees of freedom

    Source:
        JCGM 100:2008, G.3 and table G.2.

    Example:
        >>> [round(coverage_factor(0.95, dof=dof), 2) for dof in (2, 5, 10)], round(coverage_factor(0.95), 2)
        ([4.3, 2.57, 2.23], 1.96)

    Not covered:
        one rectangular error that outweighs all others: k = 1.65 covers 95 % of it.
    """
    return one_sided_factor((1 - checked_probability(probability)) / 2, dof=dof)


def checked_probability(value: float) -> float:
    """The probability, when it lies above zero and below one.

    Equation:
        0 < p < 1

    Parameters:
        value: probability [1]

    Returns:
        the same probability [1]

    Valid for:
        statements that may turn out wrong

    Source:
        JCGM 100:2008, annex G.

    Example:
        >>> checked_probability(0.95)
        0.95

    Not covered:
        certainty: no factor gives it.
    """
    if not 0 < value < 1:
        raise ProbabilityOutOfRange(value)
    return value


def checked_dof(value: float) -> float:
    """The degrees of freedom, when there is at least one; without end where a figure is well known.

    Equation:
        ν ≥ 1

    Parameters:
        value: degrees of freedom [1]

    Returns:
        the same [1]

    Valid for:
        scatter of readings, and guesses of how well a figure is known

    Source:
        JCGM 100:2008, 4.2.6 and G.4.2.

    Example:
        >>> checked_dof(9.0)
        9.0

    Not covered:
        a single reading, which has none.
    """
    if not value >= 1:  # also what is no number
        raise DofTooFew(value)
    return value

"""The law of propagation: what all causes of error together leave unknown of a reading or of a difference."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from gudgeon.calc.errors import finite, not_negative, positive
from gudgeon.calc.metrology.student import checked_dof, coverage_factor, tail
from gudgeon.calc.metrology.uncertainty_errors import (
    ComponentTwice,
    ComponentUnknown,
    CorrelationGivenTwice,
    CorrelationOutOfRange,
    CorrelationsContradict,
    DistributionUnknown,
    NoComponents,
)

Distribution = Literal["normal", "rectangular", "triangular", "u-shaped"]
DISTRIBUTIONS: tuple[Distribution, ...] = get_args(Distribution)
Correlation = Mapping[tuple[str, str], float]

_DIVISOR: Mapping[Distribution, float] = {
    "normal": 1.0,
    "rectangular": math.sqrt(3),
    "triangular": math.sqrt(6),
    "u-shaped": math.sqrt(2),
}


@dataclass(frozen=True, slots=True)
class Component:
    """One cause of error: how much, how it is distributed, and how it moves the result.

    `value` is the half-width ± a of a rectangular, triangular or U-shaped distribution. Of a normal one it is the
    standard uncertainty, or an expanded one where `factor` says by which k it was expanded.

    Components of one `tag` are one and the same error: a bore gauge zeroed in the micrometer that measures the
    piston carries the error of that micrometer into the bore with +1 and into the piston with -1, and their
    difference is free of it. An empty tag has nothing in common with anything.
    """

    name: str
    value: float
    distribution: Distribution = "normal"
    sensitivity: float = 1.0
    dof: float = math.inf
    tag: str = ""
    factor: float = 1.0

    def __post_init__(self) -> None:
        if self.distribution not in DISTRIBUTIONS:
            raise DistributionUnknown(self.distribution, DISTRIBUTIONS)
        not_negative(self.value, f"Component {self.name}:")
        finite(self.sensitivity, f"Sensitivity of {self.name}")
        positive(self.factor, f"Factor of {self.name}")
        checked_dof(self.dof)

    @property
    def u(self) -> float:
        """Its standard uncertainty, before the sensitivity."""
        return self.value / _DIVISOR[self.distribution] / self.factor

    @property
    def share(self) -> float:
        """What one standard uncertainty of it does to the result, with its sign."""
        return self.sensitivity * self.u


@dataclass(frozen=True, slots=True)
class Combined:
    """All components together: standard uncertainty, effective degrees of freedom, and what each group adds.

    `parts` has the standard uncertainty that each cause leaves in the result, by name; what is correlated is one
    cause, and its names stand together.
    """

    u: float
    dof: float
    parts: tuple[tuple[str, float], ...]
    correlated: bool


@dataclass(frozen=True, slots=True)
class Expanded:
    """An expanded uncertainty ± U with its coverage factor, and the probability it covers."""

    value: float
    factor: float
    probability: float


def combine(components: Sequence[Component], *, correlation: Correlation | None = None) -> Combined:
    """The standard uncertainty of a result from all causes of error.

    Equation:
        u² = Σ Σ cᵢ uᵢ cⱼ uⱼ rᵢⱼ; ν = u⁴ / Σ (uₖ⁴ / νₖ) over the causes k that have nothing in common

    Parameters:
        components: causes of error, with signed sensitivities: of a difference +1 and -1 [unit of the result]
        correlation: rᵢⱼ of pairs of components by their names; a common tag counts as 1 [1]

    Returns:
        standard uncertainty [unit of the result], degrees of freedom [1], part of each cause [unit of the result]

    Valid for:
        results that are about straight lines in their inputs over ± u

    Source:
        JCGM 100:2008, 5.1.2, 5.2.2 and G.4.1 (Welch-Satterthwaite).

    Example:
        >>> zeroed = [Component("bore against the micrometer", 0.001), Component("micrometer", 0.002, tag="zero")]
        >>> piston = Component("micrometer at the piston", 0.002, sensitivity=-1, tag="zero")
        >>> combine([*zeroed, piston]).u
        0.001

    Not covered:
        curvature (JCGM 100:2008, 5.1.2, note). Welch and Satterthwaite take their causes as independent: what is
        correlated counts as one cause here, with the fewest degrees of freedom of its members, the cautious side.
    """
    if not components:
        raise NoComponents
    shares = [finite(one.share, f"Component {one.name}, with its sensitivity:") for one in components]
    if correlation:
        pairs = _pairs(components, correlation)
        groups = _groups(len(components), pairs)
        parts = [_root_of_sum([shares[i] for i in group], _block(group, pairs)) for group in groups]
    else:
        groups = _by_tag(components)
        parts = [abs(math.fsum(shares[i] for i in group)) for group in groups]
    u = finite(math.hypot(*parts), "Combined uncertainty")
    dof = [min(components[i].dof for i in group) for group in groups]
    names = tuple(" + ".join(components[i].name for i in group) for group in groups)
    return Combined(
        u,
        _effective_dof(u, parts, dof),
        tuple(zip(names, parts, strict=True)),
        any(len(group) > 1 for group in groups),
    )


def expanded(combined: Combined, *, probability: float | None = None, factor: float = 2.0) -> Expanded:
    """The half-width that covers the true value: by a fixed factor, or by a probability after Student.

    Equation:
        U = k · u; k as given, or k with P(|T| ≤ k) = p for the effective degrees of freedom, rounded down

    Parameters:
        combined: standard uncertainty and effective degrees of freedom [unit of the result]
        probability: p, how often the statement shall be true; without it the factor is taken [1]
        factor: k where no probability is given [1]

    Returns:
        expanded uncertainty [unit of the result], k [1], probability covered [1]

    Valid for:
        results whose error is about normal, because no single cause outweighs the others

    Source:
        JCGM 100:2008, 6.2, 6.3 and G.6.4 (degrees of freedom rounded down).

    Example:
        >>> found = expanded(Combined(32.0, 16.7, (), False), probability=0.99)
        >>> round(found.factor, 2), round(found.value)
        (2.92, 93)

    Not covered:
        one rectangular error alone: ± U then covers more than is said.
    """
    dof = rounded_down(combined.dof)
    if probability is not None:
        k = coverage_factor(probability, dof=dof)
        return Expanded(finite(k * combined.u, "Expanded uncertainty"), k, probability)
    k = positive(factor, "Coverage factor")
    return Expanded(finite(k * combined.u, "Expanded uncertainty"), k, 1 - 2 * tail(k, dof=dof))


def rounded_down(dof: float) -> float:
    """Effective degrees of freedom as they go into a table of Student's factors.

    Equation:
        the next whole number below

    Parameters:
        dof: effective degrees of freedom [1]

    Returns:
        whole degrees of freedom; without end where there is none [1]

    Valid for:
        1 and above

    Source:
        JCGM 100:2008, G.6.4.

    Example:
        >>> rounded_down(16.75), rounded_down(float("inf"))
        (16.0, inf)

    Not covered:
        interpolation between whole numbers, which the same clause allows too.
    """
    # What is whole but for the rounding of a sum stays: 4 readings less one must not become 2.
    return dof if math.isinf(dof) else max(1.0, float(math.floor(dof * (1 + 1e-9))))


def _by_tag(components: Sequence[Component]) -> list[list[int]]:
    """Components gathered by their tags, each without one by itself."""
    groups: dict[object, list[int]] = {}
    for place, one in enumerate(components):
        groups.setdefault(one.tag or place, []).append(place)
    return list(groups.values())


def _pairs(components: Sequence[Component], correlation: Correlation) -> dict[tuple[int, int], float]:
    """The correlation of each pair that has one, by places in ascending order."""
    found = {
        (i, j): 1.0
        for i, one in enumerate(components)
        for j, other in enumerate(components)
        if i < j and one.tag and one.tag == other.tag
    }
    places: dict[str, int] = {}
    for place, one in enumerate(components):
        if one.name in places:
            raise ComponentTwice(one.name)
        places[one.name] = place
    for (first, second), value in correlation.items():
        for name in (first, second):
            if name not in places:
                raise ComponentUnknown(name, places)
        i, j = sorted((places[first], places[second]))
        if i == j:
            raise ComponentTwice(first)
        if not -1 <= value <= 1:
            raise CorrelationOutOfRange(first, second, value)
        if (i, j) in found:
            raise CorrelationGivenTwice(first, second)
        if value != 0:
            found[i, j] = value
    _check_together(len(components), found)
    return found


def _groups(count: int, pairs: Mapping[tuple[int, int], float]) -> list[list[int]]:
    """Components gathered so that those of different groups have nothing in common."""
    group_of = list(range(count))
    for i, j in sorted(pairs):
        old, new = group_of[j], group_of[i]
        group_of = [new if one == old else one for one in group_of]
    return [[i for i in range(count) if group_of[i] == key] for key in dict.fromkeys(group_of)]


def _block(group: Sequence[int], pairs: Mapping[tuple[int, int], float]) -> list[list[float]]:
    return [[1.0 if i == j else pairs.get((min(i, j), max(i, j)), 0.0) for j in group] for i in group]


def _root_of_sum(shares: Sequence[float], block: Sequence[Sequence[float]]) -> float:
    """√(Σ Σ sᵢ sⱼ rᵢⱼ); what is the same error throughout is added with its signs, so that it cancels exactly."""
    if all(one == 1.0 for row in block for one in row):
        return abs(math.fsum(shares))
    most = max(abs(one) for one in shares)
    if most == 0:
        return 0.0
    scaled = [one / most for one in shares]
    total = math.fsum(
        a * b * r for a, row in zip(scaled, block, strict=True) for b, r in zip(scaled, row, strict=True)
    )
    return most * math.sqrt(max(0.0, total))


def _effective_dof(u: float, parts: Sequence[float], dof: Sequence[float]) -> float:
    if u == 0:
        return math.inf
    total = math.fsum((part / u) ** 4 / nu for part, nu in zip(parts, dof, strict=True))
    return 1 / total if total > 0 else math.inf


def _check_together(count: int, pairs: Mapping[tuple[int, int], float]) -> None:
    """Refuses correlations under which some sum would have a variance below zero (Cholesky's steps)."""
    rows = _block(range(count), pairs)
    slack = 1e-9 * count
    for k in range(count):
        pivot = rows[k][k]
        below = range(k + 1, count)
        if pivot < -slack or (pivot <= slack and any(abs(rows[i][k]) > math.sqrt(slack) for i in below)):
            raise CorrelationsContradict
        if pivot > slack:
            for i in below:
                part = rows[i][k] / pivot
                for j in below:
                    rows[i][j] -= part * rows[k][j]

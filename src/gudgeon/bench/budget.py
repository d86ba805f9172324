"""What the uncertainty of a reading is made of, and how readings are added and subtracted.

A component names its cause. Two components with one tag have one cause: in a difference it cancels. What a gauge errs
is not the same all along its scale, and nobody states how much of it is: half of its variance counts as the same
everywhere, half as belonging to the spot. So the difference of two readings of one micrometer is as uncertain as one
reading of it, between nothing and √2 times as much. A gauge that only compares – a bore gauge, a dial gauge on its zero
– is used at one spot: within a millimeter all that it errs cancels, and so does what the gauge errs that set it, when
the other size was read with that gauge.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

NEAR_MM = 1.0
"""Up to this distance a gauge that compares is at one spot of its scale."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where along the scale of which gauge an error belongs; `compares` of one that is set and then compares."""

    gauge: str
    at: float
    compares: bool


@dataclass(frozen=True, slots=True)
class Component:
    """One cause of uncertainty: its standard uncertainty, and what one of it makes of the value.

    The unit of u times sensitivity is the base unit of the value. `dof` are the degrees of freedom.
    """

    words: str
    u: float
    dof: float = math.inf
    sensitivity: float = 1.0
    tag: str = ""
    spot: Spot | None = None

    @property
    def share(self) -> float:
        """What it makes of the value, with its sign."""
        return self.u * self.sensitivity


class HasComponents(Protocol):
    """Anything that knows what its uncertainty is made of."""

    @property
    def components(self) -> tuple[Component, ...]: ...


def standard_uncertainty_of(components: Iterable[Component]) -> float:
    """The standard uncertainty of a value: shares of one cause are added with their sign, then all as squares."""
    return math.hypot(*(share for share, _ in _shares(components)))


def degrees_of_freedom(components: Iterable[Component]) -> float:
    """The effective degrees of freedom (Welch and Satterthwaite, JCGM 100:2008, G.4.1)."""
    shares = list(_shares(components))
    u = math.hypot(*(share for share, _ in shares))
    below = sum(share**4 / dof for share, dof in shares if math.isfinite(dof))
    return u**4 / below if below > 0 else math.inf


def _shares(components: Iterable[Component]) -> Iterable[tuple[float, float]]:
    """The share of every cause and its degrees of freedom."""
    found: dict[str, tuple[float, float]] = {}
    for number, one in enumerate(components):
        cause = one.tag or f"#{number}"
        share, dof = found.get(cause, (0.0, math.inf))
        found[cause] = share + one.share, min(dof, one.dof)
    return found.values()


def signed(parts: Sequence[tuple[float, HasComponents]]) -> tuple[Component, ...]:
    """The components of a sum of readings, each with its factor: what they share is told by their tags.

    Example:
        `signed([(1.0, bore), (-1.0, piston)])` is what the clearance between them is made of.
    """
    all_of = [
        replace(one, sensitivity=one.sensitivity * factor)
        for factor, read in parts
        for one in read.components
    ]
    anchors: list[tuple[Spot, str]] = []
    for one in all_of:
        if one.spot is not None and one.spot.compares and _anchor(one.spot, anchors) is None:
            tag = (
                one.tag
                if not any(one.tag == known for _, known in anchors)
                else f"{one.tag} at {one.spot.at}"
            )
            anchors.append((one.spot, tag))
    return tuple(
        replace(one, tag=_anchor(one.spot, anchors) or one.tag) if one.spot is not None else one
        for one in all_of
    )


def _anchor(spot: Spot, anchors: Sequence[tuple[Spot, str]]) -> str | None:
    """The tag of a gauge that compares at the same spot."""
    for known, tag in anchors:
        if known.gauge == spot.gauge and abs(known.at - spot.at) <= NEAR_MM:
            return tag
    return None

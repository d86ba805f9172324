"""What the uncertainty of a reading is made of, and how readings are added and subtracted.

A component names its cause. Two components with one tag have one cause: in a difference it cancels. What a gauge errs
is not the same all along its scale, and nobody states how much of it is: half of its variance counts as the same
everywhere, half as belonging to the spot. So the difference of two readings of one micrometer is as uncertain as one
reading of it, between nothing and √2 times as much. A gauge that only compares – a bore gauge, a dial gauge on its zero
– is used at one spot: within a millimeter all that it errs cancels, and so does what the gauge errs that set it, when
the other size was read with that gauge.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal, Protocol

from gudgeon.calc.metrology.propagation import Component as Part
from gudgeon.calc.metrology.propagation import combine

FACTOR = 2.0
"""k: by this a standard uncertainty is expanded to U; about 95 of 100 such statements are true."""
NEAR_MM = 1.0
"""Up to this distance a gauge that compares is at one spot of its scale."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where along the scale of which gauge an error belongs; `compares` of one that is set and then compares."""

    gauge: str
    at: float
    compares: bool


Cause = Literal["gauge", "scatter", "temperature", "points"]
"""What can be done about it: take another gauge, read it again, let part and gauge lie in one room, scan it anew."""


@dataclass(frozen=True, slots=True)
class Component(Part):
    """A component of the law of propagation, with what it comes from and where along which scale it belongs.

    Its value is a standard uncertainty; value times sensitivity is in the base unit of what was read.
    """

    cause: Cause = "gauge"
    spot: Spot | None = None


class HasComponents(Protocol):
    """Anything that knows what its uncertainty is made of."""

    @property
    def components(self) -> tuple[Component, ...]: ...


def standard_uncertainty_of(components: Sequence[Component]) -> float:
    """The standard uncertainty of a value; of one that nothing is known of it is zero."""
    return combine(components).u if components else 0.0


def degrees_of_freedom(components: Sequence[Component]) -> float:
    """The effective degrees of freedom of a value."""
    return combine(components).dof if components else math.inf


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

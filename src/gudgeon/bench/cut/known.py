"""A value with what is uncertain of it, and how values are put together by the law of propagation."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from gudgeon.bench.budget import FACTOR, Component, HasComponents, signed, standard_uncertainty_of
from gudgeon.quantity.errors import BoundOpen
from gudgeon.quantity.written import Printed


@dataclass(frozen=True)
class Known:
    """A value in the unit that its holder names, and the causes of what is uncertain of it.

    Causes of one tag are the same error: it cancels in a difference. `certain` is no where the error of a gauge that
    goes into it is stated by nobody: what is uncertain is then more than is counted.
    """

    value: float
    components: tuple[Component, ...] = ()
    certain: bool = True

    @cached_property
    def u(self) -> float:
        """Its standard uncertainty."""
        return standard_uncertainty_of(self.components)

    @property
    def expanded(self) -> float:
        """U, its expanded uncertainty with k = 2."""
        return FACTOR * self.u

    @property
    def least(self) -> float:
        """The value less U."""
        return self.value - self.expanded

    @property
    def most(self) -> float:
        """The value and U."""
        return self.value + self.expanded


EXACTLY_ZERO = Known(0.0)


def printed(figure: Printed, *, unit: str, tag: str) -> Known:
    """A printed figure: rectangular over its printed tolerance, else over half of its last digit on either side.

    Raises BoundOpen where it is a bound and no value.
    """
    middle = figure.middle_in(unit)
    low, high = figure.low_in(unit), figure.high_in(unit)
    if low is None or high is None:
        raise BoundOpen(figure.text, "middle")
    half = max(high - middle, middle - low)
    if figure.first.single and figure.first.low is not None:
        half = figure.first.low.half_digit_in(unit)
    return rectangular(middle, half_width=half, name=f"{tag}, as printed", tag=tag)


def rectangular(value: float, *, half_width: float, name: str, tag: str) -> Known:
    """A value of which only is known that it lies within a half-width of the middle."""
    if half_width <= 0:
        return Known(value)
    return Known(value, (Component(name, half_width / math.sqrt(3), tag=tag),))


def bound(figure: Printed, *, unit: str, upper: bool) -> float:
    """A limit as written `max …`, `min …`, as a range, or as a plain figure."""
    low, high = figure.low_in(unit), figure.high_in(unit)
    end = high if upper else low
    other = low if upper else high
    found = end if end is not None else other
    assert found is not None  # a printed figure has one end at least
    return found


def tagged(components: Sequence[Component], *, tag: str) -> tuple[Component, ...]:
    """The same causes, each with a tag, so that a reading that comes in twice is known as the same reading."""
    return tuple(
        one if one.tag else replace(one, tag=f"{tag}, cause {number}")
        for number, one in enumerate(components, start=1)
    )


def lumped(known: Known, *, tag: str) -> Known:
    """The same value with all its causes as one: for what shares no cause with any other value."""
    if not known.components:
        return known
    return Known(known.value, (Component(tag, known.u, tag=tag),), known.certain)


def total(parts: Sequence[tuple[float, Known]]) -> Known:
    """A sum of values, each with its factor."""
    return Known(
        math.fsum(factor * one.value for factor, one in parts),
        _signed(parts),
        all(one.certain for _, one in parts),
    )


def worked_out(law: Callable[..., float], values: Mapping[str, Known]) -> Known:
    """What a law makes of values that are given by the names of its parameters.

    The sensitivity of each is a difference over one standard uncertainty on either side (JCGM 100:2008, 5.1.3, note
    2): over a bend of the law, as where a squish pad has become flush, it is the mean slope over what may be so.
    """
    plain = {name: one.value for name, one in values.items()}
    parts: list[tuple[float, Known]] = []
    for name, one in values.items():
        step = one.u
        if step > 0:
            up, down = (law(**{**plain, name: one.value + side * step}) for side in (1, -1))
            parts.append(((up - down) / (2 * step), one))
    return Known(law(**plain), _signed(parts), all(one.certain for one in values.values()))


def _signed(parts: Sequence[tuple[float, HasComponents]]) -> tuple[Component, ...]:
    """The causes of a sum, those with one tag added up into one, so that long chains stay short."""
    gathered: dict[str, Component] = {}
    for number, one in enumerate(signed(parts)):
        tag = one.tag or f"{one.name}, {number}"
        share = one.share + (gathered[tag].share if tag in gathered else 0.0)
        spot = one.spot or (gathered[tag].spot if tag in gathered else None)
        dof = min(one.dof, gathered[tag].dof) if tag in gathered else one.dof
        sign = -1.0 if share < 0 else 1.0
        gathered[tag] = Component(
            one.name, abs(share), sensitivity=sign, dof=dof, tag=tag, cause=one.cause, spot=spot
        )  # fmt: skip
    return tuple(gathered.values())

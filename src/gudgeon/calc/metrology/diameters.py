"""Bores and journals by their diameters: out of round, taper, conicity, and what shape they have along the axis.

Diameters stand in planes along the axis and directions around it. A reading that is missing is named, never
filled; each result names the readings that decide it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from gudgeon.calc.errors import finite, not_negative, positive
from gudgeon.calc.metrology.round_errors import (
    HeightsMissing,
    HeightsUnordered,
    HeightsUnpaired,
    NothingToCompare,
    PlaceTwice,
    RowsDiffer,
)

Part = Literal["bore", "journal"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a diameter was taken: plane along the axis, direction around it."""

    plane: str
    direction: str

    def __str__(self) -> str:
        return f"{self.plane}, {self.direction}"


@dataclass(frozen=True, slots=True)
class Diameters:
    """Diameters by plane (rows, in their order along the axis) and direction; None is a reading not taken."""

    planes: tuple[str, ...]
    directions: tuple[str, ...]
    rows_mm: tuple[tuple[float | None, ...], ...]
    heights_mm: tuple[float, ...] | None = None

    def __post_init__(self) -> None:
        _once("Plane", self.planes)
        _once("Direction", self.directions)
        if len(self.rows_mm) != len(self.planes) or any(
            len(row) != len(self.directions) for row in self.rows_mm
        ):
            raise RowsDiffer(len(self.planes), len(self.directions))
        for place, value in self.taken():
            positive(value, f"Diameter ({place})", unit="mm")
        if self.heights_mm is not None:
            self._check_heights(self.heights_mm)

    def _check_heights(self, heights: tuple[float, ...]) -> None:
        if len(heights) != len(self.planes):
            raise HeightsUnpaired(len(self.planes), len(heights))
        for plane, height in zip(self.planes, heights, strict=True):
            finite(height, f"Height ({plane})")
        falling = len(heights) > 1 and heights[1] < heights[0]
        for number in range(len(heights) - 1):
            here, there = heights[number], heights[number + 1]
            if not (there < here if falling else there > here):
                raise HeightsUnordered(self.planes[number], self.planes[number + 1])

    def taken(self) -> Iterator[tuple[Place, float]]:
        """The readings that are there, plane by plane."""
        for plane in self.planes:
            yield from self.in_plane(plane)

    def in_plane(self, plane: str) -> Iterator[tuple[Place, float]]:
        """The readings of one plane."""
        row = self.rows_mm[self.planes.index(plane)]
        for direction, value in zip(self.directions, row, strict=True):
            if value is not None:
                yield Place(plane, direction), value

    def in_direction(self, direction: str) -> Iterator[tuple[Place, float]]:
        """The readings of one direction, along the axis."""
        column = self.directions.index(direction)
        for plane, row in zip(self.planes, self.rows_mm, strict=True):
            value = row[column]
            if value is not None:
                yield Place(plane, direction), value

    def missing(self) -> tuple[Place, ...]:
        """The places without a reading."""
        return tuple(
            Place(plane, direction)
            for plane, row in zip(self.planes, self.rows_mm, strict=True)
            for direction, value in zip(self.directions, row, strict=True)
            if value is None
        )


@dataclass(frozen=True, slots=True)
class Difference:
    """A difference of two readings, which two decide it, and which were missing where it was looked for."""

    value_mm: float
    larger: Place
    smaller: Place
    missing: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class Conicity:
    """How much the diameter changes along the axis, and the two readings that decide it.

    `per_length` is the change of the diameter over the length between them; + where `first` is the larger.
    """

    per_length: float
    first: Place
    last: Place
    length_mm: float
    missing: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class Shape:
    """What shape a bore or a journal has along one direction, in words, and the readings that say so."""

    name: str
    words: str
    decided_by: tuple[Place, ...]


def out_of_round(diameters: Diameters) -> Difference:
    """The largest difference of diameters at one height, as manuals mean out-of-round.

    Equation:
        max over planes of (max − min over directions)

    Parameters:
        diameters: by plane and direction [mm]

    Returns:
        difference of diameters [mm], the two readings, those missing

    Valid for:
        two directions or more; more directions never make it smaller

    Source:
        COMMON PRACTICE: limits of service manuals, such as 0.03 mm on a bore of 88 mm between two directions.

    Example:
        >>> bore = Diameters(("top", "low"), ("across", "along"), ((88.03, 88.0), (88.01, 88.0)))
        >>> found = out_of_round(bore)
        >>> round(found.value_mm, 6), str(found.larger), str(found.smaller)
        (0.03, 'top, across', 'top, along')

    Not covered:
        an odd number of lobes, which no two-point gauge sees; roundness of ISO 12181-1 is a difference of radii.
    """
    found = [
        difference
        for plane in diameters.planes
        if (difference := _range(tuple(diameters.in_plane(plane)), diameters))
    ]
    if not found:
        raise NothingToCompare("Out-of-round", "two directions at one height", _named(diameters))
    return max(found, key=lambda one: one.value_mm)


def roundness_estimate(diameters: Diameters) -> Difference:
    """Roundness as a difference of radii, as far as two-point diameters show it: half of out-of-round.

    Equation:
        (D_max − D_min) / 2 at one height

    Parameters:
        diameters: by plane and direction [mm]

    Returns:
        difference of radii [mm], the two readings, those missing

    Valid for:
        an even number of lobes with a direction through their high and low places; otherwise it is too small

    Source:
        HAND: two contacts change the diameter by twice the deviation of the radius for an even number of lobes.

    Example:
        >>> bore = Diameters(("top",), ("across", "along"), ((88.03, 88.0),))
        >>> round(roundness_estimate(bore).value_mm, 6)
        0.015

    Not covered:
        an odd number of lobes: take points around one center, or use a V-block.
    """
    found = out_of_round(diameters)
    return Difference(found.value_mm / 2, found.larger, found.smaller, found.missing)


def taper(diameters: Diameters) -> Difference:
    """The largest difference of diameters along one direction, as manuals mean taper.

    Equation:
        max over directions of (max − min over planes)

    Parameters:
        diameters: by plane and direction [mm]

    Returns:
        difference of diameters [mm], the two readings, those missing

    Valid for:
        two planes or more; wherever along the axis the largest and the smallest lie

    Source:
        COMMON PRACTICE: service manuals; some of them say cylindricity for it.

    Example:
        >>> bore = Diameters(("top", "low"), ("across", "along"), ((88.05, 88.02), (88.01, 88.0)))
        >>> found = taper(bore)
        >>> round(found.value_mm, 6), found.larger.direction
        (0.04, 'across')

    Not covered:
        cylindricity of ISO 12180-1, a difference of radii about one common axis.
    """
    found = [
        difference
        for direction in diameters.directions
        if (difference := _range(tuple(diameters.in_direction(direction)), diameters))
    ]
    if not found:
        raise NothingToCompare("Taper", "two heights in one direction", _named(diameters))
    return max(found, key=lambda one: one.value_mm)


def cylindricity_estimate(diameters: Diameters) -> Difference:
    """Cylindricity as a difference of radii, as far as diameters show it: half of the largest difference of all.

    Equation:
        (D_max − D_min) / 2 over all readings

    Parameters:
        diameters: by plane and direction [mm]

    Returns:
        difference of radii [mm], the two readings, those missing

    Valid for:
        a lower bound: a bent axis and an odd number of lobes do not show in diameters

    Source:
        HAND: within a zone of width t every diameter lies between 2 R and 2 (R + t).

    Example:
        >>> bore = Diameters(("top", "low"), ("across", "along"), ((88.05, 88.02), (88.01, 88.0)))
        >>> round(cylindricity_estimate(bore).value_mm, 6)
        0.025

    Not covered:
        the axis: a bent journal can have the same diameter everywhere. Take its run-out.
    """
    found = _range(tuple(diameters.taken()), diameters)
    if found is None:
        raise NothingToCompare("Cylindricity", "two readings", _named(diameters))
    return Difference(found.value_mm / 2, found.larger, found.smaller, found.missing)


def conicity(diameters: Diameters) -> Conicity:
    """How much the diameter changes for its length between the first and the last plane, where it changes most.

    Equation:
        (D_first − D_last) / |h_first − h_last|, the direction with the largest

    Parameters:
        diameters: by plane and direction, with the heights of the planes [mm]

    Returns:
        change of diameter over length [1], the two readings

    Valid for:
        a shape that changes evenly; else shape says what it is

    Source:
        ISO 3040:2016 (rate of taper, C = (D − d) / L).

    Example:
        >>> bore = Diameters(("top", "low"), ("across",), ((88.05,), (88.01,)), heights_mm=(10.0, 90.0))
        >>> round(conicity(bore).per_length, 6)
        0.0005

    Not covered:
        barrel and hour-glass: there the ends are alike.
    """
    if diameters.heights_mm is None:
        raise HeightsMissing
    height = dict(zip(diameters.planes, diameters.heights_mm, strict=True))
    found = []
    for direction in diameters.directions:
        along = tuple(diameters.in_direction(direction))
        if len(along) < 2:
            continue
        (first, at_first), (last, at_last) = along[0], along[-1]
        length = abs(height[first.plane] - height[last.plane])
        slope = (at_first - at_last) / length
        found.append(Conicity(slope, first, last, length, diameters.missing()))
    if not found:
        raise NothingToCompare("Conicity", "two heights in one direction", _named(diameters))
    return max(found, key=lambda one: abs(one.per_length))


def shape(diameters: Diameters, *, part: Part, same_mm: float) -> tuple[Shape, ...]:
    """What shape a bore or a journal has along each direction: barrel, hour-glass, ridge, mouth, taper.

    Equation:
        three planes or more: the largest inside and both ends smaller by more than what counts as the same: barrel;
        the smallest inside and both ends larger: hour-glass. Else, from one end to the other: all of the change
        but what counts as the same between two planes next to each other at an end: a step there; spread
        over more planes: taper

    Parameters:
        diameters: by plane and direction [mm]
        part: bore or journal
        same_mm: differences up to this are taken as none, such as twice the uncertainty of the gauge [mm]

    Returns:
        one shape for each direction that has one; differences within what counts as the same give none [mm]

    Valid for:
        planes in their order along the axis; with two planes only taper can be said

    Source:
        COMMON PRACTICE: the words of the trade for worn bores and journals.

    Example:
        >>> bore = Diameters(("top", "middle", "low"), ("across",), ((88.0,), (88.04,), (88.0,)))
        >>> shape(bore, part="bore", same_mm=0.005)[0].name
        'barrel'

    Not covered:
        planes that were not measured: a ridge shows only where a plane lies above the travel of the ring.
    """
    not_negative(same_mm, "What counts as the same", unit="mm")
    found = (
        _shape(tuple(diameters.in_direction(direction)), part=part, same=same_mm)
        for direction in diameters.directions
    )
    return tuple(one for one in found if one is not None)


def _shape(along: tuple[tuple[Place, float], ...], *, part: Part, same: float) -> Shape | None:
    if len(along) < 2:
        return None
    values = [value for _, value in along]
    largest, smallest = values.index(max(values)), values.index(min(values))
    if values[largest] - values[smallest] <= same:
        return None
    first, last = values[0], values[-1]
    place = {number: where for number, (where, _) in enumerate(along)}
    end = len(along) - 1
    if values[largest] - max(first, last) > same:
        thing = "wider" if part == "bore" else "thicker"
        middle = place[largest]
        words = f"Barrel: {thing} at {middle} than at both ends."
        if part == "bore" and end >= 3 and largest in (1, end - 1):
            edge = place[0] if largest == 1 else place[end]
            words += f" If {edge.plane} lies beyond the travel of the rings, it is a ridge."
        return Shape("barrel", words, (place[0], middle, place[end]))
    if min(first, last) - values[smallest] > same:
        thing = "narrower" if part == "bore" else "thinner"
        middle = place[smallest]
        words = f"Hour-glass: {thing} at {middle} than at both ends."
        return Shape("hour-glass", words, (place[0], middle, place[end]))
    return _one_way(values, place, part=part, same=same)


def _one_way(values: list[float], place: dict[int, Place], *, part: Part, same: float) -> Shape:
    """The shape of a bore or a journal that changes from one end to the other."""
    end = len(values) - 1
    larger, smaller = values.index(max(values)), values.index(min(values))
    if end >= 2:
        for at, inner in ((0, 1), (end, end - 1)):
            rest = values[1:] if at == 0 else values[:-1]
            step = values[at] - values[inner]
            if abs(step) <= same or max(rest) - min(rest) > same:
                continue
            name = _step_name(wider=step > 0, part=part)
            words = f"{name[0].upper()}{name[1:]}: {place[at]} differs from all beyond it."
            return Shape(name, words, (place[at], place[inner]))
    words = f"Taper: largest at {place[larger]}, smallest at {place[smaller]}."
    return Shape("taper", words, (place[larger], place[smaller]))


def _step_name(*, wider: bool, part: Part) -> str:
    if part == "bore":
        return "bell mouth" if wider else "ridge"
    return "collar" if wider else "worn end"


def _range(found: Sequence[tuple[Place, float]], of: Diameters) -> Difference | None:
    if len(found) < 2:
        return None
    larger = max(found, key=lambda one: one[1])
    smaller = min(found, key=lambda one: one[1])
    if larger[0] == smaller[0]:  # all alike: two places all the same
        smaller = found[1]
    return Difference(larger[1] - smaller[1], larger[0], smaller[0], of.missing())


def _named(diameters: Diameters) -> tuple[str, ...]:
    return tuple(str(place) for place in diameters.missing())


def _once(what: str, names: Sequence[str]) -> None:
    for number, name in enumerate(names):
        if name in names[:number]:
            raise PlaceTwice(what, name)

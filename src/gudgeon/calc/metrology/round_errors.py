"""Points and readings that no circle, bore or turning part can be found from; one class per cause."""

from collections.abc import Sequence

from gudgeon.errors import InputError


class PlacesTooFew(InputError):
    """Three or more points that lie at one or two places only."""

    def __init__(self, count: int, places: int) -> None:
        super().__init__(
            f"The {count} points lie at {places} place{'' if places == 1 else 's'} only; a circle takes 3 places. "
            "Check whether a line was written twice."
        )


class CircleFromLine(InputError):
    """All points in one straight line, where a circle is wanted."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"The {count} points lie in a straight line; no circle goes through 3 points of a line. "
            "Check that x and y are not the same column."
        )


class CloserToLine(InputError):
    """Points that a straight line meets better than any circle."""

    def __init__(self, width_mm: float) -> None:
        super().__init__(
            f"The points lie between two straight lines {width_mm:.6g} mm apart, and no circle comes closer. "
            "Take points over more of the round."
        )


class NotSurrounded(InputError):
    """No inscribed circle, because the points leave one side open."""

    def __init__(self, gap_deg: float) -> None:
        super().__init__(
            f"The points leave {gap_deg:.0f}° of the round open, and an inscribed circle takes points on all sides "
            "(gaps below 180°, ISO 12181-1). Take points all around, or use minimum-zone or least-squares."
        )


class LobesUnusual(InputError):
    """A number of lobes that no round part has."""

    def __init__(self, lobes: float) -> None:
        super().__init__(
            f"{lobes:g} lobes cannot be: it is a whole number from 2 to 1000. A single one is a part that runs out, "
            "more are roughness (ISO 12181-1). Count the high places in one turn."
        )


class VeeAngleOutOfRange(InputError):
    """A V-block without a V."""

    def __init__(self, angle_deg: float) -> None:
        super().__init__(
            f"An angle of {angle_deg:g}° between the faces cannot be: it is above 0° and at most 180°. "
            "90° and 120° are usual."
        )


class RowsDiffer(InputError):
    """A table of diameters that is not one row for each plane and one column for each direction."""

    def __init__(self, planes: int, directions: int) -> None:
        super().__init__(
            f"The table of diameters does not have one row for each of {planes} planes and one value for each of "
            f"{directions} directions. Write a missing value as missing."
        )


class PlaceTwice(InputError):
    """A plane or a direction that stands twice."""

    def __init__(self, what: str, name: str) -> None:
        super().__init__(f"{what} `{name}` stands twice. Give each {what.lower()} a name of its own.")


class HeightsUnpaired(InputError):
    """Not one height for each plane."""

    def __init__(self, planes: int, heights: int) -> None:
        super().__init__(f"{heights} heights do not go with {planes} planes. Give one height for each plane.")


class HeightsUnordered(InputError):
    """Planes whose heights do not rise, or fall, from one to the next."""

    def __init__(self, first: str, second: str) -> None:
        super().__init__(
            f"The heights of the planes do not run one way: `{second}` does not come after `{first}`. "
            "Write the planes in their order along the axis, each with a height of its own."
        )


class NothingToCompare(InputError):
    """A difference that needs two readings, and there are not two."""

    def __init__(self, what: str, needs: str, missing: Sequence[str]) -> None:
        named = f"Take the missing ones: {'; '.join(missing)}." if missing else "Take more readings."
        super().__init__(f"{what} cannot be said: it takes {needs}. {named}")


class HeightsMissing(InputError):
    """A slope asked for, and the planes have no heights."""

    def __init__(self) -> None:
        super().__init__(
            "Conicity cannot be said: it is a difference over a length, and the planes have no heights. "
            "Give the height of each plane."
        )


class AnglesTooFew(InputError):
    """Too few different angles to part run-out from form."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"Readings at {count} different angle{'' if count == 1 else 's'} cannot show how far a part runs out: "
            "it takes 3, and 4 to see any form. Take 8 in one turn."
        )


class AnglesUnpaired(InputError):
    """Not one angle for each reading."""

    def __init__(self, readings: int, angles: int) -> None:
        super().__init__(
            f"{readings} readings do not go with {angles} angles. Give one angle for each reading."
        )


class GapImpossible(InputError):
    """A ring that would be longer than its bore is round."""

    def __init__(self, gap_mm: float, bore_mm: float) -> None:
        super().__init__(
            f"A ring gap of {gap_mm:.4g} mm in a bore of {bore_mm:g} mm cannot be: it lies above 0, or the ends meet, "
            "and below the round of the bore. Check both bores; a ring whose ends meet is filed or changed."
        )


class MarksMissing(InputError):
    """A strip without its scale."""

    def __init__(self) -> None:
        super().__init__(
            "No mark of the strip is given, and its width alone says nothing. "
            "Copy the scale from its wrapper, width and clearance of each mark."
        )


class MarksUnordered(InputError):
    """A scale of a plastic strip on which a wider strip does not mean less clearance."""

    def __init__(self) -> None:
        super().__init__(
            "The marks of the strip cannot be: a wider mark stands for less clearance, and no width stands twice. "
            "Copy the scale from its wrapper, width and clearance of each mark."
        )


class NoPushes(InputError):
    """An end float without a reading."""

    def __init__(self) -> None:
        super().__init__(
            "End float cannot be said without a push: it takes the dial at both ends. Push to and fro 3 times."
        )

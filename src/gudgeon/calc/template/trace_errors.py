"""What cannot be traced from a photo, one class per cause."""

from gudgeon.errors import InputError

_MEAN = (
    "Take a rectangle around the part whose sides you measured, and point at its four corners in the photo."
)


class TooFewKnown(InputError):
    """Less than four known points."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"{count} known point{' was' if count == 1 else 's were'} given; a flat part seen at a slant takes at "
            f"least 4, of which no three lie in a line. {_MEAN}"
        )


class TooManyKnown(InputError):
    """More known points than anybody needs."""

    def __init__(self, count: int, *, most: int) -> None:
        super().__init__(
            f"{count} known points were given, and at most {most} are taken: every four of them are looked at, and "
            "more make a trace no better. Keep those farthest apart."
        )


class NotAFinitePoint(InputError):
    """A point without a place."""

    def __init__(self, name: str) -> None:
        super().__init__(f"Known point {name} is no place: two finite numbers are needed. Write it anew.")


class PointsInALine(InputError):
    """Three of four known points in a line, or two in one place."""

    def __init__(self, where: str, off: float, least: float) -> None:
        super().__init__(
            f"The known points lie nearly in a line {where}: the leanest triangle of the best four is {off:.2g} of "
            f"their extent high, and less than {least:g} gives no scale across. {_MEAN}"
        )


class PointsCrossed(InputError):
    """Two known points exchanged, or left taken for right."""

    def __init__(self) -> None:
        super().__init__(
            "No camera sees the known points so: two of them are exchanged, or left is taken for right. Their "
            "distances count to the right and upward as the photo shows the part. Name them in one way round, from the "
            "lower left corner to the right."
        )


class BeyondTheHorizon(InputError):
    """A place that the plane of the part does not reach in the photo."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"Place {name} lies where the plane of the known points is not seen any more in this photo. Point at it "
            "again, or check the known points."
        )

"""Beads that cannot be; one class per cause."""

from gudgeon.errors import InputError


class PathTooShort(InputError):
    """Fewer points than a closed way has."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"A closed way goes through 3 points or more, and {count} {'was' if count == 1 else 'were'} given. "
            "Give x and y of every bolt around the cover, or the length of the bead."
        )


class LengthOrPoints(InputError):
    """A bead without a length, or with two."""

    def __init__(self) -> None:
        super().__init__(
            "A bead has one length: give `length`, or `points` that it goes around through, and not both."
        )


class PointUnreadable(InputError):
    """A point that is not two numbers."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"`{text}` is no point. Write x and y in mm with a space between, points parted by `;`: `0 0; 90 0; 90 60`."
        )

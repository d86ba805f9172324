"""What a seen offset, or a picture of the timing, is refused for; one class per cause."""

from collections.abc import Iterable

from gudgeon.errors import InputError


class NoDrive(InputError):
    """A sheet that states nothing of what turns the camshafts."""

    def __init__(self) -> None:
        super().__init__(
            "The data sheet states no drive, so nothing can be said of the timing. Write `drive:` with its wheels, "
            "teeth and marks; `gudgeon sheet blank` shows how."
        )


class NoEvents(InputError):
    """A sheet that does not say when the valves open and close."""

    def __init__(self) -> None:
        super().__init__(
            "The data sheet does not say when the valves open and close, so nothing is drawn. Write two of `opens`, "
            "`closes`, `duration` and `centerline` below `valve_gear: intake:` and `exhaust:`."
        )


class OffsetUnreadable(InputError):
    """A seen offset that is no wheel with an amount."""

    def __init__(self, text: str, wheels: Iterable[str]) -> None:
        super().__init__(
            f"`{text}` cannot be read as a mark that is off. Write a wheel and how far, like "
            "`intake: half a tooth late`, `exhaust 4 deg` or `crank 3 mm right`. "
            f"Wheels with a mark: {', '.join(wheels)}."
        )


class OffsetWheelUnknown(InputError):
    """A wheel that turns neither crankshaft nor camshaft, or that is not there."""

    def __init__(self, name: str, wheels: Iterable[str]) -> None:
        super().__init__(
            f"`{name}` is no wheel whose mark tells the timing. Name one of: {', '.join(wheels)}."
        )


class OffsetNeedsPitch(InputError):
    """Millimeters on a wheel of which nobody knows how far its teeth lie apart."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"`{text}`: a distance becomes teeth by the pitch, and the sheet states none (`drive.pitch`). "
            "Give the offset in teeth or degrees, or write the pitch."
        )


class OffsetTooLarge(InputError):
    """More than half a turn is the other side."""

    def __init__(self, text: str, teeth: float, wheel_teeth: int) -> None:
        super().__init__(
            f"`{text}` is {teeth:.4g} teeth of a wheel that has {wheel_teeth}: more than half a turn cannot be told "
            "from the other side. Give the shorter way."
        )


class OffsetBothSides(InputError):
    """Late and early in one breath."""

    def __init__(self, text: str, sides: Iterable[str]) -> None:
        super().__init__(
            f"`{text}` names several sides ({', '.join(sides)}). Name one: late, early, left, right, up or down."
        )

"""Drives that no belt or chain can run over; one class per cause."""

from gudgeon.errors import InputError, short


class TooFewWheels(InputError):
    """A loop over less than two wheels."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"A belt over {count} wheel{'' if count == 1 else 's'} is no drive: it runs over 2 or more. "
            "Name every wheel that it touches, in the order in which it runs."
        )


class WheelsOverlap(InputError):
    """Two wheels where only one can be."""

    def __init__(self, first: str, second: str, apart_mm: float, least_mm: float) -> None:
        super().__init__(
            f"{first} and {second} stand {apart_mm:.2f} mm apart and would overlap: their pitch radii add up to "
            f"{least_mm:.2f} mm. Check centers, teeth and pitch."
        )


class BeltMissesWheel(InputError):
    """A wheel that the belt could only touch by running all around it."""

    def __init__(self, name: str, wrap_deg: float) -> None:
        super().__init__(
            f"The path cannot be: at {name} the belt would turn through {wrap_deg:.0f}°. The order of the path, the "
            "running direction, a center, or the side of the belt that a wheel runs on is wrong."
        )


class SpansCross(InputError):
    """A belt that runs through itself."""

    def __init__(self, first: str, second: str) -> None:
        super().__init__(
            f"The belt would cross itself: {first} and {second}. The order of the path, the running direction, or "
            "the side of the belt that a wheel runs on is wrong."
        )


class BeltThroughWheel(InputError):
    """A belt that runs through a wheel that it only touches elsewhere."""

    def __init__(self, span: str, wheel: str, by_mm: float) -> None:
        super().__init__(
            f"The belt from {span} would run through {wheel}, {by_mm:.2f} mm inside its pitch circle. "
            "Check the order of the path and the centers."
        )


class BeltTooShort(InputError):
    """A belt that does not go around two wheels."""

    def __init__(self, length_mm: float, least_mm: float) -> None:
        super().__init__(
            f"A belt {length_mm:g} mm long does not go around these two wheels: where they touch, it takes "
            f"{least_mm:.2f} mm. Check the teeth of belt and wheels, and the pitch."
        )


class MarkOffBelt(InputError):
    """A mark that stands where no belt lies."""

    def __init__(self, wheel: str, mark_deg: float, first_deg: float, last_deg: float) -> None:
        super().__init__(
            f"The mark of {wheel} at {mark_deg:g}° stands where no belt lies: the belt lies on it from "
            f"{first_deg:.1f}° to {last_deg:.1f}° (0° is up, 90° to the right). Teeth from there cannot be counted; "
            "check the angle."
        )


class WheelNotOnPath(InputError):
    """A wheel that the belt does not run over."""

    def __init__(self, name: str, known: tuple[str, ...]) -> None:
        super().__init__(f"`{name}` is no wheel of this path. There are: {', '.join(known)}.")


class NotSameWheels(InputError):
    """Two states of a drive that do not have the same wheels."""

    def __init__(self, before: int, after: int) -> None:
        super().__init__(
            f"{before} wheels before and {after} after are not the same drive. Give each wheel in both, in one order."
        )


class WheelUnreadable(InputError):
    """An item of a list that is no wheel."""

    def __init__(self, item: str, why: str = "") -> None:
        super().__init__(
            f"`{short(item)}` is no wheel that can be read. {why + ' ' if why else ''}Write it like "
            "`x=70 y=180 teeth=22`, or `x=-58 y=72 diameter=60 back` where the back of the belt runs on it, and "
            "wheels apart with semicolons."
        )


class WheelIncomplete(InputError):
    """A wheel without a place, or without exactly one size."""

    def __init__(self, item: str) -> None:
        super().__init__(
            f"`{short(item)}` is no whole wheel: it takes x, y, and one of teeth, diameter (of a smooth roller) and "
            "radius (of the pitch line)."
        )


class CenterUnreadable(InputError):
    """An item of a list that is no center."""

    def __init__(self, item: str) -> None:
        super().__init__(
            f"`{short(item)}` is no center that can be read. Write x and y of each wheel in mm, and wheels apart with "
            "semicolons, like `0 0; 0 150`."
        )


class TeethUnreadable(InputError):
    """An item of a list that is no number of teeth."""

    def __init__(self, item: str) -> None:
        super().__init__(
            f"`{short(item)}` is no number of teeth. Write whole numbers in the order of the wheels, like `20; 40`."
        )


class PitchNeeded(InputError):
    """A toothed wheel in a list, and no pitch."""

    def __init__(self, item: str) -> None:
        super().__init__(
            f"`{short(item)}` states teeth, which need the pitch of belt or chain. Add it, like pitch='9.525 mm'."
        )


class RiseNeeded(InputError):
    """A smooth roller, and nothing tells where the pitch line lies on it."""

    def __init__(self, item: str) -> None:
        super().__init__(
            f"`{short(item)}` is a smooth roller: where the pitch line runs on it follows from `rise`, from the "
            "surface of the roller to the cords of the belt. Add it, like rise='1.5 mm'."
        )


class ListsDiffer(InputError):
    """As many centers as wheels are wanted."""

    def __init__(self, teeth: int, centers: int) -> None:
        super().__init__(
            f"{teeth} wheel{'' if teeth == 1 else 's'} by their teeth and {centers} "
            f"center{'' if centers == 1 else 's'} do not belong together. Give a center for each wheel, in one order."
        )


class OnlyTwoWheels(InputError):
    """A center distance says nothing of more than two wheels."""

    def __init__(self, teeth: int, given: str) -> None:
        super().__init__(
            f"{given} belongs to two wheels, and {teeth} are given. Give `centers` of all wheels instead."
        )


class BesideTooFar(InputError):
    """A camshaft further beside the crankshaft than it is away from it."""

    def __init__(self, beside_mm: float, apart_mm: float) -> None:
        super().__init__(
            f"cam_beside {beside_mm:g} mm cannot be: it is less than the center distance, {apart_mm:g} mm, which is "
            "measured straight from center to center."
        )

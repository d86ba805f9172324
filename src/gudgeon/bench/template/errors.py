"""Why no template is made, one class per cause."""

from collections.abc import Iterable

from gudgeon.errors import InputError, quoted, short


def _list(names: Iterable[str]) -> str:
    return quoted(tuple(names)) or "none"


class NoPositions(InputError):
    """A joint of which nobody said where its fasteners stand."""

    def __init__(self, joint: str, *, key: str, called: str) -> None:
        super().__init__(
            f"The data sheet gives no position for any {called} of {joint}, so no template can be made of it. Write "
            "`x:` and `y:` of each in the sheet, or trace them: take a photo of the bare face straight from above, "
            "with a rectangle of known sides in its plane, and point at its corners and at every hole, on the page of "
            f"the photo or with: gudgeon trace PHOTO --joint {key}"
        )


class NotOfThisJoint(InputError):
    """A place under a name that the joint does not have."""

    def __init__(self, name: str, joint: str, known: Iterable[str]) -> None:
        super().__init__(
            f"{joint} has no fastener `{short(name)}`. It has: {_list(known)}. Name each place as the data sheet "
            "numbers it."
        )


class OtherJoint(InputError):
    """Positions that were traced for another joint."""

    def __init__(self, said: str, wanted: str) -> None:
        super().__init__(
            f"These positions are of `{short(said)}`, and the template was asked for `{short(wanted)}`. Name that "
            "joint, or another file."
        )


class SamePlace(InputError):
    """Two fasteners whose centers are one."""

    def __init__(self, one: str, other: str, apart_mm: float, least_mm: float) -> None:
        super().__init__(
            f"{one} and {other} stand {apart_mm:.1f} mm apart, and no two fasteners stand closer than {least_mm:g} mm "
            "(common practice, no source). Look at both positions again; nothing was made of them."
        )


class PlaceUnreadable(InputError):
    """A place that is not two numbers."""

    def __init__(self, said: str, form: str) -> None:
        super().__init__(f"`{short(said)}` is no place. Write it like {form}.")


class PlaceTooLarge(InputError):
    """A place farther away than any engine is long, or than any photo is wide."""

    def __init__(self, said: str, *, most: int) -> None:
        super().__init__(
            f"`{short(said)}` is too large: no number of a place may be above {most:,}, which is longer than any "
            "engine and wider than any photo (limit of this program). Look at the number and its unit again."
        )


class PlaceTwice(InputError):
    """Two places for one fastener."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"`{short(name)}` stands at two places. One of them is of another fastener: number it as the data "
            "sheet does."
        )


class OffThePhoto(InputError):
    """A pixel that the photo does not have."""

    def __init__(self, what: str, said: str, photo: str) -> None:
        super().__init__(
            f"{what} lies at {said}, and the photo has {photo} pixels. Count from its upper left corner, to the right "
            "and down, in the photo as it stands upright."
        )


class NothingTraced(InputError):
    """A photo without a place that was pointed at."""

    def __init__(self, known: Iterable[str]) -> None:
        super().__init__(
            f"No place was pointed at in the photo. Point at the middle of every hole, by its number in the data "
            f"sheet: {_list(known)}."
        )


class SidesDisagree(InputError):
    """Known points that no camera sees so: their sides were exchanged, mostly."""

    def __init__(self, stretch: float, most: float) -> None:
        super().__init__(
            f"No usual camera sees the known points so: one side would have to be longer by {100 * stretch:.0f} %, and "
            f"above {100 * most:.0f} % nothing is traced from them (common practice, no source). Look whether both "
            "sides were exchanged, or the corners begin at another one than the lower left as the photo shows it. "
            "If all are right, take the photo straighter from above, and do not crop it."
        )


class TracedTooCoarsely(InputError):
    """A place that may be so far off that a template of it misleads."""

    def __init__(self, name: str, off_mm: float, most_mm: float) -> None:
        super().__init__(
            f"Place {name} may be off by {off_mm:.1f} mm; above {most_mm:g} mm no template is made of it (common "
            "practice, no source). Take the photo from nearer and straight from above, with the known points around "
            "the part, and point more exactly."
        )


class PositionsTooCoarse(InputError):
    """Positions that say of themselves that they mislead."""

    def __init__(self, off_by: str, most_mm: float) -> None:
        super().__init__(
            f"These positions may be off by up to {short(off_by)}; above {most_mm:g} mm no template is made of them "
            "(common practice, no source). Trace them again, from a photo taken from nearer and straight from above."
        )


class OffUnreadable(InputError):
    """How far off positions may be, in no words that can be read."""

    def __init__(self, said: str, form: str) -> None:
        super().__init__(
            f"`{short(said)}` does not say how far off the positions may be, and without it a template could mislead. "
            f"Write it like {form}, 0 or more; traced positions say it."
        )


class PointedUnreadable(InputError):
    """How far a tap may miss, in no number."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"`{short(said)}` is no number of pixels. Write how far a tap may miss like 1.5, or leave it empty."
        )


class KnownTooSmall(InputError):
    """Known points so close together that a unit was mistaken."""

    def __init__(self, wide_mm: float, high_mm: float, least_mm: float) -> None:
        super().__init__(
            f"The known points were read as {wide_mm:.4g} × {high_mm:.4g} mm from side to side; below {least_mm:g} mm "
            "nothing is traced from them (common practice, no source). Look whether they were measured in another "
            "unit: 0.21 m is 210 mm. Else take a larger rectangle, around the part."
        )


class KnownPointsDisagree(InputError):
    """Known points that no flat part can have together."""

    def __init__(self, miss_mm: float, most_mm: float) -> None:
        super().__init__(
            f"The known points contradict each other by {miss_mm:.1f} mm; above {most_mm:g} mm nothing is traced from "
            "them (common practice, no source). Measure them again, and point at them again."
        )

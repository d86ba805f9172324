"""Points that no face or line can be judged by; one class per cause."""

from gudgeon.errors import InputError


class PointsMisshapen(InputError):
    """Something else than one row of coordinates for each point."""

    def __init__(self, shape: tuple[int, ...], columns: int) -> None:
        axes = ("x, y" if columns == 2 else "x, y, z") + " in mm"
        super().__init__(
            f"Figures in the shape {shape} are no points. Give one row for each point, each with {axes}."
        )


class TooFewPoints(InputError):
    """Fewer points than the form needs."""

    def __init__(self, count: int, least: int, what: str) -> None:
        points = "1 point is" if count == 1 else f"{count} points are"
        super().__init__(
            f"{points} too few: {what} needs at least {least} (fewer leave it open). Measure more points."
        )


class PointNotFinite(InputError):
    """A coordinate that is no number."""

    def __init__(self, point: int, axis: str, value: float) -> None:
        super().__init__(
            f"Point {point} has {axis} = {value}, which is not a finite number. Give the number that was read, "
            "or leave the point out."
        )


class PointTooFar(InputError):
    """A coordinate no face has."""

    def __init__(self, point: int, axis: str, value: float, most_mm: float) -> None:
        super().__init__(
            f"Point {point} has {axis} = {value:g} mm, and at most {most_mm:g} mm is taken (no face is larger). "
            "Check its figures and their unit."
        )


class PointsInOnePlace(InputError):
    """All points are the same point."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"All {count} points lie in one place: they show neither a line nor a face. "
            "Spread them over what is judged, and check their columns."
        )


class PointsInALine(InputError):
    """A face that would be a line."""

    def __init__(self, count: int, length_mm: float) -> None:
        super().__init__(
            f"All {count} points lie in a line: over {length_mm:.4g} mm they spread less than a millionth of that "
            "sideways, which is no face. Add points beside the line, or judge its straightness."
        )


class PlacesRepeat(InputError):
    """A profile that stands at one place alone."""

    def __init__(self, place_mm: float) -> None:
        super().__init__(
            f"All readings stand at {place_mm:g} mm: a line needs two places at least. Give the place of each reading."
        )


class ReadingsUnpaired(InputError):
    """More places than readings, or the other way round."""

    def __init__(self, places: int, heights: int) -> None:
        super().__init__(
            f"{places} places and {heights} readings do not pair. Give one reading for each place."
        )


class NoPointOnLine(InputError):
    """A line along which nothing was measured."""

    def __init__(self, line: str, found: int, band_mm: float) -> None:
        super().__init__(
            f"Line {line}: {found} points lie within {band_mm:g} mm of it, and a straightedge needs 2 to rest on. "
            "Widen the band, or measure along the line."
        )


class LineWithoutLength(InputError):
    """A line whose two ends are one."""

    def __init__(self, line: str) -> None:
        super().__init__(f"Line {line} begins where it ends. Give two ends that lie apart.")


class TooManyWindows(InputError):
    """A search that would take too long."""

    def __init__(self, windows: int, most: int) -> None:
        super().__init__(
            f"{windows:,} places of the window would have to be tried, and at most {most:,} are. "
            "Give fewer points: a grid as coarse as the fault that is looked for."
        )


class WindowTooSmall(InputError):
    """A window that nowhere holds enough points."""

    def __init__(self, side_mm: float) -> None:
        super().__init__(
            f"A window of {side_mm:g} mm nowhere holds three points that are not in a line. "
            "Take a larger length, or measure closer together."
        )

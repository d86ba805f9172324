"""Fits that cannot be: ranges that are open, gaps that are no gaps, holes without a drill; one class per cause."""

from gudgeon.errors import InputError


class RangeCrossed(InputError):
    """A range whose least is above its most."""

    def __init__(self, what: str, least: float, most: float) -> None:
        super().__init__(
            f"{what} {least:g} to {most:g} mm cannot be: its least is above its most. Give the least first."
        )


class RangeOpen(InputError):
    """A bound where a size or a range is needed."""

    def __init__(self, key: str, text: str) -> None:
        super().__init__(
            f"{key}: `{text}` has only one end, and least and most of the clearance need both. "
            "Write a size, a range like `43.20–43.22 mm` or a tolerance like `43.21 ± 0.01 mm`."
        )


class ShellsUnequal(InputError):
    """Two halves that were not given as two."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"Thicknesses of shells given: {count}. A bearing has two halves, or none where it runs bare. "
            "Give both, or one that counts for both."
        )


class HalfWithoutOther(InputError):
    """The second half without the first."""

    def __init__(self) -> None:
        super().__init__(
            "other_shell is given and shell is not. Give both halves, or shell alone for two equal ones."
        )


class GapNotInBore(InputError):
    """A gap as long as the circumference of its bore, or longer."""

    def __init__(self, gap_mm: float, bore_mm: float, around_mm: float) -> None:
        super().__init__(
            f"Ring gap {gap_mm:g} mm cannot be in a bore of {bore_mm:g} mm: it is less than the circumference, "
            f"{around_mm:.4g} mm. Check the unit of both."
        )


class TemperatureImpossible(InputError):
    """No temperature that a ring or a bore has while the engine runs."""

    def __init__(self, what: str, celsius: float, least: float, most: float) -> None:
        super().__init__(
            f"{what} {celsius:g} °C cannot be: it lies from {least:g} to {most:g} °C (order of size, by hand). "
            "Write the unit with it, like `390 °F`."
        )


class HoleTooSmall(InputError):
    """A hole that no drill of the table enters."""

    def __init__(self, hole_mm: float, least_mm: float, name: str) -> None:
        super().__init__(
            f"Hole {hole_mm:g} mm is smaller than every drill of the table: the thinnest is {name}, "
            f"{least_mm:.3f} mm. Take wire, and measure it."
        )


class HoleTooLarge(InputError):
    """A hole beyond the table, where its largest drill would be no answer."""

    def __init__(self, hole_mm: float, most_mm: float) -> None:
        super().__init__(
            f"Hole {hole_mm:g} mm is larger than the table of drills goes (sizes up to {most_mm:g} mm). "
            "Have a pin turned to the hole."
        )


class PartsTooFew(InputError):
    """Fewer parts than there are places."""

    def __init__(self, places: int, parts: int) -> None:
        super().__init__(
            f"With {parts} measured, {places} places cannot be filled: each needs a part of its own. "
            "Measure the others."
        )


class TableUneven(InputError):
    """Rows of different length where each place has one figure for each part."""

    def __init__(self) -> None:
        super().__init__(
            "The places do not all have a figure for every part. Give one figure for each part in each place."
        )


class NoGrades(InputError):
    """Nothing to choose from."""

    def __init__(self) -> None:
        super().__init__(
            "No shell thickness is given, so none can be chosen. Give the thickness of at least one grade."
        )


class CountsDiffer(InputError):
    """Not as many rods as pistons."""

    def __init__(self, pistons: int, rods: int) -> None:
        super().__init__(
            f"Weighed pistons: {pistons}, rods: {rods}. They are paired one to one: weigh those that are missing."
        )

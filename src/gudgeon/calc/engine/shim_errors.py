"""What can be wrong with shims, sizes and what is wanted of them; one class per cause."""

from gudgeon.errors import InputError


class WantedCrossed(InputError):
    """The least clearance wanted lies above the most."""

    def __init__(self, low: float, high: float) -> None:
        super().__init__(
            f"Wanted clearance {low:g} to {high:g} mm runs downward: the least stands first. Exchange the ends."
        )


class ShimNotPositive(InputError):
    """A clearance so small, or a wanted one so large, that no thickness is left."""

    def __init__(self, exact_mm: float) -> None:
        super().__init__(
            f"The new shim would be {exact_mm:g} mm thick: it is above 0. Check the old shim, and whether measured and "
            "wanted clearance are exchanged."
        )


class SeriesUneven(InputError):
    """First and last size do not lie a whole number of steps apart."""

    def __init__(self, first_mm: float, last_mm: float, step_mm: float) -> None:
        super().__init__(
            f"Sizes {first_mm:g} to {last_mm:g} mm do not lie a whole number of steps of {step_mm:g} mm apart. "
            "Read first, last and step again, or list the sizes with semicolons between them."
        )


class SeriesTooLong(InputError):
    """So many sizes that first, last or step must be wrong."""

    def __init__(self, sizes: int, most: int) -> None:
        super().__init__(
            f"A series of {sizes:,} sizes cannot be: shims come in some dozens, and {most:,} is the most that is "
            "worked with. Check the step and its unit."
        )


class SeriesUnreadable(InputError):
    """A text that names no sizes."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"`{text}` names no sizes. Write first, last and step, like `2.00-2.80 mm step 0.05 mm`, or every size "
            "with semicolons between them, like `2.00 mm; 2.05 mm; 2.10 mm`."
        )


class WantedOpen(InputError):
    """A wanted clearance with one end only."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"`{text}` has one end only, so there is no middle to aim at. Write both, like `0.20-0.30 mm`, or one "
            "value."
        )


class WorthTooLarge(InputError):
    """A price or a thickness beyond what is worked out exactly."""

    def __init__(self, what: str, value: int, most: int) -> None:
        super().__init__(
            f"{what} of {value:,} is more than the {most:,} up to which the best choice is worked out exactly. Check "
            "prices, sizes and their units."
        )

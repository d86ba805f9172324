"""What cannot be split over pages, one class per cause."""

from gudgeon.errors import InputError


class NothingToLay(InputError):
    """A template without an extent."""

    def __init__(self) -> None:
        super().__init__(
            "The template has no extent: its corners are one point, or the wrong way round. Check the positions."
        )


class HoleTooLarge(InputError):
    """A hole that the overlap of two pages could not hold whole."""

    def __init__(self, hole_mm: float, overlap_mm: float) -> None:
        super().__init__(
            f"A hole of {hole_mm:.1f} mm is too large for pages that overlap by {overlap_mm:.1f} mm: an edge could cut "
            "it on both. Give a larger overlap, or check the thread."
        )


class HoleOverPage(InputError):
    """A hole for which pages would have to show the same over more than half of what they show."""

    def __init__(self, hole_mm: float, most_mm: float) -> None:
        super().__init__(
            f"A hole of {hole_mm:.1f} mm is too large for a page: up to {most_mm:.1f} mm it stands whole on one. "
            "Check the thread, or the hole that the data sheet states, and its unit."
        )


class TooManyPages(InputError):
    """A template of more pages than can be joined true."""

    def __init__(self, count: int, most: int) -> None:
        super().__init__(
            f"The template would take {count} pages; at most {most} are set, as every joint adds its error. Check the "
            "unit of the positions, or print the parts of the joint one by one."
        )

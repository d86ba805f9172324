"""Why nothing was printed, one class per cause."""

from collections.abc import Iterable

from gudgeon.errors import InputError


class PressMissing(InputError):
    """The library that sets the pages is not installed."""

    def __init__(self, python: str) -> None:
        super().__init__(
            f"Nothing was printed: the Python package `typst`, which sets the pages, cannot be loaded by {python}.\n"
            f"Install it with `{python} -m pip install typst`, then print again. The book is untouched."
        )


class PressFailed(InputError):
    """The pages could not be set."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"Nothing was printed: setting the pages failed ({said}).\n"
            "The book is untouched, and the same answer stands in the terminal. This is a fault of the program: "
            "report it with this message."
        )


class PressTooSlow(InputError):
    """Setting the pages took longer than it may."""

    def __init__(self, seconds: float) -> None:
        super().__init__(
            f"Nothing was printed: the pages were not set within {seconds:g} s, the limit of this program.\n"
            "Try again when the machine has less to do, or print one joint at a time."
        )


class PrintTooLarge(InputError):
    """More came out than a printer should be sent."""

    def __init__(self, size: int, *, most: int) -> None:
        super().__init__(
            f"Nothing was printed: the file would have {size / 1e6:.0f} MB, the limit of this program is "
            f"{most / 1e6:.0f} MB. Print one joint at a time."
        )


class SizeUnknown(InputError):
    """A size of paper that no page is made for."""

    def __init__(self, size: str, *, known: Iterable[str]) -> None:
        super().__init__(f"`{size}` is no size of paper here. Known: {', '.join(known)}.")


class PhotosTooLarge(InputError):
    """More photos than one print of the book can hold."""

    def __init__(self, photos: int, size: int, *, most: int) -> None:
        super().__init__(
            f"Nothing was printed: its {photos} photos would have {size / 1e6:.0f} MB as they are printed, the limit "
            f"of this program is {most / 1e6:.0f} MB. Print the book without photos (--without-photos); they "
            "stay in the archive."
        )

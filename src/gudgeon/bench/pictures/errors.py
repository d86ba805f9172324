"""Characteristics of which no picture can be made."""

from gudgeon.errors import InputError


class NothingToDraw(InputError):
    """The sheet does not say where its places lie."""

    def __init__(self, name: str, item: str) -> None:
        super().__init__(
            f"No picture is made of {name}: the sheet draws no face for it, and its places are not heights by "
            f"directions of a bore or a journal. `gudgeon judge {item}` gives its readings in words; for a face, "
            "name it under `faces:` and say `face:` at the characteristic."
        )


class NothingRead(InputError):
    """A bore without a reading that could be drawn."""

    def __init__(self, name: str, item: str) -> None:
        super().__init__(
            f"No picture is made of {name}: the book has no reading of it with both its ends. "
            f"Read it: gudgeon record reading {item}"
        )

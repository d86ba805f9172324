"""Cuts that no head has room for; one class per cause."""

from gudgeon.errors import InputError


class MoreThanTheHead(InputError):
    """A cut is asked about of which nothing of the engine would be left."""

    def __init__(self, asked: str, *, limit: str, source: str) -> None:
        super().__init__(f"{asked} cannot come off: {limit} ({source}). Ask about less, and check the unit.")

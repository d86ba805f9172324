"""What cannot be understood of what was said of a fit; one class per cause."""

from collections.abc import Iterable

from gudgeon.errors import InputError


def _named(names: Iterable[str]) -> str:
    return ", ".join(names) or "none"


class MarksUnreadable(InputError):
    """A text that does not say of which bearing the marks are."""

    def __init__(self, text: str, bearings: Iterable[str]) -> None:
        super().__init__(
            f"`{text}` does not say which bearing is meant. Write its key, a colon and a mark for each place, like "
            f"`main: A1 B2 A1`. The sheet has: {_named(bearings)}."
        )


class BearingUnknown(InputError):
    """A bearing that the sheet does not have."""

    def __init__(self, key: str, bearings: Iterable[str]) -> None:
        super().__init__(
            f"`{key}` is no bearing of the sheet's `fits`. It has: {_named(bearings)}. Write one of these keys."
        )


class MarksMiscounted(InputError):
    """More or fewer marks than the bearing has places."""

    def __init__(self, key: str, given: int, places: int) -> None:
        super().__init__(
            f"{key}: {given} marks are given, and the sheet has {places} places of it. "
            "Give one for each place, in the order of the sheet; `-` where one cannot be read."
        )


class MarkUnknown(InputError):
    """A mark that leads to no grade."""

    def __init__(self, key: str, mark: str, known: Iterable[str]) -> None:
        super().__init__(
            f"{key}: `{mark}` is no mark of the sheet. It has: {_named(known)}. "
            "Read it again with light and a cloth; `-` where it cannot be read."
        )


class NothingOfThatName(InputError):
    """A fit that the sheet does not have."""

    def __init__(self, what: str, known: Iterable[str]) -> None:
        super().__init__(f"`{what}` is no fit of the sheet. It has: {_named(known)}. Write one of these.")

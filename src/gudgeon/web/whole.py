"""A whole number as a form says it."""

MOST_SIGNS = 12
"""Nothing that is counted here has more; beyond some thousands no number is made of them at all."""


def whole(said: str) -> int | None:
    """The whole number that was written; nothing where it is none, or has more signs than anything that is counted.

    Example:
        >>> whole("40"), whole("4.5"), whole("9" * 5000)
        (40, None, None)
    """
    return int(said) if said.isdecimal() and len(said) <= MOST_SIGNS else None

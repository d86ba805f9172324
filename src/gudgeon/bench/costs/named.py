"""Whether the words of a cost name a part."""

import re

_NOT_A_NAME = frozenset(("", "and", "all", "the", "new", "with", "or"))


def names(text: str, *, part: str) -> bool:
    """Whether the words of a cost name a part: all the words of its name, or all of its kind at once.

    Example:
        >>> names("Water pump, belt and tensioner", part="Belt tensioner")
        True
        >>> names("Gaskets and seals for the top", part="Valve cover gasket")
        True
        >>> names("Head gasket", part="Valve cover gasket"), names("Head bolts", part="Crank pulley bolt")
        (False, False)
    """
    said = re.findall(r"\w+", text.casefold())
    wanted = re.findall(r"\w+", part.casefold())
    if not wanted:
        return False
    if {one.removesuffix("s") for one in wanted} <= {one.removesuffix("s") for one in said}:
        return True
    whole = f"{wanted[-1].removesuffix('s')}s"
    return any(one == whole and before in _NOT_A_NAME for before, one in zip(["", *said], said, strict=False))

"""Inputs that many calculators have."""

from gudgeon.calc.calculator import Parameter


def length(
    name: str, *, words: str, example: str, optional: bool = False, also: tuple[str, ...] = ()
) -> Parameter:
    """A length, in mm where it has no unit."""
    return Parameter(name, "length", "mm", words, optional=optional, example=example, also=also)


def volume(name: str, *, words: str, example: str, optional: bool = False) -> Parameter:
    """A volume, in cm³ where it has no unit."""
    return Parameter(name, "volume", "cm³", words, optional=optional, example=example)


def text(
    name: str, *, words: str, example: str, optional: bool = False, also: tuple[str, ...] = ()
) -> Parameter:
    """A text, read by the calculator itself."""
    return Parameter(name, None, None, words, optional=optional, example=example, also=also)

"""Values of a calculator's inputs, taken out with their types."""

from collections.abc import Mapping

from gudgeon.calc.calculator import Value
from gudgeon.calc.input_errors import InputNeeded, NotWhole


def figure(values: Mapping[str, Value], key: str) -> float:
    """A figure that is given."""
    value = values[key]
    if not isinstance(value, float):
        raise TypeError(key)  # the registration says text, the kernel wants a figure: a bug of ours
    return value


def maybe(values: Mapping[str, Value], key: str) -> float | None:
    """A figure that may be missing."""
    return None if values[key] is None else figure(values, key)


def text(values: Mapping[str, Value], key: str) -> str:
    """A text that is given."""
    value = values[key]
    if not isinstance(value, str):
        raise TypeError(key)
    return value


def needed(values: Mapping[str, Value], key: str, *, calculator: str, example: str) -> float:
    """A figure that this combination of inputs cannot do without."""
    value = maybe(values, key)
    if value is None:
        raise InputNeeded(key, calculator, example)
    return value


def count(values: Mapping[str, Value], key: str) -> int:
    """A whole number of at least one."""
    value = figure(values, key)
    if value < 1 or value != int(value):
        raise NotWhole(key, value)
    return int(value)

"""What can be wrong with the inputs of a calculator; one class per cause."""

import difflib
from collections.abc import Iterable

from gudgeon.errors import InputError


def _near(word: str, known: Iterable[str]) -> str:
    names = list(known)
    near = difflib.get_close_matches(word, names, n=1, cutoff=0.5)
    return f"Did you mean `{near[0]}`? " if near else ""


class UnknownCalculator(InputError):
    """No calculator of that name."""

    def __init__(self, name: str, known: Iterable[str]) -> None:
        names = list(known)
        super().__init__(f"`{name}` is no calculator. {_near(name, names)}There are: {', '.join(names)}.")


class UnknownInput(InputError):
    """An input that the calculator does not take."""

    def __init__(self, key: str, calculator: str, known: Iterable[str]) -> None:
        names = list(known)
        super().__init__(
            f"`{key}` is no input of {calculator}. {_near(key, names)}It takes: {', '.join(names)}."
        )


class InputNeeded(InputError):
    """A needed input is not given."""

    def __init__(self, missing: str, calculator: str, example: str) -> None:
        super().__init__(f"{calculator} needs {missing}, which is not given. Add it, like {example}.")


class GivenBoth(InputError):
    """Two inputs that say the same thing."""

    def __init__(self, first: str, second: str) -> None:
        super().__init__(f"{first} and {second} are both given, and each decides alone. Give one of them.")


class ChoiceUnknown(InputError):
    """A word that is not one of the choices."""

    def __init__(self, key: str, value: str, choices: Iterable[str]) -> None:
        super().__init__(f"{key}: `{value}` cannot be chosen. Write one of: {', '.join(choices)}.")


class InputRefused(InputError):
    """The figure given for an input cannot be read; the reason follows."""

    def __init__(self, key: str, reason: InputError) -> None:
        super().__init__(f"{key}: {reason.message}")


class BareNumber(InputError):
    """A number without a unit that makes no sense in the base unit."""

    def __init__(self, key: str, given: str, unit: str, between: tuple[float, float], example: str) -> None:
        super().__init__(
            f"{key}: `{given}` has no unit, and {given} {unit} is far from {between[0]:g} to {between[1]:g} {unit} "
            f"(order of size, by hand). Write it with its unit, like `{example}`."
        )


class NotWhole(InputError):
    """A count that is no whole number of at least one."""

    def __init__(self, key: str, value: float) -> None:
        super().__init__(f"{key}: {value:g} is no count. Write a whole number of at least 1.")


class KindsDiffer(InputError):
    """A conversion from one kind of quantity to another."""

    def __init__(self, frm: str, measures: str, to: str, wanted: str) -> None:
        super().__init__(
            f"`{frm}` is a unit of {measures}, `{to}` of {wanted}: one never becomes the other. "
            "Write a unit of the same kind."
        )


class UnitNowhereKnown(InputError):
    """A unit that no kind of quantity has."""

    def __init__(self, symbol: str, known: Iterable[str]) -> None:
        hint = _near(symbol, known)
        super().__init__(f"`{symbol}` is no known unit. {hint}Write it like mm, lbf·ft or kPa.")


class ItemUnreadable(InputError):
    """An item of a list with a figure too many, one too few, or one of another kind."""

    def __init__(self, item: str, kinds: Iterable[str]) -> None:
        super().__init__(
            f"`{item}` cannot be read: it takes {', '.join(kinds)}, each with its unit. "
            "Write the items apart with semicolons."
        )


class CommaBetween(InputError):
    """A comma in a list whose items stand apart by semicolons."""

    def __init__(self, written: str, kinds: Iterable[str]) -> None:
        what, example = (
            ("layers", "207 GPa x 20 mm; cast iron x 25 mm")
            if "stress" in kinds
            else ("segments", "60 mm x 9.5 mm; 15 mm thread")
        )
        super().__init__(
            f"`{written}`: `,` does not part {what}: write `{example}`. A decimal takes a point, like `9.5 mm`."
        )


class NameUnknown(InputError):
    """A word that is not on file."""

    def __init__(self, what: str, name: str, known: Iterable[str]) -> None:
        names = list(known)
        super().__init__(
            f"`{name}` is no {what} on file. {_near(name, names)}There are: {', '.join(names)}; or give the figure."
        )

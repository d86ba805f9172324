"""Why a figure, a unit or a kind is refused; one class per cause."""

import difflib
from collections.abc import Iterable, Sequence

from gudgeon.errors import InputError


def nearest(word: str, known: Iterable[str]) -> str:
    """A hint naming the nearest of the known words, or all of them."""
    names = list(known)
    folded = [name for name in names if name.casefold() == word.casefold()]
    near = folded or difflib.get_close_matches(word, names, n=1, cutoff=0.6)
    return f"Did you mean `{near[0]}`?" if near else f"Known: {', '.join(names)}."


class UnknownKind(InputError):
    """No such kind of quantity."""

    def __init__(self, name: str, known: Iterable[str]) -> None:
        super().__init__(f"`{name}` is no kind of quantity. {nearest(name, known)}")


class UnknownUnit(InputError):
    """The unit is not known at all."""

    def __init__(self, symbol: str, kind: str, known: Sequence[str]) -> None:
        super().__init__(
            f"`{_short(symbol)}` is not a known unit of {_words(kind)}. {nearest(symbol, known)}"
        )


class UnitMiswritten(InputError):
    """A spelling that means another unit, or none, where only one can be meant."""

    def __init__(self, symbol: str, kind: str, right: str) -> None:
        super().__init__(f"`{_short(symbol)}` is not how a unit of {_words(kind)} is written. Write {right}.")


class UnitOfAnotherKind(InputError):
    """The unit exists, and measures something else."""

    def __init__(self, symbol: str, measures: str, kind: str, known: Sequence[str]) -> None:
        super().__init__(
            f"`{_short(symbol)}` is a unit of {_words(measures)}, not of {_words(kind)}. "
            f"Write one of: {', '.join(known)}."
        )


class UnitAmbiguous(InputError):
    """The symbol stands for more than one unit."""

    def __init__(self, symbol: str, choices: Sequence[str]) -> None:
        super().__init__(f"`{_short(symbol)}` can mean {' or '.join(choices)}. Write which.")


class UnitMissing(InputError):
    """A figure without its unit."""

    def __init__(self, text: str, kind: str, known: Sequence[str]) -> None:
        super().__init__(
            f"`{_short(text)}` has no unit. Write it with one of: {', '.join(known)} ({_words(kind)})."
        )


class KindAmbiguous(InputError):
    """A unit that several kinds share, where the kind decides the answer."""

    def __init__(self, symbol: str, kinds: Sequence[str]) -> None:
        super().__init__(
            f"`{_short(symbol)}` serves several kinds of quantity: {', '.join(kinds)}. Say which with kind=…"
        )


class FigureBlank(InputError):
    """Nothing where a figure is wanted."""

    def __init__(self, kind: str) -> None:
        super().__init__(f"A figure was expected ({_words(kind)}), nothing was found. Write number and unit.")


class FigureUnreadable(InputError):
    """The text is no figure."""

    def __init__(self, text: str, kind: str) -> None:
        super().__init__(
            f"`{_short(text)}` cannot be read as a figure ({_words(kind)}). "
            "Write a number and its unit, like `0.05 mm`, `85–95°` or `40 N·m (29.5 lbf·ft)`."
        )


class FigureNotFinite(InputError):
    """NaN or infinity."""

    def __init__(self, text: str) -> None:
        super().__init__(f"`{_short(text)}` is not a finite number. Write the number that was read.")


class FigureBeyondReason(InputError):
    """So large or so small that it is no figure of an engine."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"`{_short(text)}` is beyond any figure of an engine. Check its digits and its exponent."
        )


class DecimalComma(InputError):
    """A comma where a decimal point belongs."""

    def __init__(self, text: str, with_point: str) -> None:
        super().__init__(f"`{_short(text)}` has a comma. Write the decimal with a point: {with_point}")


class CommaAmbiguous(InputError):
    """A comma that may be a decimal mark or part the thousands."""

    def __init__(self, text: str, as_decimal: str, as_thousands: str) -> None:
        super().__init__(f"`{_short(text)}` can mean {as_decimal} or {as_thousands}. Write one of the two.")


class DigitsParted(InputError):
    """Thousands parted by a mark."""

    def __init__(self, text: str, joined: str) -> None:
        super().__init__(f"`{_short(text)}` has its digits parted. Write them together: {joined}")


class RangeDownward(InputError):
    """The lower end stands second."""

    def __init__(self, text: str, low: str, high: str) -> None:
        super().__init__(
            f"`{_short(text)}` runs downward, from {low} to {high}. Write the smaller figure first."
        )


class ToleranceNegative(InputError):
    """A tolerance below nothing."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"`{_short(text)}` has a tolerance that is not above zero. Write it like `90° ± 5°`."
        )


class BoundsContradict(InputError):
    """The same figure as most and as least."""

    def __init__(self, text: str) -> None:
        super().__init__(f"`{_short(text)}` says at most and at least of one figure. Write one, or a range.")


class BoundOpen(InputError):
    """One end is not given, and the whole range was asked for."""

    def __init__(self, text: str, asked: str) -> None:
        super().__init__(
            f"`{_short(text)}` is open at one end and has no {asked}. Write a range where both ends count."
        )


class NotSingle(InputError):
    """A range where one value is needed."""

    def __init__(self, text: str) -> None:
        super().__init__(f"`{_short(text)}` is a range; one value is needed here. Write a single figure.")


def _words(kind: str) -> str:
    words = kind.replace("_", " ")
    return words.replace("pressure gauge", "gauge pressure").replace("pressure absolute", "absolute pressure")


def _short(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:57]}…"

"""The lines of an account as they are shown: each column of amounts with the decimals of its finest amount."""

from collections.abc import Iterable, Sequence
from decimal import Decimal

from gudgeon.bench.costs.amounts import digits, exact, percent, places_of, spent_words, three
from gudgeon.bench.costs.expected import Expected
from gudgeon.bench.costs.lines import Line
from gudgeon.bench.costs.model import POINT_WORDS, CostLine

KIND_WORDS = {
    "shop": "machine shop",
    "part": "parts",
    "tool": "tools",
    "supplies": "supplies",
    "other": "other",
}


def rows(own: Sequence[Line], currency: str) -> tuple[CostLine, ...]:
    """The lines as they are shown."""
    expected = places_of(_amounts(one.expected for one in own))
    agreed, spent = places_of(one.agreed for one in own), places_of(one.spent for one in own)
    counts = places_of([*(one.fixed for one in own), *_amounts(one.drawn for one in own)])

    def row(one: Line) -> CostLine:
        words = one.expected
        return CostLine(
            what=one.what,
            kind=KIND_WORDS[one.of],
            low=f"{words.low:,f}" if words is not None else "",
            likely=f"{words.likely:,f}" if words is not None else "",
            high=f"{words.high:,f}" if words is not None else "",
            chance=percent(float(words.chance)) if words is not None and words.chance != 1 else "",
            expected=words_of(words, places=expected) if words is not None else "",
            known=POINT_WORDS[words.due] if words is not None else "",
            basis=one.basis,
            state=one.state,
            agreed=exact(one.agreed, currency, places=agreed) if one.agreed is not None else "",
            spent=spent_words(one.spent, currency, places=spent) if one.spent is not None else "",
            counts=_counts(one, currency, counts),
            note="; ".join(one.notes),
        )

    return tuple(row(one) for one in own)


def _amounts(words: Iterable[Expected | None]) -> list[Decimal]:
    return [amount for one in words if one is not None for amount in (one.low, one.likely, one.high)]


def words_of(one: Expected, *, places: int = 0) -> str:
    """What is expected, and how likely it comes."""
    said = three(one, places=places)
    return said if one.chance == 1 else f"{said}, in {percent(float(one.chance))} of the cases"


def _counts(one: Line, currency: str, places: int) -> str:
    """What of a line is in the sum today: exact, or what is still uncertain."""
    drawn = one.drawn
    if drawn is None:
        return exact(one.fixed, currency, places=places)
    if drawn.certain:
        return exact(one.fixed + drawn.likely, currency, places=places)
    fixed = f"{exact(one.fixed, currency, places=places)} and " if one.fixed else ""
    high = exact(drawn.high, currency, places=places)
    span = f"{digits(drawn.low, places=places)} to {high}" if drawn.low != drawn.high else high
    return f"{fixed}{span}" + (
        f" in {percent(float(drawn.chance))} of the cases" if drawn.chance != 1 else ""
    )

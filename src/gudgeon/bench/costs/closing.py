"""The closing account: expected against spent, line by line, exact."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from gudgeon.bench.costs.amounts import CENTS, digits, exact, percent, places_of, spent_words
from gudgeon.bench.costs.ceiling import Limit
from gudgeon.bench.costs.lines import NOTHING, Line
from gudgeon.bench.costs.model import POINT_WORDS, Closing, ClosingLine
from gudgeon.bench.costs.said import Told


def closing(lines: Sequence[Line], *, currency: str, limit: Limit | None, told: Sequence[Told]) -> Closing:
    """The account of one currency at its end."""
    expected = sum((_weighed(one) for one in lines), NOTHING)
    spent = sum((one.spent or NOTHING for one in lines), NOTHING)
    columns = _columns(lines)
    return Closing(
        lines=tuple(_line(one, currency, columns) for one in lines),
        expected=exact(expected, currency, places=columns.expected),
        spent=spent_words(spent, currency, places=columns.spent),
        difference=_signed(spent - expected, currency, columns.difference),
        said=(
            *_against_told(told, spent, currency),
            *_against_limit(limit, spent),
            *_unpaid(lines, currency),
        ),
    )


@dataclass(frozen=True, slots=True)
class _Columns:
    """How many decimals each column has."""

    expected: int
    spent: int

    @property
    def difference(self) -> int:
        return max(self.expected, self.spent)


def _columns(lines: Sequence[Line]) -> _Columns:
    return _Columns(places_of(_weighed(one) for one in lines), places_of(one.spent for one in lines))


def _weighed(one: Line) -> Decimal:
    """What was expected of a line as a rule, weighed with its chance, to the cent; else what was agreed or asked."""
    if one.state == "declined":
        return NOTHING
    if one.expected is not None:
        if one.expected.chance == 1:
            return one.expected.likely
        finest = Decimal(1).scaleb(-max(CENTS, places_of([one.expected.likely])))
        return (one.expected.likely * one.expected.chance).quantize(finest, ROUND_HALF_UP).normalize()
    if one.agreed is not None:
        return one.agreed
    return one.fixed if one.spent is None else NOTHING


def _line(one: Line, currency: str, columns: _Columns) -> ClosingLine:
    weighed, spent = _weighed(one), one.spent or NOTHING
    note = ""
    if one.expected is not None and one.expected.chance != 1 and one.state != "declined":
        chance = percent(float(one.expected.chance))
        came = "it came" if one.spent is not None else "it did not come, or nobody wrote down what it cost"
        note = f"{exact(one.expected.likely, currency)} in {chance} of the cases; {came}"
    elif one.spent is None and one.state != "declined":
        note = "nothing was written down as spent"
    return ClosingLine(
        what=one.what,
        expected=exact(weighed, currency, places=columns.expected)
        if weighed or one.expected is not None
        else "",
        spent=spent_words(spent, currency, places=columns.spent) if one.spent is not None else "",
        difference=_signed(spent - weighed, currency, columns.difference),
        note="; ".join(filter(None, [note, *one.notes])),
    )


def _signed(amount: Decimal, currency: str, places: int) -> str:
    return f"{'+' if amount > 0 else ''}{exact(amount, currency, places=places)}"


def _against_told(told: Sequence[Told], spent: Decimal, currency: str) -> list[str]:
    if not told:
        return []
    first = told[0]
    verdict = "below" if spent < first.low else "above" if spent > first.high else "inside"
    places = places_of([first.low, first.high])
    high = exact(first.high, currency, places=places)
    span = f"{digits(first.low, places=places)} to {high}" if first.low != first.high else high
    return [f"The first range told, {POINT_WORDS[first.at]}, was {span}: what was spent is {verdict} it."]


def _against_limit(limit: Limit | None, spent: Decimal) -> list[str]:
    if limit is None:
        return []
    left, currency = limit.amount - spent, limit.ceiling.currency
    most = exact(limit.amount, currency)
    if left < 0:
        return [f"That is {exact(-left, currency)} above the ceiling of {most}."]
    return [f"That is within the ceiling of {most}, with {exact(left, currency)} left."]


def _unpaid(lines: Sequence[Line], currency: str) -> list[str]:
    owed = [f"{one.what}, {exact(one.owed, currency)}" for one in lines if one.owed > 0]
    return [f"Agreed, and by the book not paid: {'; '.join(owed)}."] if owed else []

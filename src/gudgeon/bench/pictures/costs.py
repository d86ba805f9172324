"""The estimate of one account as a picture: the range at each stop point and today, the ceiling, what is spent."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.bench.costs.amounts import told
from gudgeon.bench.costs.model import POINT_WORDS, Account, Costs, Range
from gudgeon.errors import InputError


class NoCostsToDraw(InputError):
    """A build of which nothing is known that costs money."""

    def __init__(self, currency: str, known: Sequence[str]) -> None:
        there = f"There is an account in: {', '.join(known)}." if known else (
            "Nothing was written down that costs money: begin with what something will cost."
        )  # fmt: skip
        super().__init__(
            f"No picture of costs{f' in `{currency}`' if currency else ''} can be drawn. {there}"
        )


@dataclass(frozen=True, slots=True)
class CostBar:
    """The range at one point: amounts and words; `told` the ends of what was told to the owner then, if anything."""

    name: str
    low: float
    middle: float
    high: float
    words: str
    today: bool


@dataclass(frozen=True, slots=True)
class CostPicture:
    """One account on one scale of money; no ceiling where none was agreed."""

    title: str
    bars: tuple[CostBar, ...]
    spent: float
    spent_words: str
    ceiling: float | None
    ceiling_words: str
    most: float
    most_words: str
    words: str


def costs_picture(answer: Costs, *, currency: str = "") -> CostPicture:
    """The picture of the account in a currency, else of the first; refused where there is none."""
    known = [one.currency for one in answer.accounts]
    chosen = [one for one in answer.accounts if one.currency == (currency or known[0])] if known else []
    if not chosen:
        raise NoCostsToDraw(currency, known)
    return _picture(chosen[0])


def _picture(account: Account) -> CostPicture:
    bars = [_bar(POINT_WORDS[one.at], one.range) for one in account.points if one.range is not None]
    bars.append(_bar("today", account.today, today=True))
    ceiling = account.ceiling
    most = _round_up(
        max(*(one.high for one in bars), account.spent_number, ceiling.limit_number if ceiling else 0.0, 1.0)
    )
    said = f"ceiling {ceiling.limit}" if ceiling is not None else ""
    return CostPicture(
        title=f"What it will cost, in {account.currency}",
        bars=tuple(bars),
        spent=account.spent_number,
        spent_words=account.spent if account.spent_number < 0 else f"spent {account.spent}",
        ceiling=ceiling.limit_number if ceiling is not None else None,
        ceiling_words=said,
        most=most,
        most_words=f"{most:,.0f} {account.currency}",
        words=_words(bars, said, account.spent),
    )


def _bar(name: str, of: Range, *, today: bool = False) -> CostBar:
    middle = f", middle {told(of)[1]}" if of.low != of.high else ""
    return CostBar(name, of.low, of.middle, of.high, f"{of.words}{middle}", today)


def _round_up(amount: float) -> float:
    """The next of 1, 1.5, 2, 3, 4, 5, 6, 8, 10 times a power of ten: where the scale ends."""
    power = 1.0
    while 10 * power < amount:
        power *= 10
    return next(
        (step * power for step in (1, 1.5, 2, 3, 4, 5, 6, 8, 10) if step * power >= amount), 10 * power
    )


def _words(bars: Sequence[CostBar], ceiling: str, spent: str) -> str:
    said = [f"{one.name}: {one.words}" for one in bars]
    return (
        ". ".join(filter(None, ["; ".join(said), ceiling[:1].upper() + ceiling[1:], f"Spent so far {spent}"]))
        + "."
    )

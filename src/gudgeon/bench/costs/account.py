"""One account: everything in one currency, from what was expected at the start to the closing account."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal

from gudgeon.bench.costs import ceiling as limits
from gudgeon.bench.costs.amounts import digits, exact, places_of, spent_words
from gudgeon.bench.costs.amounts import told as told_amounts
from gudgeon.bench.costs.beyond import beyond
from gudgeon.bench.costs.changes import changes, in_currency
from gudgeon.bench.costs.closing import closing
from gudgeon.bench.costs.expected import known_at
from gudgeon.bench.costs.facts import Facts
from gudgeon.bench.costs.lines import NOTHING, Line, lines
from gudgeon.bench.costs.model import POINT_WORDS, POINTS, Account, PointLine, Range
from gudgeon.bench.costs.ranges import Total, total
from gudgeon.bench.costs.rows import rows
from gudgeon.bench.costs.said import Ceiling, Told
from gudgeon.bench.costs.where import Where
from gudgeon.bench.reason import when

KINDS = ("shop", "part", "tool", "supplies", "other")


@dataclass(frozen=True, slots=True)
class Asked:
    """What an account is made from; `main` is whether it is the first of several."""

    found: Facts
    currency: str
    told: tuple[Told, ...]
    ceilings: tuple[Ceiling, ...]
    where: Where
    first: str
    main: bool
    closed: bool


def account(asked: Asked) -> Account:
    """The account of one currency as the book stands now."""
    found, currency = asked.found, asked.currency
    own = tuple(sorted(lines(found, currency), key=lambda one: KINDS.index(one.of)))
    told = tuple(one for one in asked.told if one.currency == currency)
    counted = [_at_the_end(one) for one in own] if asked.where.handed_over else own
    fixed, drawn = sum((one.fixed for one in counted), NOTHING), [one.drawn for one in counted if one.drawn]
    today = total(fixed, drawn, first=asked.first)
    spent = sum((one.spent or NOTHING for one in own), NOTHING)
    agreed = sum((one.owed for one in own), NOTHING)
    limit = limits.limit_of(found, asked.ceilings, currency)
    in_all = today.range(currency)
    to_come = Total(today.fixed - spent, today.drawn)
    finished = to_come.drawn is None and to_come.fixed == 0
    over = limits.over(limit, total=today, spent=spent, today=in_all) if limit is not None else ""
    return Account(
        currency=currency,
        said=_said(today, spent, currency, finished=finished),
        lines=rows(counted, currency),
        points=_points(asked, told),
        today=in_all,
        spent=spent_words(spent, currency),
        spent_number=float(spent),
        agreed=exact(agreed, currency) if agreed > 0 else "",
        to_come=None if finished else _to_come(to_come, currency),
        ceiling=limits.ceiling_line(limit, today, asked.where) if limit is not None else None,
        over=over,
        unapproved=beyond(found, own, limit.ceiling) if limit is not None and over else (),
        changes=changes(
            found, own, points=[one for one in POINTS if asked.where.passed(one)], currency=currency
        ),
        approvals=limits.approval_lines(found, own, currency, limit=limit, main=asked.main),
        remarks=tuple(_remarks(own, told, min(in_all.high, today.high()), currency)),
        closing=closing(own, currency=currency, limit=limit, told=told) if asked.closed else None,
    )


def _at_the_end(one: Line) -> Line:
    """What of a line still counts once the engine is handed over: what was only expected, or asked, did not come."""
    binding = one.state == "spent" or (one.state == "agreed" and one.drawn is None)
    fixed = one.fixed - one.to_order if binding else one.spent or NOTHING
    return replace(one, fixed=fixed, to_order=NOTHING, drawn=None)


def _said(today: Total, spent: Decimal, currency: str, *, finished: bool) -> str:
    if finished:
        return f"{_paid(spent, currency)}, and nothing more is expected."
    paid = (
        f"{exact(spent, currency)} of it is spent." if spent > 0 else f"{_paid(spent, currency, yet=' yet')}."
    )
    if today.drawn is None:
        if today.fixed < 0:
            return f"In the end {exact(-today.fixed, currency)} more comes back than is spent. {paid}"
        return f"It comes to {exact(today.fixed, currency)}. {paid}"
    in_all = today.range(currency)
    low, middle, high = told_amounts(in_all)
    if low == high:
        comes = f"comes to {in_all.words}" if in_all.high else "costs nothing"
        return f"In eight of ten cases it {comes}; what may come by chance is on top of that. {paid}"
    range_ = f"between {low} and {high} {currency}, as often above as below {middle}"
    return f"In eight of ten cases it ends {range_}. {paid}"


def _to_come(of: Total, currency: str) -> Range:
    found = of.range(currency)
    return found if found.high else replace(found, words=f"{found.words} in eight of ten cases")


def _paid(spent: Decimal, currency: str, *, yet: str = "") -> str:
    if spent < 0:
        return f"{exact(-spent, currency)} more came back than was spent"
    return f"{exact(spent, currency)} is spent" if spent else f"Nothing is spent{yet}"


def _points(asked: Asked, told: Sequence[Told]) -> tuple[PointLine, ...]:
    """The range at each stop point that is passed, from what was known then, with what was told."""
    made = []
    for point in POINTS:
        known = in_currency(known_at(asked.found.words, point), asked.currency)
        reached = asked.where.passed(point)
        range_ = total(NOTHING, known.values(), first=asked.first).range(asked.currency)
        made.append(
            PointLine(
                point, POINT_WORDS[point], reached, range_ if reached and known else None,
                tuple(_told(one) for one in told if one.at == point),
            )
        )  # fmt: skip
    return tuple(made)


def _told(one: Told) -> str:
    note = f" ({one.note})" if one.note else ""
    day = when(datetime.fromisoformat(one.time))
    places = places_of([one.low, one.middle, one.high])
    said = exact(one.high, one.currency, places=places)
    if one.low != one.high:
        middle = digits(one.middle, places=places)
        said = f"{digits(one.low, places=places)} to {said}, middle {middle}"
    return f"{said}, told to {one.to} on {day}{note}"


def _remarks(own: Sequence[Line], told: Sequence[Told], high: float, currency: str) -> list[str]:
    """What has to be said of the account as a whole; in one case of ten it ends above `high`."""
    said = []
    if told and high > float(told[-1].high):
        last = told[-1]
        said.append(
            f"{last.to} was told {POINT_WORDS[last.at]} that in nine of ten cases it ends under "
            f"{exact(last.high, currency)}. That no longer holds: tell it anew."
        )
    if own and not told:
        said.append("No range is written down as told to the owner.")
    return said

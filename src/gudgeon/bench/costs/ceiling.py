"""The most that the job may cost: what was agreed, what was approved on top of it, and whether it is kept."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from gudgeon.bench.costs.amounts import exact, percent, told
from gudgeon.bench.costs.facts import Facts
from gudgeon.bench.costs.lines import NOTHING, Line, came_to
from gudgeon.bench.costs.model import POINT_WORDS, ApprovalLine, CeilingLine, Range
from gudgeon.bench.costs.ranges import UNLIKELY, Total
from gudgeon.bench.costs.said import Approval, Ceiling
from gudgeon.bench.costs.where import Where
from gudgeon.bench.reason import when


@dataclass(frozen=True, slots=True)
class Limit:
    """A ceiling with the approvals that raise it."""

    ceiling: Ceiling
    raised_by: tuple[Approval, ...]

    @property
    def amount(self) -> Decimal:
        """The ceiling, and what was approved on top of it."""
        return self.ceiling.amount + sum((one.amount or NOTHING for one in self.raised_by), NOTHING)


def limit_of(found: Facts, ceilings: Sequence[Ceiling], currency: str) -> Limit | None:
    """The ceiling that was agreed last, and the yeses since then to what nobody knew of when it was."""
    own = [one for one in ceilings if one.currency == currency]
    if not own:
        return None
    last = own[-1]
    return Limit(
        last,
        tuple(one for one in found.approved.values() if raises(found, one, last) and one.amount is not None),
    )


def raises(found: Facts, approval: Approval, ceiling: Ceiling) -> bool:
    """Whether a yes raises a ceiling: it came after it, and its thing was in no estimate when that was agreed."""
    known = any(one.key == approval.key and one.order < ceiling.order for one in found.words)
    return (
        approval.answer == "yes"
        and approval.currency == ceiling.currency
        and approval.order > ceiling.order
        and not known
    )


def ceiling_line(limit: Limit, total: Total, where: Where) -> CeilingLine:
    """The ceiling in words."""
    ceiling, share = limit.ceiling, total.within(limit.amount)
    until = ""
    if ceiling.until != "closing":
        until = f"agreed until the job stands {POINT_WORDS[ceiling.until]}"
        if ceiling.until != "start" and where.passed(ceiling.until):
            until += (
                f", and there it stands: speak of it with {ceiling.by} again, and write down what is agreed"
            )
    return CeilingLine(
        agreed=exact(ceiling.amount, ceiling.currency),
        limit=exact(limit.amount, ceiling.currency),
        limit_number=float(limit.amount),
        by=ceiling.by,
        when=when(datetime.fromisoformat(ceiling.time)),
        until=until,
        note=ceiling.note,
        within=_within(total, share),
        chance_within=share,
    )


def _within(total: Total, share: float) -> str:
    if total.drawn is None:
        return "it ends within it" if share else "it ends above it"
    return f"{percent(share)} of the cases stay within it"


def over(limit: Limit, *, total: Total, spent: Decimal, today: Range) -> str:
    """The warning where more is spent than may be, or where that is likely; nothing where neither is so."""
    ceiling, most = limit.ceiling, exact(limit.amount, limit.ceiling.currency)
    if spent > limit.amount:
        return (
            f"{exact(spent, ceiling.currency)} is spent, {exact(spent - limit.amount, ceiling.currency)} more than the "
            f"{most} that {ceiling.by} agreed to. Ask before anything else is spent, and write down what is agreed."
        )
    share = 1 - total.within(limit.amount)
    if share <= UNLIKELY:
        return ""
    if total.drawn is None:
        more = exact(total.fixed - limit.amount, ceiling.currency)
        return f"Ask before you go on: it ends {more} above the {most} that {ceiling.by} agreed to."
    return (
        f"Ask before you go on: in {percent(share)} of the cases it ends above the {most} that {ceiling.by} agreed "
        f"to{_tail(today, limit)}."
    )


def _tail(today: Range, limit: Limit) -> str:
    """How far above; nothing where the rounded figure would not lie above the ceiling."""
    if today.high <= limit.amount:
        return ""
    return f", in one case of ten above {told(today)[2]} {limit.ceiling.currency}"


def approval_lines(
    found: Facts, lines: Sequence[Line], currency: str, *, limit: Limit | None, main: bool
) -> tuple[ApprovalLine, ...]:
    """Every yes and no of an account; one without an amount stands with its thing, else in the first account."""
    own = [one for one in found.said if _belongs(found, one, currency, main)]
    counts = {one.key: one for one in lines}

    def row(one: Approval) -> ApprovalLine:
        return ApprovalLine(
            what=one.what,
            answer=one.answer,
            by=one.by,
            when=when(datetime.fromisoformat(one.time)),
            amount=exact(one.amount, one.currency) if one.amount is not None else "",
            effect=_effect(found, one, limit=limit, line=counts.get(one.key), currency=currency),
            note=one.note,
        )

    return tuple(row(one) for one in own)


def _belongs(found: Facts, approval: Approval, currency: str, main: bool) -> bool:
    if approval.currency:
        return approval.currency == currency
    expected = found.today.get(approval.key)
    return expected.currency == currency if expected is not None else main


def _effect(
    found: Facts, approval: Approval, *, limit: Limit | None, line: Line | None, currency: str
) -> str:
    if found.approved[approval.key] is not approval:
        return "overtaken by a later word"
    if approval.answer == "no":
        return _declined(line, currency)
    if limit is None:
        return "no ceiling was agreed"
    if approval.amount is None:
        return "without an amount, so the ceiling stays as it is"
    if raises(found, approval, limit.ceiling):
        return f"raises the ceiling by {exact(approval.amount, approval.currency)}"
    if approval.order < limit.ceiling.order:
        return "before the ceiling was agreed"
    return "in the estimate already when the ceiling was agreed, so the ceiling stays as it is"


def _declined(line: Line | None, currency: str) -> str:
    """What a no does: it takes a thing out of the sum, but for what was spent or ordered of it all the same."""
    if line is None or not line.fixed:
        return "not in the sum"
    return f"in the sum is {came_to(line, currency, verb='ordered')} all the same"

"""What lies beyond what was agreed: found, dearer or paid since, and nobody has said yes to it at that amount."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from gudgeon.bench.costs.amounts import digits, exact, three
from gudgeon.bench.costs.facts import Facts
from gudgeon.bench.costs.lines import Line, came_to
from gudgeon.bench.costs.said import Approval, Ceiling


@dataclass(frozen=True, slots=True)
class _Agreed:
    """Up to what a thing is agreed, as an estimate and once it is settled, since which entry, and in which words."""

    likely: Decimal
    most: Decimal
    words: str


def beyond(found: Facts, lines: Sequence[Line], ceiling: Ceiling) -> tuple[str, ...]:
    """Everything beyond the ceiling's estimate and the yeses since, each with what is agreed of it."""
    said = (_beyond(found, line, ceiling) for line in lines if line.state != "declined")
    return tuple(text for text in said if text)


def _beyond(found: Facts, line: Line, ceiling: Ceiling) -> str:
    answer = found.approved.get(line.key)
    # What was answered before the ceiling was agreed went into it.
    answer = answer if answer is not None and answer.order > ceiling.order else None
    since = answer.order if answer is not None else ceiling.order
    agreed = _agreed(found, line, answer, since, ceiling)
    settled = [found.numbers[one] for one in _entries(found, line)]
    if line.drawn is None and settled:
        if answer is not None and answer.answer == "no":
            return f"{line.what}: {_settled(line, ceiling)}, and {answer.by} said no"
        if max(settled) < since or (agreed is None and (answer is not None or min(settled) < since)):
            return ""
        if agreed is None:
            return f"{line.what}: new, {_settled(line, ceiling)}"
        return f"{line.what}: {_settled(line, ceiling)}; {agreed.words}" if line.fixed > agreed.most else ""
    if line.expected is None or line.expected.order < since:
        return ""
    if agreed is None:
        return f"{line.what}: new, {three(line.expected)}" if answer is None else ""
    return (
        f"{line.what}: {three(line.expected)}; {agreed.words}" if line.expected.likely > agreed.likely else ""
    )


def _agreed(
    found: Facts, line: Line, answer: Approval | None, since: int, ceiling: Ceiling
) -> _Agreed | None:
    """What was said yes to with an amount, else what was expected when the ceiling was agreed or the yes was said."""
    if answer is not None and answer.amount is not None and answer.currency == ceiling.currency:
        words = f"approved by {answer.by}: {exact(answer.amount, answer.currency)}"
        return _Agreed(answer.amount, answer.amount, words)
    before = [one for one in found.words if one.key == line.key and one.order < since]
    if not before or before[-1].currency != ceiling.currency:
        return None
    at = f"when {answer.by} said yes" if answer is not None else "when the ceiling was agreed"
    return _Agreed(before[-1].likely, before[-1].high, f"as a rule {digits(before[-1].likely)} {at}")


def _entries(found: Facts, line: Line) -> list[str]:
    """The entries that settle what a thing costs: its orders and its payments."""
    paid = [one.entry for one in found.payments.get(line.key, ()) if one.way == "spent"]
    return [*(one.entry for one in found.orders.get(line.key, ())), *paid]


def _settled(line: Line, ceiling: Ceiling) -> str:
    return came_to(line, ceiling.currency, verb="ordered")

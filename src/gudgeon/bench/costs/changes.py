"""What changed the estimate: from one stop point to the next, and to today, line by line, in words."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from gudgeon.bench.costs.expected import Expected, known_at
from gudgeon.bench.costs.facts import Facts
from gudgeon.bench.costs.lines import Line, came_to
from gudgeon.bench.costs.model import POINT_WORDS, Change
from gudgeon.bench.costs.rows import words_of

Known = Mapping[str, Expected]


def changes(
    found: Facts, lines: Sequence[Line], *, points: Sequence[str], currency: str
) -> tuple[Change, ...]:
    """Everything that became known, dearer, cheaper, or was settled, at the point at which it did."""
    told: list[Change] = []
    before: Known | None = None
    for point in points:
        now = in_currency(known_at(found.words, point), currency)
        if before is not None:
            told += [Change(POINT_WORDS[point], one) for one in _between(before, now)]
        before = now
    last = before or {}
    told += [Change(POINT_WORDS["today"], one) for one in _since(found, last, lines, currency)]
    return tuple(told)


def in_currency(known: Known, currency: str) -> Known:
    """What is expected in one currency and more than nothing."""
    return {key: one for key, one in known.items() if one.currency == currency and not one.nothing}


def _between(before: Known, now: Known) -> Iterator[str]:
    for key, one in now.items():
        if key not in before:
            yield f"{one.what}: new, {words_of(one)}"
        elif _differs(before[key], one):
            yield f"{one.what}: {words_of(one)}; before that {words_of(before[key])}"
    for key, one in before.items():
        if key not in now:
            yield f"{one.what}: no longer expected; before that {words_of(one)}"


def _differs(one: Expected, other: Expected) -> bool:
    return (one.low, one.likely, one.high, one.chance) != (other.low, other.likely, other.high, other.chance)


def _since(found: Facts, before: Known, lines: Sequence[Line], currency: str) -> Iterator[str]:
    """What turned out otherwise since the last stop point, and what came on top; what came as expected is no change."""
    for line in lines:
        then = before.get(line.key)
        if line.drawn is not None and then is not None:
            continue
        if line.state == "declined":
            yield f"{line.what}: declined" + (f"; expected were {words_of(then)}" if then is not None else "")
        elif line.state == "spent" or line.drawn is None:
            if then is not None and then.low <= line.fixed <= then.high and then.chance == 1:
                continue
            verb = {"spent": "spent", "agreed": "agreed"}.get(line.state, "asked for it")
            verb = "by the price that is known" if line.key in found.at_price and verb == "agreed" else verb
            came = came_to(line, currency, verb=verb)
            yield f"{line.what}: {came}, {_against(line.fixed, then)}"
        elif then is None and line.drawn is not None:
            yield f"{line.what}: new, {words_of(line.drawn)}"


def _against(amount: Decimal, then: Expected | None) -> str:
    if then is None:
        return "not expected before"
    verdict = "as expected" if then.low <= amount <= then.high else "less" if amount < then.low else "more"
    return f"{verdict}{'' if verdict == 'as expected' else ' than expected'} ({words_of(then)})"

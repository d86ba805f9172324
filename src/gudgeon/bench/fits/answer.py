"""The answer to “What fits where?”, and how its figures are put into words."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.judging.decision import Value, decide
from gudgeon.bench.judging.finding import plus_minus
from gudgeon.quantity.format import known_between

INSIDE, DOUBT, OUTSIDE, NOT_MEASURED = "inside", "in doubt", "outside", "not measured"
VERDICTS = (INSIDE, DOUBT, OUTSIDE, NOT_MEASURED)

Limits = tuple[float | None, float | None]
"""The least and the most of what is wanted, in the base unit; None where that end is open."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One place: what was found there, what is fitted, what results, and what it is without any change."""

    place: str
    found: str
    fitted: str
    result: str
    uncertainty: str
    verdict: str
    before: str = ""
    verdict_before: str = ""
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Fit:
    """One fit that is chosen: its places, what was improved, what is lacking, what to mind."""

    key: str
    kind: str
    name: str
    wanted: str
    source: str
    choices: tuple[Choice, ...]
    counts: dict[str, int]
    improved: str
    steps: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FitsAnswer:
    """Every fit of the sheet that is chosen part by part."""

    heading: Heading
    fits: tuple[Fit, ...]
    missing: tuple[str, ...]
    basis: str


def verdict_of(value: Value | None, limits: Limits) -> str:
    """What a value proves of its limits."""
    if value is None or limits == (None, None):
        return NOT_MEASURED
    return decide(value, low=limits[0], high=limits[1]).verdict


def counted(choices: Sequence[Choice]) -> dict[str, int]:
    """How many places there are of each verdict, the good ones first."""
    found = Counter(one.verdict for one in choices)
    return {verdict: found[verdict] for verdict in VERDICTS if found[verdict]}


def gap_words(value: Value) -> str:
    """A clearance or a gap in both systems of units."""
    return known_between(value.low, high=value.high, kind="length_difference", decimals=3)


def off_by(value: Value) -> str:
    """Twice the standard uncertainty; nothing where that of a gauge is not known."""
    return plus_minus(value.u, kind="length_difference") if value.known and value.u > 0 else ""


def middle_of(value: Value) -> float | None:
    """The middle of what is known of a value, where both ends are."""
    return (value.low + value.high) / 2 if math.isfinite(value.low + value.high) else None


def numbered(count: int, one: str, *, many: str) -> str:
    """`1 place` or `3 places`."""
    return f"{count} {one if count == 1 else many}"


def compared(choices: Sequence[Choice], *, without: str) -> str:
    """What the choice improved against doing without it: how many are inside, before and after."""
    before = [one.verdict_before for one in choices]
    if not choices or not all(before):
        return ""
    now, then = (sum(one == INSIDE for one in said) for said in ([one.verdict for one in choices], before))
    total = len(choices)
    if now == then:
        return f"{now} of {total} inside, as many as {without}"
    return f"{now} of {total} inside; {without} {then}"

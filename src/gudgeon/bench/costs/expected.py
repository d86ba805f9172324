"""What was expected at each stop point: every word that was said of a cost, and the one that counted then."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.costs.model import POINTS
from gudgeon.bench.part_keys import key_of as part_key_of


@dataclass(frozen=True, slots=True)
class Expected:
    """One word of what something costs; `order` is the number of its entry."""

    key: str
    what: str
    of: str
    low: Decimal
    likely: Decimal
    high: Decimal
    currency: str
    chance: Decimal
    due: str
    basis: str
    order: int
    time: str = field(compare=False, default="")

    @property
    def nothing(self) -> bool:
        """Whether it was taken away again: it is expected to cost nothing."""
        return self.high == 0

    @property
    def certain(self) -> bool:
        """Whether it is one amount that comes for sure."""
        return self.low == self.high and self.chance == 1


def key_of(bench: Bench, what: str) -> str:
    """Under what a thing is found again, however it was written: a part by its key, else its words."""
    return part_key_of(bench.sheet, what)


def every_word(bench: Bench) -> tuple[Expected, ...]:
    """Everything that was said of costs and not struck, in order."""
    gone = bench.state.struck
    return tuple(
        Expected(
            key_of(bench, body["what"]), body["what"], body["of"], Decimal(body["low"]), Decimal(body["likely"]),
            Decimal(body["high"]), body["currency"], Decimal(body["chance"]), body["due"], body["basis"],
            entry.number, entry.device_time,
        )
        for entry in entries_of(bench)
        if entry.kind == "cost-expected" and entry.id not in gone
        for body in (entry.body,)
    )  # fmt: skip


def known_at(words: Iterable[Expected], point: str) -> Mapping[str, Expected]:
    """By its key, the latest word on each thing that was known at a stop point; of today every one is."""
    last = POINTS.index(point) if point in POINTS else len(POINTS)
    found: dict[str, Expected] = {}
    for one in words:
        if POINTS.index(one.due) <= last:
            found[one.key] = one
    return found

"""What was said about money besides what is expected: ceilings, approvals, ranges told, each with its place."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.costs.expected import key_of
from gudgeon.book.entries import Entry


@dataclass(frozen=True, slots=True)
class Ceiling:
    """The most that it may cost, as agreed."""

    amount: Decimal
    currency: str
    by: str
    until: str
    note: str
    time: str
    order: int


@dataclass(frozen=True, slots=True)
class Approval:
    """A yes or a no of a named person; no amount where none was said."""

    key: str
    what: str
    answer: str
    by: str
    amount: Decimal | None
    currency: str
    note: str
    time: str
    order: int


@dataclass(frozen=True, slots=True)
class Told:
    """A range that was told to the owner."""

    at: str
    low: Decimal
    middle: Decimal
    high: Decimal
    currency: str
    to: str
    note: str
    time: str


def ceilings(bench: Bench) -> tuple[Ceiling, ...]:
    """Every ceiling that was agreed, in order."""
    return tuple(
        Ceiling(
            Decimal(one.body["amount"]), one.body["currency"], one.body["by"], one.body["until"], one.body["note"],
            one.device_time, one.number,
        )
        for one in _standing(bench, "ceiling-agreed")
    )  # fmt: skip


def approvals(bench: Bench) -> tuple[Approval, ...]:
    """Every yes and no, in order."""
    return tuple(
        Approval(
            key_of(bench, one.body["what"]), one.body["what"], one.body["answer"], one.body["by"],
            Decimal(one.body["amount"]) if one.body["amount"] else None, one.body["currency"] or "",
            one.body["note"], one.device_time, one.number,
        )
        for one in _standing(bench, "approval")
    )  # fmt: skip


def told(bench: Bench) -> tuple[Told, ...]:
    """Every range that was told, in order."""
    return tuple(
        Told(
            one.body["at"], Decimal(one.body["low"]), Decimal(one.body["middle"]), Decimal(one.body["high"]),
            one.body["currency"], one.body["to"], one.body["note"], one.device_time,
        )
        for one in _standing(bench, "estimate-told")
    )  # fmt: skip


def _standing(bench: Bench, kind: str) -> Iterator[Entry]:
    gone = bench.state.struck
    return (one for one in entries_of(bench) if one.kind == kind and one.id not in gone)

"""How each place of a characteristic is judged, for a picture that has room for one word at each."""

from collections.abc import Iterable, Mapping

from gudgeon.bench.good import Row

GRAVEST = ("outside", "in doubt", "not measured", "inside", "no limit given")
"""Where a place is judged by several limits, the picture shows the gravest word."""


def gravest(rows: Iterable[Row], place: str) -> Row | None:
    """The row that says the gravest of a place: one of its own, else one of a verdict that it goes into."""
    every = tuple(rows)
    found = [row for row in every if row.place == place] or [row for row in every if place in row.covers]
    return min(found, key=lambda row: _grave(row.verdict), default=None)


def verdict_of(rows: Iterable[Row], place: str, *, read: bool) -> str:
    """The verdict of a place: where no row speaks of it, it was not read or has no limit."""
    row = gravest(rows, place)
    if row is not None:
        return row.verdict
    return "no limit given" if read else "not measured"


def _grave(verdict: str) -> int:
    return GRAVEST.index(verdict) if verdict in GRAVEST else len(GRAVEST)


def counted(verdicts: Iterable[str]) -> str:
    """How many of which: `2 outside, 4 inside`."""
    counts: dict[str, int] = {}
    for one in verdicts:
        counts[one] = counts.get(one, 0) + 1
    return ", ".join(f"{counts[word]} {word}" for word in ordered(counts))


def ordered(counts: Mapping[str, int]) -> list[str]:
    """The words of a count, the gravest first."""
    return sorted(counts, key=_grave)

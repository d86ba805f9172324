"""How each place of a characteristic is judged, for a picture that has room for one word at each."""

from collections.abc import Iterable, Mapping

from gudgeon.bench.good import Row

GRAVEST = ("outside", "in doubt", "not measured", "inside", "no limit given")
"""Where a place is judged by several limits, the picture shows the gravest word."""


def verdict_of(rows: Iterable[Row], place: str) -> str:
    """The verdict of a place; what no row names has not been measured."""
    said = {row.verdict for row in rows if row.place == place}
    return next((word for word in GRAVEST if word in said), "not measured")


def counted(verdicts: Iterable[str]) -> str:
    """How many of which: `2 outside, 4 inside`."""
    counts: dict[str, int] = {}
    for one in verdicts:
        counts[one] = counts.get(one, 0) + 1
    return ", ".join(f"{counts[word]} {word}" for word in ordered(counts))


def ordered(counts: Mapping[str, int]) -> list[str]:
    """The words of a count, the gravest first."""
    return sorted(counts, key=lambda word: GRAVEST.index(word) if word in GRAVEST else len(GRAVEST))

"""How wide the columns of a table are: wide enough for their longest words, the rest where it saves most lines."""

import re
from collections.abc import Sequence

ACROSS = 120
"""So many letters of a table stand across the narrower of the two papers."""
LONGEST_WORD = 20
LONGEST_HEAD = 12
"""A head so short stands on one line."""
_WORD = re.compile(r"\d{4}-\d\d-\d\d \d\d:\d\d|\S*\d [^\s\d]{1,4}(?!\S)|\S+")
"""An hour with its day is one word, and so is a figure with its unit."""
_AIR = 2
_STEP = 2


def shares(rows: Sequence[Sequence[str]]) -> list[float]:
    """The share of each column, its head in the first row; the column that makes rows high is widened.

    Example:
        >>> shares([["No.", "What"], ["12", "a few words on what was done"]])
        [5.0, 31.0]
    """
    columns = list(zip(*rows, strict=True))
    found = [
        float(max(min(LONGEST_HEAD, len(cells[0])), min(LONGEST_WORD, max(map(_longest_word, cells)))) + _AIR)
        for cells in columns
    ]
    lengths = [[len(cell) + _AIR for cell in row] for row in rows]
    while sum(found) < ACROSS:
        high = _makes_high(lengths, found)
        if high is None:
            break
        found[high] += _STEP
    return found


def _longest_word(cell: str) -> int:
    return max(map(len, _WORD.findall(cell)), default=0)


def _makes_high(lengths: Sequence[Sequence[int]], widths: Sequence[float]) -> int | None:
    """The column that costs the most lines; none where every text stands on one."""
    lines = [0.0] * len(widths)
    for row in lengths:
        needs = [length / width for length, width in zip(row, widths, strict=True)]
        most = max(needs)
        if most > 1:
            lines[needs.index(most)] += most - 1
    return lines.index(max(lines)) if any(lines) else None

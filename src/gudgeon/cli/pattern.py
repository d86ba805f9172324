"""The bolts of a joint drawn in letters: where the next one stands among the others."""

from collections.abc import Sequence

from gudgeon.bench.pull_list import BoltPlace

_TALL = 2.0
"""How much taller than wide a letter is."""
_MOST_ROWS = 7
"""Enough to tell the rows apart: nothing is measured from the drawing."""


def drawn(places: Sequence[BoltPlace], *, following: str, width: int) -> list[str]:
    """Lines of text with every bolt by its name, the next one in brackets; nothing where the sheet places none."""
    spots = [
        (one.bolt, one.x_mm, one.y_mm) for one in places if one.x_mm is not None and one.y_mm is not None
    ]
    if len(spots) != len(places) or len(spots) < 2:
        return []
    left, top = min(x for _, x, _ in spots), max(y for _, _, y in spots)
    wide, tall = max(x for _, x, _ in spots) - left, top - min(y for _, _, y in spots)
    longest = max(len(bolt) for bolt, _, _ in spots) + 2
    room = max(width - longest, 1)
    scale = room / wide if wide else 1.0
    down = min(scale / _TALL, _MOST_ROWS / tall) if tall else 0.0
    lines: dict[int, list[str]] = {}
    for bolt, x, y in spots:
        row, column = round((top - y) * down), round((x - left) * scale)
        line = lines.setdefault(row, [" "] * (width + longest))
        name = f"[{bolt}]" if bolt == following else f" {bolt} "
        if any(letter != " " for letter in line[column : column + len(name)]):
            return []  # they stand too close for letters
        line[column : column + len(name)] = list(name)
    return ["".join(lines.get(row, [])).rstrip() for row in range(max(lines) + 1)]

"""The lines of a face that a straightedge is laid on: which way they run, how long they are, what was read there."""

import re

from gudgeon.bench.judging.finding import Case
from gudgeon.quantity.units import convert

_RUNS = {
    "lengthwise": ("lengthwise", "along", "longitudinal"),
    "crosswise": ("crosswise", "across", "transverse"),
    "diagonal": ("diagonal", "corner to corner"),
}
_STRETCH = re.compile(r"(\d+(?:\.\d+)?)\s*(mm|in)\b")
SAME = 0.01
"""A stretch of 152 mm is one of 6 in."""


def runs(case: Case, place: str) -> str:
    """Which way a line runs: as the sheet says of it, else by its name; empty where neither says it."""
    line = case.face.lines.get(place) if case.face is not None else None
    if line is not None:
        return line.along
    name = place.lower()
    found = [along for along, words in _RUNS.items() if any(name.startswith(word) for word in words)]
    return found[0] if len(found) == 1 else ""


def length_mm(case: Case, place: str) -> float | None:
    """How long a line is, as the sheet says."""
    line = case.face.lines.get(place) if case.face is not None else None
    return line.length_mm() if line is not None else None


def stretch_mm(place: str) -> float | None:
    """The stretch that a place names in its words: `lengthwise, intake side, any 150 mm`."""
    found = _STRETCH.findall(place)
    if not found:
        return None
    number, unit = found[-1]
    return convert(float(number), frm=unit, to="mm", kind="length")


def read_over(case: Case, place: str) -> float | None:
    """Over how much of the face the reading of a place was taken: the stretch it names, else the whole line."""
    named = stretch_mm(place)
    return named if named is not None else length_mm(case, place)

"""Angles of a turn that nobody turns: a degree sign read as a zero."""

from collections.abc import Iterator
from fractions import Fraction

from gudgeon.bench.proof.amounts import number_text
from gudgeon.bench.proof.figures import Figure
from gudgeon.bench.proof.findings import Finding, Grade, finding

MOST = 360
"""A stage turns a bolt by less than one turn, and no angle of a part is more than a circle."""
LOOSE = ("loosen", "draw down", "total_turn")
"""Bolts are backed off and drawn down by whole turns; a total is added up when the sheet is loaded."""


def check_angle(figure: Figure) -> Iterator[Finding]:
    """An angle beyond a whole turn; an error in a tightening stage, where it would break the bolt."""
    span = figure.printed.first
    amount = span.nominal or span.high or span.low
    if amount is None or amount.kind.family != "angle" or figure.path[-1] in LOOSE:
        return
    degrees = Fraction(amount.number) * amount.unit.factor
    if degrees <= MOST:
        return
    staged = figure.path[-1] == "turn"
    grade: Grade = "error" if staged else "doubt"
    zero = amount.unit.symbol == "°" and amount.step == 1 and amount.number % 10 == 0
    tenth = f"{number_text(degrees / 10, decimals=0)}°" if zero else ""
    yield finding(
        "angle",
        grade=grade,
        path=figure.said,
        name=figure.name,
        printed=figure.printed.text,
        agrees=tenth,
        digit=f"the last 0: a degree sign read as a zero makes {amount.number:f} of {tenth}" if zero else "",
        why="More than a whole turn in one stage would stretch the bolt until it breaks."
        if staged
        else "An angle of more than a whole turn is not to be expected here.",
        source=figure.source,
    )

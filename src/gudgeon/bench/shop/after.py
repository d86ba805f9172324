"""What the engine is like now: the consequences of the cut that was made, by the figures read after it."""

from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.cut.table import Line
from gudgeon.bench.errors import CannotWorkOut

NOT_MADE = (
    "what the cut did: the height before and after it is not in the book, so nothing is worked out; what was ordered "
    "proves nothing of what came off"
)


@dataclass(frozen=True, slots=True)
class After:
    """Every consequence of the cut that was made, and what cannot be worked out."""

    lines: tuple[Line, ...]
    missing: tuple[str, ...]


def after_the_cut(bench: Bench, *, made: bool) -> After:
    """The consequences of the cut that the heights in the book show."""
    if not made:
        return After((), (NOT_MADE,))
    try:
        found = consequences(bench)
    except CannotWorkOut as error:
        return After((), (error.message,))
    first = found.tables[0] if found.tables else None
    lines = tuple(one for one in first.lines if one.what != "Taken off") if first is not None else ()
    told = first.missing if first is not None else ()
    return After(lines, tuple(dict.fromkeys((*told, *found.contradictions))))

"""Parts matched to places, as pistons to bores: the assignment that “Is it good?” judges, and what it betters."""

from collections.abc import Iterator, Sequence

from gudgeon.bench.context import Bench
from gudgeon.bench.fits.answer import Choice, Fit, compared, counted, gap_words, off_by
from gudgeon.bench.judging.criteria import Criterion, as_new, criteria
from gudgeon.bench.judging.finding import Case, Finding
from gudgeon.bench.judging.pairs import Matching, Pair, breaks, matching
from gudgeon.bench.measured import Measured, measured
from gudgeon.quantity.format import known_between

CAUTIONS = (
    "A piston that has run belongs to the bore it ran in, unless that bore was honed or bored anew.",
    "Each piston keeps its own pin, and its mark points where the manual says.",
)
MATCHED = "matched pairs"


def matched_keys(bench: Bench) -> Iterator[str]:
    """The characteristics of the sheet whose parts are matched."""
    for key in bench.sheet.characteristics:
        if _criterion(bench, key) is not None:
            yield key


def _criterion(bench: Bench, key: str) -> Criterion | None:
    limits = (*criteria(bench.sheet, key), *as_new(bench.sheet, key))
    return next((one for one in limits if one.shape == MATCHED), None)


def matched_fit(bench: Bench, key: str) -> Fit:
    """Which part goes into which place, and what it is as they are."""
    item, criterion = bench.sheet.characteristics[key], _criterion(bench, key)
    assert criterion is not None  # it was chosen by that
    case = Case(bench, key, item, criterion, measured(bench, key))
    found = matching(case)
    wanted = f"clearance {criterion.text}"
    if isinstance(found, Finding):
        missing = (found.missing or found.reason,)
        return Fit(key, "pairs", item.name, wanted, criterion.source, (), {}, "", (), missing, found.notes)
    choices = tuple(_choices(found))
    return Fit(
        key, "pairs", item.name, wanted, criterion.source, choices, counted(choices),
        compared(choices, without="with each part where it is"), tuple(_steps(found)), (),
        (*found.said, *breaks(found)), CAUTIONS,
    )  # fmt: skip


def _choices(found: Matching) -> Iterator[Choice]:
    own = {one.hole: one for one in found.as_they_are()}
    for one in found.taken():
        was = own.get(one.hole)
        yield Choice(
            one.hole, _found(one, was), _fitted(found, one), gap_words(one.made.value), off_by(one.made.value),
            one.verdict, gap_words(was.made.value) if was is not None else "",
            was.verdict if was is not None else "",
        )  # fmt: skip


def _found(one: Pair, was: Pair | None) -> str:
    """The clearance as the parts are; where that is not told by their names, the sizes of both."""
    if was is not None:
        return f"clearance {gap_words(was.made.value)} with its own"
    hole, shaft = ([part for factor, part in one.made.terms if factor * sign > 0] for sign in (1, -1))
    return f"{_span(hole)} and {_span(shaft)}"


def _span(read: Sequence[Measured]) -> str:
    low, high = min(part.low for part in read), max(part.high for part in read)
    return known_between(low, high=high, kind="length", decimals=3)


def _fitted(found: Matching, one: Pair) -> str:
    return "its own" if one.hole == one.shaft else f"{found.shaft.name} of {one.shaft}"


def _steps(found: Matching) -> Iterator[str]:
    """What goes where, in a list that can be ticked off; nothing where all stay."""
    moved = [one for one in found.taken() if one.hole != one.shaft]
    if moved:
        yield "Mark every part with its place before one is moved."
        for one in moved:
            yield f"{found.shaft.name} of {one.shaft} into {one.hole}"

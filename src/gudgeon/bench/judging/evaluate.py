"""Every limit of a characteristic, each judged by the evaluator of its shape."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from gudgeon.bench.context import Bench
from gudgeon.bench.judging import cylinders, faces, grades, pairs, places, plain
from gudgeon.bench.judging.acceptance import renewed_by
from gudgeon.bench.judging.altitude import with_altitude
from gudgeon.bench.judging.criteria import Criterion, as_new, criteria
from gudgeon.bench.judging.finding import NOT_MEASURED, Case, Finding
from gudgeon.bench.measured import CANNOT, Measured

RENEWED = "the manual has it renewed every time, whatever it measures"


def _replaced(case: Case) -> Iterator[Finding]:
    number = renewed_by(case.bench, case.key)
    if number is not None:
        yield Finding("", "inside", f"renewed, entry {number}: {RENEWED}")
        return
    yield Finding("", "outside", RENEWED, ways_out=(f'gudgeon record part "{case.item.name}" renew --why …',))


EVALUATORS: dict[str, Callable[[Case], Iterator[Finding]]] = {
    "plain": faces.plain,
    "whole face of plain": faces.whole_face,
    "whole face": faces.whole_face,
    "per length": faces.per_length,
    "by direction": faces.by_direction,
    "per unit of span": faces.per_span,
    "two faces together": faces.two_faces,
    "difference between places": places.between_places,
    "difference between cylinders": cylinders.between_cylinders,
    "sum with another part": places.sum_with,
    "graded": grades.graded,
    "matched pairs": pairs.matched,
    "replace always": _replaced,
}
"""One for each shape; each gives what it found, and says itself which reading it lacks."""

BLIND = (
    "two-point gauges do not see an odd number of lobes: a bore of three lobes measures alike whichever way it is "
    "turned"
)


def findings(
    bench: Bench, key: str, *, readings: Mapping[str, Measured]
) -> tuple[tuple[Criterion | None, Finding], ...]:
    """What every limit of a characteristic says of its readings; without a limit, where they stand."""
    item = bench.sheet.characteristics[key]
    limits = criteria(bench.sheet, key)
    found: list[tuple[Criterion | None, Finding]] = [
        (one, finding) for one in limits for finding in _by(bench, key, readings, one)
    ]
    if not limits:
        found += _unlimited(bench, key, readings)
    notes = [*_new(bench, key, readings), *((BLIND,) if item.method == "out-of-round" and readings else ())]
    if notes and found:
        criterion, first = found[0]
        found[0] = criterion, replace(first, notes=(*first.notes, *notes))
    return tuple(found)


def _by(bench: Bench, key: str, readings: Mapping[str, Measured], criterion: Criterion) -> Iterator[Finding]:
    case = Case(bench, key, bench.sheet.characteristics[key], criterion, readings)
    for one in _safely(case):
        plain_inside = criterion.shape == "plain" and criterion.stands_for == "wear limit"
        value = one.of or one.value
        if plain_inside and one.verdict == "inside" and value is not None:
            one = replace(one, reason=f"{one.reason}{plain.as_new_words(case.item, value)}")
        yield with_altitude(bench, key, criterion=criterion, found=one)


def _safely(case: Case) -> Iterator[Finding]:
    """What cannot be worked out by the sheet and the book of today says so, and the rest is answered."""
    try:
        yield from EVALUATORS[case.criterion.shape](case)
    except CANNOT as error:
        yield Finding(
            "", "in doubt", f"cannot be judged: {error}", "what was read", covers=tuple(case.readings)
        )


def _unlimited(
    bench: Bench, key: str, readings: Mapping[str, Measured]
) -> Iterator[tuple[Criterion | None, Finding]]:
    item = bench.sheet.characteristics[key]
    case = Case(bench, key, item, Criterion("plain", "", "new range", None, None, ""), readings)
    for one in plain.no_limit(case):
        yield None, one


def _new(bench: Bench, key: str, readings: Mapping[str, Measured]) -> Iterator[str]:
    """Whether it is as new by the limits of new parts that have a shape."""
    for criterion in as_new(bench.sheet, key):
        verdicts = {one.verdict for one in _by(bench, key, readings, criterion)}
        if verdicts == {"inside"}:
            yield f"as new ({criterion.words})"
        elif "outside" in verdicts:
            yield f"no longer as new ({criterion.words})"
        elif verdicts != {NOT_MEASURED}:
            yield f"in doubt whether it is as new ({criterion.words})"

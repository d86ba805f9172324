"""Is it good? Every characteristic of the sheet with its readings, its limits and a verdict in words."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import cast

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import characteristic
from gudgeon.bench.context import Bench
from gudgeon.bench.judging.criteria import Criterion, criteria
from gudgeon.bench.judging.decision import RISK
from gudgeon.bench.judging.evaluate import findings
from gudgeon.bench.judging.finding import NO_READING, NOT_MEASURED, Finding
from gudgeon.bench.judging.rows import Row, odd_row, row_of, unread
from gudgeon.bench.lately import Lately
from gudgeon.bench.measured import CANNOT, Measured, Odd, measured_and_odd
from gudgeon.book.state import Accepted, PartState, ReadingState, ScanState, State, Struck
from gudgeon.sheet.inspections import place_names

__all__ = ["RISK", "RULE", "Inspection", "Row", "inspect"]


@dataclass(frozen=True, slots=True)
class Inspection:
    """The answer to “Is it good?”."""

    heading: Heading
    rows: tuple[Row, ...]
    counts: dict[str, int]
    rule: str


RULE = (
    "Inside when the chance of being inside is at least 95 %, outside when it is at most 5 %, else in doubt "
    "(ISO 14253-1 and JCGM 106). Permitted errors of gauges count as rectangular; U is twice the standard uncertainty."
)


def inspect(bench: Bench, *, only: str | None = None) -> Inspection:
    """Judge every characteristic, or those of one part or one key."""
    bench.unlock()
    chosen = {
        key: item
        for key, item in bench.sheet.characteristics.items()
        if only is None or only == key or only.lower() in item.part.lower()
    }
    if only is not None and not chosen:
        characteristic(bench.sheet, only)
    grounds = _grounds(bench)
    rows = _ROWS.of((grounds, tuple(chosen)), lambda: _judged(bench, grounds, chosen))
    counts = dict(Counter(row.verdict for row in rows))
    return Inspection(bench.heading("Is it good?"), rows, counts, RULE)


@dataclass(frozen=True, slots=True)
class _Facts:
    """All of the state that a verdict on what was read rests on. There is nothing else in it to be asked."""

    readings: Mapping[tuple[str, str, str], ReadingState]
    scans: Mapping[tuple[str, str], ScanState]
    accepted: tuple[Accepted, ...]
    parts: Mapping[str, PartState]
    struck: Mapping[str, Struck]


@dataclass(frozen=True, slots=True)
class _Grounds:
    """What verdicts rest on: sheet, kit, and the facts."""

    sheet_sha: str
    kit_sha: str
    facts: _Facts


_ROWS = Lately[tuple[_Grounds, tuple[str, ...]], tuple[Row, ...]]()


def _grounds(bench: Bench) -> _Grounds:
    state, papers = bench.state, bench.papers
    facts = _Facts(state.readings, state.scans, state.accepted, state.parts, state.struck)
    return _Grounds(papers.sheet_sha, papers.kit_sha, facts)


def _judged(bench: Bench, grounds: _Grounds, chosen: Iterable[str]) -> tuple[Row, ...]:
    """The rows; a bench that knows nothing but the facts is asked, so that nothing else can go into them."""
    bare = replace(bench, state=cast(State, grounds.facts))
    known: dict[str, dict[str, Measured]] = {}
    return tuple(row for key in chosen for row in _rows(bare, key, known=known))


def _rows(bench: Bench, key: str, *, known: dict[str, dict[str, Measured]]) -> Iterator[Row]:
    """What every limit found; then what cannot be judged; then, in few rows, what is not read yet."""
    limits, (readings, strange) = criteria(bench.sheet, key), measured_and_odd(bench, key, known=known)
    some = bool(readings)
    open_places: dict[tuple[Criterion | None, str], list[str]] = {}
    for limit, finding in findings(bench, key, readings=readings):
        if not _bare(finding):
            some = some or (limit is not None and limit.shape != "replace always")
            yield _row(bench, key, limit, finding)
        elif finding.place not in strange:
            open_places.setdefault((limit, finding.missing), []).append(finding.place)
    for other in strange.values():
        yield odd_row(bench, key, other, criterion=limits[0] if limits else None)
    if some:
        for (limit, why), places in open_places.items():
            own = (limit,) if limit is not None else ()
            yield unread(bench, key, limits=own, missing=places, why=why, some=True)
    elif open_places or (bench.sheet.characteristics[key].computed and not strange):
        yield _nothing_read(bench, key, open_places)


def _nothing_read(bench: Bench, key: str, open_places: dict[tuple[Criterion | None, str], list[str]]) -> Row:
    """One row for all limits; it says what is wanted where that is not simply a reading."""
    said = dict.fromkeys(place for names in open_places.values() for place in names)
    # Where a limit is of all places together it says so by a name of its own, which is no place to read at.
    places = [place for place in said if place in place_names(bench.sheet.characteristics[key])] or list(said)
    wanted = {why for _, why in open_places} - {NO_READING}
    limits = [one for one in criteria(bench.sheet, key) if one.shape != "replace always"]
    return unread(bench, key, limits=limits, missing=places, why=wanted.pop() if len(wanted) == 1 else "")


def _row(bench: Bench, key: str, limit: Criterion | None, finding: Finding) -> Row:
    try:
        return row_of(bench, key, criterion=limit, found=finding)
    except CANNOT as error:
        entries = [one.entry for one in finding.readings]
        number = next((it.order for it in bench.state.readings.values() if it.entry in entries), 0)
        return odd_row(bench, key, Odd(finding.place, number, str(error)), criterion=limit)


def _bare(finding: Finding) -> bool:
    """Whether it says only that nothing was read: then one row says it of all such places."""
    return finding.verdict == NOT_MEASURED and not finding.shown and not finding.covers

"""What the book has of one characteristic in one condition, each reading with its doubt and its verdict."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.criteria import Criterion
from gudgeon.bench.judging.evaluate import findings
from gudgeon.bench.judging.finding import NOT_MEASURED, Finding
from gudgeon.bench.judging.rows import row_of
from gudgeon.bench.measured import CANNOT, Measured, measured_in
from gudgeon.bench.worked_out import worked_out
from gudgeon.sheet.inspections import place_names, stretch_names

ALWAYS = "replace always"
"""The limit that needs no reading, and that none can meet."""
GRAVEST = ("outside", "in doubt", "inside", "no limit given")
"""The verdicts on a reading, the gravest first; a limit that waits for another reading says nothing of this one."""


@dataclass(frozen=True, slots=True)
class AsRead:
    """One reading: the value, U as ± where it is known, the verdict in a word, and the gauge by its key."""

    value: str
    plus_minus: str
    verdict: str
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class Readings:
    """The readings by place; and by the words of a limit and what it binds, what several of them make together."""

    places: Mapping[str, AsRead]
    rules: Mapping[tuple[str, str], AsRead | None]


def readings_of(bench: Bench, key: str, *, condition: str) -> Readings:
    """What was read in a condition; in one that is no condition, what is to be read."""
    known = _known(bench, key, condition=condition)
    bench = _with_scan(bench, key, condition=condition)
    some = bool(known) or (key, condition) in bench.state.scans
    item = bench.sheet.characteristics[key]
    own = set(known) if item.computed else {*place_names(item), *stretch_names(item)}
    places = {place: AsRead(one.text, "", "", one.instrument) for place, one in known.items()}
    rules: dict[tuple[str, str], AsRead | None] = {}
    for criterion, finding in findings(bench, key, readings=known):
        if finding.of is not None and finding.place in own:
            places[finding.place] = _graver(
                places.get(finding.place), _as_read(bench, key, criterion, finding), finding.of
            )
        elif criterion is not None and _of_several(criterion, finding, own):
            told = finding.verdict != NOT_MEASURED and (some or finding.verdict == "inside")
            rules[criterion.words, finding.place] = _as_read(bench, key, criterion, finding) if told else None
    return Readings(places, rules)


def _with_scan(bench: Bench, key: str, *, condition: str) -> Bench:
    """The bench as if the face had been scanned in this condition only: its other scan belongs to the other column."""
    scans = {of: scan for of, scan in bench.state.scans.items() if of[0] != key or of[1] == condition}
    if len(scans) == len(bench.state.scans):
        return bench
    return replace(bench, state=replace(bench.state, scans=scans))


def _of_several(criterion: Criterion, finding: Finding, own: set[str]) -> bool:
    """Whether it is no limit of one place: then it has a line to itself."""
    return criterion.shape == ALWAYS or (criterion.shape != "plain" and finding.place not in own)


def _known(bench: Bench, key: str, *, condition: str) -> dict[str, Measured]:
    item = bench.sheet.characteristics[key]
    if item.computed:
        return worked_out(item, [measured_in(bench, name, condition=condition) for name in item.of])
    return measured_in(bench, key, condition=condition)


def _as_read(bench: Bench, key: str, criterion: Criterion | None, finding: Finding) -> AsRead:
    try:
        row = row_of(bench, key, criterion=criterion, found=finding)
    except CANNOT:
        return AsRead(finding.shown, "", "in doubt")
    doubt = "" if row.uncertainty in ("", "not known") else row.uncertainty
    return AsRead(row.reading, doubt or "± not known" if finding.value is not None else "", row.verdict)


def _graver(before: AsRead | None, now: AsRead, of: Measured) -> AsRead:
    """Of two limits of one place the graver verdict stands with the reading."""
    verdicts = [one.verdict for one in (before, now) if one is not None and one.verdict in GRAVEST]
    doubt = (before.plus_minus if before is not None else "") or now.plus_minus
    return AsRead(of.text, doubt, min(verdicts, key=GRAVEST.index, default=""), of.instrument)


def rule_places(bench: Bench, key: str) -> tuple[str, ...]:
    """What a characteristic is worked out for: `cylinder 1, top`, once each place it takes has been read."""
    item = bench.sheet.characteristics[key]
    parts = []
    for name in item.of:
        other = bench.sheet.characteristics[name]
        said = rule_places(bench, name) if other.computed else place_names(other)
        parts.append(
            {place: Measured(place, 0.0, 0.0, (), True, None, "", "", "", "", "", "") for place in said}
        )
    return tuple(worked_out(item, parts))

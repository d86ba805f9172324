"""The measuring sheets of a job: every characteristic with its limits, every place, and what the book has of it."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.gauge_view import off_words
from gudgeon.bench.judging.criteria import Criterion, as_new, criteria
from gudgeon.bench.judging.deciding import can_decide
from gudgeon.bench.judging.gauges import suited_kinds
from gudgeon.bench.network import job_of
from gudgeon.bench.on_paper.as_read import ALWAYS, AsRead, Readings, readings_of, rule_places
from gudgeon.bench.on_paper.of_the_job import left_out_words, to_be_measured
from gudgeon.kit.gauges import Gauge
from gudgeon.quantity.format import first_system
from gudgeon.quantity.written import Printed
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic, place_names, stretch_names

NO_GAUGE = "none in the kit"
FROM_FILE = "scanned face"
ORDER = ("new range", "wear limit", "required")


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of the sheet: `new range`, `wear limit` or `required`; its words as printed, and its source."""

    stands_for: str
    words: str
    source: str


@dataclass(frozen=True, slots=True)
class Line:
    """One place, or one rule of several places together: the gauge, and what was read as found and as left."""

    place: str
    gauge: str
    found: AsRead | None
    left: AsRead | None


@dataclass(frozen=True, slots=True)
class Rule:
    """A limit that one reading cannot meet: its words, its source, and a line for each group that it binds."""

    words: str
    source: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class MeasuringSheet:
    """One characteristic, to be measured with a pencil in the hand.

    `worked_out_from` names what its lines are worked out of; `decides` says which gauge is good enough where that has
    to be known before.
    """

    item: str
    name: str
    part: str
    how: str
    worked_out_from: tuple[str, ...]
    limits: tuple[Limit, ...]
    decides: str
    lines: tuple[Line, ...]
    rules: tuple[Rule, ...]


@dataclass(frozen=True, slots=True)
class MeasuringSheets:
    """Every measuring sheet of the job; `not_measured` names what the job leaves alone, `locked` why figures lack."""

    heading: Heading
    job: str
    sheets: tuple[MeasuringSheet, ...]
    not_measured: tuple[str, ...]
    locked: str


def measuring_sheets(bench: Bench) -> MeasuringSheets:
    """The measuring sheets of the job that was chosen; without a figure as long as the engine code was not read."""
    own, others = to_be_measured(bench)
    return MeasuringSheets(
        bench.heading("Is it good?"),
        job_of(bench.state).name,
        tuple(_sheet(bench, key, item) for key, item in own.items()),
        others,
        left_out_words(bench),
    )


def _sheet(bench: Bench, key: str, item: Characteristic) -> MeasuringSheet:
    names = [bench.sheet.characteristics[name].name for name in item.of] if item.computed else []
    if bench.locked is not None:
        gauge = _gauge_words(bench, key, item)
        lines = tuple(Line(place, gauge, None, None) for place in _places(bench, key, item, locked=True))
        return MeasuringSheet(key, item.name, item.part, "", tuple(names), (), "", lines, ())
    read = {condition: readings_of(bench, key, condition=condition) for condition in ("as found", "as left")}
    deciding = can_decide(bench, key)
    return MeasuringSheet(
        key, item.name, item.part, item.how or "", tuple(names),
        tuple(sorted(_limits(bench, key, item), key=lambda one: ORDER.index(one.stands_for))),
        deciding.words if not deciding.enough else "", tuple(_lines(bench, key, item, read)),
        tuple(_rules(bench, key, item, read)),
    )  # fmt: skip


def _limits(bench: Bench, key: str, item: Characteristic) -> Iterator[Limit]:
    """The plain limits as the sheet prints them, then those that have a shape."""
    plain = {"new range": item.new_range, "wear limit": item.wear_limit, "required": item.required}
    for stands_for, figure in plain.items():
        if figure is not None:
            yield Limit(stands_for, person_first(figure.value), _cited(item, figure))
    for one in (*as_new(bench.sheet, key), *criteria(bench.sheet, key)):
        if one.shape not in ("plain", "whole face of plain"):
            yield Limit(one.stands_for, _in_own_unit(one), one.source)


def _cited(item: Characteristic, figure: Stated) -> str:
    cited = item.cited(figure)
    return str(cited) if cited is not None else ""


def person_first(figure: Printed) -> str:
    """A figure as printed, the person's own unit first where the sheet prints both."""
    own = next((span for span in figure.spans if span.unit.system == first_system()), None)
    if own is None or own is figure.first:
        return figure.text
    rest = [span.text for span in figure.spans if span is not own]
    bound = "max " if own.low is None else "min " if own.high is None else ""
    return f"{bound}{own.text} ({'; '.join(rest)})"


def _in_own_unit(criterion: Criterion) -> str:
    """The words of a limit with a shape, the person's own unit first in each of its figures."""
    words, shape = criterion.words, criterion.stated
    stated = [getattr(shape, name) for name in shape.figures] if shape is not None else []
    for figure in (one.value for one in stated if one is not None):
        for span in figure.spans[1:]:
            if span.unit.system == first_system():
                before, after = figure.first.text, span.text
                words = words.replace(f"{before} ({after})", f"{after} ({before})")
    return words


def _places(bench: Bench, key: str, item: Characteristic, *, locked: bool = False) -> tuple[str, ...]:
    """Every place to be read, in words; of what is worked out, what it is worked out for."""
    if item.computed:
        return rule_places(bench, key)
    if all(one.shape == ALWAYS for one in item.limits) and item.limits and not item.places:
        return ()
    return place_names(item) if locked else (*place_names(item), *stretch_names(item))


def _lines(bench: Bench, key: str, item: Characteristic, read: dict[str, Readings]) -> Iterator[Line]:
    usual = _gauge_words(bench, key, item)
    for place in _places(bench, key, item):
        found, left = (read[condition].places.get(place) for condition in ("as found", "as left"))
        used = next((one.instrument for one in (left, found) if one is not None and one.instrument), "")
        gauge = bench.kit.gauges.get(used)
        yield Line(place, gauge_words(gauge) if gauge is not None else used or usual, found, left)


def _rules(bench: Bench, key: str, item: Characteristic, read: dict[str, Readings]) -> Iterator[Rule]:
    """The limits of several places together, each with a line for what it binds."""
    blank = readings_of(bench, key, condition="")
    for criterion in criteria(bench.sheet, key):
        groups = [
            name
            for one in (blank, *read.values())
            for (words, name), told in one.rules.items()
            if words == criterion.words and (told is not None or one is blank)
        ]
        lines = tuple(
            Line(name, "", *(one.rules.get((criterion.words, name)) for one in read.values()))
            for name in dict.fromkeys(groups)
        )
        if lines:
            yield Rule(_in_own_unit(criterion), criterion.source, lines)


def _gauge_words(bench: Bench, key: str, item: Characteristic) -> str:
    """The gauge of the kit that reads it best, with its resolution."""
    if item.computed:
        return "worked out"
    if item.method == FROM_FILE:
        return "file of points"
    gauges = bench.kit.gauges
    best = gauges.get(can_decide(bench, key).best)
    if best is None:
        kinds = suited_kinds(bench.sheet, key)
        best = min(
            (one for one in gauges.values() if one.kind in kinds),
            key=lambda one: kinds.index(one.kind),
            default=None,
        )
    return gauge_words(best) if best is not None else NO_GAUGE


def gauge_words(gauge: Gauge) -> str:
    """A gauge by its name, and how fine it reads."""
    if gauge.step is not None:
        return f"{gauge.name}, reads to {gauge.step.text}"
    if gauge.blades:
        return f"{gauge.name}, {len(gauge.blades)} blades from {gauge.blades[0].text}"
    return f"{gauge.name}, off by {off_words(gauge)}"

"""Everything that one cut does, line by line."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from gudgeon.bench.budget import Component
from gudgeon.bench.cut.gasket import choice
from gudgeon.bench.cut.given import BoltGiven, Given, Limit, ValvesGiven
from gudgeon.bench.cut.known import Known
from gudgeon.bench.cut.laws import Answer, Laws, NotWorkedOut
from gudgeon.bench.cut.limits import Most, bolt_words
from gudgeon.bench.cut.said import down
from gudgeon.bench.cut.words import SAME_MM, UNSURE, bare, mm, plus_minus, verdict
from gudgeon.bench.timing.drive_words import thing
from gudgeon.quantity.format import number

Law = Callable[[Laws, Known], Answer]
GAP = "length_difference"
SAME = 1e-9
AT_WHICH_LIFT = (
    "what the turned camshaft adds is estimated with opening and closing at the seat: too little where the manual "
    "gives them at a lift, which `at_lift` would say"
)
NOT_COUNTED = "what the turned camshaft adds is not counted: its drive or its events are missing"


@dataclass(frozen=True, slots=True)
class Line:
    """One consequence: before the cut, after it, its limit, what follows, and where the figures come from.

    `value` and `expanded` (U, k = 2) are in `unit`; None where the line is words alone.
    """

    what: str
    before: str
    after: str
    limit: str
    verdict: str
    source: str
    value: float | None = None
    expanded: float | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """One cut with all its consequences; `missing` names those that cannot be worked out."""

    cut: str
    cut_from: str
    cut_mm: float
    gasket: str
    lines: tuple[Line, ...]
    missing: tuple[str, ...]


def table(laws: Laws, cut: Known, *, cut_from: str, limits: Most, first: tuple[Line, ...] = ()) -> Table:
    """The consequences of one cut under the gasket of the laws."""
    lines: list[Line] = list(first)
    missing: list[str] = []
    for found in _all(laws, cut):
        if isinstance(found, NotWorkedOut):
            missing.append(str(found))
        elif isinstance(found, str):
            missing.append(found)
        else:
            lines.append(found)
    lines += _still(limits, cut)
    thickness = laws.thickness
    gasket = (
        laws.gasket.called if laws.gasket is not None else thickness.text if thickness is not None else ""
    )
    return Table(
        plus_minus(cut, kind=GAP), cut_from, cut.value, gasket, tuple(lines), tuple(dict.fromkeys(missing))
    )  # fmt: skip


Found = Line | NotWorkedOut | str


def _all(laws: Laws, cut: Known) -> Iterator[Found]:
    yield from _ratio(laws, cut)
    one = laws.inputs.cylinder
    yield _line(
        laws, cut, "Squish", Laws.squish, limit=one.least_squish, kind=GAP,
        sources=(one.squish_recess, one.piston_height, laws.thickness), measure="measure it with soft wire or clay",
    )  # fmt: skip
    yield from _valves(laws, cut)
    yield from _bolts(laws, cut)
    yield from _camshafts(laws, cut)
    yield from _lifters(laws, cut)
    yield from _gasket(laws, cut)
    yield from _height(laws, cut)


def _line(
    laws: Laws,
    cut: Known,
    what: str,
    law: Law,
    *,
    limit: Limit | None,
    kind: str,
    sources: tuple[Given | None, ...],
    upper: bool = False,
    measure: str = "",
) -> Found:
    """A value before and after against its limit."""
    after = law(laws, cut)
    if isinstance(after, NotWorkedOut):
        return after
    before = law(Laws(laws.inputs, laws.camshafts), Known(0.0))
    said = "" if isinstance(before, NotWorkedOut) else plus_minus(before, kind=kind)
    if limit is None:
        judged, words = "no limit given", "not stated"
    else:
        judged = verdict(after, limit=limit.value, upper=upper, measure=measure)
        words = f"{'at most' if upper else 'at least'} {bare(limit.text)}"
    if not after.certain:
        judged = f"{judged}; {UNSURE}"
    shown = plus_minus(after, kind=kind)
    unit = {"length": "mm", GAP: "mm", "volume": "cm³", "angle": "°"}.get(kind, "")
    return Line(
        what, said, shown, words, judged, _sources(limit, *sources), after.value, after.expanded, unit
    )


def _ratio(laws: Laws, cut: Known) -> Iterator[Found]:
    one = laws.inputs.cylinder
    inputs = (one.chamber_volume, one.mouth_area, one.bore)
    found = _line(
        laws, cut, "Compression ratio", Laws.ratio, limit=one.most_ratio, kind="ratio", upper=True, sources=inputs,
        measure="pour the chamber with a burette",
    )  # fmt: skip
    if isinstance(found, Line) and one.most_ratio is None and one.stated_ratio is not None:
        limit = f"the sheet prints {one.stated_ratio.text}"
        found = Line(
            found.what, found.before, found.after, limit, found.verdict, found.source, found.value, found.expanded,
        )  # fmt: skip
    yield found
    removed = laws.removed(cut)
    if isinstance(removed, NotWorkedOut):
        yield removed
        return
    text, source = plus_minus(removed, kind="volume"), _sources(None, one.mouth_area)
    yield Line(
        "Volume that goes from a chamber", "", text, "", "", source, removed.value, removed.expanded, "cm³"
    )


def _valves(laws: Laws, cut: Known) -> Iterator[Found]:
    for of in laws.inputs.valves:
        found = _line(
            laws, cut, f"{of.which.capitalize()} valve to piston", partial(_margin, of), limit=of.least_margin,
            kind=GAP, sources=(of.margin, of.angle), measure="measure it with clay",
        )  # fmt: skip
        yield found
        if isinstance(found, Line) and not laws.turned_counts(of):
            yield f"{of.which} valve to piston: {NOT_COUNTED}"
        elif isinstance(found, Line) and of.at_lift is None:
            yield f"{of.which} valve to piston: {AT_WHICH_LIFT}"


def _bolts(laws: Laws, cut: Known) -> Iterator[Found]:
    for of in laws.inputs.bolts:
        yield _line(
            laws, cut, _capital(bolt_words(laws.inputs, of)), partial(_free_below, of), limit=of.least_below,
            kind="length", sources=(of.length, of.hole_depth), measure="measure hole and bolt once more",
        )  # fmt: skip


def _margin(of: ValvesGiven, laws: Laws, at: Known) -> Answer:
    return laws.margin(of, at)


def _free_below(of: BoltGiven, laws: Laws, at: Known) -> Answer:
    return laws.free_below(of, at)


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


def _camshafts(laws: Laws, cut: Known) -> Iterator[Found]:
    lowering = laws.of_new(cut)
    shift = laws.camshafts.shift(lowering)
    if shift is None:
        yield "cam timing: the sheet states no drive"
        return
    source = "worked out along the path of the drive (data sheet)"
    for one in shift.camshafts:
        cam, crank = (
            plus_minus(Known(abs(value), _spread(u)), kind="angle")
            for value, u in ((one.cam_deg, one.cam_deg_u), (one.crank_deg, one.crank_deg_u))
        )
        said = (
            "as before"
            if one.way == "as before"
            else f"{one.way} by {cam} of the camshaft, {crank} of the crankshaft"
        )
        teeth = _teeth(abs(one.teeth))
        yield Line(
            f"Timing, {one.name}", "", said, "", "" if one.way == "as before" else teeth, source, one.crank_deg,
            2 * one.crank_deg_u, "° of the crankshaft",
        )  # fmt: skip
    if shift.slack_mm is not None and laws.camshafts.model is not None:
        known = Known(shift.slack_mm, _spread(shift.slack_u_mm))
        takes, named = laws.camshafts.model.takes_up, thing(laws.camshafts.model.kind).capitalize()
        yield Line(
            f"{named} for the tensioner to take up", "", plus_minus(known, kind=GAP),
            f"it takes up {takes}" if takes else "not stated", shift.slack_verdict if takes else "", source,
            known.value, known.expanded,
            "mm",
        )  # fmt: skip
    for text in shift.missing:
        yield f"cam timing: {text}"


def _teeth(teeth: float) -> str:
    """What of a mark that stands off by teeth the cut may explain."""
    if teeth < 0.5:
        return f"{number(teeth, decimals=2)} of a tooth: it explains no whole one"
    return f"{number(teeth, decimals=2)} teeth: marks that stand off may come from the cut"


def _spread(u: float) -> tuple[Component, ...]:
    return (Component("height of the head", u),) if u > 0 else ()


def _lifters(laws: Laws, cut: Known) -> Iterator[Found]:
    lifters = laws.inputs.lifters
    if lifters is None:
        return
    if lifters.adjustment == "hydraulic lifters":
        missing = laws.inputs.lacking("valve_gear.camshaft")
        if missing:
            yield NotWorkedOut("preload of the lifters", f"missing: {missing[0]}", missing)
            return
        yield _line(
            laws, cut, "Preload of the lifters", Laws.preload, limit=lifters.most_preload, kind=GAP, upper=True,
            sources=(lifters.preload,), measure="measure it, or take shorter pushrods",
        )  # fmt: skip
        return
    lost = laws.clearance_lost(cut)
    if isinstance(lost, NotWorkedOut):
        yield lost
        return
    yield Line(
        "Valve clearance that goes", "", plus_minus(lost, kind=GAP), "", "set every valve again",
        _sources(None, lifters.rocker_ratio), lost.value, lost.expanded, "mm",
    )  # fmt: skip


def _gasket(laws: Laws, cut: Known) -> Iterator[Found]:
    found = choice(laws.inputs, in_all=laws.in_all(cut))
    if found is None:
        yield "head gasket: the sheet lists none that can be had (cylinder.gaskets)"
        return
    judged = (
        f"in doubt: {found.doubt}" if found.doubt else "inside" if found.gasket is not None else "outside"
    )
    meant = found.gasket.for_cut if found.gasket is not None else ""
    pistons = found.gasket.for_piston_height if found.gasket is not None else ""
    limit = "; ".join(
        filter(None, (f"for cuts {meant}" if meant else "", f"for pistons at {pistons}" if pistons else ""))
    )
    yield Line("Head gasket to take", "", found.words, limit, judged, found.source)


def _height(laws: Laws, cut: Known) -> Iterator[Found]:
    head = laws.inputs.head
    height = laws.least_height(cut)
    if isinstance(height, NotWorkedOut):
        yield height
    else:
        least = head.least_height
        base = head.left if head.left is not None and head.made is not None else head.base
        judged, words = "no limit given", "not stated"
        if least is not None:
            spare = height.value - least.value
            said = f"{mm(spare)} may still come off" if spare >= -SAME else f"too thin by {mm(-spare)}"
            judged = f"inside: {said}" if spare >= -SAME else f"outside: {said}"
            if abs(spare) < height.expanded - SAME:
                judged = f"in doubt: {said}, within what is uncertain of the height"
            words = f"at least {bare(least.text)}"
        before = laws.inputs.head.base
        shown = plus_minus(before.least.known, kind="length") if before is not None else ""
        yield Line(
            "Head height, least place", shown, plus_minus(height, kind="length"), words, judged,
            _sources(least, base.least if base is not None else None), height.value, height.expanded, "mm",
        )  # fmt: skip
    if head.most_off is not None:
        off = laws.in_all(cut)
        judged = verdict(off, limit=head.most_off.value, upper=True, measure="measure the height again")
        yield Line(
            "Taken off in all", "", plus_minus(off, kind=GAP), f"at most {bare(head.most_off.text)}", judged,
            _sources(head.most_off, head.before), off.value, off.expanded, "mm",
        )  # fmt: skip


def _still(limits: Most, cut: Known) -> Iterator[Line]:
    """What may come off after this cut, and what then binds."""
    binds = limits.binding
    if binds is None or limits.surely_mm is None:
        return
    left = limits.surely_mm - cut.value
    after = mm(down(left)) if down(left) > 0 else "nothing"
    said = "inside" if left > -SAME_MM else f"outside: {mm(-left)} more than may surely come off"
    yield Line(
        "May still come off, surely", mm(limits.surely_mm), after, f"{binds.what}: {binds.limit}", said, binds.source,
        max(0.0, left), None, "mm",
    )  # fmt: skip


def _sources(limit: Limit | None, *given: Given | None) -> str:
    """The source of the limit, then those of what goes in, each once."""
    figures = "; ".join(dict.fromkeys(one.source for one in given if one is not None))
    if limit is None:
        return figures
    return f"limit: {limit.source}; figures: {figures}" if figures else f"limit: {limit.source}"

"""Flatness in all the ways that manuals limit it, from lines under a straightedge or from a scanned face."""

from collections.abc import Iterator
from dataclasses import replace

from gudgeon.bench.budget import Component
from gudgeon.bench.judging.cut import judged_lines
from gudgeon.bench.judging.decision import decide, total, value_of
from gudgeon.bench.judging.finding import (
    NO_READING,
    Case,
    Finding,
    Judged,
    judge_by,
    lacks,
    named,
    shown_value,
)
from gudgeon.bench.judging.lines import SAME, length_mm, read_over, runs
from gudgeon.bench.judging.plain import each_place
from gudgeon.bench.judging.plain import place as judge_place
from gudgeon.bench.judging.scans import Surface, by_hand, surface
from gudgeon.bench.judging.ways import instead
from gudgeon.bench.measured import Measured, measured
from gudgeon.quantity.format import both
from gudgeon.quantity.written import Printed
from gudgeon.sheet.shapes import PerLength, PerSpan, TwoFaces, WholeAndPerLength

WHOLE = "whole face"
LINES = "straightedge lines"
LOWER_BOUND = (
    "a straightedge shows only what lies under it (a twisted face shows half of its twist): lines can prove a face "
    "outside, never inside"
)
SCAN_ALL = "scan the whole face, up to its edges, or read the lines with a straightedge"
ROCKS = "where the straightedge rocks, hold it so that it gaps alike at both ends"


def whole_face(case: Case) -> Iterator[Finding]:
    """The zone of all points where the face was scanned; from lines only the proof that it lies outside."""
    scan = surface(case)
    if scan is not None:
        yield _by_zone(case, scan)
        # Two that do not agree are both said: a blade that enters is not talked away by points.
        hand = replace(case, readings=by_hand(case, scan)) if case.item.method == LINES else case
        if hand is not case and hand.readings and (lines := _by_lines(hand)).verdict == "outside":
            yield lines
        return
    if case.item.method in ("heights", "scanned face") or not case.readings:
        yield lacks(case, _nothing_read(case), place=WHOLE, covers=case.readings)
        return
    yield _by_lines(case)


def _nothing_read(case: Case) -> str:
    if case.item.method == "scanned face":
        return "no reading: the points of the face"
    if case.item.method == "heights":
        missing = case.lacking()
        return f"no reading: {named(missing) or 'the heights of the face'}"
    return NO_READING


def _by_zone(case: Case, scan: Surface) -> Finding:
    low, high = case.criterion.low, case.criterion.high
    value = scan.zone()
    shown = f"{shown_value(value, 'length_difference')}, minimum zone of {len(scan.points)} points"
    made = Judged(WHOLE, value, (), shown, None, scan.notes)
    found = judge_by(case, made, low=low, high=high)
    if found.verdict == "inside" and scan.not_covered:
        return _not_covered(
            replace(found, covers=tuple(case.readings), readings=tuple(case.readings.values())), scan
        )
    return replace(
        found, covers=tuple(case.readings), readings=tuple(case.readings.values()),
        ways_out=scan.way_out if found.verdict == "in doubt" else (),
    )  # fmt: skip


def _not_covered(found: Finding, scan: Surface) -> Finding:
    """What was not scanned may be as it likes: nothing is proven inside by the rest."""
    return replace(found, verdict="in doubt", reason=scan.not_covered, ways_out=(SCAN_ALL,))


def _by_lines(case: Case) -> Finding:
    """The largest gap is the least that the flatness can be: the profile of a line lies within the face's own zone."""
    worst = max(case.readings.values(), key=lambda one: one.low)
    limit = case.criterion.high
    found = decide(replace(value_of(worst), high=float("inf")), low=None, high=limit, as_read=case.as_read)
    outside = limit is not None and found.verdict == "outside"
    reason = f"{LOWER_BOUND}; it is at least what {worst.place or 'the line'} shows"
    if outside:
        reason = (
            f"outside {case.criterion.called}: the gap under the straightedge alone is more, {worst.place}"
        )
    return Finding(
        WHOLE, "outside" if outside else "in doubt", reason, f"{worst.text} at {worst.place}".removesuffix(" at "),
        value_of(worst), worst, tuple(case.readings), "" if outside else "the points of the face, or their heights",
        () if outside else _other_ways(case), (ROCKS,), None, limit, tuple(case.readings.values()),
    )  # fmt: skip


def _other_ways(case: Case) -> tuple[str, ...]:
    dial = next(
        (one.name for one in case.bench.kit.gauges.values() if one.kind == "dial gauge"), "a dial gauge"
    )
    ways = [
        f"heights of the face over a surface plate (plate glass serves, checked with the straightedge), with {dial}",
        "a scan of the face at a machine shop, read in as points x, y, z",
        "if the manual means the gap under a straightedge on these lines, write the limit as `wear_limit`: then the "
        "lines decide",
    ]
    return (*instead(case.bench, case.item), *ways)


def per_length(case: Case) -> Iterator[Finding]:
    """Over any stretch of a length: stretches that were read themselves, whole lines, or windows of a scan."""
    shape = case.criterion.stated
    assert isinstance(shape, PerLength | WholeAndPerLength)
    over, text = shape.over.value.middle_in("mm"), shape.over.value.text
    scan = surface(case)
    if scan is not None:
        value = scan.worst_window(over)
        shown = f"{shown_value(value, 'length_difference')}, the worst {text} of {len(scan.points)} points"
        made = Judged(f"any {text}", value, (), shown, None, scan.notes)
        found = judge_by(case, made, low=None, high=case.criterion.high)
        if found.verdict == "inside" and scan.not_covered:
            yield _not_covered(found, scan)
        elif found.verdict == "in doubt":
            yield _between_points(case, scan, replace(found, ways_out=scan.way_out), over=shape.over.value)
        else:
            yield found
        return
    for line, members in _by_line(case).items():
        read = [place for place in members if place in case.readings]
        short = [place for place in read if _is_stretch(case, place, over)]
        chosen = short or read
        if not chosen:
            yield lacks(case, NO_READING, place=line)
        for place in chosen:
            yield _stretch(case, place, over, text)


def _between_points(case: Case, scan: Surface, found: Finding, *, over: Printed) -> Finding:
    """Where only what lies between the points leaves it in doubt: how close they have to lie."""
    value, high, step = found.value, case.criterion.high, scan.step
    if value is None or high is None or not value.low <= high < value.high:
        return found
    apart = both(step, kind="length", decimals=1)
    closer = both(min(step / 2, over.middle_in("mm") / 10), kind="length", decimals=1)
    return replace(
        found,
        reason=f"the points are {apart} apart: a stretch of {over.text} may reach further than those that lie in it",
        ways_out=(f"scan in steps of at most {closer}, or use a straightedge of {over.text}",),
    )


def _by_line(case: Case) -> dict[str, list[str]]:
    """Places of one line together: the whole of it, and stretches of it, whose names begin with the line's."""
    found: dict[str, list[str]] = {}
    places = tuple(dict.fromkeys((*case.places, *case.readings)))
    for place in sorted(places, key=len):
        line = next((one for one in found if not one or place.startswith(f"{one},")), place)
        found.setdefault(line, []).append(place)
    order = {place: number for number, place in enumerate(places)}
    return dict(sorted(found.items(), key=lambda one: order[one[0]]))


def _is_stretch(case: Case, place: str, over: float) -> bool:
    length = read_over(case, place)
    return length is not None and length <= over * (1 + SAME)


def _stretch(case: Case, place: str, over: float, text: str) -> Finding:
    """A line that is straight enough is so in every stretch; one that is not may still be so in each.

    Within a stretch the straightedge rests on points that lie no higher than those it rests on along the whole line:
    the gap under the short one is never more than that under the long one.
    """
    one = case.readings[place]
    found = judge_place(case, one, low=None, high=case.criterion.high)
    if found.verdict == "inside" or _is_stretch(case, place, over):
        return found
    length = length_mm(case, place)
    known = (
        f"the line is {both(length, kind='length', decimals=0)} long"
        if length is not None
        else "the length of this line is not in the sheet"
    )
    reason = f"{known}: its gap says nothing of {text} of it unless it is inside"
    wanted = f"the gap under a straightedge no longer than {text}, moved along this line"
    return replace(
        found, verdict="in doubt", reason=reason, missing=wanted,
        ways_out=(f"read {wanted}, and name the place after it: “{place}, any {text}”", *found.ways_out),
    )  # fmt: skip


def plain(case: Case) -> Iterator[Finding]:
    """Every place by itself; of a face that was scanned, every line of it that the sheet names."""
    scan = surface(case) if case.item.method == LINES else None
    if scan is None:
        yield from each_place(case)
    else:
        yield from judged_lines(case, scan, case.places)


def by_direction(case: Case) -> Iterator[Finding]:
    """Lines lengthwise, crosswise, or all of them."""
    along, judged = case.criterion.along, False
    scan = surface(case)
    if scan is not None and along is None:
        yield from _all_lines(case, scan)
        return
    told: list[str] = []
    for place in _lines_of(case):
        way = runs(case, place)
        if along is not None and way not in (along, ""):
            continue
        judged = True
        if along is not None and not way:
            yield lacks(
                case, "the sheet does not say whether this line runs lengthwise or crosswise", place=place
            )
        elif scan is not None:
            told.append(place)
        elif place not in case.readings:
            yield lacks(case, NO_READING, place=place)
        else:
            yield judge_place(case, case.readings[place], low=None, high=case.criterion.high)
    if scan is not None and told:
        yield from judged_lines(case, scan, told)
    elif scan is not None and not judged:
        yield _all_lines_by_zone(case, scan)
    elif not judged:
        yield lacks(
            case, f"no line of this face runs {along or 'anywhere'}, by the sheet", place=along or WHOLE
        )


def _lines_of(case: Case) -> tuple[str, ...]:
    """The lines of a characteristic: where it is read; of a face that is only scanned, those that the sheet names."""
    if case.item.method == "scanned face" and case.face is not None:
        return tuple(case.face.lines)
    return case.places


def _all_lines(case: Case, scan: Surface) -> Iterator[Finding]:
    """The zone of all points; where that does not prove every line inside, the lines that are outside by themselves."""
    zone = _all_lines_by_zone(case, scan)
    yield zone
    read = by_hand(case, scan)
    names = _lines_of(case) if zone.verdict != "inside" else [one for one in _lines_of(case) if one in read]
    for found in judged_lines(case, scan, names):
        if found.verdict == "outside" or found.place in read:
            yield found


def _all_lines_by_zone(case: Case, scan: Surface) -> Finding:
    """Whatever lies between two planes so close has no line with a larger gap; more than that a zone does not say."""
    found = _by_zone(case, scan)
    name = case.criterion.along or "any"
    if found.verdict == "inside" or found.reason == scan.not_covered:
        return replace(found, place=f"{name} line")
    missing = f"no reading: the gap under a straightedge, {name} line"
    return replace(
        found, place=f"{name} line", verdict="in doubt", missing=missing, ways_out=(f"read {missing[12:]}",),
        reason="the whole face is less flat than a line may be, and its zone does not say which line it is",
    )  # fmt: skip


def per_span(case: Case) -> Iterator[Finding]:
    """A limit that grows with the span of each line."""
    shape, limit = case.criterion.stated, case.criterion.high
    assert isinstance(shape, PerSpan)
    assert limit is not None  # a deviation is limited from above
    per, scan = shape.per.value.middle_in("mm"), surface(case)
    limits: dict[str, Case] = {}
    for place in _lines_of(case):
        span = shape.span.value.middle_in("mm") if shape.span is not None else read_over(case, place)
        if span is None:
            yield lacks(case, "the length of this line is not in the sheet", place=place)
        elif scan is None and place not in case.readings:
            yield lacks(case, NO_READING, place=place)
        else:
            limits[place] = _grown(case, limit * span / per, span=span)
    if scan is not None:
        yield from judged_lines(case, scan, limits, limits=limits)
        return
    for place, own in limits.items():
        yield judge_place(own, case.readings[place], low=None, high=own.criterion.high)


def _grown(case: Case, most: float, *, span: float) -> Case:
    """The limit of one line, as long as it is."""
    words = f"at most {both(most, kind='length_difference')} over {both(span, kind='length', decimals=0)}"
    return replace(case, criterion=replace(case.criterion, words=words, low=None, high=most))


def two_faces(case: Case) -> Iterator[Finding]:
    """The worst of each face, added: both lie on one gasket, and neither knows which way the other bends."""
    shape = case.criterion.stated
    assert isinstance(shape, TwoFaces)
    other = case.bench.sheet.characteristics[shape.other]
    theirs = replace(case, key=shape.other, item=other, readings=measured(case.bench, shape.other))
    sides = [(case, _worst(case)), (theirs, _worst(theirs))]
    wanted = [
        f"{side.item.name} ({side.item.part}), {named(side.lacking()) or 'every line'}"
        for side, worst in sides
        if worst is None or (side.lacking() and worst.place != "the scan")
    ]
    read = [(1.0, worst) for _, worst in sides if worst is not None]
    if len(read) == 2:
        found = judge_by(case, _added(read), low=None, high=case.criterion.high)
        scans = [scan for side, _ in sides if (scan := surface(side)) is not None and scan.not_covered]
        if found.verdict == "inside" and scans:
            found = _not_covered(found, scans[0])
        covering = replace(found, covers=tuple(case.readings))
        if not wanted or found.verdict == "outside":
            yield covering
            return
    yield lacks(case, f"no reading: {' and '.join(wanted)}", place="both faces", covers=case.readings)


def _added(read: list[tuple[float, Measured]]) -> Judged:
    value = total(read)
    shown = f"{shown_value(value, 'length_difference')}: {' and '.join(one.text for _, one in read)}"
    return Judged("both faces", value, tuple(read), shown)


def _worst(case: Case) -> Measured | None:
    """The line with the largest gap; ends of blades are those of the line whose gap may be largest."""
    read, scan = list(case.readings.values()), surface(case)
    if scan is not None:
        zone = scan.zone()
        made = Component("points of the scan", zone.u, cause="points")
        text = f"{shown_value(zone, 'length_difference')} (scan)"
        return Measured(
            "the scan", zone.low, zone.high, (made,), zone.known, None, scan.condition, text, "", "", scan.gauge, "",
            scan.notes,
        )  # fmt: skip
    if not read:
        return None
    most = max(read, key=lambda one: (one.high, one.low))
    # The largest gap of the face is at least the largest lower end of all its lines.
    return replace(most, low=max(one.low for one in read))

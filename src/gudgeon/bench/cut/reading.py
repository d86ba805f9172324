"""Figures of the sheet and readings of the book as they go into the cut."""

import math
from collections.abc import Mapping, Sequence

from gudgeon.bench.budget import Component
from gudgeon.bench.context import Bench
from gudgeon.bench.cut.given import Deviation, Given, Heights, Limit, Missing, State
from gudgeon.bench.cut.known import Known, bound, lumped, printed, tagged, total
from gudgeon.bench.measured import Measured, measured_in
from gudgeon.bench.scans import scanned_in
from gudgeon.bench.sheet_place import line_of
from gudgeon.quantity.errors import BoundOpen
from gudgeon.quantity.format import both, both_ends, known_between
from gudgeon.quantity.written import Printed
from gudgeon.sheet.figures import Cited, Stated

UNIT = {
    "length": "mm", "length_difference": "mm", "area": "mm²", "volume": "cm³", "angle": "°", "ratio": "1",
}  # fmt: skip


def stated(
    bench: Bench,
    figure: Stated | Printed | None,
    *,
    name: str,
    path: str,
    kind: str,
    source: Cited | None,
    state: State = "",
) -> Given | Missing:
    """A figure of the sheet as it goes in; a bound is no value and counts as missing."""
    value = figure.value if isinstance(figure, Stated) else figure
    line = line_of(bench.papers.written, path)
    if value is None:
        return Missing(name, path, "not stated", line)
    try:
        known = printed(value, unit=UNIT[kind], tag=path)
    except BoundOpen:
        return Missing(name, path, f"`{value.text}` is a bound; a value is needed", line)
    return Given(name, known, value.text, _source(source), state, path, line, _unit(kind))


def limit(
    bench: Bench, figure: Stated | Printed | None, *, name: str, path: str, kind: str, source: Cited | None,
    upper: bool,
) -> Limit | None:  # fmt: skip
    """A limit of the sheet."""
    value = figure.value if isinstance(figure, Stated) else figure
    if value is None:
        return None
    end = bound(value, unit=UNIT[kind], upper=upper)
    return Limit(name, end, value.text, _source(source), path, line_of(bench.papers.written, path))


def _unit(kind: str) -> str:
    return "" if UNIT[kind] == "1" else UNIT[kind]


def _source(cited: Cited | None) -> str:
    return str(cited) if cited is not None else "the data sheet"


def heights(bench: Bench, key: str, *, condition: State) -> Heights | None:
    """The height of the head in one condition: mean and least place."""
    read = _single(measured_in(bench, key, condition=condition))
    if not read:
        return None
    by_place = tuple((place, _reading(key, one, condition, "height")) for place, one in read.items())
    known = [given.known for _, given in by_place]
    mean = total([(1 / len(known), one) for one in known])
    place, least = min(by_place, key=lambda one: one[1].value)
    words = f"measured in the book: {_places(len(read))}, {condition}"
    text = both(mean.value, kind="length", decimals=3)
    return Heights(
        Given("height of the head", mean, text, words, condition), least, place, by_place
    )  # fmt: skip


def _reading(key: str, one: Measured, condition: State, name: str) -> Given:
    known = _known(key, one, condition)
    where = f" at {one.place}" if one.place else ""
    return Given(f"{name}{where}", known, one.text, f"measured in the book, {condition}", condition)


def _known(key: str, one: Measured, condition: str) -> Known:
    """A reading as a value: of two ends the middle, between which it may be anywhere."""
    tag = f"{key}, {one.place}, {condition}"
    components = list(tagged(one.worse.components, tag=tag))
    half = (one.high - one.low) / 2
    if half > 0:
        components.append(Component("between two ends", half / math.sqrt(3), tag=f"{tag}, ends"))
    return Known((one.low + one.high) / 2, tuple(components), one.u_known)


def _single(read: Mapping[str, Measured]) -> dict[str, Measured]:
    """What is known at both ends."""
    return {place: one for place, one in read.items() if math.isfinite(one.low + one.high)}


def _places(count: int) -> str:
    return f"{count} {'place' if count == 1 else 'places'}"


def settled(bench: Bench, key: str) -> tuple[State, dict[str, Measured]]:
    """The readings that count of a characteristic: those as left where there are such, else those as found."""
    conditions: tuple[State, ...] = ("as left", "as found")
    for condition in conditions:
        read = _single(measured_in(bench, key, condition=condition))
        if read:
            return condition, read
    return "", {}


def mean_of(bench: Bench, key: str, *, name: str, kind: str) -> Given | None:
    """The mean of all places of a characteristic, each as left where it was read so, else as found."""
    read: dict[str, tuple[State, Measured]] = {}
    conditions: tuple[State, ...] = ("as found", "as left")
    for condition in conditions:
        for place, one in _single(measured_in(bench, key, condition=condition)).items():
            read[place] = (condition, one)
    if not read:
        return None
    known = total([(1 / len(read), _known(key, one, condition)) for condition, one in read.values()])
    said = " and ".join(dict.fromkeys(condition for condition, _ in read.values()))
    words = f"measured in the book: {_places(len(read))}, {said}"
    return Given(name, lumped(known, tag=key), both(known.value, kind=kind), words)


def by_cylinder(bench: Bench, key: str, *, name: str, kind: str, highest: bool) -> Given | None:
    """The mean of the places of each cylinder, and of these the highest, or the least."""
    condition, read = settled(bench, key)
    groups: dict[str, list[Measured]] = {}
    crossed = isinstance(bench.sheet.characteristics[key].places, dict)
    for place, one in read.items():
        groups.setdefault(place.split(",")[0] if crossed else place, []).append(one)
    if not groups:
        return None
    means = {
        group: total([(1 / len(members), _known(key, one, condition)) for one in members])
        for group, members in groups.items()
    }
    choose = max if highest else min
    chosen = choose(means, key=lambda group: means[group].value)
    which = "highest" if highest else "least"
    words = f"measured in the book: {_places(len(read))}, {condition}; {which} of {len(groups)}"
    if len(groups) > 1:
        words += f", {chosen}"
    found = lumped(means[chosen], tag=key)
    return Given(name, found, both(found.value, kind=kind), words, condition, unit=_unit(kind))


def deviation(bench: Bench, keys: Sequence[str]) -> Deviation | None:
    """How far a face was off flat as found: by its scan, else by the worst of its lines."""
    ways = (_scan_of, _heights_of, _lines_of)
    found = [one for key in keys for way in ways if (one := way(bench, key)) is not None]
    return max(found, key=lambda one: one.given.value, default=None)


def _scan_of(bench: Bench, key: str) -> Deviation | None:
    scan = scanned_in(bench, key, condition="as found")
    if scan is None:
        return None
    words = f"scan of {len(scan.points)} points, as found"
    return _zone(key, scan.points, u=scan.u, certain=scan.u_known, words=words)


def _heights_of(bench: Bench, key: str) -> Deviation | None:
    """Heights of the face over a plate; what is uncertain of the plate is counted where the face is judged."""
    item = bench.sheet.characteristics[key]
    face = bench.sheet.faces.get(item.face or "")
    if item.method != "heights" or face is None:
        return None
    read = _single(measured_in(bench, key, condition="as found"))
    if any(place not in face.points for place in read):
        return None
    spots = {place: face.points[place] for place in read}
    points = tuple(
        (spots[place].x.middle_in("mm"), spots[place].y.middle_in("mm"), (one.low + one.high) / 2)
        for place, one in read.items()
    )
    u = max((one.u for one in read.values()), default=0.0)
    certain = all(one.u_known for one in read.values())
    return _zone(key, points, u=u, certain=certain, words=f"heights at {_places(len(read))}, as found")


def _zone(
    key: str, points: tuple[tuple[float, float, float], ...], *, u: float, certain: bool, words: str
) -> Deviation | None:
    """The least zone of points; through three of them there is always a plane."""
    if len(points) <= 3:
        return None
    from gudgeon.calc.metrology.flatness import flatness

    zone = flatness(points).minimum_zone_mm
    both_points = u * math.sqrt(2)  # a height less a height
    made = (Component("points of the face", both_points, tag=key, cause="points"),) if u > 0 else ()
    text = both(zone, kind="length_difference", decimals=3)
    given = Given(
        "flatness found", Known(zone, made, certain), text, f"measured in the book: {words}", "as found"
    )
    return Deviation(given, zone, zone, at_least=False, where="whole face")


def _lines_of(bench: Bench, key: str) -> Deviation | None:
    item = bench.sheet.characteristics[key]
    read = measured_in(bench, key, condition="as found")
    if item.method in ("heights", "scanned face") or item.kind != "length_difference" or not read:
        return None
    worst = max(read.values(), key=lambda one: (one.low, one.high))
    high = max(one.high for one in read.values())
    at_least = not math.isfinite(high)
    upper = worst.low if at_least else max(worst.low, high)
    ends = Measured(
        worst.place, worst.low, upper, worst.worse.components, worst.u_known, None, worst.condition, worst.text, "",
        "", worst.instrument, worst.entry,
    )  # fmt: skip
    known = lumped(_known(key, ends, "as found"), tag=key)
    text = known_between(worst.low, high=high, kind="length_difference")
    words = (
        f"measured in the book: {_places(len(read))}, as found; worst at {worst.place or 'its only place'}"
    )
    given = Given("flatness found", known, text, words, "as found")
    return Deviation(given, worst.low, upper, at_least, worst.place)


def deepest(bench: Bench, key: str, *, name: str) -> Given | None:
    """The deepest of the pits that were read as found."""
    read = _single(measured_in(bench, key, condition="as found"))
    if not read:
        return None
    worst = max(read.values(), key=lambda one: one.high)
    known = lumped(_known(key, worst, "as found"), tag=key)
    text = (
        both_ends(worst.low, high=worst.high, kind="length_difference")
        if worst.low != worst.high
        else worst.text
    )
    words = (
        f"measured in the book: {_places(len(read))}, as found; deepest at {worst.place or 'its only place'}"
    )
    return Given(name, known, text, words, "as found")

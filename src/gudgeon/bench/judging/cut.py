"""Lines cut from a scanned face: what a straightedge that is laid on them would show."""

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gudgeon.bench.judging.decision import Value, decide
from gudgeon.bench.judging.finding import Case, Finding, Judged, judge_by, lacks, shown_value
from gudgeon.bench.judging.plain import place as judge_place
from gudgeon.bench.judging.scans import Surface, by_hand
from gudgeon.bench.pictures.points import beside
from gudgeon.quantity.format import both, known_between
from gudgeon.sheet.faces import Line, Opening

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

LEAST_BAND, MOST_BAND = 0.5, 5.0
"""Points count to a line within half of the distance of neighbors, and within this [mm] on either side."""
LONGEST_HOLE, LONGEST_END = 0.25, 0.1
"""How much of a line may be without points, between two of them and before its ends, openings not counted."""
LEAST_POINTS = 3
"""A straightedge rests on two points; the third may lie below it."""
NO_ENDS = "the ends of this line are not in the sheet (`from:` and `to:` of the line), so it is not cut from the scan"
OTHER_ZERO = (
    "most points of the scan lie beside the outline of the face: they are counted from another zero than its lines, so "
    "no line is cut from it"
)
Spots = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Cut:
    """The points of a scan along one line; `hole` is the longest stretch of it that has none, where that is too long.

    However a straightedge is held on the line, somewhere it gaps at least as much as the line is off straight: that is
    the lower end of `value`. The upper one is the largest gap where it rests by itself, about its middle.
    """

    place: str
    value: Value
    points: int
    band: float
    hole: float

    @property
    def enough(self) -> bool:
        """Whether the points say all of the line; else they say only how large the gap is at least."""
        return self.points >= LEAST_POINTS and not self.hole

    @property
    def shown(self) -> str:
        """The gap, to the micrometer: finer than that no scan of a face is."""
        low, high = (
            round(one, 3) if math.isfinite(one) else one for one in (self.value.low, self.value.high)
        )
        return known_between(low, high=high, kind="length_difference", decimals=3)

    @property
    def near(self) -> str:
        """How many points lie near the line."""
        count = "1 point" if self.points == 1 else f"{self.points} points"
        return f"{count} of the scan within {both(self.band, kind='length', decimals=1)} of the line"


def judged_lines(
    case: Case, scan: Surface, places: Iterable[str], *, limits: dict[str, Case] | None = None
) -> Iterable[Finding]:
    """Each line by the limit of its case: by the blades where they came later or at once, else cut from the scan."""
    names = list(places)
    read, found = by_hand(case, scan), cuts(case, scan, names)
    for name in names:
        own = (limits or {}).get(name, case)
        if name in read:
            yield judge_place(own, read[name], low=own.criterion.low, high=own.criterion.high)
        elif name in found:
            yield judged_cut(own, scan, found[name])
        else:
            yield _without_ends(own, scan, name)


def judged_cut(case: Case, scan: Surface, cut: Cut) -> Finding:
    """One line of a scan by a limit; where too few points lie near it, the gap is at least what they show."""
    low, high = case.criterion.low, case.criterion.high
    way = f"lay the straightedge on it: gudgeon record reading {case.key}"
    if cut.enough or decide(cut.value, low=low, high=high, as_read=case.as_read).verdict == "outside":
        shown = f"{cut.shown}, cut from the scan"
        notes = (*scan.notes, f"a straightedge on {cut.near}")
        found = judge_by(case, Judged(cut.place, cut.value, (), shown, None, notes), low=low, high=high)
        ways = (way, *scan.way_out) if found.verdict == "in doubt" else ()
        return replace(found, ways_out=ways)
    reason = f"too few points lie near this line: {cut.near}"
    if cut.hole:
        reason += f", none over {both(cut.hole, kind='length', decimals=0)} of it"
    return replace(lacks(case, reason, place=cut.place, shown=cut.near), ways_out=(way,))


def _without_ends(case: Case, scan: Surface, place: str) -> Finding:
    """Between planes as close as the limit no line has a larger gap, wherever it runs."""
    zone = scan.zone()
    if decide(zone, low=None, high=case.criterion.high, as_read=case.as_read).verdict == "inside":
        shown = f"{shown_value(zone, 'length_difference')}, minimum zone of {len(scan.points)} points"
        return judge_by(
            case, Judged(place, zone, (), shown, None, scan.notes), low=None, high=case.criterion.high
        )
    why = OTHER_ZERO if _from_another_zero(case, scan) else NO_ENDS
    return lacks(case, why, place=place, shown="the scan")


def _from_another_zero(case: Case, scan: Surface) -> bool:
    face = case.face
    outline = (
        [(one.x.middle_in("mm"), one.y.middle_in("mm")) for one in face.outline] if face is not None else []
    )
    return beside(scan.points, outline=outline)


def cuts(case: Case, scan: Surface, places: Iterable[str]) -> dict[str, Cut]:
    """The lines of a face whose ends the sheet states, cut from its scan."""
    from gudgeon.calc.metrology.straightedge import profiles_on_face

    face = case.face
    named = {name: face.lines[name] for name in places if name in face.lines} if face is not None else {}
    ends = {name: spots for name, line in named.items() if (spots := _ends(line)) is not None}
    if face is None or not ends or _from_another_zero(case, scan):
        return {}
    band = band_mm(scan)
    profiles = profiles_on_face(scan.points, lines_mm=ends, band_mm=band)
    return {
        name: _cut(name, profiles[name], scan, ends[name], band=band, openings=face.openings) for name in ends
    }


def _ends(line: Line) -> Spots | None:
    if line.start is None or line.end is None:
        return None
    start, end = ((one.x.middle_in("mm"), one.y.middle_in("mm")) for one in (line.start, line.end))
    return start, end


def band_mm(scan: Surface) -> float:
    """Half of how far neighbors lie apart on the whole, so that a line between two rows has points; never far off."""
    across = max(x for x, _, _ in scan.points) - min(x for x, _, _ in scan.points)
    up = max(y for _, y, _ in scan.points) - min(y for _, y, _ in scan.points)
    half = math.sqrt(across * up / len(scan.points)) / 2
    return min(max(half, LEAST_BAND), MOST_BAND)


def _cut(
    name: str,
    profile: "NDArray[float64]",
    scan: Surface,
    ends: Spots,
    *,
    band: float,
    openings: Sequence[Opening],
) -> Cut:
    from gudgeon.calc.metrology.straightedge import straightedge_gap
    from gudgeon.calc.metrology.straightness import straightness

    places = [float(one) for one in profile[:, 0]]
    if len(set(places)) < LEAST_POINTS:
        return Cut(name, scan.of_heights(0.0, high=math.inf), len(places), band, 0.0)
    hole = _hole(places, math.dist(*ends), _chords(ends, openings))
    least = straightness(profile).minimum_zone_mm
    most = math.inf if hole else max(least, straightedge_gap(profile).laid_mm)
    return Cut(name, scan.of_heights(least, high=most), len(places), band, hole)


def _hole(places: Sequence[float], length: float, chords: Sequence[tuple[float, float]]) -> float:
    """The longest stretch without points that is too long; what an opening takes of it does not count."""
    inner = sorted(min(max(one, 0.0), length) for one in places)
    stretches = [
        *((one, LONGEST_END) for one in ((0.0, inner[0]), (inner[-1], length))),
        *((one, LONGEST_HOLE) for one in itertools.pairwise(inner)),
    ]
    holes = []
    for (start, end), share in stretches:
        open_there = math.fsum(max(0.0, min(end, out) - max(start, into)) for into, out in chords)
        hole = end - start - open_there
        if hole > share * length + 1e-9:
            holes.append(hole)
    return max(holes, default=0.0)


def _chords(ends: Spots, openings: Sequence[Opening]) -> list[tuple[float, float]]:
    """From where to where along the line there is an opening under it."""
    (x, y), (u, v) = ends
    length = math.dist(*ends)
    along = ((u - x) / length, (v - y) / length)
    found = []
    for one in openings:
        off = (one.x.middle_in("mm") - x, one.y.middle_in("mm") - y)
        place = off[0] * along[0] + off[1] * along[1]
        aside = off[0] * along[1] - off[1] * along[0]
        radius = one.diameter.middle_in("mm") / 2
        if abs(aside) < radius:
            half = math.sqrt(radius**2 - aside**2)
            found.append((place - half, place + half))
    return found

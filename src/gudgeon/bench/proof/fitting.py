"""Figures of one sheet that cannot go together: rod and stroke, hole and bolt, gaskets, shims, margins."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from gudgeon.bench.proof.amounts import Exact, exact, shown
from gudgeon.bench.proof.findings import Finding, finding
from gudgeon.quantity.written import Amount, Printed
from gudgeon.sheet.engine import Cylinder, HeadGasket
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.model import DataSheet

_LONE = ("size", "gap")
"""What is read as a size or a clearance has to lie in something; a flatness or a run-out has an upper end by itself."""


def check_fitting(sheet: DataSheet) -> Iterator[Finding]:
    """Every pair of figures that contradict each other because of what they are."""
    yield from _lone_values(sheet)
    if sheet.cylinder is not None:
        yield from _rod(sheet.cylinder)
        yield from _most_ratio(sheet.cylinder)
        yield from _gaskets(sheet.cylinder)
    yield from _holes(sheet)
    yield from _shims(sheet)
    yield from _margins(sheet)


def _lone_values(sheet: DataSheet) -> Iterator[Finding]:
    """One value that a clearance has to have: with nothing allowed to either side every reading is outside."""
    for key, item in sheet.characteristics.items():
        figure = item.required
        if figure is None or item.method not in _LONE or not all(one.single for one in figure.value.spans):
            continue
        if any(one.low is None or one.low.kind.family != "length" for one in figure.value.spans):
            continue
        yield finding(
            "lone-value",
            grade="doubt",
            path=f"characteristics.{key}.required",
            name=f"{item.name}, required",
            printed=figure.value.text,
            why="One value, and nothing says how far a reading may be off it: every reading would be outside.",
            agrees="write a range or a ±, as the manual prints it, like 0.15–0.25 mm or 0.20 ± 0.05 mm",
            source=str(item.cited(figure) or ""),
        )


def _rod(cylinder: Cylinder) -> Iterator[Finding]:
    """A rod no longer than the throw and the offset does not let the crank turn."""
    rod, stroke = _low(cylinder.rod_length, high=True), _low(cylinder.stroke)
    if rod is None or stroke is None or cylinder.rod_length is None or cylinder.stroke is None:
        return
    offset = _low(cylinder.pin_offset)
    throw = stroke.value / 2 + (abs(offset.value) if offset is not None else 0)
    if rod.high > throw:
        return
    aside = f"; pin offset {cylinder.pin_offset.value.text}" if cylinder.pin_offset is not None else ""
    yield finding(
        "rod",
        grade="error",
        path="cylinder.rod_length",
        name="Rod length",
        printed=f"{cylinder.rod_length.value.text}; stroke {cylinder.stroke.value.text}{aside}",
        why="The rod is no longer than half of the stroke with the offset of the pin: the crankshaft could not turn.",
        agrees="rods are mostly 1.5 to 2 times the stroke long, from center to center (common practice)",
        digit="look at rod length and stroke",
        source=str(cylinder.cited(cylinder.rod_length) or ""),
    )


def _most_ratio(cylinder: Cylinder) -> Iterator[Finding]:
    """An engine that is over its limit as it is new."""
    stated, most = cylinder.compression_ratio, cylinder.most_ratio
    new, limit = _low(stated), _low(most, high=True)
    if stated is None or most is None or new is None or limit is None or limit.high >= new.low:
        return
    yield finding(
        "most-ratio",
        grade="error",
        path="cylinder.most_ratio",
        name="Highest compression ratio",
        printed=f"{most.value.text}; compression ratio {stated.value.text}",
        why="The highest ratio that is allowed lies below the ratio of the new engine.",
        agrees=f"{_first(stated.value)} or more",
        source=str(cylinder.cited(most) or ""),
    )


def _gaskets(cylinder: Cylinder) -> Iterator[Finding]:
    """Gaskets that are meant for the same cut, or leave a cut between them without one."""
    for field, what in (("for_cut", "cut"), ("for_piston_height", "piston height")):
        rows = [
            (name, one, stated)
            for name, one in cylinder.gaskets.items()
            if (stated := getattr(one, field)) is not None
        ]
        rows.sort(key=lambda row: _foot(row[2].value))
        for first, second in pairwise(rows):
            yield from _neighbors(cylinder, field, what, first, second)


_Row = tuple[str, HeadGasket, Stated]


def _neighbors(cylinder: Cylinder, field: str, what: str, first: _Row, second: _Row) -> Iterator[Finding]:
    top, foot = first[2].value.first.high, second[2].value.first.low
    if top is None or foot is None:
        return
    above, below = exact(top), exact(foot)
    distance = below.value - above.value
    step = 2 * max(above.half, below.half)
    if 0 <= distance <= step:
        return
    why = (
        f"For a {what} between {shown(foot)} and {shown(top)} both gaskets would be right."
        if distance < 0
        else f"For a {what} between {shown(top)} and {shown(foot)} there is no gasket."
    )
    yield finding(
        "gaskets",
        grade="doubt",
        path=f"cylinder.gaskets.{second[0]}.{field}",
        name=f"Head gaskets {first[0]} and {second[0]}",
        printed=f"{first[0]}: {first[2].value.text}; {second[0]}: {second[2].value.text}",
        why=why,
        agrees=f"{second[0]} from {shown(top)}",
        source=str(second[1].cited(second[2]) or cylinder.source or ""),
    )


def _holes(sheet: DataSheet) -> Iterator[Finding]:
    """A bolt that stands on the bottom of its hole clamps nothing."""
    for key, joint in sheet.joints.items():
        bolt = joint.fastener
        if bolt is None or bolt.free_length is None or bolt.grip is None or bolt.hole_depth is None:
            continue
        length, grip, hole = (
            _of(one, high) for one, high in ((bolt.free_length, False), (bolt.grip, True), (bolt.hole_depth, True))
        )  # fmt: skip
        if length is None or grip is None or hole is None or length.low - grip.high <= hole.high:
            continue
        reach = float(length.value - grip.value)
        yield finding(
            "hole-depth",
            grade="error",
            path=f"joints.{key}.fastener.hole_depth",
            name=f"{joint.name}, hole depth",
            printed=f"{bolt.hole_depth.text}; length {bolt.free_length.text}; grip {bolt.grip.text}",
            why=f"The bolt reaches {reach:.1f} mm below the face and the hole is less deep: it would stand on the "
            "bottom of its hole and clamp nothing.",
            agrees=f"a hole deeper than {reach:.1f} mm",
            source=str(joint.source or ""),
        )


def _shims(sheet: DataSheet) -> Iterator[Finding]:
    """Shims from one thickness to another in steps: the last step ends at the last one."""
    gear = sheet.valve_gear
    if gear is None or gear.shim_thickness is None or gear.shim_step is None:
        return
    span = gear.shim_thickness.value.first
    step = _low(gear.shim_step)
    if span.low is None or span.high is None or span.single or step is None:
        return
    low, high = exact(span.low), exact(span.high)
    if step.value <= 0 or high.value <= low.value:
        return
    count = (high.value - low.value) / step.value
    off = abs(count - round(count)) * step.value
    if off <= low.half + high.half and off < step.value / 4:
        return
    yield finding(
        "shim-step",
        grade="doubt",
        path="valve_gear.shim_step",
        name="Shims, step",
        printed=f"{gear.shim_thickness.value.text} by {gear.shim_step.value.text}",
        why=f"Steps of {gear.shim_step.value.text} from {shown(span.low)} on do not end at {shown(span.high)}: "
        f"{float(count):.2f} of them lie between.",
        digit="look at the step and at both ends",
        source=str(gear.cited(gear.shim_step) or ""),
    )


def _margins(sheet: DataSheet) -> Iterator[Finding]:
    """The least that valve and piston may come to each other, against what they have when new."""
    gear = sheet.valve_gear
    for valve in ("intake", "exhaust") if gear is not None else ():
        valves = getattr(gear, valve)
        if valves is None or valves.piston_margin is None or valves.least_piston_margin is None:
            continue
        new, least = _low(valves.piston_margin, high=True), _low(valves.least_piston_margin)
        if new is None or least is None or least.low <= new.high:
            continue
        yield finding(
            "piston-margin",
            grade="error",
            path=f"valve_gear.{valve}.least_piston_margin",
            name=f"Least margin of the {valve} valves to the piston",
            printed=f"{valves.least_piston_margin.value.text}; new {valves.piston_margin.value.text}",
            why="The least that is allowed is more than the new engine has.",
            agrees=f"{_first(valves.piston_margin.value)} or less; or the two are exchanged",
            source=str(
                valves.cited(valves.least_piston_margin) or (gear.source if gear is not None else "") or ""
            ),
        )


def _end(figure: Printed, *, high: bool) -> Amount | None:
    span = figure.first
    return (span.high or span.low) if high else (span.low or span.high)


def _of(figure: Printed, high: bool) -> Exact | None:
    end = _end(figure, high=high)
    return exact(end) if end is not None else None


def _low(stated: Stated | None, *, high: bool = False) -> Exact | None:
    """One end of a stated figure; the other where it has only that."""
    return _of(stated.value, high) if stated is not None else None


def _first(figure: Printed) -> str:
    end = _end(figure, high=True)
    return shown(end) if end is not None else figure.text


def _foot(figure: Printed) -> Fraction:
    """Where a range stands among others; one that is open below comes first."""
    span = figure.first
    if span.low is None:
        return Fraction(-1)
    return exact(span.low).value

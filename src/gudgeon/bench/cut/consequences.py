"""What does the cut do? Ratio and squish after the head face has been cut, least and most."""

from dataclasses import dataclass
from itertools import product
from statistics import mean

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.errors import CannotWorkOut
from gudgeon.bench.gauge_error import standard_uncertainty
from gudgeon.bench.measured import middle
from gudgeon.book.state import ReadingState, ShopState
from gudgeon.calc.engine.cut import after_cut, squish
from gudgeon.calc.engine.cylinder import CylinderGeometry, clearance_volume_cm3, swept_volume_cm3
from gudgeon.quantity.format import both, both_ends, number
from gudgeon.quantity.written import Printed, parse_printed
from gudgeon.sheet.engine import Cylinder
from gudgeon.sheet.figures import Stated


@dataclass(frozen=True, slots=True)
class Between:
    """A result with the least and the most it can be, as the figures behind it allow."""

    middle: float
    least: float
    most: float

    def words(self, kind: str) -> str:
        """`9.92 (9.79 to 10.06)`, in both systems where the kind has two."""
        return both_ends(self.least, high=self.most, middle=self.middle, kind=kind, decimals=2)


@dataclass(frozen=True, slots=True)
class Line:
    """One consequence: before, after, the limit, and what follows."""

    what: str
    before: str
    after: str
    limit: str
    verdict: str
    source: str


@dataclass(frozen=True, slots=True)
class CutAnswer:
    """The answer to “What does the cut do?”."""

    heading: Heading
    cut: str
    cut_from: str
    ordered: str
    ratio_before: Between
    ratio_after: Between
    squish_before: Between | None
    squish_after: Between | None
    lines: tuple[Line, ...]
    missing: tuple[str, ...]
    basis: str


BASIS = (
    "Least and most follow from the tolerance the sheet prints, else from half its last digit, and from the error "
    "of the gauge for the height; every combination is worked out. A squish pad that lies above the face comes nearer "
    "by the cut; one that is flush with it is cut along, and its gap stays."
)

_NEEDED = (
    "bore", "stroke", "chamber_volume", "chamber_mouth_area", "crown_volume",
    "piston_height", "gasket_bore", "gasket_thickness",
)  # fmt: skip


def consequences(bench: Bench, *, off: str | None = None) -> CutAnswer:
    """What a cut does: the one that was made (from the heights in the book), or one asked about."""
    bench.unlock()
    cylinder = bench.sheet.cylinder
    missing = [name for name in _NEEDED if cylinder is None or getattr(cylinder, name) is None]
    if cylinder is None or missing:
        raise CannotWorkOut("The ratio after a cut", [name.replace("_", " ") for name in missing])
    cut, came_from = (_asked(off), "as asked") if off is not None else _made(bench)
    before = _ratio(cylinder, Between(0.0, 0.0, 0.0))
    after = _ratio(cylinder, cut)
    gap_before, gap_after = _squish(cylinder, Between(0.0, 0.0, 0.0)), _squish(cylinder, cut)
    lines = [
        _ratio_line(cylinder, before, after),
        *_squish_line(cylinder, gap_before, gap_after),
        *_height_lines(bench, cut, asked=off is not None),
    ]
    order = _order(bench)
    if order is not None and order.most_off and off is None:
        lines.insert(0, _order_line(order.most_off, cut))
    ordered = order.ordered if order is not None else ""
    return CutAnswer(
        bench.heading("What does the cut do?"), cut.words("length_difference"), came_from, ordered,
        before, after, gap_before, gap_after, tuple(lines), tuple(_gaps(bench)), BASIS,
    )  # fmt: skip


def _mm(value: float) -> str:
    return both(value, kind="length_difference", decimals=2)


def _two(value: float) -> str:
    return number(value, decimals=2)


def _asked(text: str) -> Between:
    figure = parse_printed(text, kind="length_difference")
    found = _between(figure, "mm")
    return Between(found.middle, max(0.0, found.least), found.most)


def _one_end(figure: Stated) -> float:
    """A limit that is written as `min …`, `max …` or as a plain figure."""
    low, high = figure.value.low_in("mm"), figure.value.high_in("mm")
    end = low if low is not None else high
    assert end is not None
    return end


def _between(figure: Printed, unit: str) -> Between:
    """Middle, least and most of a printed figure: its own range, else half its last digit."""
    middle = figure.middle_in(unit)
    low, high = figure.low_in(unit), figure.high_in(unit)
    if figure.first.single or low is None or high is None:
        end = figure.first.low or figure.first.high
        half = end.half_digit_in(unit) if end is not None else 0.0
        return Between(middle, middle - half, middle + half)
    return Between(middle, low, high)


def _stated(figure: Stated | None, unit: str) -> Between:
    assert figure is not None
    return _between(figure.value, unit)


def _made(bench: Bench) -> tuple[Between, str]:
    """The cut as the heights in the book show it: mean as found less mean as left."""
    head = bench.sheet.head
    key = head.measured_as if head is not None else None
    if key is None or key not in bench.sheet.characteristics:
        raise CannotWorkOut(
            "The cut that was made", ["head: measured_as, the characteristic that holds its height"]
        )
    item = bench.sheet.characteristics[key]
    heights: dict[str, list[float]] = {"as found": [], "as left": []}
    u = 0.0
    for (name, _, condition), one in bench.state.readings.items():
        if name == key:
            height = middle(one, item.kind)
            if height is not None:
                heights[condition].append(height)
                u = max(u, _u(bench, one, height))
    lacking = [f"{item.name} {condition}" for condition, found in heights.items() if not found]
    if lacking:
        raise CannotWorkOut("The cut that was made", [*lacking, "or ask about a cut with --off"])
    cut = mean(heights["as found"]) - mean(heights["as left"])
    spread = 2 * u * 2**0.5
    places = len(heights["as left"])
    return Between(
        cut, max(0.0, cut - spread), cut + spread
    ), f"from the heights in the book, {places} places, gauge error included"


def _u(bench: Bench, one: ReadingState, height: float) -> float:
    gauge = bench.kit.gauges.get(one.instrument)
    return standard_uncertainty(gauge, "length", size_mm=height)[0]


def _ratio(cylinder: Cylinder, cut: Between) -> Between:
    """The ratio with every figure at its middle, and the least and most over all combinations."""
    inputs = {name: _stated(getattr(cylinder, name), _UNITS[name]) for name in _NEEDED}
    middle = _one_ratio({name: one.middle for name, one in inputs.items()}, cut.middle)
    corners = product(*((one.least, one.most) for one in inputs.values()), (cut.least, cut.most))
    ends = [_one_ratio(dict(zip(inputs, corner[:-1], strict=True)), corner[-1]) for corner in corners]
    return Between(middle, min(ends), max(ends))


_UNITS = {
    "bore": "mm", "stroke": "mm", "chamber_volume": "cm³", "chamber_mouth_area": "mm²", "crown_volume": "cm³",
    "piston_height": "mm", "gasket_bore": "mm", "gasket_thickness": "mm", "squish_pad_recess": "mm",
}  # fmt: skip


def _one_ratio(values: dict[str, float], cut_mm: float) -> float:
    geometry = CylinderGeometry(
        bore_mm=values["bore"],
        stroke_mm=values["stroke"],
        chamber_volume_cm3=values["chamber_volume"],
        gasket_bore_mm=values["gasket_bore"],
        gasket_thickness_mm=values["gasket_thickness"],
        crown_volume_cm3=values["crown_volume"],
        piston_height_mm=values["piston_height"],
    )
    swept = swept_volume_cm3(geometry.bore_mm, stroke_mm=geometry.stroke_mm)
    found = after_cut(
        cut_mm,
        swept_cm3=swept,
        clearance_cm3=clearance_volume_cm3(geometry),
        mouth_area_mm2=values["chamber_mouth_area"],
    )
    return found.new_ratio


def _squish(cylinder: Cylinder, cut: Between) -> Between | None:
    if cylinder.squish_pad_recess is None:
        return None
    names = ("gasket_thickness", "piston_height", "squish_pad_recess")
    inputs = [_stated(getattr(cylinder, name), "mm") for name in names]

    def gap(gasket: float, height: float, recess: float, off: float) -> float:
        return squish(
            gasket, piston_below_deck_mm=-height, pad_recess_mm=max(0.0, recess), cut_mm=off
        ).after_mm

    gasket, height, recess = inputs
    middle = gap(gasket.middle, height.middle, recess.middle, cut.middle)
    corners = product(*((one.least, one.most) for one in (gasket, height, recess, cut)))
    ends = [gap(*corner) for corner in corners]
    return Between(middle, min(ends), max(ends))


def _order(bench: Bench) -> ShopState | None:
    """The order that says how much may come off, else any."""
    orders = list(bench.state.shop.values())
    return next((one for one in orders if one.most_off), orders[0] if orders else None)


def _order_line(most_off: str, cut: Between) -> Line:
    """What was taken against what was ordered: the figures below follow what was taken."""
    most = parse_printed(most_off, kind="length_difference").middle_in("mm")
    more = cut.middle - most
    if more <= 0.0005:
        verdict = "not more than ordered"
    else:
        sure = "" if cut.least > most else ", within the error of the gauge"
        verdict = f"{_mm(more)} more than ordered{sure}; all below follows what was taken"
    return Line(
        "Taken off", "", cut.words("length_difference"), f"ordered: at most {most_off}", verdict, "shop order"
    )


def _ratio_line(cylinder: Cylinder, before: Between, after: Between) -> Line:
    stated = cylinder.compression_ratio
    limit = f"the sheet prints {stated.value.text}" if stated is not None else "not stated"
    rise = f"rises by {_two(after.middle - before.middle)}"
    return Line(
        "Compression ratio",
        before.words("ratio"),
        after.words("ratio"),
        limit,
        rise,
        _cited(cylinder, stated),
    )


def _squish_line(cylinder: Cylinder, before: Between | None, after: Between | None) -> list[Line]:
    if before is None or after is None:
        return []
    least = cylinder.least_squish
    if least is None:
        return [
            Line(
                "Squish",
                before.words("length_difference"),
                after.words("length_difference"),
                "not stated",
                "no limit given",
                "",
            )
        ]
    limit = _one_end(least)
    verdict = (
        "inside"
        if after.least >= limit
        else "outside"
        if after.most < limit
        else "in doubt: measure it with soft wire or clay"
    )
    words = f"at least {least.value.text.removeprefix('min ')}"
    return [
        Line(
            "Squish",
            before.words("length_difference"),
            after.words("length_difference"),
            words,
            verdict,
            _cited(cylinder, least),
        )
    ]


def _height_lines(bench: Bench, cut: Between, *, asked: bool) -> list[Line]:
    """What the head may still lose: by its least height, or by the most that may come off in all."""
    head = bench.sheet.head
    if head is None or (head.least_height is None and head.most_off is None):
        return []
    if head.least_height is None or head.measured_as is None:
        assert head.most_off is not None
        most = _one_end(head.most_off)
        verdict = (
            "inside"
            if cut.most <= most
            else "outside"
            if cut.least > most
            else "in doubt: measure the height again"
        )
        return [
            Line(
                "Taken off in all",
                "",
                cut.words("length_difference"),
                f"at most {head.most_off.value.text}",
                verdict,
                str(head.cited(head.most_off) or ""),
            )
        ]
    least = _one_end(head.least_height)
    condition = "as found" if asked else "as left"
    heights = [
        found
        for (name, _, state), one in bench.state.readings.items()
        if name == head.measured_as and state == condition and (found := middle(one, "length")) is not None
    ]
    if not heights:
        return []
    height = min(heights) - (cut.middle if asked else 0.0)
    spare = height - least
    verdict = f"{_mm(spare)} may still come off" if spare >= 0 else f"too thin by {_mm(-spare)}"
    limit = f"at least {head.least_height.value.text.removeprefix('min ')}"
    shown = both(height, kind="length", decimals=2)
    return [
        Line("Head height, least place", "", shown, limit, verdict, str(head.cited(head.least_height) or ""))
    ]


def _cited(cylinder: Cylinder, figure: Stated | None) -> str:
    cited = cylinder.cited(figure)
    return str(cited) if cited is not None else ""


def _gaps(bench: Bench) -> list[str]:
    """Consequences that this form does not work out, said so that nobody takes silence for a yes."""
    cylinder = bench.sheet.cylinder
    said = []
    if cylinder is not None and cylinder.squish_pad_recess is None:
        said.append("squish: the recess of the squish pad is not stated")
    said.append(
        "valve-to-piston clearance, bolts reaching the bottom of their holes and cam timing: look at them yourself"
    )
    return said

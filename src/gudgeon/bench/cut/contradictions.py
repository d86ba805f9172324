"""Figures that go into a cut and cannot all be true: each names its field and the line of the data sheet."""

from collections.abc import Iterator, Sequence

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.given import BoltGiven, Contradiction, CylinderGiven, Given, HeadGiven, ValvesGiven
from gudgeon.bench.sheet_place import line_of
from gudgeon.quantity.format import both

Found = Iterator[tuple[str, str]]


def contradictions(
    bench: Bench,
    *,
    head: HeadGiven,
    cylinder: CylinderGiven,
    bolts: Sequence[BoltGiven],
    valves: Sequence[ValvesGiven],
) -> tuple[Contradiction, ...]:
    """Everything that cannot be, in the order of the sheet."""
    found = (*_cylinder(cylinder), *_head(head), *_bolts(bolts), *_valves(valves))
    return tuple(Contradiction(path, line_of(bench.papers.written, path), words) for path, words in found)


def _mm(value: float) -> str:
    return both(value, kind="length_difference")


def _cylinder(one: CylinderGiven) -> Found:
    above_zero = (
        one.bore,
        one.stroke,
        one.mouth_area,
        one.gasket_bore,
        one.chamber_volume,
        one.gasket_thickness,
    )
    for given in above_zero:
        if given is not None and given.value <= 0:
            yield _path(given, "cylinder"), f"{given.name} {given.text} cannot be: it is more than nothing"
    if one.bore is not None and one.gasket_bore is not None and one.gasket_bore.value < one.bore.value:
        yield (
            "cylinder.gasket_bore",
            f"the opening of the gasket ({one.gasket_bore.text}) is smaller than the bore ({one.bore.text}, "
            f"{one.bore.source}): the gasket would stand in the gas",
        )  # fmt: skip
    recess = one.squish_recess
    if recess is not None and recess.state == "new" and recess.value < 0:
        yield (
            "cylinder.squish_pad_recess",
            f"squish pad recess {recess.text} cannot be: a pad lies above the face, or is flush with it (0)",
        )
    own, listed = one.gasket_thickness, [gasket.thickness for gasket in one.gaskets]
    if own is not None and own.path and listed and all(gasket.value != own.value for gasket in listed):
        texts = "; ".join(gasket.text for gasket in listed)
        yield (
            own.path,
            f"a gasket of {own.text} is none of those that are listed ({texts}); it is taken as it stands",
        )
    for gasket in one.gaskets:
        if gasket.thickness.value <= 0:
            yield gasket.thickness.path, f"{gasket.thickness.name} {gasket.thickness.text} cannot be"


def _head(one: HeadGiven) -> Found:
    new, least, base = one.new_height, one.least_height, one.base
    if new is not None and least is not None and least.value > new.value + new.known.expanded:
        yield (
            "head.least_height",
            f"the least height ({least.text}) is more than that of a new head ({new.text})",
        )
    if new is not None and base is not None:
        over = base.mean.value - new.value - new.known.expanded - base.mean.known.expanded
        if over > 0:
            yield (
                "head.height",
                f"the head is higher ({base.mean.text}, {base.mean.source}) than a new one ({new.text}): "
                "one of the two is wrong",
            )  # fmt: skip
    made = one.made
    if made is not None and made.value < -made.known.expanded:
        yield (
            "head.measured_as",
            f"as left the head is higher than as found, by {_mm(-made.value)}: one of the readings is wrong",
        )


def _bolts(found: Sequence[BoltGiven]) -> Found:
    for one in found:
        if one.length is None or one.grip is None:
            continue
        into = one.length.value - one.grip.value
        if into <= 0:
            yield (
                f"{one.path}.grip",
                f"{one.name}: {one.grip.text} lie between head and block, more than the bolt is long "
                f"({one.length.text}, {one.length.source}): it would not reach its thread",
            )  # fmt: skip
        elif one.hole_depth is not None and into > one.hole_depth.value + one.hole_depth.known.expanded:
            yield (
                f"{one.path}.hole_depth",
                f"{one.name}: the hole is {one.hole_depth.text} deep and the bolt reaches {_mm(into)} into it: it "
                "would stand on the bottom before anything was cut",
            )  # fmt: skip


def _valves(found: Sequence[ValvesGiven]) -> Found:
    for one in found:
        path = f"valve_gear.{one.which}"
        if one.angle is not None and not 0 <= one.angle.value < 90:
            yield f"{path}.angle", f"valve angle {one.angle.text} cannot be: it is from 0° to below 90°"
        margin, least = one.margin, one.least_margin
        if margin is not None and least is not None and margin.state == "new" and margin.value < least.value:
            yield (
                f"{path}.piston_margin",
                f"a new engine has {margin.text} from valve to piston, less than the least ({least.text})",
            )
        if one.opens is not None and one.closes is not None and one.opens.value + one.closes.value + 180 <= 0:
            yield f"{path}.opens", f"opens {one.opens.text} and closes {one.closes.text}: it would never open"


def _path(given: Given, otherwise: str) -> str:
    return given.path or otherwise

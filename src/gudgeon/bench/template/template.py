"""The holes of a joint at their true places, for a card that keeps its fasteners apart."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import dist

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.template.errors import (
    NoPositions,
    NotOfThisJoint,
    OtherJoint,
    PositionsTooCoarse,
    SamePlace,
)
from gudgeon.bench.template.positions import MOST_MM, Positions
from gudgeon.errors import InputError
from gudgeon.sheet.faces import Face
from gudgeon.sheet.fasteners import Fastener
from gudgeon.sheet.joints import Joint

UNKNOWN_RING_MM = 6.0
LEAST_APART_MM = 3.0
"""No two fasteners of an engine stand closer, center to center: common practice, no source."""

Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class TemplateHole:
    """One hole [mm]: where it stands, how wide it is punched, and what goes into it."""

    name: str
    x_mm: float
    y_mm: float
    diameter_mm: float
    thread: str
    length: str
    where: str
    rule: str
    """Where the diameter of the hole is from."""


@dataclass(frozen=True, slots=True)
class Template:
    """The answer: holes and outline of the face [mm] to the right and up, as they are seen on the card.

    `mirrored` tells that the card is seen from the other side than `viewed_from` says: left and right are exchanged.
    """

    heading: Heading
    joint: str
    name: str
    called: str
    viewed_from: str
    mirrored: bool
    holes: tuple[TemplateHole, ...]
    outline: tuple[Spot, ...]
    openings: tuple[tuple[float, float, float], ...]
    said_from: str
    remarks: tuple[str, ...]


def has_positions(joint: Joint) -> bool:
    """Whether the sheet places any fastener of a joint."""
    return any(_placed(joint))


def template(
    bench: Bench, key: str, *, mirrored: bool = False, positions: Positions | None = None
) -> Template:
    """The template of one joint: from the data sheet, or from positions that take the place of all of the sheet's."""
    bench.unlock()
    joint = joint_of(bench.sheet, key)
    if positions is not None:
        _check(joint, key, positions)
    places = dict(_placed(joint)) if positions is None else dict(positions.places)
    if not places:
        raise NoPositions(joint.name, key=key, called=joint.called)
    check_apart(places)
    way = -1.0 if mirrored else 1.0
    face = _face(bench, key) if positions is None else None
    return Template(
        heading=bench.heading("What do I set?"),
        joint=key,
        name=joint.name,
        called=joint.called,
        viewed_from=(positions.viewed_from if positions else "") or joint.viewed_from or "",
        mirrored=mirrored,
        holes=tuple(
            _hole(joint, name, (way * places[name][0], places[name][1]))
            for name in joint.bolt_names
            if name in places
        ),
        outline=tuple((way * x, y) for x, y in _outline(face)),
        openings=tuple((way * x, y, diameter) for x, y, diameter in _openings(face)),
        said_from=positions.said_from if positions else str(joint.source or ""),
        remarks=tuple(_remarks(joint, places, positions)),
    )


def _placed(joint: Joint) -> Iterator[tuple[str, Spot]]:
    for name in joint.bolt_names:
        bolt = joint.bolt(name)
        if bolt.x is not None and bolt.y is not None:
            yield name, (bolt.x.middle_in("mm"), bolt.y.middle_in("mm"))


def _check(joint: Joint, key: str, positions: Positions) -> None:
    if positions.joint and positions.joint != key:
        raise OtherJoint(positions.joint, key)
    check_names(joint, tuple(positions.places))
    if positions.off_mm > MOST_MM:
        raise PositionsTooCoarse(positions.off_by, MOST_MM)


def check_names(joint: Joint, names: Sequence[str]) -> None:
    """Refuse a name that the joint does not have."""
    strange = next((name for name in names if name not in joint.bolt_names), None)
    if strange is not None:
        raise NotOfThisJoint(strange, joint.name, joint.bolt_names)


def check_apart(places: Mapping[str, Spot]) -> None:
    """Refuse two fasteners that stand closer than any do [mm]."""
    for one, other in combinations(places, 2):
        apart = dist(places[one], places[other])
        if apart < LEAST_APART_MM:
            raise SamePlace(one, other, apart, LEAST_APART_MM)


def _face(bench: Bench, key: str) -> Face | None:
    """The face whose bolts these are, where the sheet draws one: it counts from the same zero."""
    return next((one for one in bench.sheet.faces.values() if one.bolts_of == key and one.outline), None)


def _outline(face: Face | None) -> Iterator[Spot]:
    for one in face.outline if face is not None else ():
        yield one.x.middle_in("mm"), one.y.middle_in("mm")


def _openings(face: Face | None) -> Iterator[tuple[float, float, float]]:
    for one in face.openings if face is not None else ():
        yield one.x.middle_in("mm"), one.y.middle_in("mm"), one.diameter.middle_in("mm")


def _hole(joint: Joint, name: str, spot: Spot) -> TemplateHole:
    fastener = joint.fastener_of(name)
    diameter, rule = _diameter(fastener)
    return TemplateHole(
        name,
        *spot,
        diameter,
        fastener.thread if fastener else "",
        fastener.free_length.text if fastener and fastener.free_length else "",
        joint.bolt(name).where or "",
        rule,
    )


def _diameter(fastener: Fastener | None) -> tuple[float, str]:
    """How wide the hole is punched, and where that is from."""
    from gudgeon.calc.joint.thread import read_thread
    from gudgeon.sources.clearance_holes import clearance_hole

    if fastener is not None and fastener.hole is not None:
        return fastener.hole.middle_in("mm"), "the hole that the data sheet states"
    try:
        nominal = read_thread(fastener.thread).nominal_mm if fastener is not None else 0.0
    except InputError:
        nominal = 0.0
    shank = max(
        (one.diameter.middle_in("mm") for one in (fastener.segments if fastener else ()) if one.diameter),
        default=0.0,
    )
    thickest = max(nominal, shank)
    if not thickest:
        return UNKNOWN_RING_MM, ""
    hole = clearance_hole(round(thickest, 3))
    return hole.value, str(hole.source)


def _remarks(joint: Joint, places: dict[str, Spot], positions: Positions | None) -> Iterator[str]:
    missing = [name for name in joint.bolt_names if name not in places]
    if missing:
        of = "in these positions" if positions is not None else "in the data sheet"
        yield f"Without a place {of}, and so without a hole here: {', '.join(missing)}."
    holes = [_hole(joint, name, places[name]) for name in joint.bolt_names if name in places]
    unknown = [one.name for one in holes if not one.rule]
    if unknown:
        yield (
            f"No thread is stated that could be read for {', '.join(unknown)}: a ring of {UNKNOWN_RING_MM:g} mm stands "
            "at the place. Punch it to fit the fastener."
        )
    close = [
        f"{one.name} and {other.name}"
        for one, other in combinations(holes, 2)
        if dist((one.x_mm, one.y_mm), (other.x_mm, other.y_mm))
        < (one.diameter_mm + other.diameter_mm) / 2 + 1
    ]
    if close:
        yield f"So close that their holes would run into each other, punch them smaller: {', '.join(close)}."
    if positions is not None and positions.off_by:
        yield f"Traced from a photo: a hole may be off by up to ± {positions.off_by.removeprefix('±').strip()}."

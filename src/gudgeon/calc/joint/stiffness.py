"""How much a bolt stretches and the clamped parts give under a newton."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from gudgeon.calc.errors import (
    HalfAngleUnusual,
    HeadInsideHole,
    LayersDiffer,
    NothingClamped,
    OutsideInsideHole,
    finite,
    not_negative,
    positive,
)
from gudgeon.calc.joint.thread import Thread

BoltMethod = Literal["vdi", "textbook"]
STEEL_MPA = 205_000.0  # VDI 2230, bolts of steel
SMALLEST = 1e-9  # mm: two edges that coincide
WIDEST = 10.0  # widest parts against the bearing face for which the cone of VDI 2230 was found

# Length of the shank that gives as much as the head, in diameters (VDI 2230:2003, 5.1.1.2: hexagon and hexagon
# socket; HAND: heads of the same height alike).
HEADS = {
    "hexagon": 0.5,
    "flange hexagon": 0.5,
    "twelve-point": 0.5,
    "hexagon socket": 0.4,
    "six-lobe socket": 0.4,
    "slotted": 0.4,
    "stud nut": 0.4,
}
ENGAGED_THREAD = 0.5  # of a diameter, of the core of the bolt
NUT, TAPPED = 0.4, 0.33  # of a diameter, of the full section, in nut or tapped part
FULL_ENGAGEMENT = 0.8  # diameters, below which the lengths above are too short a story


@dataclass(frozen=True, slots=True)
class Segment:
    """A length of the bolt within the grip; its section is an area, a diameter, the thread, or the full shank."""

    length_mm: float
    diameter_mm: float | None = None
    area_mm2: float | None = None
    threaded: bool = False


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer of the clamped parts."""

    modulus_mpa: float
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class Compliance:
    """Stretch per force, its inverse, and what it is made of, in mm/N by name."""

    compliance_mm_per_n: float
    stiffness_n_per_mm: float
    parts: tuple[tuple[str, float], ...]
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cone:
    """Where the force of the bolt spreads: from the bearing face outward, to the edge of the parts.

    `both_ends` is the cone from the head and one from the nut that meet in the middle; else one from the head.
    """

    bearing_mm: float
    hole_mm: float
    tangent: float
    both_ends: bool = True
    outside_mm: float = math.inf


def bolt_compliance(
    segments: Sequence[Segment],
    *,
    thread: Thread,
    head: str = "hexagon",
    engagement_mm: float | None = None,
    modulus_mpa: float = STEEL_MPA,
    engaged_modulus_mpa: float | None = None,
    method: BoltMethod = "vdi",
) -> Compliance:
    """How much a bolt stretches under a newton.

    Equation:
        vdi: dS = (k · d / AN + Σ l / A + 0.5 · d / A3) / E + m · d / (AN · E'), with k = 0.5 (hexagon) or 0.4
        (cylindrical head; a nut on a stud, which adds 0.5 · d / A3), m = 0.4 (nut) or 0.33 (tapped), AN = π/4 · d²,
        thread in the grip A3;
        textbook: dS = Σ l / (A · E), thread in the grip As, and in a tapped part d/2 more of it, or half of
        the engagement where that is less than d

    Parameters:
        segments: lengths from under the head to the nut or the tapped part [mm], with their sections [mm or mm²]
        thread: the bolt thread [mm]
        head: kind of head [text]
        engagement_mm: thread engaged in a tapped part; None for a nut [mm]
        modulus_mpa: modulus of elasticity of the bolt, E [MPa]
        engaged_modulus_mpa: of nut or tapped part, E'; the bolt's where it is not given [MPa]
        method: vdi or textbook [text]

    Returns:
        compliance [mm/N], stiffness [N/mm], and the compliance of each part [mm/N]

    Valid for:
        bolts in tension below yield, and an engagement of 0.8 diameters and more (else flagged)

    Source:
        VDI 2230:2003, 5.1.1 (from memory); Shigley, 9th edition, section 8-4, equation 8-17, and figure 8-21.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> bolt = (Segment(30.0), Segment(15.0, threaded=True))
        >>> found = bolt_compliance(bolt, thread=read_thread("M12"), modulus_mpa=207000.0, method="textbook")
        >>> round(found.stiffness_n_per_mm, -3)
        467000.0

    Not covered:
        bending, washers (they are clamped parts), a nut that gives more than its bolt.
    """
    if not segments:
        raise NothingClamped("segment of the bolt")
    positive(modulus_mpa, "Modulus of the bolt", unit="MPa")
    d, full = thread.nominal_mm, math.pi / 4 * thread.nominal_mm**2
    core = thread.root_area_mm2 if method == "vdi" else thread.stress_area_mm2
    parts = [
        (_named(one), _segment(one, full=full, core=core) / modulus_mpa) for one in segments if one.length_mm
    ]
    if engagement_mm is not None:
        positive(engagement_mm, "Engagement", unit="mm")
    if method == "textbook":
        if engagement_mm is not None:
            parts.append(("engaged thread", min(d, engagement_mm) / 2 / (core * modulus_mpa)))
        return _sum(parts)
    inside = NUT if engagement_mm is None else TAPPED
    other = modulus_mpa if engaged_modulus_mpa is None else engaged_modulus_mpa
    engaged = ("engaged thread", ENGAGED_THREAD * d / (core * modulus_mpa))
    parts = [
        ("head", HEADS[head] * d / (full * modulus_mpa)),
        *([engaged] if head == "stud nut" else []),
        *parts,
        engaged,
        (
            "nut" if engagement_mm is None else "tapped part",
            inside * d / (full * positive(other, "Modulus of nut or tapped part", unit="MPa")),
        ),
    ]
    short = engagement_mm is not None and engagement_mm < FULL_ENGAGEMENT * d
    return _sum(parts, _short_engagement(engagement_mm or 0.0, d) if short else ())


def frustum_stiffness(
    thickness_mm: float,
    *,
    modulus_mpa: float,
    bearing_mm: float,
    hole_mm: float,
    half_angle_deg: float = 30.0,
) -> float:
    """The stiffness of a hollow cone that is pressed between its end faces.

    Equation:
        k = π · E · d · tan α / ln(((2 t · tan α + D − d)(D + d)) / ((2 t · tan α + D + d)(D − d)))

    Parameters:
        thickness_mm: height of the cone, t [mm]
        modulus_mpa: modulus of elasticity, E [MPa]
        bearing_mm: its smaller diameter, D [mm]
        hole_mm: hole through it, d [mm]
        half_angle_deg: half the angle of the cone, α [°]

    Returns:
        stiffness [N/mm]

    Valid for:
        half angles of 25 to 33°, for which such cones stand for the true spread of the force

    Source:
        Shigley, 9th edition, equation 8-20.

    Example:
        >>> round(frustum_stiffness(20.0, modulus_mpa=207000.0, bearing_mm=18.0, hole_mm=12.0), -4)
        4470000.0

    Not covered:
        parts narrower than the cone.
    """
    tangent = _tangent(half_angle_deg)
    cone = Cone(bearing_mm, hole_mm, tangent, both_ends=False)
    _check(cone)
    layer = Layer(modulus_mpa, thickness_mm)
    return 1 / sum(compliance for _, compliance in _spread([layer], cone))


def member_compliance(
    layers: Sequence[Layer],
    *,
    head_diameter_mm: float,
    hole_mm: float,
    tapped: Layer | None = None,
    nominal_mm: float | None = None,
    half_angle_deg: float = 30.0,
    outside_diameter_mm: float | None = None,
) -> Compliance:
    """How much clamped parts give under a newton, as hollow cones of a chosen half angle.

    Equation:
        dP = Σ 1/k over the frusta from head and nut, which meet in the middle of the grip l; with a tapped
        part l = h + t/2 where its thickness t is less than d, else h + d/2

    Parameters:
        layers: modulus [MPa] and thickness [mm] of each, from under the head downward
        head_diameter_mm: bearing face of head or washer, D [mm]
        hole_mm: hole through the parts; the nominal diameter in worked examples [mm]
        tapped: the part that the bolt is screwed into, where there is no nut [MPa, mm]
        nominal_mm: nominal diameter of the bolt, d; the hole where it is not given [mm]
        half_angle_deg: half the angle of the cones, α [°]
        outside_diameter_mm: width of the parts around the bolt; wide where it is not given [mm]

    Returns:
        compliance [mm/N], stiffness [N/mm], and the compliance of each frustum [mm/N]

    Valid for:
        flat parts, one bolt, the same bearing face under head and nut

    Source:
        Shigley, 9th edition, section 8-5, equations 8-18 to 8-20, and figure 8-21 (tapped).

    Example:
        >>> found = member_compliance([Layer(207000.0, 20.0), Layer(100000.0, 25.0)], head_diameter_mm=18.0,
        ...     hole_mm=12.0)
        >>> round(found.stiffness_n_per_mm, -3)
        1379000.0

    Not covered:
        gaskets much softer than the parts, several bolts whose cones overlap, a nut on a smaller face.
    """
    if not layers:
        raise NothingClamped("clamped layer")
    stack = list(layers)
    if tapped is not None:
        nominal = positive(hole_mm if nominal_mm is None else nominal_mm, "Nominal diameter", unit="mm")
        thickness = positive(tapped.thickness_mm, "Thickness", unit="mm")
        stack.append(Layer(tapped.modulus_mpa, min(thickness, nominal) / 2))
    outside = math.inf if outside_diameter_mm is None else outside_diameter_mm
    cone = Cone(head_diameter_mm, hole_mm, _tangent(half_angle_deg), outside_mm=outside)
    _check(cone)
    return _sum(_spread(stack, cone))


def vdi_member_compliance(
    layers: Sequence[Layer],
    *,
    head_diameter_mm: float,
    hole_mm: float,
    tapped: bool = False,
    outside_diameter_mm: float | None = None,
) -> Compliance:
    """How much clamped parts give under a newton, with the cone of VDI 2230.

    Equation:
        with a nut tan φ = 0.362 + 0.032 · ln(β/2) + 0.153 · ln y, two cones; tapped tan φ = 0.348 +
        0.013 · ln β + 0.193 · ln y, one cone; β = l / dW, y = DA / dW; dP = ∫ dz / (E · A(z)) over cones and,
        where they reach the edge, sleeves

    Parameters:
        layers: modulus [MPa] and thickness [mm] of each, from under the head to nut or tapped part
        head_diameter_mm: bearing face of the head, dW [mm]
        hole_mm: hole through the parts [mm]
        tapped: whether the bolt is screwed into the part below, which itself is no layer
        outside_diameter_mm: width of the parts around the bolt, DA; as wide as the cone where not given [mm]

    Returns:
        compliance [mm/N], stiffness [N/mm], and the compliance of each piece of cone or sleeve [mm/N]

    Valid for:
        concentric clamping; parts up to 10 times as wide as the bearing face (wider ones count as that)

    Source:
        VDI 2230:2003, equations 5.1/20 to 5.1/25 (from memory).

    Example:
        >>> found = vdi_member_compliance([Layer(205000.0, 40.0)], head_diameter_mm=18.0, hole_mm=13.5,
        ...     outside_diameter_mm=60.0)
        >>> round(found.compliance_mm_per_n * 1e6, 2)
        0.52

    Not covered:
        eccentric clamping, joints that open, gaskets much softer than the parts.
    """
    if not layers:
        raise NothingClamped("clamped layer")
    grip = sum(positive(one.thickness_mm, "Thickness", unit="mm") for one in layers)
    outside = math.inf if outside_diameter_mm is None else outside_diameter_mm
    _check(Cone(head_diameter_mm, hole_mm, 0.5, outside_mm=outside))
    tangent = vdi_tangent(
        grip, head_diameter_mm=head_diameter_mm, tapped=tapped, outside_diameter_mm=outside_diameter_mm
    )
    cone = Cone(head_diameter_mm, hole_mm, tangent, both_ends=not tapped, outside_mm=outside)
    wide = ("The width of the parts is not given: they count as wide as the cone.",)
    return _sum(_spread(layers, cone), wide if outside_diameter_mm is None else ())


def vdi_tangent(
    grip_mm: float, *, head_diameter_mm: float, tapped: bool, outside_diameter_mm: float | None = None
) -> float:
    """The tangent of the cone along which the force spreads, after VDI 2230.

    Equation:
        with a nut 0.362 + 0.032 · ln(β/2) + 0.153 · ln y; tapped 0.348 + 0.013 · ln β + 0.193 · ln y;
        β = l / dW, y = DA / dW

    Parameters:
        grip_mm: clamped length, l [mm]
        head_diameter_mm: bearing face of the head, dW [mm]
        tapped: whether the bolt is screwed into the part below
        outside_diameter_mm: width of the parts, DA; as wide as the cone where it is not given [mm]

    Returns:
        tangent of the angle of the cone [1]

    Valid for:
        y up to 10 (wider parts count as that)

    Source:
        VDI 2230:2003, equations 5.1/27 and 5.1/28 (from memory).

    Example:
        >>> round(vdi_tangent(40.0, head_diameter_mm=18.0, tapped=False, outside_diameter_mm=60.0), 3)
        0.55

    Not covered:
        parts narrower than the bearing face: they are a sleeve, without a cone.
    """
    beta = positive(grip_mm, "Grip", unit="mm") / positive(head_diameter_mm, "Head diameter", unit="mm")

    def tangent(width: float) -> float:
        spread = math.log(min(max(width, 1.0), WIDEST))
        if tapped:
            return 0.348 + 0.013 * math.log(beta) + 0.193 * spread
        return 0.362 + 0.032 * math.log(beta / 2) + 0.153 * spread

    if outside_diameter_mm is not None:
        return tangent(positive(outside_diameter_mm, "Outside diameter", unit="mm") / head_diameter_mm)
    found = 0.5
    for _ in range(60):  # the width at which the cone just ends at the edge; each step shrinks the error
        found = tangent(1 + (2 if tapped else 1) * beta * found)
    return found


def fitted_member_compliance(
    layers: Sequence[Layer], *, nominal_mm: float, fit: tuple[float, float]
) -> Compliance:
    """How much parts of one material give under a newton, from a curve through finite-element results.

    Equation:
        k = E · d · a · exp(b · d / l)

    Parameters:
        layers: modulus, the same for all [MPa], and thickness [mm]
        nominal_mm: nominal diameter of the bolt, d [mm]
        fit: constants a and b of the material [1]

    Returns:
        compliance [mm/N] and stiffness [N/mm]

    Valid for:
        one material, through bolt, washer face of 1.5 d

    Source:
        Wileman, Choudhury and Green, 1991, as in Shigley, 9th edition, equation 8-23 and table 8-8.

    Example:
        >>> found = fitted_member_compliance([Layer(207000.0, 40.0)], nominal_mm=12.0, fit=(0.78715, 0.62873))
        >>> round(found.stiffness_n_per_mm, -3)
        2361000.0

    Not covered:
        sandwiches of several materials, tapped parts, gaskets.
    """
    if not layers:
        raise NothingClamped("clamped layer")
    if any(one.modulus_mpa != layers[0].modulus_mpa for one in layers):
        raise LayersDiffer
    grip = sum(positive(one.thickness_mm, "Thickness", unit="mm") for one in layers)
    diameter = positive(nominal_mm, "Nominal diameter", unit="mm")
    modulus = positive(layers[0].modulus_mpa, "Modulus", unit="MPa")
    return _sum([("parts", 1 / (modulus * diameter * fit[0] * math.exp(fit[1] * diameter / grip)))])


def _segment(one: Segment, *, full: float, core: float) -> float:
    """Length over area of a segment."""
    length = not_negative(one.length_mm, "Length of the segment", unit="mm")
    if one.threaded:
        return length / core
    if one.area_mm2 is not None:
        return length / positive(one.area_mm2, "Area of the segment", unit="mm²")
    if one.diameter_mm is None:
        return length / full
    return length / (math.pi / 4 * positive(one.diameter_mm, "Diameter of the segment", unit="mm") ** 2)


def _named(one: Segment) -> str:
    return f"{'thread' if one.threaded else 'shank'} {one.length_mm:g} mm"


def _short_engagement(engagement_mm: float, nominal_mm: float) -> tuple[str, ...]:
    return (
        f"An engagement of {engagement_mm:g} mm is less than {FULL_ENGAGEMENT:g} of the diameter "
        f"({FULL_ENGAGEMENT * nominal_mm:g} mm): the bolt gives more than this.",
    )


def _tangent(half_angle_deg: float) -> float:
    if not 0 < finite(half_angle_deg, "Half angle") < 90:
        raise HalfAngleUnusual(half_angle_deg)
    return math.tan(math.radians(half_angle_deg))


def _check(cone: Cone) -> None:
    positive(cone.hole_mm, "Hole", unit="mm")
    if positive(cone.bearing_mm, "Head diameter", unit="mm") <= cone.hole_mm:
        raise HeadInsideHole(cone.bearing_mm, cone.hole_mm)
    if not cone.outside_mm > cone.hole_mm:
        raise OutsideInsideHole(cone.outside_mm, cone.hole_mm)


def _spread(layers: Sequence[Layer], cone: Cone) -> list[tuple[str, float]]:
    """The pieces of cone and sleeve, each of one modulus and one shape, with their compliances."""
    grip = sum(positive(one.thickness_mm, "Thickness", unit="mm") for one in layers)
    turns = _turns(cone, grip)
    pieces, top = [], 0.0
    for layer in layers:
        positive(layer.modulus_mpa, "Modulus", unit="MPa")
        bottom = top + layer.thickness_mm
        edges = [top, *(z for z in turns if top + SMALLEST < z < bottom - SMALLEST), bottom]
        for start, end in pairwise(edges):
            pieces.append((f"{end - start:.4g} mm", _piece(cone, layer, start=start, end=end, grip=grip)))
        top = bottom
    return pieces


def _turns(cone: Cone, grip: float) -> list[float]:
    """The depths at which the outline changes: the middle, and where a cone reaches the edge of the parts."""
    reach = max(0.0, (cone.outside_mm - cone.bearing_mm) / (2 * cone.tangent))
    last = grip / 2 if cone.both_ends else grip
    found = [last] if cone.both_ends else []
    if reach < last:
        found += [reach, grip - reach] if cone.both_ends else [reach]
    return sorted(found)


def _piece(cone: Cone, layer: Layer, *, start: float, end: float, grip: float) -> float:
    """Compliance of one piece: an integral of dz / (E · A) between two depths."""

    def diameter(z: float) -> float:
        near = min(z, grip - z) if cone.both_ends else z
        return min(cone.bearing_mm + 2 * cone.tangent * near, cone.outside_mm)

    hole, length = cone.hole_mm, end - start
    narrow, wide = sorted((diameter(start), diameter(end)))
    if wide - narrow < SMALLEST:
        return length / (layer.modulus_mpa * math.pi / 4 * (narrow**2 - hole**2))
    slope = (wide - narrow) / (2 * length)
    ratio = (wide - hole) * (narrow + hole) / ((wide + hole) * (narrow - hole))
    return math.log(ratio) / (math.pi * layer.modulus_mpa * hole * slope)


def _sum(parts: Sequence[tuple[str, float]], flags: tuple[str, ...] = ()) -> Compliance:
    whole = sum(compliance for _, compliance in parts)
    return Compliance(whole, 1 / positive(whole, "Compliance", unit="mm/N"), tuple(parts), flags)

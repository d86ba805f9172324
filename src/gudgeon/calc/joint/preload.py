"""The preload that a tightened bolt can carry, and the torque that makes it."""

import math
from dataclasses import dataclass
from typing import Literal

from gudgeon.calc.errors import (
    BearingTooSmall,
    FrictionUnusual,
    HeadInsideHole,
    StrengthUnknown,
    UtilisationOutOfRange,
    finite,
    positive,
)
from gudgeon.calc.joint.thread import Thread
from gudgeon.sources.tables import PropertyClass, property_classes

Torsion = Literal["plastic", "elastic"]
HALF_FLANK = math.radians(30)
USUAL_FRICTION = (0.04, 0.35)


@dataclass(frozen=True, slots=True)
class BoltJoint:
    """What decides torque and preload of one bolt."""

    thread: Thread
    yield_mpa: float
    mu_thread: float
    mu_head: float
    bearing_diameter_mm: float
    utilisation: float = 0.9
    torsion: Torsion = "plastic"


@dataclass(frozen=True, slots=True)
class AssemblyPreload:
    """Preload and torque at which the bolt is strained to the chosen share of its yield strength."""

    preload_n: float
    torque_nm: float
    thread_torque_nm: float
    head_torque_nm: float
    stress_ratio: float
    tensile_stress_mpa: float
    torsional_stress_mpa: float
    flags: tuple[str, ...] = ()


def thread_torque_per_newton(thread: Thread, *, mu_thread: float) -> float:
    """The torque that a thread takes for each newton of preload.

    Equation:
        M/F = d2/2 · tan(φ + ρ'); tan φ = P / (π · d2); tan ρ' = µ / cos 30°

    Parameters:
        thread: the bolt thread [mm]
        mu_thread: friction in the thread, µ [1]

    Returns:
        torque per preload [mm]

    Valid for:
        flanks of 60° and friction from 0.04 to 0.35

    Source:
        VDI 2230:2003, equation R8/3; exact tangent, which the published cells follow.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> round(thread_torque_per_newton(read_thread("M10"), mu_thread=0.12), 4)
        0.8704

    Not covered:
        locking threads and prevailing torque.
    """
    if not 0 < finite(mu_thread, "Thread friction") < 1:
        raise FrictionUnusual("Thread friction", mu_thread)
    friction_angle = math.atan(mu_thread / math.cos(HALF_FLANK))
    return thread.pitch_diameter_mm / 2 * math.tan(thread.lead_angle_rad + friction_angle)


def bearing_diameter(head_diameter_mm: float, *, hole_mm: float) -> float:
    """The diameter at which the friction under a head acts.

    Equation:
        DKm = (head + hole) / 2

    Parameters:
        head_diameter_mm: bearing face of the head, outside [mm]
        hole_mm: clearance hole, or the inside of the bearing face where it is larger [mm]

    Returns:
        effective diameter of the friction under the head [mm]

    Valid for:
        flat ring-shaped bearing faces

    Source:
        VDI 2230:2003, symbol DKm.

    Example:
        >>> bearing_diameter(16.63, hole_mm=9.0)
        12.815

    Not covered:
        conical and spherical seats.
    """
    positive(hole_mm, "Hole", unit="mm")
    if positive(head_diameter_mm, "Head diameter", unit="mm") <= hole_mm:
        raise HeadInsideHole(head_diameter_mm, hole_mm)
    return (head_diameter_mm + hole_mm) / 2


def assembly_preload(joint: BoltJoint) -> AssemblyPreload:
    """The preload and torque that strain a bolt to a chosen share of its yield strength.

    Equation:
        F = ν · Rp / √(1/As² + 3 · (M/F / W)²), with d0 = (d2 + d3) / 2 and
        W = π · d0³ / 12 (plastic torsion) or π · d0³ / 16 (elastic);
        T = F · (M/F + DKm/2 · µ_head)

    Parameters:
        joint: thread [mm], yield strength [MPa], frictions [1], bearing diameter [mm],
            share of the yield strength [1], torsion plastic or elastic

    Returns:
        preload [N], torque [N·m] with its shares, equivalent stress against yield [1]

    Valid for:
        shanks not thinner than the stress diameter; frictions from 0.04 to 0.35, else flagged

    Source:
        VDI 2230:2003, equations R8/1 and R13 (plastic torsion); editions before 2001 take elastic
        torsion, which gives 5 to 14 % less torque, more so with more friction.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> found = assembly_preload(BoltJoint(read_thread("M10"), yield_mpa=640.0, mu_thread=0.12,
        ...     mu_head=0.12, bearing_diameter_mm=12.815))
        >>> round(found.preload_n, -2), round(found.torque_nm)
        (29600.0, 48)

    Not covered:
        scatter of friction and tools, embedding, bending: it is not a design check of a joint.
    """
    _check(joint)
    thread = joint.thread
    diameter = thread.stress_diameter_mm
    per_newton = thread_torque_per_newton(thread, mu_thread=joint.mu_thread)
    modulus = math.pi * diameter**3 / (12 if joint.torsion == "plastic" else 16)
    strain_per_newton = math.sqrt(1 / thread.stress_area_mm2**2 + 3 * (per_newton / modulus) ** 2)
    preload = joint.utilisation * joint.yield_mpa / strain_per_newton
    in_thread = preload * per_newton / 1000
    under_head = preload * joint.bearing_diameter_mm / 2 * joint.mu_head / 1000
    return AssemblyPreload(
        preload_n=preload,
        torque_nm=in_thread + under_head,
        thread_torque_nm=in_thread,
        head_torque_nm=under_head,
        stress_ratio=preload * strain_per_newton / joint.yield_mpa,
        tensile_stress_mpa=preload / thread.stress_area_mm2,
        torsional_stress_mpa=preload * per_newton / modulus,
        flags=(*thread.flags, *_friction_flags(joint)),
    )


def _check(joint: BoltJoint) -> None:
    positive(joint.yield_mpa, "Yield strength", unit="MPa")
    if not 0 < finite(joint.mu_head, "Head friction") < 1:
        raise FrictionUnusual("Head friction", joint.mu_head)
    if not 0 < finite(joint.utilisation, "Utilisation") <= 1:
        raise UtilisationOutOfRange(joint.utilisation)
    if positive(joint.bearing_diameter_mm, "Bearing diameter", unit="mm") <= joint.thread.nominal_mm:
        raise BearingTooSmall(joint.bearing_diameter_mm, joint.thread.nominal_mm)


def _friction_flags(joint: BoltJoint) -> list[str]:
    low, high = USUAL_FRICTION
    return [
        f"{what} {value:g} lies outside {low:g} to {high:g}, the classes A to D of VDI 2230."
        for what, value in (("Thread friction", joint.mu_thread), ("Head friction", joint.mu_head))
        if not low <= value <= high
    ]


def strength_class(name: str, *, nominal_mm: float) -> PropertyClass:
    """The strength class of a bolt of that diameter, on file with its source.

    Equation:
        a table: the row of that name whose range of diameters holds the bolt

    Parameters:
        name: such as 8.8, A2-70, SAE 5 [text]
        nominal_mm: nominal diameter of the thread [mm]

    Returns:
        yield, tensile and proof strength [MPa] and their source

    Valid for:
        bolts at room temperature

    Source:
        ISO 898-1:2013, table 3; ISO 3506-1:2009; SAE J429.

    Example:
        >>> strength_class("8.8", nominal_mm=12.0).yield_mpa, strength_class("8.8", nominal_mm=18.0).yield_mpa
        (640.0, 660.0)

    Not covered:
        what a bolt really is: read the marking on its head.
    """
    wanted = name.strip().upper().replace("SAE J429", "SAE").replace("GRADE", "SAE").replace("SAE SAE", "SAE")
    fitting = [one for one in property_classes() if one.above_mm < nominal_mm <= one.up_to_mm]
    for one in fitting:
        if one.name.upper() == wanted:
            return one
    raise StrengthUnknown(name, ", ".join(dict.fromkeys(one.name for one in fitting)))

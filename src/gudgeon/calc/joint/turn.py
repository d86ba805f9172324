"""One bolt turned by an angle from a snug torque, through yield where it comes to that."""

import math
from dataclasses import dataclass

from gudgeon.calc.errors import BearingTooSmall, FrictionUnusual, finite, not_negative, positive
from gudgeon.calc.joint.preload import thread_torque_per_newton
from gudgeon.calc.joint.thread import Thread


@dataclass(frozen=True, slots=True)
class BoltSpec:
    """A bolt as a spring that yields.

    `compliance_mm_per_n` is the bolt's own stretch per force. `hardening_n_per_mm` is the rise of its force for
    each mm of permanent stretch, 0 where the bolt gives way at one force. `stress_area_mm2` is that of a waist
    thinner than the thread.
    """

    thread: Thread
    yield_mpa: float
    bearing_diameter_mm: float
    compliance_mm_per_n: float
    hardening_n_per_mm: float = 0.0
    stress_area_mm2: float | None = None

    @property
    def area_mm2(self) -> float:
        """The area that decides: the waist, or the stress area of the thread."""
        return self.thread.stress_area_mm2 if self.stress_area_mm2 is None else self.stress_area_mm2

    @property
    def torsion_modulus_mm3(self) -> float:
        """Torsion modulus of that section when it is plastic throughout, W."""
        return math.pi * math.sqrt(4 * self.area_mm2 / math.pi) ** 3 / 12


@dataclass(frozen=True, slots=True)
class SnugBolt:
    """A bolt in its joint, tightened to a snug torque before it is turned by an angle."""

    bolt: BoltSpec
    member_compliance_mm_per_n: float
    mu_thread: float
    mu_head: float
    snug_torque_nm: float


@dataclass(frozen=True, slots=True)
class Turned:
    """What an angle has made of a bolt."""

    preload_n: float
    snug_preload_n: float
    yield_preload_n: float
    yielded: bool
    permanent_stretch_mm: float
    flags: tuple[str, ...] = ()


def yield_preload(bolt: BoltSpec, *, mu_thread: float) -> float:
    """The preload at which a bolt begins to yield while its thread is being turned.

    Equation:
        F = Rp / √(1/A² + 3 · (M/F / W)²), with M/F = d2/2 · tan(φ + ρ'), d0 = √(4 A / π) and
        W = π · d0³ / 12

    Parameters:
        bolt: thread [mm], yield strength [MPa], area of the waist where there is one [mm²]
        mu_thread: friction in the thread [1]

    Returns:
        preload at yield [N]

    Valid for:
        one cross-section in uniform tension and plastic torsion

    Source:
        VDI 2230:2003, equations R8/1 and R13 with ν = 1.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> round(yield_preload(BoltSpec(read_thread("M10"), 940.0, 12.815, 4.0e-6), mu_thread=0.12), -1)
        48240.0

    Not covered:
        bending, and torsion that springs back after the wrench is taken off.
    """
    positive(bolt.yield_mpa, "Yield strength", unit="MPa")
    area = positive(bolt.area_mm2, "Stress area", unit="mm²")
    lever = thread_torque_per_newton(bolt.thread, mu_thread=mu_thread)
    return bolt.yield_mpa / math.sqrt(1 / area**2 + 3 * (lever / bolt.torsion_modulus_mm3) ** 2)


def turn(joint: SnugBolt, *, angle_deg: float) -> Turned:
    """The preload of a bolt that was turned by an angle from a snug torque, and the stretch that stays in it.

    Equation:
        x = angle · P / 360; F = Fs + x / (dS + dP) up to the yield preload Fy, beyond it
        p = (Fs + x / (dS + dP) − Fy) / (1 / (dS + dP) + H) and F = Fy + H · p;
        Fs = T / (d2/2 · tan(φ + ρ') + DKm/2 · µ_head)

    Parameters:
        joint: bolt [mm, MPa, mm/N], compliance of the clamped parts, dP [mm/N], frictions [1], snug torque [N·m]
        angle_deg: turn of the head from the snug torque [°]

    Returns:
        preload, snug and yield preload [N], permanent stretch [mm]

    Valid for:
        parts that stay elastic; a bolt alone, whose neighbors do not act on it

    Source:
        HAND: the head travels by stretch of the bolt, stretch that stays and give of the parts;
        yield after VDI 2230:2003.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> bolt = BoltSpec(read_thread("M10"), yield_mpa=940.0, bearing_diameter_mm=12.8,
        ...     compliance_mm_per_n=6.0e-6)
        >>> found = turn(SnugBolt(bolt, 2.0e-6, mu_thread=0.12, mu_head=0.12, snug_torque_nm=30.0), angle_deg=90.0)
        >>> round(found.snug_preload_n, -2), round(found.preload_n, -2), round(found.permanent_stretch_mm, 3)
        (18300.0, 48200.0, 0.136)

    Not covered:
        the break of a bolt, embedding, scatter: it is not a design check of a joint.
    """
    _check(joint)
    not_negative(angle_deg, "Angle", unit="°")
    bolt, hardening = joint.bolt, joint.bolt.hardening_n_per_mm
    start = yield_preload(bolt, mu_thread=joint.mu_thread)
    lever = thread_torque_per_newton(bolt.thread, mu_thread=joint.mu_thread)
    lever += bolt.bearing_diameter_mm / 2 * joint.mu_head
    wanted = joint.snug_torque_nm * 1000 / lever
    snug, stretch, flags = wanted, 0.0, bolt.thread.flags
    if wanted > start:
        stretch = (wanted - start) / hardening if hardening > 0 else 0.0
        snug = start + hardening * stretch
        flags = (*flags, _yields_already(joint.snug_torque_nm, reached=hardening > 0))
    rate = 1 / (bolt.compliance_mm_per_n + joint.member_compliance_mm_per_n)
    preload = snug + rate * angle_deg * bolt.thread.pitch_mm / 360
    limit = start + hardening * stretch
    if preload > limit:
        more = (preload - limit) / (rate + hardening)
        stretch, preload = stretch + more, limit + hardening * more
    yielded = stretch > 0 or wanted > start
    return Turned(preload, snug, start, yielded=yielded, permanent_stretch_mm=stretch, flags=flags)


def _check(joint: SnugBolt) -> None:
    bolt = joint.bolt
    if not 0 < finite(joint.mu_head, "Head friction") < 1:
        raise FrictionUnusual("Head friction", joint.mu_head)
    if positive(bolt.bearing_diameter_mm, "Bearing diameter", unit="mm") <= bolt.thread.nominal_mm:
        raise BearingTooSmall(bolt.bearing_diameter_mm, bolt.thread.nominal_mm)
    positive(bolt.compliance_mm_per_n, "Bolt compliance", unit="mm/N")
    not_negative(bolt.hardening_n_per_mm, "Hardening", unit="N/mm")
    not_negative(joint.member_compliance_mm_per_n, "Member compliance", unit="mm/N")
    not_negative(joint.snug_torque_nm, "Snug torque", unit="N·m")


def _yields_already(torque_nm: float, *, reached: bool) -> str:
    end = "" if reached else " and is never reached: without hardening the bolt gives way first"
    return (
        f"A snug torque of {torque_nm:g} N·m takes this bolt to its yield{end}. Check it against the manual."
    )

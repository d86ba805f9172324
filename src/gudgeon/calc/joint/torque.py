"""Torque and preload of a bolt that is being tightened, and where the torque goes."""

import math
from dataclasses import dataclass

from gudgeon.calc.errors import BearingTooSmall, FrictionUnusual, finite, positive
from gudgeon.calc.joint.preload import thread_torque_per_newton
from gudgeon.calc.joint.thread import Thread


@dataclass(frozen=True, slots=True)
class TorqueSplit:
    """A torque, the preload that goes with it, and the shares of the torque; they add up to 1."""

    preload_n: float
    torque_nm: float
    share_pitch: float
    share_thread: float
    share_head: float


@dataclass(frozen=True, slots=True)
class NutFactorTorque:
    """A torque and the preload that goes with it by a nut factor; the shares of friction are not known."""

    preload_n: float
    torque_nm: float
    share_pitch: float


def preload_from_torque(
    torque_nm: float, *, thread: Thread, mu_thread: float, mu_head: float, bearing_diameter_mm: float
) -> TorqueSplit:
    """The preload that a torque makes, and where the torque goes.

    Equation:
        F = T / (d2/2 · tan(φ + ρ') + DKm/2 · µ_head); tan φ = P / (π · d2); tan ρ' = µ / cos 30°

    Parameters:
        torque_nm: torque at the head while it turns, T [N·m]
        thread: the bolt thread [mm]
        mu_thread: friction in the thread, µ [1]
        mu_head: friction under the head, µ_head [1]
        bearing_diameter_mm: where the friction under the head acts, DKm [mm]

    Returns:
        preload [N], torque [N·m], shares of the torque that stretch the bolt (P / 2π), rub in the thread and
        rub under the head [1]

    Valid for:
        a bolt that turns slowly and evenly; below its yield

    Source:
        VDI 2230:2003, equation R13, with the exact tangent.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> found = preload_from_torque(48.0, thread=read_thread("M10"), mu_thread=0.12, mu_head=0.12,
        ...     bearing_diameter_mm=12.815)
        >>> round(found.preload_n, -2), round(found.share_pitch, 2), round(found.share_head, 2)
        (29300.0, 0.15, 0.47)

    Not covered:
        locking threads, prevailing torque, a bolt that sticks and does not turn, yield.
    """
    positive(torque_nm, "Torque", unit="N·m")
    lever = _levers(thread, mu_thread=mu_thread, mu_head=mu_head, bearing_diameter_mm=bearing_diameter_mm)
    return _split(torque_nm * 1000 / sum(lever), torque_nm, lever)


def torque_from_preload(
    preload_n: float, *, thread: Thread, mu_thread: float, mu_head: float, bearing_diameter_mm: float
) -> TorqueSplit:
    """The torque that a preload needs, and where the torque goes.

    Equation:
        T = F · (d2/2 · tan(φ + ρ') + DKm/2 · µ_head); tan φ = P / (π · d2); tan ρ' = µ / cos 30°

    Parameters:
        preload_n: preload, F [N]
        thread: the bolt thread [mm]
        mu_thread: friction in the thread, µ [1]
        mu_head: friction under the head, µ_head [1]
        bearing_diameter_mm: where the friction under the head acts, DKm [mm]

    Returns:
        preload [N], torque [N·m], shares of the torque that stretch the bolt (P / 2π), rub in the thread and
        rub under the head [1]

    Valid for:
        a bolt that turns slowly and evenly; below its yield

    Source:
        VDI 2230:2003, equation R13, with the exact tangent.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> found = torque_from_preload(29600.0, thread=read_thread("M10"), mu_thread=0.12, mu_head=0.12,
        ...     bearing_diameter_mm=12.815)
        >>> round(found.torque_nm)
        49

    Not covered:
        locking threads, prevailing torque, a bolt that sticks and does not turn, yield.
    """
    positive(preload_n, "Preload", unit="N")
    lever = _levers(thread, mu_thread=mu_thread, mu_head=mu_head, bearing_diameter_mm=bearing_diameter_mm)
    return _split(preload_n, preload_n * sum(lever) / 1000, lever)


def nut_factor_torque(preload_n: float, *, thread: Thread, nut_factor: float) -> NutFactorTorque:
    """The torque that a preload needs, by a nut factor.

    Equation:
        T = K · d · F

    Parameters:
        preload_n: preload, F [N]
        thread: the bolt thread; its nominal diameter d [mm] counts
        nut_factor: thread friction, head friction and pitch in one number, K [1]

    Returns:
        preload [N], torque [N·m], share of the torque that stretches the bolt, P / (2π · K · d) [1]

    Valid for:
        estimates: K was found by test on other bolts

    Source:
        Shigley, 9th edition, equation 8-27 and table 8-15.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> round(nut_factor_torque(30000.0, thread=read_thread("M10"), nut_factor=0.2).torque_nm, 1)
        60.0

    Not covered:
        how friction is shared between thread and head.
    """
    positive(preload_n, "Preload", unit="N")
    lever = _nut_factor_lever(thread, nut_factor)
    return NutFactorTorque(preload_n, preload_n * lever / 1000, _pitch_lever(thread) / lever)


def nut_factor_preload(torque_nm: float, *, thread: Thread, nut_factor: float) -> NutFactorTorque:
    """The preload that a torque makes, by a nut factor.

    Equation:
        F = T / (K · d)

    Parameters:
        torque_nm: torque at the head, T [N·m]
        thread: the bolt thread; its nominal diameter d [mm] counts
        nut_factor: thread friction, head friction and pitch in one number, K [1]

    Returns:
        preload [N], torque [N·m], share of the torque that stretches the bolt, P / (2π · K · d) [1]

    Valid for:
        estimates: K was found by test on other bolts

    Source:
        Shigley, 9th edition, equation 8-27 and table 8-15.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> round(nut_factor_preload(60.0, thread=read_thread("M10"), nut_factor=0.2).preload_n)
        30000

    Not covered:
        how friction is shared between thread and head.
    """
    positive(torque_nm, "Torque", unit="N·m")
    lever = _nut_factor_lever(thread, nut_factor)
    return NutFactorTorque(torque_nm * 1000 / lever, torque_nm, _pitch_lever(thread) / lever)


def _pitch_lever(thread: Thread) -> float:
    """The part of the torque, per newton of preload, that lifts along the thread: d2/2 · tan φ."""
    return thread.pitch_mm / (2 * math.pi)


def _levers(
    thread: Thread, *, mu_thread: float, mu_head: float, bearing_diameter_mm: float
) -> tuple[float, float, float]:
    """Torque per newton of preload, in mm: pitch, friction in the thread, friction under the head."""
    if not 0 < finite(mu_head, "Head friction") < 1:
        raise FrictionUnusual("Head friction", mu_head)
    if positive(bearing_diameter_mm, "Bearing diameter", unit="mm") <= thread.nominal_mm:
        raise BearingTooSmall(bearing_diameter_mm, thread.nominal_mm)
    pitch = _pitch_lever(thread)
    rubbing = thread_torque_per_newton(thread, mu_thread=mu_thread) - pitch
    return pitch, rubbing, bearing_diameter_mm / 2 * mu_head


def _split(preload_n: float, torque_nm: float, levers: tuple[float, float, float]) -> TorqueSplit:
    whole = sum(levers)
    pitch, rubbing = levers[0] / whole, levers[1] / whole
    return TorqueSplit(preload_n, torque_nm, pitch, rubbing, 1 - (pitch + rubbing))


def _nut_factor_lever(thread: Thread, nut_factor: float) -> float:
    """K · d; below P / 2π the bolt would stretch by more work than the wrench does."""
    if not 0 < finite(nut_factor, "Nut factor") < 1:
        raise FrictionUnusual("Nut factor", nut_factor)
    return nut_factor * thread.nominal_mm

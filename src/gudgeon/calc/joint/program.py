"""A tightening program simulated: what each act does to every bolt of a joint, for many trials at once."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from gudgeon.calc.errors import not_negative, positive
from gudgeon.calc.joint.equilibrium import ELASTIC, HELD, SLACK, YIELDING, Springs, settle
from gudgeon.calc.joint.preload import HALF_FLANK
from gudgeon.calc.joint.program_errors import (
    ActAmountImpossible,
    ActOnUnknownBolt,
    DrawsImpossible,
    DrawsMisshapen,
    PartsMatrixImpossible,
    PartsMatrixMisshapen,
    StagesOutOfOrder,
)
from gudgeon.calc.joint.turn import BoltSpec

__all__ = ["Act", "BoltSpec", "Draws", "JointModel", "Kind", "Tightened", "certain", "tighten"]

Floats = NDArray[np.float64]
Truths = NDArray[np.bool_]
Kind = Literal["snug", "torque", "turn", "loosen", "verify", "creep"]
SAME = 1e-9  # a torque that exceeds the friction by no more than this share moves nothing
BLOCK = 4096  # trials at once: more of them leave the fast memory of a small machine


@dataclass(frozen=True, slots=True)
class JointModel:
    """Bolts, and what the parts give at one bolt for each newton at another [mm/N]."""

    bolts: tuple[BoltSpec, ...]
    parts_mm_per_n: Floats

    def __post_init__(self) -> None:
        parts, count = self.parts_mm_per_n, len(self.bolts)
        if parts.shape != (count, count):
            raise PartsMatrixMisshapen(parts.shape, count)
        if not np.isfinite(parts).all() or not np.allclose(parts, parts.T, rtol=1e-6, atol=0.0):
            raise PartsMatrixImpossible("not symmetric")
        for bolt in self.bolts:
            positive(bolt.compliance_mm_per_n, "Bolt compliance", unit="mm/N")
            positive(bolt.yield_mpa, "Yield strength", unit="MPa")
            positive(bolt.bearing_diameter_mm, "Bearing diameter", unit="mm")
            not_negative(bolt.hardening_n_per_mm, "Hardening", unit="N/mm")
        least = np.linalg.eigvalsh(parts).min(initial=0.0)
        if least < -1e-9 * np.abs(parts).max(initial=0.0):
            raise PartsMatrixImpossible("not positive")


@dataclass(frozen=True, slots=True)
class Act:
    """One action on one bolt, counted from 0.

    The amount is N for snug (hand-run or drawn down to that force, 0 for contact), N·m for torque and verify,
    ° for turn and loosen (infinite: taken out of load altogether), mm for creep (what the parts lose under it).
    """

    stage: int
    bolt: int
    kind: Kind
    amount: float


@dataclass(frozen=True, slots=True)
class Draws:
    """What differs from trial to trial; one row for each of them.

    Frictions and breakaway (torque that starts the head against torque that keeps it turning, 1 or more) by bolt;
    by act the factor on its amount, other than an angle, and the error of its angle.
    """

    mu_thread: Floats
    mu_head: Floats
    breakaway: Floats
    torque_factor: Floats
    angle_error_deg: Floats

    def some(self, rows: slice) -> "Draws":
        """Those of some of the trials."""
        return Draws(
            mu_thread=self.mu_thread[rows],
            mu_head=self.mu_head[rows],
            breakaway=self.breakaway[rows],
            torque_factor=self.torque_factor[rows],
            angle_error_deg=self.angle_error_deg[rows],
        )


@dataclass(frozen=True, slots=True)
class Tightened:
    """The bolts after each stage (trials × stages × bolts), and what each act did (trials × acts).

    `yield_share` is the equivalent stress against the yield strength; `travel_mm` is 0 for a bolt that is out.
    `slipped` says whether the head moved under the last wrench on it; `reached` is false where a bolt without
    hardening gave way before the torque.
    """

    preload_n: Floats
    permanent_stretch_mm: Floats
    yield_share: Floats
    travel_mm: Floats
    slipped: Truths
    moved: Truths
    reached: Truths
    stages: tuple[int, ...]


def certain(model: JointModel, *, acts: Sequence[Act], mu_thread: float, mu_head: float) -> Draws:
    """Draws of one trial in which nothing scatters.

    Equation:
        one row of the frictions given, breakaway 1, factors 1, errors 0

    Parameters:
        model: the joint [mm/N]
        acts: what is done, in order
        mu_thread: friction in all threads [1]
        mu_head: friction under all heads [1]

    Returns:
        draws of one trial [1, °]

    Valid for:
        any joint

    Source:
        HAND: the program as it is written.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> joint = JointModel((BoltSpec(read_thread("M10"), 640.0, 12.8, 4e-6),), np.array([[2e-6]]))
        >>> certain(joint, acts=[], mu_thread=0.12, mu_head=0.1).mu_head.tolist()
        [[0.1]]

    Not covered:
        scatter.
    """
    by_bolt, by_act = (1, len(model.bolts)), (1, len(acts))
    return Draws(
        mu_thread=np.full(by_bolt, mu_thread),
        mu_head=np.full(by_bolt, mu_head),
        breakaway=np.ones(by_bolt),
        torque_factor=np.ones(by_act),
        angle_error_deg=np.zeros(by_act),
    )


def tighten(
    model: JointModel, *, acts: Sequence[Act], draws: Draws, told: Callable[[float], None] | None = None
) -> Tightened:
    """The preload and permanent stretch of every bolt of a joint after each stage of a program.

    Equation:
        x_i = dS_i · F_i + p_i + creep_i + Σ_j C_ij · F_j with F_i ≥ 0 and F_i ≤ Fy_i + H_i · p_i;
        turn: x_i grows by angle · P / 360; torque: only where T > breakaway · F · l, then until T = F · l,
        with l = d2/2 · tan(φ + ρ') + DKm/2 · µ_head; Fy = Rp / √(1/A² + 3 · (M/F / W)²)

    Parameters:
        model: bolts [mm, MPa, mm/N] and the compliance matrix of the parts [mm/N]
        acts: what is done to which bolt, in order; all bolts are out at the start
        draws: frictions [1], breakaway [1], factors [1] and errors of the angle [°] of each trial
        told: is told between two pieces of the work what part of it is done, from 0 to 1, and may end it by raising
            what it likes; what comes out does not depend on it [1]

    Returns:
        preload [N], permanent stretch [mm], equivalent stress against yield [1] and travel [mm] by trial,
        stage and bolt; by trial and act whether the head moved

    Valid for:
        elastic parts; bolts that yield over one section; torsion of the thread as while it is being turned

    Source:
        HAND: equilibrium and contact at each bolt; torque and yield after VDI 2230:2003, R8/1 and R13.

    Example:
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> bolt = BoltSpec(read_thread("M10"), 640.0, 12.8, 4e-6)
        >>> joint = JointModel((bolt, bolt), np.array([[2e-6, 1e-6], [1e-6, 2e-6]]))
        >>> acts = [Act(1, 0, "torque", 30.0), Act(1, 1, "torque", 30.0), Act(2, 0, "turn", 30.0)]
        >>> found = tighten(joint, acts=acts, draws=certain(joint, acts=acts, mu_thread=0.12, mu_head=0.12))
        >>> found.preload_n[0].round(-2).tolist()
        [[15300.0, 18300.0], [32800.0, 15400.0]]

    Not covered:
        embedding, bending of bolts, torsion that springs back, the break of a bolt, yield of the parts. A verify
        that moves the head is left off at once; a neighbor's yield that is given back within one act is not
        followed. It is not a design check of a joint.
    """
    trials = _check(model, acts, draws)
    stages = tuple(dict.fromkeys(act.stage for act in acts))
    size = (trials, len(stages), len(model.bolts))
    kept = Tightened(
        preload_n=np.zeros(size),
        permanent_stretch_mm=np.zeros(size),
        yield_share=np.zeros(size),
        travel_mm=np.zeros(size),
        slipped=np.zeros(size, np.bool_),
        moved=np.zeros((trials, len(acts)), np.bool_),
        reached=np.ones((trials, len(acts)), np.bool_),
        stages=stages,
    )
    for first in range(0, trials, BLOCK):
        rows = slice(first, min(first + BLOCK, trials))
        run = _Run(model, draws.some(rows))
        for place, act in enumerate(acts):
            kept.moved[rows, place], kept.reached[rows, place] = run.do(act, place)
            if place + 1 == len(acts) or acts[place + 1].stage != act.stage:
                _keep(kept, run, rows=rows, at=stages.index(act.stage))
            if told is not None:
                told((first + (rows.stop - first) * (place + 1) / len(acts)) / trials)
    return kept


def _keep(kept: Tightened, run: "_Run", *, rows: slice, at: int) -> None:
    """Keep how the bolts stand after a stage, in some of the trials."""
    kept.preload_n[rows, at] = run.preload.T
    kept.permanent_stretch_mm[rows, at] = run.stretch.T
    kept.yield_share[rows, at] = (run.preload / run.first_yield).T
    kept.travel_mm[rows, at] = np.where(np.isfinite(run.travel), run.travel, 0.0).T
    kept.slipped[rows, at] = run.slipped.T


class _Run:
    """The state of all trials while the acts are done; arrays by bolt and trial."""

    def __init__(self, model: JointModel, draws: Draws) -> None:
        bolts = model.bolts
        self.draws = draws
        self.pitch = np.array([bolt.thread.pitch_mm for bolt in bolts])
        self.springs = Springs(
            np.array([bolt.compliance_mm_per_n for bolt in bolts]),
            model.parts_mm_per_n,
            np.array([bolt.hardening_n_per_mm for bolt in bolts]),
        )
        in_thread = _thread_lever_mm(bolts, draws.mu_thread.T)
        bearing = np.array([bolt.bearing_diameter_mm for bolt in bolts])[:, None]
        self.lever = in_thread + bearing / 2 * draws.mu_head.T
        area = np.array([bolt.area_mm2 for bolt in bolts])[:, None]
        modulus = np.array([bolt.torsion_modulus_mm3 for bolt in bolts])[:, None]
        strength = np.array([bolt.yield_mpa for bolt in bolts])[:, None]
        self.first_yield = strength / np.sqrt(1 / area**2 + 3 * (in_thread / modulus) ** 2)
        self.preload, self.stretch, self.crept = (np.zeros_like(self.lever) for _ in range(3))
        self.travel = np.full_like(self.lever, -np.inf)
        self.modes = np.full(self.lever.shape, SLACK, np.int8)
        self.slipped = np.zeros(self.lever.shape, np.bool_)

    def do(self, act: Act, place: int) -> tuple[Truths, Truths]:
        """Do one act: in which trials the head moved, and in which the torque was reached."""
        amount = act.amount * self.draws.torque_factor[:, place]
        reached = np.ones(len(amount), np.bool_)
        if act.kind == "creep":
            self.crept[act.bolt] += amount
            self._settle(np.arange(len(amount)))
            return np.zeros(len(amount), np.bool_), reached
        if act.kind in ("turn", "loosen"):
            angle = np.maximum(act.amount + self.draws.angle_error_deg[:, place], 0.0)
            moved = self._turn(act.bolt, angle * (1 if act.kind == "turn" else -1))
        elif act.kind == "snug":
            moved = (amount > self.preload[act.bolt] * (1 + SAME)) | (self.preload[act.bolt] == 0)
            reached = self._raise(act.bolt, amount, moved)
        else:
            resists = self.preload[act.bolt] * self.lever[act.bolt] * self.draws.breakaway[:, act.bolt]
            moved = amount * 1000 > resists * (1 + SAME)
            if act.kind == "torque":
                reached = self._raise(act.bolt, amount * 1000 / self.lever[act.bolt], moved)
        self.slipped[act.bolt] = moved
        return moved, reached

    def _turn(self, bolt: int, angle: Floats) -> Truths:
        """Turn a head by angles, against the thread where they are negative."""
        before = self.travel[bolt]
        moved = np.flatnonzero((angle > 0) | ((angle < 0) & (before > -np.inf)))
        start = np.where(before > -np.inf, before, self._seat(bolt))[moved]
        self.travel[bolt, moved] = start + angle[moved] * self.pitch[bolt] / 360
        self.modes[bolt, np.isneginf(self.travel[bolt])] = SLACK
        self._settle(moved)
        return np.isin(np.arange(len(angle)), moved)

    def _raise(self, bolt: int, wanted: Floats, moved: Truths) -> Truths:
        """Turn a head until its preload is as wanted, where it moves; the neighbors follow."""
        one = np.flatnonzero(moved)
        hardening = float(self.springs.hardening_n_per_mm[bolt])
        limit = self.first_yield[bolt, one] + hardening * self.stretch[bolt, one]
        target = wanted[one] if hardening > 0 else np.minimum(wanted[one], limit)
        if hardening > 0:
            self.stretch[bolt, one] += np.maximum(target - limit, 0.0) / hardening
        held = self.preload[:, one]
        held[bolt] = target
        self.modes[bolt, one] = HELD
        self._settle(one, held)
        self.modes[bolt, one] = np.where(target > 0, ELASTIC, SLACK)
        self.travel[bolt, one] = self._seat(bolt)[one] + target * self.springs.bolt_mm_per_n[bolt]
        reached = np.ones(len(moved), np.bool_)
        reached[one] = wanted[one] <= target * (1 + SAME)
        return reached

    def _seat(self, bolt: int) -> Floats:
        """Where a head touches its seat without pressing on it."""
        sunk = self.springs.parts_mm_per_n[bolt] @ self.preload
        return np.asarray(self.stretch[bolt] + self.crept[bolt] + sunk, np.float64)

    def _settle(self, one: NDArray[np.intp], held: Floats | None = None) -> None:
        """Find the equilibrium of those trials and keep what yields."""
        if not len(one):
            return
        stretch = self.stretch[:, one]
        found = settle(
            self.springs,
            reach_mm=self.travel[:, one] - stretch - self.crept[:, one],
            yield_n=self.first_yield[:, one] + self.springs.hardening_n_per_mm[:, None] * stretch,
            modes=self.modes[:, one],
            held_n=held,
        )
        self.preload[:, one] = found.preload_n
        self.stretch[:, one] = stretch + found.stretch_mm
        self.modes[:, one] = np.where(found.modes == YIELDING, np.int8(ELASTIC), found.modes)


def _thread_lever_mm(bolts: Sequence[BoltSpec], mu_thread: Floats) -> Floats:
    """Torque of the thread for each newton, by bolt and trial."""
    radius = np.array([bolt.thread.pitch_diameter_mm for bolt in bolts])[:, None] / 2
    lead = np.array([bolt.thread.lead_angle_rad for bolt in bolts])[:, None]
    return np.asarray(radius * np.tan(lead + np.arctan(mu_thread / np.cos(HALF_FLANK))), np.float64)


def _check(model: JointModel, acts: Sequence[Act], draws: Draws) -> int:
    """The number of trials, when joint, acts and draws belong together."""
    for before, act in zip((None, *acts), acts, strict=False):
        if not 0 <= act.bolt < len(model.bolts):
            raise ActOnUnknownBolt(act.bolt, len(model.bolts))
        if not act.amount >= 0 or (act.kind != "loosen" and act.amount == np.inf):
            raise ActAmountImpossible(act.kind, act.amount)
        if before is not None and act.stage < before.stage:
            raise StagesOutOfOrder(act.stage, before.stage)
    trials = len(draws.mu_thread)
    for name, least, under, most, count in (
        ("mu_thread", 0.0, "above 0 and below 1", 1.0, len(model.bolts)),
        ("mu_head", 0.0, "above 0 and below 1", 1.0, len(model.bolts)),
        ("breakaway", 1.0 - SAME, "1 or more", np.inf, len(model.bolts)),
        ("torque_factor", 0.0, "above 0", np.inf, len(acts)),
        ("angle_error_deg", -np.inf, "finite", np.inf, len(acts)),
    ):
        drawn: Floats = getattr(draws, name)
        if drawn.shape != (trials, count):
            raise DrawsMisshapen(name, drawn.shape, (trials, count))
        if not ((drawn > least) & (drawn < most)).all():
            raise DrawsImpossible(name, under)
    return trials

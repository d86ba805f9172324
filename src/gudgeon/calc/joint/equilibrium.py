"""Forces of bolts that share the clamped parts, for many trials at once."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Modes = NDArray[np.int8]
SLACK, ELASTIC, YIELDING, HELD = range(4)
CLOSE = 1e-11  # share of the least yield preload that counts as nothing
TOGETHER = 6  # rounds in which all bolts in a wrong mode change; later only the first one does
ROUNDS = 1000


@dataclass(frozen=True, slots=True)
class Springs:
    """The bolts and the parts between them as springs; arrays by bolt."""

    bolt_mm_per_n: Floats
    parts_mm_per_n: Floats
    hardening_n_per_mm: Floats
    inverses: dict[bytes, Floats] = field(default_factory=dict)

    def inverse(self, modes: Modes) -> Floats:
        """Force of each bolt whose force is open per travel of each of them [N/mm]."""
        key = modes.tobytes()
        if key not in self.inverses:
            sought = self.sought(modes)
            hardening = np.where(modes == YIELDING, self.hardening_n_per_mm, np.inf)[sought]
            own = np.diag(self.bolt_mm_per_n[sought] + 1 / hardening)
            matrix = self.parts_mm_per_n[np.ix_(sought, sought)] + own
            self.inverses[key] = np.asarray(np.linalg.inv(matrix), np.float64)
        return self.inverses[key]

    def sought(self, modes: Modes) -> NDArray[np.bool_]:
        """Which bolts have a force that has to be found: without hardening a yielding one has none."""
        hardens = (modes == YIELDING) & (self.hardening_n_per_mm > 0)
        return np.asarray((modes == ELASTIC) | hardens, np.bool_)


@dataclass(frozen=True, slots=True)
class Settled:
    """Preload [N] and new permanent stretch [mm] by bolt and trial, and how each bolt carries its load."""

    preload_n: Floats
    stretch_mm: Floats
    modes: Modes


def settle(
    springs: Springs, *, reach_mm: Floats, yield_n: Floats, modes: Modes, held_n: Floats | None = None
) -> Settled:
    """The preloads at which all bolts of a joint are in equilibrium.

    Equation:
        u_i = dS_i · F_i + q_i + Σ_j C_ij · F_j for a bolt under load; F_i = 0 and u_i ≤ Σ_j C_ij · F_j
        for a slack one; q_i ≥ 0 and F_i ≤ Fy_i + H_i · q_i, with q_i > 0 only where both sides are equal

    Parameters:
        springs: compliances [mm/N] and hardening [N/mm] of bolts and parts
        reach_mm: how far each head stands beyond the seat it would have without load, u; by bolt and trial [mm]
        yield_n: preload at which each bolt yields as it is now, Fy; by bolt and trial [N]
        modes: a guess how each bolt carries its load: slack, elastic, yielding or held; by bolt and trial [1]
        held_n: preload of those that are held at one, whose reach then follows; by bolt and trial [N]

    Returns:
        preload [N], permanent stretch that is new, q [mm], and the modes found

    Valid for:
        elastic parts with a symmetric, positive definite matrix: then there is one answer only

    Source:
        HAND: equilibrium and contact at each bolt; the rule of the least index after Murty, 1974.

    Example:
        >>> springs = Springs(np.full(2, 4e-6), np.full((2, 2), 1e-6), np.zeros(2))
        >>> found = settle(springs, reach_mm=np.array([[0.06], [0.0]]), yield_n=np.full((2, 1), 5e4),
        ...     modes=np.ones((2, 1), np.int8))
        >>> found.preload_n.round(1).tolist(), found.modes.tolist()
        ([[12000.0], [0.0]], [[1], [0]])

    Not covered:
        the way there: what a bolt would yield and give back on the way is not followed.
    """
    modes = modes.copy()
    preload, stretch = np.zeros_like(reach_mm), np.zeros_like(reach_mm)
    near = CLOSE * float(yield_n.min(initial=np.inf))
    pending = np.arange(reach_mm.shape[1])
    for turn in range(ROUNDS):
        wrong = np.zeros((len(reach_mm), len(pending)), np.bool_)
        for places in _alike(modes[:, pending]):
            one = pending[places]
            mode = modes[:, one[0]].copy()  # its own, for the modes change below
            force, over = _forces(
                springs,
                mode,
                reach_mm=reach_mm[:, one],
                yield_n=yield_n[:, one],
                held_n=None if held_n is None else held_n[:, one],
            )
            better = _modes_for(
                mode, force=force, over=over, limit=yield_n[:, one], near=near, give=springs.bolt_mm_per_n
            )
            differs = better != mode[:, None]
            if turn >= TOGETHER:
                differs &= np.cumsum(differs, axis=0) == 1
            modes[:, one] = np.where(differs, better, mode[:, None])
            wrong[:, places] = differs
            preload[:, one] = force
            stretch[:, one] = np.where((mode == YIELDING)[:, None], np.maximum(over, 0.0), 0.0)
        pending = pending[wrong.any(axis=0)]
        if not len(pending):
            return Settled(np.maximum(preload, 0.0), stretch, modes)
    raise ArithmeticError("The bolts of a joint found no equilibrium.")


def _alike(modes: Modes) -> list[NDArray[np.intp]]:
    """The places of the trials, grouped by modes that are alike."""
    if (modes == modes[:, :1]).all():
        return [np.arange(modes.shape[1])]
    code = np.zeros(modes.shape[1], np.int64)
    for first in range(0, len(modes), 20):
        block = modes[first : first + 20].astype(np.int64)
        digits = 4 ** np.arange(len(block), dtype=np.int64)
        _, code = np.unique(code * 4 ** len(block) + digits @ block, return_inverse=True)
    order = np.argsort(code, kind="stable")
    return np.split(order, np.flatnonzero(np.diff(code[order])) + 1)


def _forces(
    springs: Springs, mode: Modes, *, reach_mm: Floats, yield_n: Floats, held_n: Floats | None
) -> tuple[Floats, Floats]:
    """Forces under those modes, and by how much the reach is more than they take up."""
    sought = springs.sought(mode)
    force = np.zeros_like(reach_mm)
    given = (mode == YIELDING) & ~sought
    force[given] = yield_n[given]
    if held_n is not None:
        force[mode == HELD] = held_n[mode == HELD]
    load = reach_mm[sought]
    if (mode[~sought] != SLACK).any():
        load = load - springs.parts_mm_per_n[sought] @ force
    hardens = sought & (mode == YIELDING)
    load[hardens[sought]] += yield_n[hardens] / springs.hardening_n_per_mm[hardens, None]
    force[sought] = springs.inverse(mode) @ load
    return force, reach_mm - springs.parts_mm_per_n @ force - springs.bolt_mm_per_n[:, None] * force


def _modes_for(
    mode: Modes, *, force: Floats, over: Floats, limit: Floats, near: float, give: Floats
) -> Modes:
    """The modes that forces and reach speak for."""
    short = near * give[:, None]
    better = np.repeat(mode[:, None], force.shape[1], axis=1)
    slack, elastic, yielding = ((mode == kind)[:, None] for kind in (SLACK, ELASTIC, YIELDING))
    better[slack & (over > short)] = ELASTIC
    better[elastic & (force < -near)] = SLACK
    better[elastic & (force > limit + near)] = YIELDING
    better[yielding & (over < -short)] = ELASTIC
    return better

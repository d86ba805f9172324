"""The same program for one trial, bolt by bolt and without arrays: slow, plain, and a check on the fast one."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from gudgeon.calc.joint.program import Act, JointModel

SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Trial:
    """One trial: frictions and breakaway by bolt, factor and error of the angle by act."""

    mu_thread: Sequence[float]
    mu_head: Sequence[float]
    breakaway: Sequence[float]
    torque_factor: Sequence[float]
    angle_error_deg: Sequence[float]


@dataclass(slots=True)
class Outcome:
    """Preload, permanent stretch and travel of each bolt after each stage; whether each act moved its head."""

    preload_n: list[list[float]] = field(default_factory=list)
    permanent_stretch_mm: list[list[float]] = field(default_factory=list)
    travel_mm: list[list[float]] = field(default_factory=list)
    moved: list[bool] = field(default_factory=list)


@dataclass(slots=True)
class _State:
    """The bolts of one trial; a travel of None is a bolt that is out."""

    parts: list[list[float]]
    give: list[float]
    hardening: list[float]
    first_yield: list[float]
    travel: list[float | None]
    force: list[float]
    stretch: list[float]
    crept: list[float]

    def sunk(self, bolt: int) -> float:
        return math.fsum(self.parts[bolt][j] * force for j, force in enumerate(self.force))

    def limit(self, bolt: int) -> float:
        return self.first_yield[bolt] + self.hardening[bolt] * self.stretch[bolt]


def tighten_one(model: JointModel, *, acts: Sequence[Act], trial: Trial) -> Outcome:
    """The preload and permanent stretch of every bolt of a joint after each stage, in one trial.

    Equation:
        x_i = dS_i · F_i + p_i + creep_i + Σ_j C_ij · F_j with F_i ≥ 0 and F_i ≤ Fy_i + H_i · p_i

    Parameters:
        model: bolts [mm, MPa, mm/N] and the compliance matrix of the parts [mm/N]
        acts: what is done to which bolt, in order; all bolts are out at the start
        trial: frictions [1], breakaway [1], factors [1] and errors of the angle [°]

    Returns:
        preload [N], permanent stretch [mm] and travel [mm] by stage and bolt; by act whether the head moved

    Valid for:
        what gudgeon.calc.joint.program.tighten is valid for

    Source:
        HAND: the equations of that function, written down once more.

    Example:
        >>> import numpy as np
        >>> from gudgeon.calc.joint.thread import read_thread
        >>> from gudgeon.calc.joint.turn import BoltSpec
        >>> joint = JointModel((BoltSpec(read_thread("M10"), 640.0, 12.8, 4e-6),), np.array([[2e-6]]))
        >>> found = tighten_one(joint, acts=[Act(1, 0, "torque", 30.0)],
        ...     trial=Trial([0.12], [0.12], [1.0], [1.0], [0.0]))
        >>> round(found.preload_n[0][0], -2)
        18300.0

    Not covered:
        what gudgeon.calc.joint.program.tighten does not cover.
    """
    bolts = model.bolts
    state = _State(
        parts=model.parts_mm_per_n.tolist(),
        give=[bolt.compliance_mm_per_n for bolt in bolts],
        hardening=[bolt.hardening_n_per_mm for bolt in bolts],
        first_yield=[],
        travel=[None] * len(bolts),
        force=[0.0] * len(bolts),
        stretch=[0.0] * len(bolts),
        crept=[0.0] * len(bolts),
    )
    lever = []
    for bolt, mu_thread, mu_head in zip(bolts, trial.mu_thread, trial.mu_head, strict=True):
        friction = math.atan(mu_thread / math.cos(math.pi / 6))
        lead = math.atan(bolt.thread.pitch_mm / math.pi / bolt.thread.pitch_diameter_mm)
        in_thread = bolt.thread.pitch_diameter_mm * math.tan(lead + friction) / 2
        lever.append(in_thread + bolt.bearing_diameter_mm * mu_head / 2)
        tension, shear = 1 / bolt.area_mm2, in_thread / bolt.torsion_modulus_mm3
        state.first_yield.append(bolt.yield_mpa / math.sqrt(tension * tension + 3 * shear * shear))
    outcome = Outcome()
    for place, act in enumerate(acts):
        factor, error = trial.torque_factor[place], trial.angle_error_deg[place]
        running = lever[act.bolt]
        outcome.moved.append(
            _do(
                state,
                act,
                amount=act.amount * factor,
                angle_deg=max(act.amount + error, 0.0),
                pitch_mm=bolts[act.bolt].thread.pitch_mm,
                lever=running,
                breakaway=trial.breakaway[act.bolt],
            )
        )
        if place + 1 == len(acts) or acts[place + 1].stage != act.stage:
            outcome.preload_n.append(list(state.force))
            outcome.permanent_stretch_mm.append(list(state.stretch))
            outcome.travel_mm.append([0.0 if travel is None else travel for travel in state.travel])
    return outcome


def _do(
    state: _State,
    act: Act,
    *,
    amount: float,
    angle_deg: float,
    pitch_mm: float,
    lever: float,
    breakaway: float,
) -> bool:
    """Do one act; whether the head moved."""
    bolt, travel = act.bolt, state.travel[act.bolt]
    if act.kind == "creep":
        state.crept[bolt] += amount
        _balance(state)
        return False
    if act.kind == "turn":
        if angle_deg == 0:
            return False
        seat = state.stretch[bolt] + state.crept[bolt] + state.sunk(bolt)
        state.travel[bolt] = (seat if travel is None else travel) + angle_deg * pitch_mm / 360
        _balance(state)
        return True
    if act.kind == "loosen":
        if travel is None or angle_deg == 0:
            return False
        state.travel[bolt] = None if math.isinf(angle_deg) else travel - angle_deg * pitch_mm / 360
        _balance(state)
        return True
    if act.kind == "snug":
        wanted = amount
        moves = state.force[bolt] == 0 or amount > state.force[bolt] * (1 + SAME)
    else:
        wanted = amount * 1000 / lever
        moves = wanted > state.force[bolt] * breakaway * (1 + SAME)
    if moves and act.kind != "verify":
        _raise_to(state, bolt, wanted)
    return moves


def _raise_to(state: _State, bolt: int, wanted: float) -> None:
    """Turn a head until its force is as wanted, or until it gives way without hardening."""
    more = wanted - state.limit(bolt)
    if more > 0 and state.hardening[bolt] > 0:
        state.stretch[bolt] += more / state.hardening[bolt]
    elif more > 0:
        wanted -= more
    _balance(state, held=bolt, force=wanted)
    sunk = state.sunk(bolt)
    state.travel[bolt] = state.give[bolt] * wanted + state.stretch[bolt] + state.crept[bolt] + sunk


def _balance(state: _State, *, held: int | None = None, force: float = 0.0) -> None:
    """Find who is slack and who yields by trying, one bolt at a time, until every bolt is content."""
    bolts = range(len(state.force))
    out = {i for i in bolts if state.travel[i] is None and i != held}
    slack, yields = set(out), set[int]()
    while True:
        more = _solve(state, slack, yields, held=held, force=force)
        for i in bolts:
            if i == held or i in out:
                continue
            tiny = 1e-11 * state.first_yield[i]
            beyond = (state.travel[i] or 0.0) - state.stretch[i] - state.crept[i] - state.sunk(i)
            if i in slack:
                change = beyond > tiny * state.give[i]
                to = slack
            elif i in yields:
                change = more[i] < -tiny * state.give[i]
                to = yields
            elif state.force[i] < -tiny:
                change, to = True, slack
            else:
                change, to = state.force[i] > state.limit(i) + tiny, yields
            if change:
                to ^= {i}
                break
        else:
            break
    for i, stretch in more.items():
        state.stretch[i] += max(stretch, 0.0)
    state.force = [max(one, 0.0) for one in state.force]


def _solve(
    state: _State, slack: set[int], yields: set[int], *, held: int | None, force: float
) -> dict[int, float]:
    """Forces when those bolts are slack and those yield; the new permanent stretch of those that yield.

    For each bolt one row: dS · F + q + Σ C · F = x − p − creep, or F = 0, or F = the one held; and for each that
    yields one more, for its new stretch q: F − H · q = Fy. Lengths are divided by dS, so that all rows are forces.
    """
    count, place = len(state.force), {i: len(state.force) + k for k, i in enumerate(sorted(yields))}
    rows = [[0.0] * (count + len(place) + 1) for _ in range(count + len(place))]
    for i, give in enumerate(state.give):
        row = rows[i]
        if i in slack or i == held:
            row[i], row[-1] = 1.0, force if i == held else 0.0
            continue
        row[:count] = [parts / give for parts in state.parts[i]]
        row[i] += 1.0
        row[-1] = ((state.travel[i] or 0.0) - state.stretch[i] - state.crept[i]) / give
        if i in place:
            row[place[i]] = 1.0 / give
            more = rows[place[i]]
            more[i], more[place[i]], more[-1] = 1.0, -state.hardening[i], state.limit(i)
    found = _eliminate(rows)
    state.force = found[:count]
    return {i: found[at] for i, at in place.items()}


def _eliminate(rows: list[list[float]]) -> list[float]:
    """Gauss's elimination with the largest pivot of each column."""
    count = len(rows)
    for column in range(count):
        best = max(range(column, count), key=lambda i: abs(rows[i][column]))
        rows[column], rows[best] = rows[best], rows[column]
        top = rows[column]
        for row in rows[column + 1 :]:
            if row[column]:
                share = row[column] / top[column]
                for k in range(column, count + 1):
                    row[k] -= share * top[k]
    found = [0.0] * count
    for i in reversed(range(count)):
        known = math.fsum(rows[i][k] * found[k] for k in range(i + 1, count))
        found[i] = (rows[i][-1] - known) / rows[i][i]
    return found

"""A joint tightened bolt by bolt in the elastic range, each bolt moving the preload of the others."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from gudgeon.calc.errors import not_negative
from gudgeon.calc.joint.interaction_errors import CountOff, NothingGives, OrderTwice, OrderUnknownBolt

Floats = NDArray[np.float64]
CLOSE = 1e-12  # share of the target that counts as nothing


def pass_over(
    matrix_mm_per_n: Floats,
    *,
    bolt_mm_per_n: float | Sequence[float],
    order: Sequence[int],
    target_n: float | Sequence[float],
    passes: int = 1,
    only_raise: bool = False,
) -> Floats:
    """Preload of every bolt after each pass over a joint, when each pull brings one bolt to its target.

    Equation:
        x_i = dS_i · F_i + Σ_j C_ij · F_j; a pull sets F_i, the travels x of the others stay, so theirs
        change by ΔF = −(C + dS)⁻¹ · C_·i · ΔF_i, taken over the bolts that carry load; F ≥ 0

    Parameters:
        matrix_mm_per_n: compliance of the parts at the bolts, C [mm/N]
        bolt_mm_per_n: compliance of each bolt, dS, or of all [mm/N]
        order: the bolts of one pass, counted from 0 [1]
        target_n: preload that the pull of each bolt reaches, or of all [N]
        passes: how often the order is gone through [1]
        only_raise: whether a bolt above its target stays there, as under a wrench that clicks at once

    Returns:
        preload by pass and bolt [N]

    Valid for:
        elastic bolts and parts; a bolt not yet pulled carries nothing and is not in touch, one that its
        neighbors have slackened carries nothing until they let go of it or it is pulled again

    Source:
        HAND: equilibrium of springs with travel kept. Meets EI-EQ4, EI-B5 and their further passes.

    Example:
        >>> from gudgeon.calc.joint.interaction import common_spring
        >>> parts = common_spring(4, stiffness_n_per_mm=4e5)
        >>> found = pass_over(parts.matrix_mm_per_n, bolt_mm_per_n=1e-5, order=[0, 1, 2, 3], target_n=1.0)
        >>> found.round(4).tolist()
        [[0.4905, 0.6905, 0.8571, 1.0]]

    Not covered:
        yield, friction and its scatter, creep of the gasket: program.
    """
    count = len(matrix_mm_per_n)
    own, target = (
        _by_bolt(values, what, count=count)
        for what, values in (("Compliance of the bolts", bolt_mm_per_n), ("Target", target_n))
    )
    _check_order(order, count=count)
    whole = np.asarray(matrix_mm_per_n, np.float64) + np.diag(own)
    preload, travel, pulled = np.zeros(count), np.zeros(count), np.zeros(count, np.bool_)
    found = np.zeros((passes, count))
    for number in range(passes):
        for bolt in order:
            pulled[bolt] = True
            if not (only_raise and preload[bolt] > target[bolt]):
                preload = _held(whole, travel=travel, pulled=pulled, bolt=bolt, load=float(target[bolt]))
                travel[bolt] = whole[bolt] @ preload
        found[number] = preload
    return found


def _held(whole: Floats, *, travel: Floats, pulled: NDArray[np.bool_], bolt: int, load: float) -> Floats:
    """Preloads with one bolt at its load and the others at their travel; those that would push are slack.

    The slack ones are found by changing the first bolt in the wrong state until none is left, which
    comes to an end for every positive definite matrix (Murty 1974).
    """
    others = pulled.copy()
    others[bolt] = False
    carrying = others.copy()
    close = CLOSE * load
    while True:
        preload = np.zeros(len(whole))
        preload[bolt] = load
        wanted = travel - whole[:, bolt] * load
        try:
            preload[carrying] = np.linalg.solve(whole[np.ix_(carrying, carrying)], wanted[carrying])
        except np.linalg.LinAlgError as error:
            raise NothingGives from error
        open_mm = whole @ preload - travel  # of a slack bolt: the gap below its head
        wrong = (carrying & (preload < -close)) | (others & ~carrying & (open_mm < -close * whole.max()))
        if not wrong.any():
            return np.maximum(preload, 0.0)
        first = int(np.argmax(wrong))
        carrying[first] = not carrying[first]


def _by_bolt(values: float | Sequence[float], what: str, *, count: int) -> Floats:
    found = [values] * count if isinstance(values, (int, float)) else list(values)
    if len(found) != count:
        raise CountOff(what, len(found), count)
    return np.array([not_negative(value, what) for value in found])


def _check_order(order: Sequence[int], *, count: int) -> None:
    for place, bolt in enumerate(order):
        if not 0 <= bolt < count:
            raise OrderUnknownBolt(bolt, count)
        if bolt in order[:place]:
            raise OrderTwice(bolt)

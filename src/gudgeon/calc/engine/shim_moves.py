"""A choice of shims as steps of work: chains and rings, each shim in one hand only, none without a named place."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from gudgeon.calc.engine.shim_valves import Shim

Spot = Literal["place", "stock", "bought", "card"]
"""Where a shim lies: in a place, in stock, bought, or on a card that bears the name of a place."""


@dataclass(frozen=True, slots=True)
class Step:
    """One shim from one spot to another; `from_at` and `to_at` are places, rows of stock or of the list to buy.

    Of what goes into stock `to_at` is the place that it comes from.
    """

    shim: Shim
    frm: Spot
    from_at: int
    to: Spot
    to_at: int


@dataclass(frozen=True, slots=True)
class Run:
    """Steps that belong together, in their order: a chain that begins with an emptied place, or a closed ring."""

    ring: bool
    steps: tuple[Step, ...]


def runs(given: Sequence[Shim], *, old_nm: Sequence[int]) -> tuple[Run, ...]:
    """The steps that bring every place from its old shim to the one it gets.

    Equation:
        a place is emptied before it is filled; a ring is opened by laying its first shim on a card

    Parameters:
        given: the shim that each place gets
        old_nm: the shim in each place now [nm]

    Returns:
        chains and rings in the order of their first places [nm]

    Valid for:
        choices in which no shim is given twice

    Source:
        HAND: a permutation falls apart into chains and rings.

    Example:
        >>> swap = [Shim(2_400_000, "place", 1), Shim(2_300_000, "place", 0)]
        >>> [(one.frm, one.to) for one in runs(swap, old_nm=[2_300_000, 2_400_000])[0].steps]
        [('place', 'card'), ('place', 'place'), ('card', 'place')]

    Not covered:
        how a shim is got out: see the manual.
    """
    moved = [at for at, shim in enumerate(given) if not (shim.origin == "place" and shim.at == at)]
    wanted = {given[at].at for at in moved if given[at].origin == "place"}
    chains = [_filled(given, at, old_nm, ring=False) for at in moved if at not in wanted]
    done = {step.to_at for run in chains for step in run.steps if step.to == "place"}
    found = list(chains)
    for at in moved:
        if at not in done:
            ring = _filled(given, at, old_nm, ring=True)
            done |= {step.to_at for step in ring.steps if step.to == "place"}
            found.append(ring)
    return tuple(found)


def _filled(given: Sequence[Shim], first: int, old_nm: Sequence[int], *, ring: bool) -> Run:
    """Empty the first place, then fill the empty place and go on with the one that this emptied."""
    out = Shim(old_nm[first], "place", first)
    steps = [Step(out, "place", first, "card" if ring else "stock", first)]
    at = first
    while True:
        shim = given[at]
        if shim.origin != "place":
            steps.append(Step(shim, shim.origin, shim.at, "place", at))
            return Run(ring, tuple(steps))
        if shim.at == first:
            steps.append(Step(out, "card", first, "place", at))
            return Run(ring, tuple(steps))
        steps.append(Step(shim, "place", shim.at, "place", at))
        at = shim.at

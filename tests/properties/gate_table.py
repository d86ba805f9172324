"""The gates as the trade states them, written by hand: which act is wrong in which state of the engine.

COMMON PRACTICE of the trade. Nothing here is read from the program: what it offers is held against this table.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from gudgeon.book.state import EngineState

Value = str | bool | None

CRANK = (None, "near the top", "half-way", "moved")
CAMS = (None, "in", "out")
BELT = (None, "on", "off")
PINS = (None, "in", "out")
HOLDER = (None, "fitted", "off")
FOLLOWERS = (None, "bled down", "pumped up")

TURNING = ("turn by hand", "turn by starter")
BOLTS = ("loosen a rotating bolt", "tighten a rotating bolt")
FITTING = ("fit the head", "fit camshafts")
EVERY_ACT = (*TURNING, *BOLTS, "loosen a keyless pulley", *FITTING)


@dataclass(frozen=True)
class Row:
    """One gate: for which acts, in which states it is broken, in which more it refuses, and what may have suffered."""

    acts: tuple[str, ...]
    broken: tuple[Mapping[str, tuple[Value, ...]], ...]
    unknown: tuple[Mapping[str, tuple[Value, ...]], ...]
    suffers: tuple[str, ...]


TABLE: Mapping[str, Row] = {
    # Turning with pins or locks in; a holder holds the engine just as well.
    "pins in": Row(TURNING, ({"pins": ("in",)}, {"holder": ("fitted",)}), (), ("timing", "valves")),
    # Breaking loose or final-tightening a rotating bolt against timing pins: right with a holder that takes torque.
    "bolt against pins": Row(BOLTS, ({"pins": ("in",), "holder": (None, "off")},), (), ("timing",)),
    # Head or camshafts on with a piston near the top, or not looked at since the engine was turned.
    "piston near the top": Row(
        FITTING, ({"crank": ("near the top", "moved")},), ({"crank": (None,)},), ("valves",)
    ),
    # Turning with followers pumped up, unless the camshafts are known to be out.
    "followers pumped up": Row(TURNING, ({"followers": ("pumped up",), "cams": (None, "in")},), (), ("valves",)),
    # A keyless pulley undone without a holder: not fitted is as bad as never heard of.
    "keyless without a holder": Row(("loosen a keyless pulley",), ({"holder": (None, "off")},), (), ("timing",)),
    # The starter before two proved turns by hand. As a fact it is one only where somebody was at the drive.
    "starter before hand turns": Row(
        ("turn by starter",),
        ({"proved": (False,), "belt": ("on", "off")}, {"proved": (False,), "cams": ("in", "out")}),
        ({"proved": (False,)},),
        ("timing", "valves"),
    ),
}  # fmt: skip


def _matches(case: Mapping[str, tuple[Value, ...]], engine: EngineState, proved: bool) -> bool:
    return all(
        (proved if name == "proved" else getattr(engine, name)) in wanted for name, wanted in case.items()
    )


def is_broken(act: str, engine: EngineState, *, proved: bool) -> set[str]:
    """The gates that an act breaks, as a fact."""
    return {
        gate
        for gate, row in TABLE.items()
        if act in row.acts and any(_matches(case, engine, proved) for case in row.broken)
    }


def is_refused(act: str, engine: EngineState, *, proved: bool) -> set[str]:
    """The gates that refuse an act, as an instruction."""
    return is_broken(act, engine, proved=proved) | {
        gate
        for gate, row in TABLE.items()
        if act in row.acts and any(_matches(case, engine, proved) for case in row.unknown)
    }


def every_engine() -> Iterator[EngineState]:
    """Every state in which an engine can be known to be."""
    for crank, cams, belt, pins, holder, followers in product(CRANK, CAMS, BELT, PINS, HOLDER, FOLLOWERS):
        yield EngineState(crank, cams, belt, pins, holder, followers)

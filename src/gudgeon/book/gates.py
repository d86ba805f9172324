"""The gates: which act is refused in which state of the engine, and what it may have spoiled when done all the same.

A gate refuses an instruction and never a fact. The fold calls `broken` for a fact, the bench `refused` for an
instruction; the first needs something known against the act, the second something known for it.
Common practice of the trade, no source; a data sheet may overrule a gate for its engine, with its source.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, get_args

from gudgeon.book.state import EngineState

Act = Literal[
    "turn by hand",
    "turn by starter",
    "loosen a rotating bolt",
    "tighten a rotating bolt",
    "loosen a keyless pulley",
    "fit the head",
    "fit camshafts",
]
"""What is done to the engine as a whole, as far as a gate asks for it."""

Gate = Literal[
    "pins in",
    "bolt against pins",
    "piston near the top",
    "followers pumped up",
    "keyless without a holder",
    "starter before hand turns",
]
"""The gates by what each of them keeps apart."""

ACTS: tuple[Act, ...] = get_args(Act)
GATES: tuple[Gate, ...] = get_args(Gate)

TIMING_PROOF = "timing_proved"
"""The hold that two full turns by hand prove."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One gate: its acts, what is said when it refuses, what an act against it shakes, and what to look for then."""

    acts: tuple[Act, ...]
    why: str
    shakes: tuple[str, ...]
    look: str


RULES: Mapping[Gate, Rule] = MappingProxyType(
    {
        "pins in": Rule(
            ("turn by hand", "turn by starter"),
            "a pin, a lock or a holder is in: the engine would turn against it",
            ("state:timing", "state:valves"),
            "Pins, their holes, camshafts and belt: bent, cracked, slipped? The timing is proved anew.",
        ),
        "bolt against pins": Rule(
            ("loosen a rotating bolt", "tighten a rotating bolt"),
            "a pin or lock that holds the timing is in, and takes no torque: hold with a tool that does",
            ("state:timing",),
            "Pins and their holes: bent, torn? Has a wheel slipped? The timing is proved anew.",
        ),
        "piston near the top": Rule(
            ("fit the head", "fit camshafts"),
            "a piston stands near the top: an open valve would meet it",
            ("state:valves",),
            "Valves and piston crowns: a mark, a bent stem? Every valve closes tight.",
        ),
        "followers pumped up": Rule(
            ("turn by hand", "turn by starter"),
            "the lifters are pumped up and hold valves open: they would meet the pistons",
            ("state:valves",),
            "Valves: a bent stem, a cylinder that leaks?",
        ),
        "keyless without a holder": Rule(
            ("loosen a keyless pulley",),
            "the wheel behind this bolt has no key: without a holder the timing goes with the bolt",
            ("state:timing",),
            "The crank wheel: has it turned on the crankshaft? The timing is proved anew.",
        ),
        "starter before hand turns": Rule(
            ("turn by starter",),
            "the timing is not proved by two full turns by hand",
            ("state:timing", "state:valves"),
            "Compression of every cylinder, and the timing by two full turns by hand.",
        ),
    }
)


NOT_LOOKED = "nobody has looked where the pistons stand since the engine was turned: none may be near the top"


def why(gate: Gate, engine: EngineState) -> str:
    """What a gate says against an act with the engine as it is known: no more than is known."""
    unknown = gate == "piston near the top" and engine.crank in (None, "moved")
    return NOT_LOOKED if unknown else RULES[gate].why


def broken(act: Act, engine: EngineState, *, timing_proved: bool) -> tuple[Gate, ...]:
    """The gates that a fact broke: something that the book knew then speaks against it."""
    return tuple(
        gate
        for gate, rule in RULES.items()
        if act in rule.acts and _against(gate, engine, timing_proved=timing_proved)
    )


def refused(act: Act, engine: EngineState, *, timing_proved: bool) -> tuple[Gate, ...]:
    """The gates that refuse an instruction: as for a fact, and where what has to be known is not."""
    return tuple(
        gate
        for gate, rule in RULES.items()
        if act in rule.acts
        and (
            _against(gate, engine, timing_proved=timing_proved)
            or _unknown(gate, engine, timing_proved=timing_proved)
        )
    )


def _against(gate: Gate, engine: EngineState, *, timing_proved: bool) -> bool:
    match gate:
        case "pins in":
            return engine.pins == "in" or engine.holder == "fitted"
        case "bolt against pins":
            return engine.pins == "in" and engine.holder != "fitted"
        case "piston near the top":
            return engine.crank in ("near the top", "moved")
        case "followers pumped up":
            return engine.cams != "out" and engine.followers == "pumped up"
        case "keyless without a holder":
            return engine.holder != "fitted"
        case "starter before hand turns":
            # An engine whose drive nobody has opened runs as it came.
            return not timing_proved and (engine.belt is not None or engine.cams is not None)


def _unknown(gate: Gate, engine: EngineState, *, timing_proved: bool) -> bool:
    match gate:
        case "piston near the top":
            return engine.crank is None
        case "starter before hand turns":
            return not timing_proved
        case _:
            return False

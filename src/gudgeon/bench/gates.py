"""What the gates say to an instruction: whether an act may be begun with the engine as it is known."""

from collections.abc import Iterable
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.doing import overruled
from gudgeon.bench.holds import standings
from gudgeon.book.gates import ACTS, RULES, TIMING_PROOF, Gate, refused, why
from gudgeon.book.state import Breach

WAY_OUT: dict[Gate, str] = {
    "pins in": "Take it out and record it: gudgeon record taken-out ITEM",
    "bolt against pins": (
        'Fit a holder that takes the torque and record it: gudgeon record left-in holder --name "flywheel lock" '
        "--where WHERE --holds torque; or take the pins out"
    ),
    "piston near the top": "Turn it until no piston is near the top, then: gudgeon record hold pistons_halfway VALUE",
    "followers pumped up": "Wait until they have bled down, then: gudgeon record hold followers_bled VALUE",
    "keyless without a holder": (
        'Fit a holder and record it: gudgeon record left-in holder --name "flywheel lock" --where WHERE --holds torque'
    ),
    "starter before hand turns": "Turn it two full turns by hand, then: gudgeon record hold timing_proved VALUE",
}
"""What opens each gate."""


def way_out(bench: Bench, gate: Gate) -> str:
    """What opens a gate as the engine is known: what is on no list was said in words, and words take it back."""
    if gate != "pins in":
        return WAY_OUT[gate]
    on_list = next((key for key, one in bench.state.left_in.items() if one.holds != "nothing"), "")
    if on_list:
        return WAY_OUT[gate].replace("ITEM", on_list)
    engine = bench.state.engine
    said = (("--pins out", engine.pins == "in"), ("--holder off", engine.holder == "fitted"))
    out = " ".join(words for words, there in said if there)
    return f"Take it out and record it: gudgeon record engine {out} --seen …"


@dataclass(frozen=True, slots=True)
class Refusal:
    """One gate that refuses, why, and what opens it."""

    gate: Gate
    why: str
    way_out: str


def refusals(bench: Bench, acts: Iterable[str]) -> tuple[Refusal, ...]:
    """Every gate that refuses some acts now, after the acts against a gate that nobody has looked into."""
    wanted = tuple(acts)
    if not any(act in wanted for act in ACTS):
        return ()
    return (*_not_inspected(bench), *shut(bench, wanted))


def shut(bench: Bench, acts: Iterable[str]) -> tuple[Refusal, ...]:
    """Every gate that some acts go against; none where the sheet overrules it, or a named person lets it pass."""
    wanted, passed = set(acts), _passed(bench)
    proved = timing_proved(bench)
    found: dict[Gate, Refusal] = {}
    for act in ACTS:
        for gate in refused(act, bench.state.engine, timing_proved=proved) if act in wanted else ():
            if gate not in passed:
                found.setdefault(gate, Refusal(gate, why(gate, bench.state.engine), way_out(bench, gate)))
    return tuple(found.values())


def timing_proved(bench: Bench) -> bool:
    """Whether two full turns by hand are proved and everything under them stands, or somebody answers for it.

    A job that leaves the timing alone asks for no such proof, as long as nobody has opened the drive all the same; then
    the proof counts as the book has it.
    """
    if any(one.stands and one.about == f"hold:{TIMING_PROOF}" for one in bench.state.overrides):
        return True
    found = [one.stands for one in standings(bench.sheet, bench.state) if one.hold.id == TIMING_PROOF]
    if found:
        return any(found)
    engine, proof = bench.state.engine, bench.state.holds.get(TIMING_PROOF)
    return (engine.belt is None and engine.cams is None) or (proof is not None and proof.status == "proved")


def _passed(bench: Bench) -> set[str]:
    over = {one.about.removeprefix("gate:") for one in bench.state.overrides if one.stands}
    return over | set(overruled(bench.sheet))


def _not_inspected(bench: Bench) -> tuple[Refusal, ...]:
    """After an act against a gate nothing more is done to the engine before somebody has looked, or answers for it."""
    answered = {one.about for one in bench.state.overrides if one.stands}
    return tuple(
        Refusal(
            next(gate for gate in RULES if gate == one.gate),
            f"“{one.act}” was done against a gate and is not inspected: {one.why}",
            inspect_words(one.order, one.gate),
        )
        for one in bench.state.breaches
        if one.open and breach_key(one) not in answered
    )


def breach_key(one: Breach) -> str:
    """What an override of an act against a gate names."""
    return f"breach:{one.entry}:{one.gate}"


def inspect_words(number: int, gate: str) -> str:
    """What is typed to clear an act against a gate."""
    return f'gudgeon record inspected {number} --found … --by NAME --gate "{gate}"'

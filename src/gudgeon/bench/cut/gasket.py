"""Which head gasket to take for a cut, and what a thicker one gives back."""

from dataclasses import dataclass

from gudgeon.bench.cut.given import GasketGiven, Inputs
from gudgeon.bench.cut.known import Known
from gudgeon.bench.cut.words import plus_minus


@dataclass(frozen=True, slots=True)
class Choice:
    """The gasket that the maker means for a cut; `doubt` names the other that its uncertainty may ask for."""

    gasket: GasketGiven | None
    words: str
    doubt: str
    source: str


def choice(inputs: Inputs, *, in_all: Known) -> Choice | None:
    """The gasket for what has come off in all, and for the height of the pistons; None where the sheet lists none."""
    gaskets = inputs.cylinder.gaskets
    if not gaskets:
        return None
    fitting = [one for one in gaskets if _fits(one, inputs, off=in_all.value)]
    told = plus_minus(in_all, kind="length_difference")
    if not fitting:
        listed = "; ".join(
            f"{one.name}: {one.for_cut or one.for_piston_height or 'not stated'}" for one in gaskets
        )
        return Choice(
            None, f"none of the list is meant for {told} off in all ({listed})", "", gaskets[0].source
        )
    chosen = fitting[0]
    others = [
        one for one in gaskets
        if one not in fitting and any(_fits(one, inputs, off=end) for end in (in_all.least, in_all.most))
    ]  # fmt: skip
    doubt = ""
    if others:
        doubt = (
            f"{told} off in all may also ask for {others[0].called}: measure the height again before you buy"
        )
    elif len(fitting) > 1 and _ranged(chosen):
        doubt = f"{fitting[1].called} is meant for it too"
    return Choice(chosen, chosen.called, doubt, chosen.source)


def _ranged(one: GasketGiven) -> bool:
    return bool(one.for_cut or one.for_piston_height)


def _fits(one: GasketGiven, inputs: Inputs, *, off: float) -> bool:
    """Whether its maker means it for such a cut, and for pistons that stand so high."""
    height = inputs.cylinder.piston_height
    cut = _within(max(off, 0.0), one.low, one.high)
    pistons = height is None or _within(height.value, one.least_piston, one.most_piston)
    return cut and pistons


def _within(value: float, low: float | None, high: float | None) -> bool:
    return (low is None or value >= low - 1e-9) and (high is None or value <= high + 1e-9)


def gasket_of(inputs: Inputs, name: str | None) -> GasketGiven | None:
    """A gasket of the list by its name; without one that of the sheet's own thickness, where the list has it."""
    gaskets = inputs.cylinder.gaskets
    if name is not None:
        return next((one for one in gaskets if one.name == name), None)
    own = inputs.cylinder.gasket_thickness
    return next((one for one in gaskets if own is not None and one.thickness.value == own.value), None)

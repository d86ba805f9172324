"""Least and most in words: what cleans up, what may come off, which limit binds, and what else can be done."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.given import Inputs
from gudgeon.bench.cut.laws import Laws
from gudgeon.bench.cut.limits import Bound, Least, Most, most
from gudgeon.bench.cut.words import mm, plus_minus
from gudgeon.bench.features import has
from gudgeon.sources.cutting import first_pass

PARALLEL = "the face is set parallel to what was, as the shop sets it up"
TWIST = "a twisted face may need up to twice what lines under a straightedge show"
NO_PITS = "pits and scars are not in the book: nothing is counted for them"


@dataclass(frozen=True, slots=True)
class LeastSaid:
    """The least cut that cleans up: as read, surely, from what, and what it assumes."""

    text: str
    surely: str
    middle_mm: float
    surely_mm: float
    made_of: str
    source: str
    assumes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LimitSaid:
    """One limit with its own cut, surely kept and at the middle of all figures; None where any cut keeps it."""

    what: str
    limit: str
    surely: str
    middle: str
    surely_mm: float | None
    middle_mm: float | None
    binds: bool
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class LimitsSaid:
    """All limits under one gasket: the most that may come off and what binds."""

    gasket: str
    surely: str
    middle: str
    surely_mm: float | None
    middle_mm: float | None
    binds: str
    limits: tuple[LimitSaid, ...]
    other_gaskets: tuple[str, ...]


def least_said(found: Least, inputs: Inputs) -> LeastSaid:
    """The least cut that cleans up, in words."""
    deviation = inputs.head.flatness
    assumes = [PARALLEL]
    if deviation is not None and deviation.where != "whole face":
        assumes.append(TWIST)
    if inputs.head.pits is None:
        assumes.append(NO_PITS)
    assumes.append(f"a first pass takes about {mm(first_pass().value)} in any case (common practice)")
    text = plus_minus(found.known, kind="length_difference")
    return LeastSaid(
        text=f"at least {text}" if found.at_least else text,
        surely=mm(rounded_up(found.surely_mm)),
        middle_mm=found.middle_mm,
        surely_mm=found.surely_mm,
        made_of=found.words,
        source=found.source,
        assumes=tuple(assumes),
    )


def rounded_up(value: float) -> float:
    """To the hundredth of a millimeter, to the safe side of a least."""
    return -((-value * 100 + 1e-6) // 1) / 100


def down(value: float) -> float:
    """To the hundredth of a millimeter, to the safe side of a most."""
    return ((value * 100 + 1e-6) // 1) / 100


def limits_said(laws: Laws, found: Most) -> LimitsSaid:
    """Every limit in words, the binding one first."""
    binding = found.binding
    ordered = sorted(found.bounds, key=lambda one: (one.surely_mm is None, one.surely_mm or 0.0))
    thickness = laws.thickness
    gasket = (
        laws.gasket.called if laws.gasket is not None else thickness.text if thickness is not None else ""
    )
    return LimitsSaid(
        gasket,
        mm(down(found.surely_mm)) if found.surely_mm is not None else "",
        mm(down(found.middle_mm)) if found.middle_mm is not None else "",
        found.surely_mm,
        found.middle_mm,
        binding.what if binding is not None else "",
        tuple(_limit(one, one is binding) for one in ordered),
        tuple(_others(laws)),
    )


def _limit(one: Bound, binds: bool) -> LimitSaid:
    note = "passed before anything is cut" if one.passed and one.middle_mm == 0.0 else ""
    if one.passed and not note:
        note = "in doubt before anything is cut"
    return LimitSaid(
        one.what, one.limit, _cut(one.surely_mm), _cut(one.middle_mm), one.surely_mm, one.middle_mm, binds, one.source,
        "; ".join(filter(None, (note, one.basis))),
    )  # fmt: skip


def _cut(value: float | None) -> str:
    return "any cut keeps it" if value is None else mm(down(value))


def _others(laws: Laws) -> Iterator[str]:
    """What may come off under each other gasket that can be had."""
    for one in laws.inputs.cylinder.gaskets:
        if one is laws.gasket:
            continue
        found = most(Laws(laws.inputs, laws.camshafts, one))
        if found.binding is None or found.surely_mm is None:
            continue
        yield f"{one.called}: at most {mm(down(found.surely_mm))}, then the {found.binding.what} binds"


def verdict_of(low: Least | None, high: Most) -> str:
    """Whether a cut is possible at all, in one sentence."""
    if high.surely_mm is None or high.binding is None:
        return "The sheet states no limit that a cut would meet: how much may come off cannot be said."
    top = mm(down(high.surely_mm))
    binds = high.binding.what
    if low is None:
        return f"At most {top} may come off; the {binds} binds. What cleans up is not known."
    bottom = mm(rounded_up(low.surely_mm))
    if low.surely_mm <= high.surely_mm:
        return f"Possible: {bottom} surely cleans up, {top} may surely come off; the {binds} binds."
    if high.middle_mm is not None and low.middle_mm <= high.middle_mm:
        return (
            f"In doubt: {bottom} is needed to be sure that it cleans up, {top} may surely come off; the {binds} binds. "
            "Were every figure exact, it would be possible."
        )
    return f"Not possible: {bottom} is needed to be sure that it cleans up, only {top} may come off; the {binds} binds."


def ways_of(laws: Laws, low: Least | None, high: Most, *, bench: Bench) -> tuple[str, ...]:
    """What can be done where the least that cleans up is more than may come off."""
    if low is None or high.surely_mm is None or low.surely_mm <= high.surely_mm:
        return ()
    ways = []
    for one in laws.inputs.cylinder.gaskets:
        if one is not laws.gasket:
            found = most(Laws(laws.inputs, laws.camshafts, one))
            if found.surely_mm is not None and found.surely_mm >= low.surely_mm:
                ways.append(
                    f"take the gasket {one.called}: at most {mm(down(found.surely_mm))} may then come off"
                )
    head = bench.sheet.head
    if head is not None and head.straighten_above is not None and has(bench.sheet, "overhead cam"):
        ways.append("have the head straightened first where its cam tunnel is bent too: less then cleans up")
    if high.binding is not None and high.binding.surely_mm != high.binding.middle_mm:
        ways.append("measure what binds with a better gauge: less is then lost to doubt")
    return (*ways, "another head")

"""What a cut does, as a picture: each consequence over the cut with its limit, and the least and the most."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.case import Case, case_of
from gudgeon.bench.cut.given import Limit
from gudgeon.bench.cut.known import Known
from gudgeon.bench.cut.laws import Answer, Laws, NotWorkedOut
from gudgeon.bench.cut.limits import Bound, Least, Most, bolt_words
from gudgeon.bench.cut.said import down, rounded_up
from gudgeon.bench.cut.words import bare, mm
from gudgeon.bench.errors import CannotWorkOut
from gudgeon.quantity.format import both, number

STEPS = 24
"""Into so many pieces a curve is cut: it bends little, but where a squish pad becomes flush."""
REACH = 5.0
"""The picture reaches at most so many times as far as the limit that binds: what is met far beyond is said in words."""
PAST = 1.15
LEAST_REACH_MM = 0.1


@dataclass(frozen=True, slots=True)
class Band:
    """One consequence: points (cut, value, U) in mm and in its unit, its limit, and where it is met.

    `ends` are the values in words without a cut and at the end of the picture; `crossed_mm` is the cut at which the
    limit is surely kept no more, None where any cut keeps it. `upper` says that the limit is a most.
    """

    name: str
    points: tuple[tuple[float, float, float], ...]
    ends: tuple[str, str]
    limit: float | None
    limit_words: str
    upper: bool
    crossed_mm: float | None
    crossed_words: str
    binds: bool


@dataclass(frozen=True, slots=True)
class GasketBar:
    """From which cut to which one a gasket is meant for [mm]."""

    name: str
    low_mm: float
    high_mm: float
    words: str


@dataclass(frozen=True, slots=True)
class Upright:
    """A cut that is drawn through all bands: the least, the most, the one made or asked about."""

    kind: str
    cut_mm: float
    words: str


@dataclass(frozen=True, slots=True)
class CutPicture:
    """Everything over one axis of cuts, from nothing to `reach_mm`."""

    name: str
    words: str
    under: str
    reach_mm: float
    bands: tuple[Band, ...]
    gaskets: tuple[GasketBar, ...]
    uprights: tuple[Upright, ...]
    gasket_binds: bool = False


def cut_picture(bench: Bench, *, off: str | None = None, gasket: str | None = None) -> CutPicture:
    """The picture for the cut that was made, or for one asked about."""
    return picture_of(case_of(bench, off=off, gasket=gasket))


def can_be_drawn(case: Case) -> bool:
    """Whether there is a picture of it, without drawing one."""
    first = _reach(case.ends[1], [one.cut_mm for one in _uprights(case)]) / STEPS
    return any(
        not any(isinstance(one.law(Known(cut)), NotWorkedOut) for cut in (0.0, first))
        for one in _wanted(case.laws)
    )


def picture_of(case: Case) -> CutPicture:
    """The picture of a case."""
    inputs, laws, high = case.inputs, case.laws, case.ends[1]
    uprights = _uprights(case)
    reach = _reach(high, [one.cut_mm for one in uprights])
    bands = tuple(_bands(laws, high, reach))
    if not bands:
        raise CannotWorkOut("What a cut does", map(str, inputs.missing))
    thickness = laws.thickness
    called = (
        laws.gasket.called if laws.gasket is not None else thickness.text if thickness is not None else ""
    )
    under = f"{f'With the gasket {called}. ' if called else ''}Cuts are counted from {inputs.head.zero}."
    return CutPicture(
        "What does the cut do?", case.verdict, under, reach, bands, tuple(_gaskets(laws, reach)),
        uprights, high.binding is not None and high.binding.what == "gasket",
    )  # fmt: skip


def _uprights(case: Case) -> tuple[Upright, ...]:
    return (*_ends(*case.ends), *_cut(case))


def _ends(low: Least | None, high: Most) -> Iterator[Upright]:
    if low is not None:
        words = f"the least that surely cleans up: {mm(rounded_up(low.surely_mm))}"
        yield Upright("least", low.surely_mm, words)
    if high.surely_mm is not None and high.binding is not None:
        words = (
            f"the most that may surely come off: {mm(down(high.surely_mm))}, the {high.binding.what} binds"
        )
        yield Upright("most", high.surely_mm, words)


def _cut(case: Case) -> Iterator[Upright]:
    made = case.inputs.head.made
    if case.asked is not None:
        yield Upright("asked", case.asked.value, f"asked about: {mm(case.asked.value)}")
    elif made is not None:
        yield Upright("made", max(0.0, made.value), f"made: {made.text}")


def _reach(high: Most, cuts: list[float]) -> float:
    """Somewhat past the greatest limit, but not so far that the cuts that matter are crowded at the left."""
    near = max([*cuts, LEAST_REACH_MM])
    furthest = REACH * max(high.surely_mm or 0.0, LEAST_REACH_MM)
    met = [one.surely_mm for one in high.bounds if one.surely_mm is not None and one.surely_mm <= furthest]
    return PAST * max([near, *met])


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A band that is drawn where its law can be worked out; `what` is the name of its bound."""

    what: str
    law: Callable[[Known], Answer]
    limit: Limit | None
    kind: str = "length_difference"
    upper: bool = False


def _wanted(laws: Laws) -> Iterator[_Wanted]:
    inputs = laws.inputs
    cylinder = inputs.cylinder
    yield _Wanted("compression ratio", laws.ratio, cylinder.most_ratio, kind="ratio", upper=True)
    yield _Wanted("squish", laws.squish, cylinder.least_squish)
    for valves in inputs.valves:
        yield _Wanted(f"{valves.which} valve to piston", partial(laws.margin, valves), valves.least_margin)
    for bolt in inputs.bolts:
        yield _Wanted(bolt_words(inputs, bolt), partial(laws.free_below, bolt), bolt.least_below)
    if inputs.lifters is not None and inputs.lifters.preload is not None:
        yield _Wanted("preload of the lifters", laws.preload, inputs.lifters.most_preload, upper=True)
    yield _Wanted("height", laws.least_height, inputs.head.least_height, kind="length")


def _band(of: _Wanted, bound: Bound | None, reach: float, *, binds: bool) -> Band | None:
    """The points of one law; None where it cannot be worked out."""
    points = []
    for step in range(STEPS + 1):
        cut = reach * step / STEPS
        found = of.law(Known(cut))
        if isinstance(found, NotWorkedOut):
            break  # no volume is left beyond it
        points.append((cut, found.value, found.expanded))
    if len(points) < 2:
        return None
    first, last = (_value(value, of.kind) for value in (points[0][1], points[-1][1]))
    limit = of.limit
    words = (
        "no limit stated" if limit is None else f"{'at most' if of.upper else 'at least'} {bare(limit.text)}"
    )
    crossed = bound.surely_mm if bound is not None else None
    name = "Head height, least place" if of.what == "height" else of.what[0].upper() + of.what[1:]
    return Band(
        name, tuple(points), (first, last), None if limit is None else limit.value, words, of.upper, crossed,
        _met(bound, reach), binds,
    )  # fmt: skip


def _met(bound: Bound | None, reach: float) -> str:
    if bound is None:
        return ""
    if bound.surely_mm is None:
        return "any cut keeps it"
    if bound.passed:
        return (
            "passed before anything is cut" if bound.middle_mm == 0.0 else "in doubt before anything is cut"
        )
    met = f"surely kept up to {mm(down(bound.surely_mm))}"
    return f"{met}, beyond this picture" if bound.surely_mm > reach else met


def _value(value: float, kind: str) -> str:
    return number(value, decimals=2) if kind == "ratio" else both(value, kind=kind, decimals=2)


def _bands(laws: Laws, high: Most, reach: float) -> Iterator[Band]:
    bounds = {one.what: one for one in high.bounds}
    for one in _wanted(laws):
        bound = bounds.get(one.what)
        found = _band(one, bound, reach, binds=bound is not None and bound is high.binding)
        if found is not None:
            yield found


def _gaskets(laws: Laws, reach: float) -> Iterator[GasketBar]:
    """The gaskets over the cut: what had come off before counts with it."""
    before = laws.inputs.head.before
    earlier = before.value if before is not None else 0.0
    for one in laws.inputs.cylinder.gaskets:
        if one.for_cut:
            low = max(0.0, (one.low or 0.0) - earlier)
            high = reach if one.high is None else min(reach, one.high - earlier)
            if high > low:
                yield GasketBar(one.name, low, high, f"{one.called}: for cuts {one.for_cut}")

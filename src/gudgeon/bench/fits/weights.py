"""Equal weights: which rod goes with which piston, and how much comes off which pair."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from gudgeon.bench.context import Bench
from gudgeon.bench.fits.answer import DOUBT, INSIDE, NOT_MEASURED, Choice, Fit, counted, middle_of
from gudgeon.bench.judging.clearances import by_part, parts_of
from gudgeon.bench.judging.decision import Value, decide, total
from gudgeon.bench.judging.finding import named
from gudgeon.bench.measured import Measured, measured
from gudgeon.calc.engine.selective import pair_by_weight, to_take_off
from gudgeon.quantity.format import number
from gudgeon.quantity.units import convert
from gudgeon.sheet.fits import Weights

CAUTIONS = (
    "Where material may come off, and how much of it, is the manual's word: never off a highly loaded place.",
    "A rod keeps its own cap and bolts; where it comes to another journal its bearing is measured again.",
    "Weigh each piston with its pin, rings and clips, all parts on one scale and on one day.",
)
KEY = "weights"


def weights_fit(bench: Bench) -> Fit:
    """Pistons and rods paired so that they weigh most alike, and what comes off the heavy ones."""
    weights = bench.sheet.fits.weights if bench.sheet.fits is not None else None
    assert weights is not None  # it was named by the sheet
    keys = [one for one in (weights.pistons, weights.rods) if one is not None]
    missing = list(_missing(bench, keys))
    stated = weights.most_difference
    wanted = f"they differ by {stated.value.text}" if stated is not None else "as much alike as can be"
    name = " and ".join(bench.sheet.characteristics[one].name for one in keys) or "Weights"
    source = str(weights.cited(stated) or "")
    if missing:
        return Fit(KEY, KEY, name, wanted, source, (), {}, "", missing=tuple(missing), cautions=CAUTIONS)
    read = [_parts(bench, one) for one in keys]
    rods = _rods(read)
    choices = tuple(_choices(weights, read, rods))
    return Fit(
        KEY, KEY, name, wanted, source, choices, counted(choices), _improved(read, rods),
        tuple(_steps(read, rods)), () if stated is not None else (_no_limit(),), (), CAUTIONS,
    )  # fmt: skip


def _no_limit() -> str:
    return "fits.weights states no most_difference, so nothing is said of what has to come off"


def _missing(bench: Bench, keys: Sequence[str]) -> Iterator[str]:
    if not keys:
        yield "fits.weights names neither `pistons` nor `rods`, so nothing that was weighed is found"
    counts = []
    for key in keys:
        item, read = bench.sheet.characteristics[key], measured(bench, key)
        if item.kind != "mass":
            yield f"{item.name}: its `quantity` is {item.kind}, and a mass is needed"
        lacking = [part for part in parts_of(item) if part not in by_part(read)]
        if lacking:
            yield f"no reading: {item.name}, {named(lacking)}"
        counts.append(len(parts_of(item)))
    if len(set(counts)) > 1:
        yield f"the sheet has {counts[0]} places of the one and {counts[1]} of the other: they are paired one to one"


Parts = Mapping[str, Measured]


def _parts(bench: Bench, key: str) -> Parts:
    """The reading of each part, in the order of the sheet."""
    read = by_part(measured(bench, key))
    return {part: read[part][0] for part in parts_of(bench.sheet.characteristics[key])}


def _rods(read: Sequence[Parts]) -> tuple[int, ...]:
    """For every piston the rod that makes the pairs most alike; each its own where that is as good."""
    masses = [[_grams(one) for one in parts.values()] for parts in read]
    own = tuple(range(len(masses[0])))
    if len(masses) < 2:
        return own
    paired = pair_by_weight(masses[0], rods_g=masses[1])
    sums = [piston + rod for piston, rod in zip(*masses, strict=True)]
    spread = max(sums) - min(sums)
    return paired.rods if spread - paired.spread_g > 1e-9 else own


def _grams(one: Measured) -> float:
    return convert((one.low + one.high) / 2, frm="kg", to="g", kind="mass")


def _pair(read: Sequence[Parts], rods: Sequence[int], at: int) -> list[Measured]:
    first = list(read[0].values())[at]
    return [first, list(read[1].values())[rods[at]]] if len(read) > 1 else [first]


def _choices(weights: Weights, read: Sequence[Parts], rods: Sequence[int]) -> Iterator[Choice]:
    pairs = [_pair(read, rods, at) for at in range(len(rods))]
    before = [_pair(read, range(len(rods)), at) for at in range(len(rods))]
    most = None if weights.most_difference is None else weights.most_difference.value.high_in("g")
    sums = [sum(map(_grams, one)) for one in pairs]
    off = to_take_off(sums, most_difference_g=most) if most is not None else (0.0,) * len(sums)
    lightest = min(range(len(sums)), key=sums.__getitem__)
    names = list(read[0])
    for at, (pair, gone) in enumerate(zip(pairs, off, strict=True)):
        heavier = _heavier(pair, pairs[lightest])
        verdict = NOT_MEASURED if most is None else _verdict(heavier, most)
        was = sum(map(_grams, before[at]))
        yield Choice(
            names[at], _found(before[at]), _fitted(read, rods, at),
            grams(sums[at]), _off_by(heavier), verdict, grams(was) if len(read) > 1 else "", "",
            _reason(verdict, gone),
        )  # fmt: skip


def _found(pair: Sequence[Measured]) -> str:
    names = ("piston", "rod") if len(pair) > 1 else ("",)
    return ", ".join(f"{name} {grams(_grams(one))}".strip() for name, one in zip(names, pair, strict=True))


def _heavier(pair: Sequence[Measured], lightest: Sequence[Measured]) -> Value:
    """How much heavier a pair is than the lightest one; nothing for that itself."""
    found = total([*((1.0, one) for one in pair), *((-1.0, one) for one in lightest)])
    return replace(found, u=0.0, u_ends=None) if list(pair) == list(lightest) else found


def _verdict(heavier: Value, most_g: float) -> str:
    limit = convert(most_g, frm="g", to="kg", kind="mass")
    if heavier.u == 0 and middle_of(heavier) == 0:
        return INSIDE
    return decide(heavier, low=None, high=limit).verdict


def _off_by(heavier: Value) -> str:
    return f"± {grams(convert(2 * heavier.u, frm='kg', to='g', kind='mass'))}" if heavier.u > 0 else ""


def _fitted(read: Sequence[Parts], rods: Sequence[int], at: int) -> str:
    if len(read) < 2:
        return "as it is"
    return "its own rod" if rods[at] == at else f"rod of {list(read[1])[rods[at]]}"


def _reason(verdict: str, gone: float) -> str:
    if gone > 0:
        return f"{grams(gone)} too heavy: that much comes off"
    return "the limit lies too near for this scale" if verdict == DOUBT else ""


def _spread(read: Sequence[Parts], rods: Sequence[int]) -> float:
    sums = [sum(map(_grams, _pair(read, rods, at))) for at in range(len(rods))]
    return max(sums) - min(sums)


def _improved(read: Sequence[Parts], rods: Sequence[int]) -> str:
    now, then = _spread(read, rods), _spread(read, range(len(rods)))
    after = f"{grams(now)} between the heaviest and the lightest"
    if len(read) < 2:
        return after
    if tuple(rods) == tuple(range(len(rods))):
        return f"{after}; no other pairing is more even"
    return f"{after}; with each rod where it is {grams(then)}"


def _steps(read: Sequence[Parts], rods: Sequence[int]) -> Iterator[str]:
    for at, rod in enumerate(rods):
        if len(read) > 1 and rod != at:
            yield f"Rod of {list(read[1])[rod]} to the piston of {list(read[0])[at]}"


def grams(value: float) -> str:
    """A mass in grams, and in ounces.

    Example:
        >>> grams(4.2)
        '4.2 g (0.15 oz)'
    """
    ounces = convert(value, frm="g", to="oz", kind="mass")
    return f"{number(value, decimals=1)} g ({number(ounces, decimals=2)} oz)"

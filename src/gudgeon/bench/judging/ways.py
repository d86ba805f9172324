"""Every way out of a doubt, the best first: his own gauges, more readings, the maker's other way, what to borrow."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from gudgeon.bench.budget import Component, degrees_of_freedom, standard_uncertainty_of
from gudgeon.bench.context import Bench
from gudgeon.bench.judging.blades import Known, blade_ways
from gudgeon.bench.judging.decision import NORMAL, Terms, Value, decide, distance, inside_as_read
from gudgeon.bench.judging.gauges import ITS_ERROR, named_kinds, parts_of, say_its_error, suited, to_borrow
from gudgeon.kit.model import Gauge
from gudgeon.quantity.format import both
from gudgeon.sheet.inspections import Characteristic

MOST_REPEATS = 25
"""More readings of one place than this, nobody takes."""
ON_THE_LIMIT_MM = 0.0005
AGAIN = "measure it again with a better gauge, or accept it with a reason"
ON_THE_LIMIT = "it is on the limit: no gauge will decide it; accept it with a reason, or renew"

STRIP = "plastic gauging strip"
BY_STRIP = (
    "the strip is too coarse so near the limit: measure both parts, and take the difference; "
    "or accept it with a reason"
)
SCATTERS = (
    "the readings scatter too much for any gauge: find out why (dirt, a burr, a loose set-up), and read it anew; "
    "or accept it with a reason"
)
TEMPERATURE = (
    "what is not known of the temperature leaves it in doubt with any gauge: let part and gauge lie in one room until "
    "both are as warm, and note it; or accept it with a reason"
)


@dataclass(frozen=True, slots=True)
class Doubt:
    """A value between its limits and their guard bands, the readings it is made of, and its kind."""

    value: Value
    terms: Terms
    low: float | None
    high: float | None
    kind: str
    percent: bool = False

    @property
    def middle(self) -> float | None:
        """The middle of the value, where both of its ends are known."""
        found = (self.value.low + self.value.high) / 2
        return found if math.isfinite(found) else None


def ways_out(bench: Bench, key: str, doubt: Doubt) -> Iterator[str]:
    """Every way out that applies, the best first; there is always one."""
    found = list(_ways(bench, key, doubt))
    yield from found or (AGAIN,)


def _ways(bench: Bench, key: str, doubt: Doubt) -> Iterator[str]:
    item = bench.sheet.characteristics[key]
    if not doubt.value.known:
        yield from _names_the_gauge(bench, doubt)
        if inside_as_read(doubt.value, low=doubt.low, high=doubt.high):
            return
    blades = list(_blades(bench, item, doubt)) if doubt.value.step else []
    own = list(_own_gauges(bench, key, doubt))
    yield from blades
    yield from own
    repeats = list(_more_repeats(doubt))
    yield from repeats
    yield from instead(bench, item)
    if not own and not repeats:  # where repeats decide it, the gauge is good enough
        yield from _borrow(bench, key, doubt, blades=bool(blades))


def _names_the_gauge(bench: Bench, doubt: Doubt) -> Iterator[str]:
    named = [one.instrument for _, one in doubt.terms if not one.u_known]
    if any(name not in bench.kit.gauges and name != "worked out" for name in named):
        yield "name the gauge with --gauge"
    elif named:
        gauges = [bench.kit.gauges[name] for name in named if name in bench.kit.gauges]
        yield from dict.fromkeys(map(say_its_error, gauges)) or (ITS_ERROR,)


def _blades(bench: Bench, item: Characteristic, doubt: Doubt) -> Iterator[str]:
    """The blade that would decide it: far enough from the limit for its own error."""
    if len(doubt.terms) != 1 or item.computed or doubt.kind != "length_difference":
        return
    gauge = bench.kit.gauges.get(doubt.terms[0][1].instrument)
    if gauge is not None and gauge.kind == STRIP:
        return
    known = Known(doubt.value.low, doubt.value.high, NORMAL * doubt.value.u)
    said = " and ".join(blade_ways(gauge, low=doubt.low, high=doubt.high, known=known))
    if said:
        yield said


def must_not_enter(gauge: Gauge | None, most: float) -> float | None:
    """The thickest blade that is still thin enough; of a set whose blades nobody wrote down, in hundredths."""
    owned = _owned(gauge)
    if owned:
        return max((one for one in owned if one <= most + 1e-9), default=None)
    blade = math.floor(most * 100 + 1e-6) / 100
    return blade if blade > 0 else None


def _owned(gauge: Gauge | None) -> list[float]:
    return [blade.middle_in("mm") for blade in gauge.blades] if gauge is not None else []


def _own_gauges(bench: Bench, key: str, doubt: Doubt) -> Iterator[str]:
    """Gauges of his with which this very value would be decided."""
    middle = doubt.middle
    item = bench.sheet.characteristics[key]
    if item.computed:
        yield _finer_parts(bench, item, doubt)
        return
    if middle is None or not doubt.terms:
        return
    size = max(abs(_end(one.low, one.high)) for _, one in doubt.terms)
    used = {one.instrument for _, one in doubt.terms}
    better = []
    for one in suited(bench.sheet, bench.kit, key=key, size=size):
        made = _with_gauge(doubt.terms, one.u)
        value = Value(middle, middle, standard_uncertainty_of(made), True, degrees_of_freedom(made))
        steps = one.gauge.kind in ("feeler blades", "plastic gauging strip")
        if one.key in used or steps or not one.known or not _reads_it(bench, item, one.gauge.kind, used):
            continue
        if decide(value, low=doubt.low, high=doubt.high).verdict != "in doubt":
            better.append(one.name)
    if better:
        yield f"measure again with: {', '.join(better)}"


def _reads_it(bench: Bench, item: Characteristic, kind: str, used: set[str]) -> bool:
    """A gap is read in many ways, and not every gauge gets into it: only what the sheet names, or was used already."""
    if item.method != "gap" or named_kinds(item, (kind,)):
        return True
    return any(bench.kit.gauges[name].kind == kind for name in used if name in bench.kit.gauges)


def _finer_parts(bench: Bench, item: Characteristic, doubt: Doubt) -> str:
    """What it is worked out from, and the gauges of his with which this very value would be decided."""
    names = " and ".join(bench.sheet.characteristics[name].name for name in item.of)
    said = f"measure {'both parts ' if len(item.of) == 2 else ''}more finely: {names}"
    parts = parts_of(bench.sheet, bench.kit, item=item)
    value = doubt.value.with_u(parts.u)
    better = parts.u < doubt.value.u or not doubt.value.known
    if better and not parts.lacking and decide(value, low=doubt.low, high=doubt.high).verdict != "in doubt":
        return f"{said}, with your {parts.words}"
    return f"{said}, with gauges borrowed for it: yours do not decide it" if doubt.value.known else said


def _end(low: float, high: float) -> float:
    return low if math.isinf(high) else high


def _with_gauge(terms: Terms, u_gauge: float) -> list[Component]:
    """What it is made of with another gauge: its own error at every reading, and what is not the gauge's as it was."""
    errors = [Component("another gauge", u_gauge, sensitivity=factor) for factor, _ in terms]
    return [*_components_but_the_gauge(terms), *errors]


def _not_of_the_gauge(terms: Terms) -> float:
    return standard_uncertainty_of(_components_but_the_gauge(terms))


def _components_but_the_gauge(terms: Terms) -> list[Component]:
    return [
        replace(one, sensitivity=one.sensitivity * factor)
        for factor, read in terms
        for one in read.worse.components
        if one.cause != "gauge"
    ]


def _not_the_gauge(terms: Terms) -> str:
    """Where no gauge would help: what else leaves it in doubt, and what can be done about that."""
    worst = max(_components_but_the_gauge(terms), key=lambda one: abs(one.share), default=None)
    return SCATTERS if worst is not None and worst.cause == "scatter" else TEMPERATURE


def _more_repeats(doubt: Doubt) -> Iterator[str]:
    """Only where scatter is the greater part, and what does not scatter would be decided: then how many more."""
    if len(doubt.terms) != 1 or doubt.value.step:
        return
    (_, one), value = doubt.terms[0], doubt.value
    if one.scatter is None:
        return
    s, taken = one.scatter
    by_scatter = s**2 / taken
    fixed = math.sqrt(max(0.0, value.u**2 - by_scatter))
    if by_scatter < value.u**2 / 2:
        return
    if decide(replace(value, u=fixed, dof=math.inf), low=doubt.low, high=doubt.high).verdict == "in doubt":
        return
    for count in range(max(taken, 2) + 1, MOST_REPEATS + 1):
        u = math.hypot(fixed, s / math.sqrt(count))
        dof = u**4 * (count - 1) / (s**2 / count) ** 2
        if decide(replace(value, u=u, dof=dof), low=doubt.low, high=doubt.high).verdict != "in doubt":
            yield (
                f"the readings scatter more than the gauge errs: {count - taken} more at the same place, if their mean "
                "stays where it is"
            )
            return


def instead(bench: Bench, item: Characteristic) -> Iterator[str]:
    """The cheaper reading that the maker takes for this one, where the sheet names it."""
    other = bench.sheet.characteristics.get(item.instead or "")
    if other is not None:
        yield f"the manual takes “{other.name}” for it: gudgeon record reading {item.instead}"


def _borrow(bench: Bench, key: str, doubt: Doubt, *, blades: bool) -> Iterator[str]:
    """How good a borrowed gauge must be, and whether such a gauge is usually sold."""
    item, near = bench.sheet.characteristics[key], distance(doubt.value, low=doubt.low, high=doubt.high)
    if item.computed or not doubt.terms:
        return
    if doubt.value.step:
        used = [bench.kit.gauges.get(one.instrument) for _, one in doubt.terms]
        if any(one is not None and one.kind == STRIP for one in used):
            yield BY_STRIP
            return
        yield from () if blades else _no_blade(bench, key)
        return
    factors = math.hypot(*(factor for factor, _ in doubt.terms))
    room = (near / NORMAL) ** 2 - _not_of_the_gauge(doubt.terms) ** 2
    wanted = math.sqrt(max(0.0, room)) / factors * math.sqrt(3)
    least = ON_THE_LIMIT_MM if doubt.kind == "length_difference" else 0.001 * abs(doubt.value.low)
    if wanted < least:
        alone = near / NORMAL / factors * math.sqrt(3)
        yield ON_THE_LIMIT if alone < least else _not_the_gauge(doubt.terms)
        return
    size = max(abs(one.high) for _, one in doubt.terms)
    what, usual = to_borrow(bench.sheet, key, size=size)
    off = both(_two_digits(wanted), kind=doubt.kind)
    if usual is not None and usual > wanted:
        own = both(usual, kind="length_difference", decimals=3)
        yield (
            f"none of your gauges decides it, and {what}, usually off by up to {own}, would not either: so near the "
            "limit no gauge will decide it; accept it with a reason, or renew"
        )
        return
    said = f"none of your gauges decides it: borrow {what} that is off by at most {off}"
    if usual is not None:
        said += f" (usual: {both(usual, kind='length_difference', decimals=3)})"
    yield said


def _two_digits(value: float) -> float:
    """Rounded down to two digits: how good a gauge must be is no finer known."""
    if not value > 0:
        return value
    step = 10.0 ** (math.floor(math.log10(value)) - 1)
    return math.floor(value / step + 1e-9) * step


def _no_blade(bench: Bench, key: str) -> Iterator[str]:
    if bench.sheet.characteristics[key].method == "straightedge lines":
        yield "no blade of yours decides it: have the face measured on a plate with a dial gauge, or at a machine shop"
    else:
        yield "no blade of yours decides it: borrow a better gauge"

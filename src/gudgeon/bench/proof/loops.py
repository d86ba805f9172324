"""Clearances against the sizes of the two parts that make them, and heights against what may come off."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from gudgeon.bench.proof.amounts import Exact, exact, in_unit, number_text, shown, with_unit
from gudgeon.bench.proof.findings import Finding, Grade, finding
from gudgeon.bench.proof.slips import probable
from gudgeon.quantity.units import Unit
from gudgeon.quantity.written import Amount, Printed, Span
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.model import DataSheet

STEPS = 2
"""An end that misses by no more last digits beyond rounding is a doubt: sizes and clearances are rounded apart."""


@dataclass(frozen=True, slots=True)
class Loop:
    """A clearance and the sizes that it closes with, in one unit where all are printed in it."""

    item: Characteristic
    path: str
    stated: Stated
    bore: tuple[str, Stated]
    shaft: tuple[str, Stated]
    clearance: Span
    least: Exact
    most: Exact

    @property
    def unit(self) -> Unit:
        """The unit in which the clearance is printed."""
        return self.clearance.unit


@dataclass(frozen=True, slots=True)
class Miss:
    """One end of a clearance against the end worked out: outside is positive, zero where it agrees."""

    end: Amount
    wanted: Exact
    outside: Fraction

    @property
    def steps(self) -> Fraction:
        """The miss in last digits of the clearance."""
        step = 2 * exact(self.end).half
        return abs(self.outside) / step if step else Fraction(1000)


def check_clearances(sheet: DataSheet) -> Iterator[Finding]:
    """Every clearance whose bore and shaft are in the sheet: least = bore low − shaft high, most the other way."""
    for key, item in sheet.characteristics.items():
        names = item.between or (item.of if item.method == "difference" else ())
        if len(names) != 2:
            continue
        for field in ("new_range", "required"):
            loop = _loop(sheet, f"characteristics.{key}.{field}", item, field, names[0], shaft=names[1])
            if loop is not None:
                yield from _close(loop)


def _loop(
    sheet: DataSheet, path: str, item: Characteristic, field: str, bore: str, *, shaft: str
) -> Loop | None:
    stated: Stated | None = getattr(item, field)
    outer, inner = sheet.characteristics[bore], sheet.characteristics[shaft]
    if stated is None or outer.new_range is None or inner.new_range is None:
        return None
    printed = (stated.value, outer.new_range.value, inner.new_range.value)
    clearance, hole, pin = _in_one_unit(*printed)
    if clearance.low is None or clearance.high is None:
        return None
    if hole.low is None or hole.high is None or pin.low is None or pin.high is None:
        return None
    return Loop(
        item,
        path,
        stated,
        (outer.name, outer.new_range),
        (inner.name, inner.new_range),
        clearance,
        _minus(hole.low, pin.high),
        _minus(hole.high, pin.low),
    )


def _in_one_unit(*printed: Printed) -> list[Span]:
    """The figures in the first unit in which all are printed; else each as it leads."""
    for span in printed[0].spans:
        found = [next((one for one in each.spans if one.unit is span.unit), None) for each in printed]
        if None not in found:
            return [one for one in found if one is not None]
    return [each.first for each in printed]


def _minus(larger: Amount, smaller: Amount) -> Exact:
    one, other = exact(larger), exact(smaller)
    return Exact(one.value - other.value, one.half + other.half)


def _close(loop: Loop) -> Iterator[Finding]:
    low, high = loop.clearance.low, loop.clearance.high
    assert low is not None
    assert high is not None
    if loop.clearance.single:
        if not loop.least.low <= exact(low).value <= loop.most.high:
            yield _not_closed(loop, [Miss(low, loop.least, loop.least.value - exact(low).value)], "error", "")
        return
    misses = [_miss(low, loop.least, sign=-1), _miss(high, loop.most, sign=1)]
    off = [miss for miss in misses if miss.outside]
    if not off:
        return
    outside = [miss for miss in off if miss.outside > 0]
    if not outside and len(off) == 2:
        why = "The stated clearance is narrower than the sizes give: parts are chosen to fit, not taken as they come."
        yield _not_closed(loop, off, "note", why)
    elif not outside:
        yield _not_closed(loop, off, "doubt", "One end closes with the sizes, the other does not.")
    else:
        grade: Grade = "doubt" if max(miss.steps for miss in outside) <= STEPS else "error"
        why = "The sizes of the two parts cannot give the stated clearance."
        yield _not_closed(loop, off, grade, why if len(off) == 2 else f"{why[:-1]} at one end.")


def _miss(end: Amount, wanted: Exact, *, sign: int) -> Miss:
    own = exact(end)
    difference = own.value - wanted.value
    if abs(difference) <= own.half + wanted.half:
        return Miss(end, wanted, Fraction(0))
    return Miss(end, wanted, sign * difference)


def _not_closed(loop: Loop, off: list[Miss], grade: Grade, why: str) -> Finding:
    decimals = max(miss.end.decimals for miss in off)
    ends = [number_text(in_unit(end.value, loop.unit), decimals=decimals) for end in (loop.least, loop.most)]
    joined = " to ".join(ends) if ends[0].startswith("-") else "–".join(ends)
    return finding(
        "clearance",
        grade=grade,
        path=loop.path,
        name=f"{loop.item.name}, against {loop.bore[0].lower()} and {loop.shaft[0].lower()}",
        printed=f"{loop.stated.value.text}; {loop.bore[0]} {loop.bore[1].value.text}; "
        f"{loop.shaft[0]} {loop.shaft[1].value.text}",
        agrees=f"from the sizes: {with_unit(joined, loop.unit)}",
        digit="" if grade == "note" else _digit(off),
        why=why or "The stated clearance lies outside what the sizes give.",
        source=str(loop.item.cited(loop.stated) or ""),
    )


def _digit(off: list[Miss]) -> str:
    """A slip of the one end that misses; it may as well stand in a size."""
    if len(off) > 1:
        return "both ends miss: look at the two sizes first"
    slip = probable(off[0].end, off[0].wanted)
    said = str(slip) if slip is not None else shown(off[0].end)
    return f"{said}; or one of the two sizes"

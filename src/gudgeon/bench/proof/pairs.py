"""One figure in two units: do they say the same, and if not, what slipped."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from itertools import combinations

from gudgeon.bench.proof.amounts import TOLERANCE_MARKS, exact, shown, span_as, tolerance_decimals
from gudgeon.bench.proof.ends import Verdict, compare
from gudgeon.bench.proof.figures import Figure
from gudgeon.bench.proof.findings import GRADES, Finding, Grade, finding
from gudgeon.bench.proof.slips import KINDS, Slip, fraction_near, probable
from gudgeon.quantity.units import Unit, units
from gudgeon.quantity.written import Amount, Span

LEAST_NUMBER = 0.1
"""A figure is printed in a larger unit only where its number is not smaller: 0.28 mm is nobody's 0.028 cm."""

TOO_LARGE = ("m", "ft", "m²", "m³", "kN·m")
"""Units that no engine part is printed in: nobody writes millimeters for them by mistake."""


@dataclass(frozen=True, slots=True)
class End:
    """Two printed numbers that should be one, and how they stand."""

    one: Amount
    other: Amount
    verdict: Verdict

    @property
    def rank(self) -> int:
        """Errors first, agreement last."""
        grade = self.verdict.grade
        return len(GRADES) if grade is None else GRADES.index(grade)


def check_pair(figure: Figure) -> Iterator[Finding]:
    """At most one finding for a figure printed in several units: the gravest."""
    spans = figure.printed.spans
    if len(spans) < 2:
        return
    pairs = [(one, other, ends_of(one, other=other)) for one, other in combinations(spans, 2)]
    off = [pair for pair in pairs if any(end.verdict.grade for end in pair[2])]
    if not off:
        return
    one, other, ends = min(off, key=lambda pair: min(end.rank for end in pair[2]))
    worst = min(ends, key=lambda end: end.rank)
    assert worst.verdict.grade is not None  # only pairs that are off were kept
    odd = _odd_one(spans, [(a, b) for a, b, found in off if min(end.rank for end in found) == worst.rank])
    named = _taken_factor(ends) if worst.verdict.cause == "coarse" else _exchanged(worst, odd)
    grade: Grade = "error" if named else worst.verdict.grade
    start = "The two figures do not agree" if grade == "error" else "The two figures agree only roughly"
    why = (
        "both ends were converted with one wrong factor"
        if named and worst.verdict.cause == "coarse"
        else worst.verdict.why
    )
    yield finding(
        "pair",
        grade=grade,
        path=figure.said,
        name=figure.name,
        printed=figure.printed.text,
        agrees=_conversions(one, other, odd=odd),
        digit=named or _digit(one, other, ends, odd=odd),
        why=f"{start}: {why}.",
        source=figure.source,
    )


def _exchanged(worst: End, odd: Span | None) -> str:
    """Two digits exchanged in a figure that is off by a few of its partner's last digits, and right otherwise."""
    if worst.verdict.cause != "last digit":
        return ""
    for slip in _slips(worst, odd=odd):
        partner = worst.other if slip.printed is worst.one else worst.one
        if (
            slip.kind == "exchanged"
            and abs(exact(slip.meant).value - exact(partner).value) <= exact(slip.meant).half
        ):
            return str(slip)
    return ""


def _odd_one(spans: tuple[Span, ...], off: list[tuple[Span, Span]]) -> Span | None:
    """Of three figures the one that disagrees with both others, while those agree."""
    inside = [span for span in spans if all(span in pair for pair in off)]
    return inside[0] if len(spans) > 2 and len(inside) == 1 else None


def ends_of(one: Span, *, other: Span) -> list[End]:
    """The numbers of two figures that should be one: both ends, or middle and tolerance."""
    if _symmetric(one) and _symmetric(other) and one.nominal is not None and other.nominal is not None:
        halves = _tolerance(one), _tolerance(other)
        return [
            End(one.nominal, other.nominal, compare(one.nominal, other=other.nominal)),
            End(*halves, compare(halves[0], other=halves[1])),
        ]
    if one.single != other.single and None not in (one.low, one.high, other.low, other.high):
        return [_single_in_range(*((one, other) if one.single else (other, one)))]
    ends = [(one.low, other.low), (one.high, other.high), (one.nominal, other.nominal)]
    both = [(a, b) for a, b in ends if a is not None and b is not None]
    return [End(a, b, compare(a, other=b)) for a, b in (both[:1] if one.single else both)]


def ends_differ(one: Span, *, other: Span) -> bool:
    """Whether two figures differ by more than a note."""
    return any(end.verdict.grade in ("error", "doubt") for end in ends_of(one, other=other))


def _symmetric(span: Span) -> bool:
    """Printed with ±: the tolerance has digits of its own."""
    return span.nominal is not None and any(mark in span.text for mark in TOLERANCE_MARKS)


def _tolerance(span: Span) -> Amount:
    """What stands behind ±; without the offset of its unit, for it converts as a difference."""
    assert span.nominal is not None
    assert span.high is not None
    step = Decimal(1).scaleb(-tolerance_decimals(span))
    unit = replace(span.nominal.unit, offset=Fraction(0))
    return Amount(span.high.number - span.nominal.number, unit, span.nominal.kind, step)


def _single_in_range(single: Span, wide: Span) -> End:
    """One unit gives a range, the other one value: it should be the nominal one, else lie in the range."""
    assert single.low is not None
    if wide.nominal is not None:
        return End(single.low, wide.nominal, compare(single.low, other=wide.nominal))
    assert wide.low is not None
    assert wide.high is not None
    value, low, high = exact(single.low), exact(wide.low), exact(wide.high)
    if low.low - value.half <= value.value <= high.high + value.half:
        note = Verdict("note", "one unit gives a range, the other one value of it")
        return End(single.low, wide.low, note)
    near = wide.low if abs(value.value - low.value) < abs(value.value - high.value) else wide.high
    found = compare(single.low, other=near)
    return End(single.low, near, found if found.grade == "error" else replace(found, grade="doubt"))


def _conversions(one: Span, other: Span, *, odd: Span | None) -> str:
    """Each of the two in the unit and with the digits of the other."""
    said = []
    for start, end in ((one, other), (other, one)):
        plain = start.unit is end.unit and _some(end).step == 0  # a decimal converts into no other decimal
        if start is not odd and (not plain or _as_fraction(start, end)):
            said.append(f"{start.text.strip()} is {_as_fraction(start, end) or span_as(start, like=end)}")
    return "; ".join(said)


def _as_fraction(start: Span, end: Span) -> str:
    """A decimal of an inch as the fraction it is, where the other figure is a fraction."""
    if start.low is None or end.low is None or end.low.step or not start.low.step:
        return ""
    if start.unit.symbol != "in" or end.unit.symbol != "in":
        return ""
    near = fraction_near(Fraction(start.low.number), half=Fraction(start.low.step) / 2)
    return f"{near} in" if near else ""


def _digit(one: Span, other: Span, ends: list[End], *, odd: Span | None) -> str:
    """What probably slipped, the plainest explanation first."""
    worst = min(ends, key=lambda end: end.rank)
    all_off = all(end.verdict.grade in ("error", "doubt") for end in ends)
    if worst.verdict.grade != "error":
        return _last_digit(worst) if worst.verdict.cause == "last digit" else ""
    slips = _slips(worst, odd=odd)
    unit = (_unit_words(one, other) or _factor_words(ends)) if all_off else ""
    if unit and not (slips and slips[0].kind == "moved"):
        return unit
    also = [unit] if unit.startswith("the unit:") else []
    return "; or ".join([*map(str, slips), *also]) or "no single digit explains it: look at the page again"


def _last_digit(end: End) -> str:
    coarser = end.one if exact(end.one).half >= exact(end.other).half else end.other
    return f"the last digit of {shown(coarser)}"


def _slips(end: End, *, odd: Span | None) -> list[Slip]:
    """The plainest slips of either number; where a third figure agrees with one, only of the odd one."""
    found = []
    for printed, against in ((end.one, end.other), (end.other, end.one)):
        if odd is not None and printed not in (odd.low, odd.high, odd.nominal):
            continue
        slip = probable(printed, exact(against), least=2 if odd is None else 1)
        if slip is not None:
            found.append(slip)
    if {slip.kind for slip in found} == {"moved", "lost"}:  # either makes about ten times: both may be
        return sorted(found, key=lambda slip: KINDS.index(slip.kind))
    plainest = min((KINDS.index(slip.kind) for slip in found), default=0)
    return [slip for slip in found if KINDS.index(slip.kind) == plainest]


def _unit_words(one: Span, other: Span) -> str:
    """The numbers agree in other units than the ones printed."""
    if _agree_in(one, other, other.unit, one.unit):
        first, second = _numbers(one), _numbers(other)
        return f"the units exchanged: {first} {other.unit.symbol}, {second} {one.unit.symbol}"
    for start, end in ((one, other), (other, one)):
        for unit in units(_some(start).kind):
            usual = float(abs(_some(start).number)) >= LEAST_NUMBER or unit.factor < start.unit.factor
            if (
                unit is not start.unit
                and unit.symbol not in TOO_LARGE
                and usual
                and _agree_in(start, end, unit, end.unit)
            ):
                return f"the unit: {start.text.strip()} would agree as {_numbers(start)} {unit.symbol}"
    return ""


def _some(span: Span) -> Amount:
    found = span.low or span.high
    assert found is not None  # a span has at least one end
    return found


def _numbers(span: Span) -> str:
    ends = [f"{end.number:f}" for end in (span.low, span.high) if end is not None]
    return "–".join(dict.fromkeys(ends))


def _agree_in(one: Span, other: Span, first: Unit, second: Unit) -> bool:
    """Whether the numbers agree with these units; three digits together at least, fewer prove nothing."""
    ends = ends_of(_moved_to(one, first), other=_moved_to(other, second))
    if any(end.verdict.grade not in (None, "note") for end in ends):
        return False
    return all(_count(end.one) + _count(end.other) >= 3 for end in ends)


def _count(amount: Amount) -> int:
    return len(f"{abs(amount.number):f}".replace(".", "").lstrip("0"))


def _moved_to(span: Span, unit: Unit) -> Span:
    """The same numbers in another unit."""

    def moved(amount: Amount | None) -> Amount | None:
        return None if amount is None else replace(amount, unit=unit)

    return Span(span.text, moved(span.low), moved(span.high), moved(span.nominal))


def _factor_words(ends: list[End]) -> str:
    """A range whose ends were both converted with one and the same wrong factor."""
    if any(end.verdict.grade not in ("error", "doubt") for end in ends):
        return ""
    if len(ends) < 2 or any(not end.one.number or not end.other.number for end in ends):
        return ""
    for turned in (False, True):
        pairs = [(end.other, end.one) if turned else (end.one, end.other) for end in ends]
        low = max(_quotient(stop, start, sign=-1) for start, stop in pairs)
        high = min(_quotient(stop, start, sign=1) for start, stop in pairs)
        said = _shortest(low, high)
        if said and (high - low) * 50 < high:
            return _factor(said, *pairs[0])
    return ""


def _taken_factor(ends: list[End]) -> str:
    """A wrong factor of at most two decimals that makes each end of the finer figure out of the coarse one.

    Coarse rounding could hide it: 196–210 N·m is 140–150 lbf·ft to the nearest ten, and 1.4 times that exactly.
    """
    if len(ends) < 2 or any(end.verdict.grade is None or not end.one.number for end in ends):
        return ""
    for turned in (False, True):
        pairs = [(end.other, end.one) if turned else (end.one, end.other) for end in ends]
        if any(not start.number or not stop.step for start, stop in pairs):
            continue
        if all(int(stop.number / stop.step) % 5 == 0 for _, stop in pairs):
            continue
        halves = [
            (abs(Fraction(start.number)), abs(Fraction(stop.number)), Fraction(stop.step) / 2)
            for start, stop in pairs
        ]
        low = max((stop - half) / start for start, stop, half in halves)
        high = min((stop + half) / start for start, stop, half in halves)
        said = _shortest(low, high) if low <= high else ""
        if said and len(said.partition(".")[2]) <= 2:
            return _factor(said, *pairs[0])
    return ""


def _factor(said: str, start: Amount, stop: Amount) -> str:
    right = f"{float(start.unit.factor / stop.unit.factor):.5g}"
    return f"the factor: {said} {stop.unit.symbol} to 1 {start.unit.symbol} was taken, it is {right}"


def _quotient(over: Amount, under: Amount, *, sign: int) -> Fraction:
    """The largest (+1) or smallest (−1) quotient that two printed numbers leave open."""
    above = abs(Fraction(over.number)) + sign * Fraction(over.step) / 2
    return above / (abs(Fraction(under.number)) - sign * Fraction(under.step) / 2)


def _shortest(low: Fraction, high: Fraction) -> str:
    """The shortest number of up to three decimals between two."""
    for decimals in range(4):
        scale = 10**decimals
        first = -int(-low * scale // 1)
        if first <= high * scale:
            return f"{first / scale:.{decimals}f}"
    return ""

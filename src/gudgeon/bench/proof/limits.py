"""Wear limits against new ranges, ranges that are too wide, grades that overlap or leave a tie."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise

from gudgeon.bench.proof.amounts import Exact, exact, in_unit, number_text, shown, with_unit
from gudgeon.bench.proof.figures import Figure
from gudgeon.bench.proof.findings import Finding, Grade, finding
from gudgeon.bench.proof.pairs import ends_differ
from gudgeon.bench.proof.slips import probable
from gudgeon.quantity.written import Amount, Printed, Span
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.model import DataSheet

FAR_WEAR = 50
"""Wear allowance in new tolerances: parts wear out long before, so a limit farther off is looked at again."""
SMALL = Fraction(1, 5)
"""A limit below this share of the new size is no limit of that size: it is the allowance."""
WIDE = 3
"""One end of a range so many times the other is looked at again."""
NARROW_KINDS = ("length", "torque", "mass", "volume", "area", "angle", "speed", "force", "pressure_gauge")
"""Kinds whose ranges are never that wide; a clearance may be."""


@dataclass(frozen=True, slots=True)
class Limit:
    """One side of a wear limit against the new range on that side."""

    item: Characteristic
    path: str
    side: str
    limit: Amount
    near: Amount
    far: Amount | None
    sign: int

    @property
    def room(self) -> Fraction:
        """How far the limit lies beyond the new range; below zero inside it."""
        return self.sign * (exact(self.limit).value - exact(self.near).value)

    @property
    def hidden(self) -> Fraction:
        """What the rounding of both figures may hide."""
        return exact(self.limit).half + exact(self.near).half

    @property
    def tolerance(self) -> Fraction:
        """The width of the new range; of a range open below, from zero."""
        far = exact(self.far).value if self.far is not None else Fraction(0)
        return abs(exact(self.near).value - far)


def check_limits(sheet: DataSheet) -> Iterator[Finding]:
    """Every wear limit against its new range."""
    for key, item in sheet.characteristics.items():
        if item.new_range is not None and item.wear_limit is not None:
            for limit in _limits(f"characteristics.{key}.wear_limit", item):
                yield from _limit(limit)
        yield from _grades(f"characteristics.{key}.grades", item)


def _limits(path: str, item: Characteristic) -> Iterator[Limit]:
    assert item.new_range is not None
    assert item.wear_limit is not None
    new, worn = item.new_range.value.first, item.wear_limit.value.first
    if worn.high is not None and new.high is not None:
        yield Limit(item, path, "max", worn.high, new.high, new.low, 1)
    if worn.low is not None and new.low is not None:
        yield Limit(item, path, "min", worn.low, new.low, new.high, -1)


def _limit(one: Limit) -> Iterator[Finding]:
    if one.room + one.hidden < 0:
        whole = one.tolerance > 0 and -one.room > one.tolerance + one.hidden
        yield _beyond(one, "error", _below(one) if whole or _is_allowance(one) else _inside(one))
    elif one.sign < 0 and _is_allowance(one):
        why = "The limit is far too small for this size: it is probably the wear allowance, not the limit."
        yield _beyond(one, "error", why)
    elif one.tolerance > 0 and _judged_by_tolerance(one) and one.room > FAR_WEAR * one.tolerance:
        times = float(one.room / one.tolerance)
        yield _beyond(
            one,
            "doubt",
            f"The limit lies {times:.0f} times the new tolerance away from the new range; "
            f"more than {FAR_WEAR} times is not to be expected.",
        )


def _judged_by_tolerance(one: Limit) -> bool:
    return one.far is not None and one.near != one.far


def _is_allowance(one: Limit) -> bool:
    limit, near = exact(one.limit).value, exact(one.near).value
    return one.item.method == "size" and 0 < limit < SMALL * near


def _inside(one: Limit) -> str:
    return "The wear limit lies inside the new range: some new parts would count as worn out."


def _below(one: Limit) -> str:
    if _is_allowance(one):
        return "The limit is far too small for this size: it is probably the wear allowance, not the limit."
    word = "below" if one.sign > 0 else "above"
    return (
        f"The wear limit ({one.side}) lies {word} the whole new range: every new part would count as worn out. "
        "It is on the wrong side, or it is the wear allowance and not the limit."
    )


def _beyond(one: Limit, grade: Grade, why: str) -> Finding:
    assert one.item.new_range is not None
    assert one.item.wear_limit is not None
    new, worn = one.item.new_range.value, one.item.wear_limit.value
    return finding(
        "wear-limit",
        grade=grade,
        path=one.path,
        name=f"{one.item.name}, wear limit",
        printed=f"new {new.text}; wear limit {worn.text}",
        agrees=_agreeing(one),
        digit=_digit(one, worn),
        why=why,
        source=str(one.item.cited(one.item.wear_limit) or ""),
    )


def _agreeing(one: Limit) -> str:
    """The limit that could stand, and what it would be if an allowance was printed."""
    word = "more" if one.sign > 0 else "less"
    said = f"a limit of {shown(one.near)} or {word}"
    limit, near = exact(one.limit), exact(one.near)
    small = _is_allowance(one) or (one.item.method != "size" and one.room < 0)
    if 0 < limit.value < near.value and small:
        unit = one.near.unit
        decimals = max(one.near.decimals, one.limit.decimals if one.limit.unit is unit else 0)
        total = in_unit(near.value + one.sign * limit.value, unit)
        sign = "+" if one.sign > 0 else "−"
        ended = with_unit(number_text(total, decimals=decimals), unit)
        said += f"; as an allowance, {shown(one.near)} {sign} {shown(one.limit)} = {ended}"
    return said


def _digit(one: Limit, worn: Printed) -> str:
    if not one.tolerance:
        return ""
    near = exact(one.near).value
    zone = Exact(near + one.sign * 5 * one.tolerance, 5 * one.tolerance)
    slip = probable(one.limit, zone)
    said = slip.unsure if slip is not None and slip.kind not in ("lost", "dropped") else ""
    if len(worn.spans) < 2 or any(
        ends_differ(first, other=second) for first, second in combinations(worn.spans, 2)
    ):
        return said
    return f"the limit agrees in both units, so it was wrong before it was converted{said and f'; {said}'}"


def check_width(figure: Figure) -> Iterator[Finding]:
    """A range whose one end is several times the other."""
    for span in figure.printed.spans:
        low, high = span.low, span.high
        if low is None or high is None or span.single or low.kind.name not in NARROW_KINDS:
            continue
        if low.number > 0 and exact(high).value > WIDE * exact(low).value:
            times = float(exact(high).value / exact(low).value)
            yield finding(
                "range",
                grade="doubt",
                path=figure.said,
                name=figure.name,
                printed=figure.printed.text,
                why=f"One end of the range is {times:.3g} times the other; more than {WIDE} times is rare.",
                digit=_stretched(low, high),
                source=figure.source,
            )
            return


def _stretched(low: Amount, high: Amount) -> str:
    """A ten-fold slip of the upper end that would bring it near the lower one."""
    zone = Exact(exact(low).value * Fraction(5, 4), exact(low).value / 4)
    slip = probable(high, zone)
    return slip.unsure if slip is not None and slip.kind == "moved" else ""


def _grades(path: str, item: Characteristic) -> Iterator[Finding]:
    rows = list(item.grades.items())
    for (first, one), (second, other) in pairwise(rows):
        yield from _neighbors(path, item, (first, one), (second, other))
    yield from _order(path, item, rows)


def _neighbors(
    path: str, item: Characteristic, first: tuple[str, Stated], second: tuple[str, Stated]
) -> Iterator[Finding]:
    """Two grades that follow each other: they overlap, share a boundary, or leave a gap."""
    below, above = sorted((first, second), key=lambda row: _place(row[1].value.first))
    top, foot = below[1].value.first.high, above[1].value.first.low
    if top is None or foot is None:
        return
    distance = exact(foot).value - exact(top).value
    step = 2 * max(exact(foot).half, exact(top).half)
    printed = "; ".join(f"{name}: {one.value.text}" for name, one in (first, second))
    single = below[1].value.first.single or above[1].value.first.single
    grade: Grade = "doubt"
    if distance < 0:
        why = f"The grades {below[0]} and {above[0]} overlap: a value between has two grades."
        agrees = f"grade {above[0]} from {shown(top)}, or grade {below[0]} to {shown(foot)}"
    elif distance == 0 and not item.tie and not single:
        why = f"{shown(top)} belongs to the grades {below[0]} and {above[0]}: which one takes it?"
        agrees = "a rule for the tie: write it as `tie:` of this characteristic"
    elif step < distance <= max(_width(below[1]), _width(above[1])) and not single:
        grade, why, agrees = "note", f"Between {shown(top)} and {shown(foot)} there is no grade.", ""
    else:
        return
    yield finding(
        "grades",
        grade=grade,
        path=f"{path}.{second[0]}",
        name=f"{item.name}, grades {first[0]} and {second[0]}",
        printed=printed,
        agrees=agrees,
        why=why,
        source=str(item.cited(second[1]) or ""),
    )


def _width(stated: Stated) -> Fraction:
    """The width of a grade; sizes that lie farther apart than that are oversizes, with nothing between."""
    span = stated.value.first
    if span.low is None or span.high is None:
        return Fraction(0)
    return exact(span.high).value - exact(span.low).value


def _place(span: Span) -> Fraction:
    """Where a figure stands among others: its lower end, else its upper one."""
    found = span.low if span.low is not None else span.high
    assert found is not None  # a span has at least one end
    return exact(found).value


def _order(path: str, item: Characteristic, rows: list[tuple[str, Stated]]) -> Iterator[Finding]:
    """Rows that rise in one unit and fall in the other."""
    for (first, one), (second, other) in pairwise(rows):
        before, after = one.value.spans, other.value.spans
        turns = {_sign(_place(b) - _place(a)) for a, b in zip(before, after, strict=False)}
        if {1, -1} <= turns:
            yield finding(
                "grades-order",
                grade="error",
                path=f"{path}.{second}",
                name=f"{item.name}, grades {first} and {second}",
                printed=f"{first}: {one.value.text}; {second}: {other.value.text}",
                why="From one row to the next the figure rises in one unit and falls in the other.",
                source=str(item.cited(other) or ""),
            )


def _sign(value: Fraction) -> int:
    return (value > 0) - (value < 0)

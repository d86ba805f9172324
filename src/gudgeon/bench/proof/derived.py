"""Displacement, compression ratio, areas and what may come off the head, worked out from what they derive from."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from gudgeon.bench.proof.amounts import Exact, number_text, with_unit
from gudgeon.bench.proof.ends import rounded_coarsely
from gudgeon.bench.proof.findings import Finding, Grade, finding
from gudgeon.bench.proof.intervals import Interval, interval, over_corners
from gudgeon.bench.proof.slips import probable
from gudgeon.calc.engine.cylinder import (
    CylinderGeometry,
    bore_area_mm2,
    clearance_volume_cm3,
    swept_volume_cm3,
)
from gudgeon.quantity.written import Amount
from gudgeon.sheet.engine import Cylinder
from gudgeon.sheet.figures import Sourced, Stated
from gudgeon.sheet.model import DataSheet

NEAR = 0.005
"""A displacement off by less is a doubt: manuals round bore and stroke as they round the displacement."""
RATIO_NEAR = 0.03
"""A compression ratio off by less is a doubt: the volumes are those of one measured engine."""
SCHOOL_PI = 3.14 / math.pi
MOUTH = (0.4, 1.2)
"""A chamber opens over less than half of the bore, or beyond its edge, in hardly any head."""


@dataclass(frozen=True, slots=True)
class Worked:
    """A stated figure, what it was worked out from, and what came out."""

    part: Sourced
    path: str
    name: str
    stated: Stated
    worked: Interval
    from_what: str
    near: float

    @property
    def amount(self) -> Amount:
        """The number that is compared: the nominal one, else the upper end."""
        span = self.stated.value.first
        found = span.nominal or span.high or span.low
        assert found is not None  # a span has at least one end
        return found


def check_derived(sheet: DataSheet) -> Iterator[Finding]:
    """Every derived figure of the sheet whose makings are all there."""
    cylinder = sheet.cylinder
    if cylinder is not None:
        yield from _displacement(cylinder, sheet.engine.cylinders)
        yield from _ratio(cylinder)
        yield from _mouth(cylinder)
    yield from _most_off(sheet)


def _part(stated: Stated | None) -> Interval | None:
    return interval(stated.value.first) if stated is not None else None


def _swept(cylinder: Cylinder) -> Interval | None:
    bore, stroke = _part(cylinder.bore), _part(cylinder.stroke)
    if bore is None or stroke is None or min(bore.low, stroke.low) <= 0:
        return None
    return over_corners(
        lambda bore, stroke: swept_volume_cm3(bore, stroke_mm=stroke), {"bore": bore, "stroke": stroke}
    )


def _displacement(cylinder: Cylinder, cylinders: int) -> Iterator[Finding]:
    swept, stated = _swept(cylinder), cylinder.displacement
    if swept is None or stated is None:
        return
    said = f"bore {cylinder.bore.value.text}, stroke {cylinder.stroke.value.text}"  # type: ignore[union-attr]
    worked = Worked(
        cylinder,
        "cylinder.displacement",
        "Displacement",
        stated,
        swept.times(cylinders),
        f"{said}, {cylinders} cylinders",
        NEAR,
    )
    one = "it is the volume of one cylinder" if cylinders > 1 and _meets(worked, swept) else ""
    yield from _judge(worked, named=one)


def _ratio(cylinder: Cylinder) -> Iterator[Finding]:
    swept, stated = _swept(cylinder), cylinder.compression_ratio
    names = {
        "bore_mm": cylinder.bore,
        "chamber_volume_cm3": cylinder.chamber_volume,
        "crown_volume_cm3": cylinder.crown_volume,
        "piston_height_mm": cylinder.piston_height,
        "gasket_bore_mm": cylinder.gasket_bore,
        "gasket_thickness_mm": cylinder.gasket_thickness,
        "stroke_mm": cylinder.stroke,
    }
    parts = {name: _part(one) for name, one in names.items()}
    if swept is None or stated is None or None in parts.values():
        return
    known = {name: one for name, one in parts.items() if one is not None}
    if any(known[name].low <= 0 for name in names if name not in ("crown_volume_cm3", "piston_height_mm")):
        return
    clearance = over_corners(lambda **one: clearance_volume_cm3(CylinderGeometry(**one)), known)
    if clearance.low <= 0:
        return
    plain = Interval(swept.low / clearance.high, swept.high / clearance.low)
    worked = Worked(
        cylinder,
        "cylinder.compression_ratio",
        "Compression ratio",
        stated,
        Interval(plain.low + 1, plain.high + 1),
        "bore, stroke, gasket, chamber, crown and piston height",
        RATIO_NEAR,
    )
    named = "it is swept volume by clearance volume; the ratio is one more" if _meets(worked, plain) else ""
    yield from _judge(worked, named=named)


def _meets(worked: Worked, other: Interval) -> bool:
    own = interval(worked.stated.value.first)
    return own is not None and own.meets(other)


def _judge(one: Worked, *, named: str) -> Iterator[Finding]:
    """Nothing where the figures agree, else a finding of the grade that the difference deserves."""
    own = interval(one.stated.value.first)
    if own is None or own.meets(one.worked):
        return
    target = Exact(Fraction(one.worked.middle), Fraction(one.worked.high - one.worked.low) / 2)
    grade: Grade
    share = own.off(one.worked)
    off = f"{float(f'{100 * share:.2g}'):g}%" if share < 1 else f"{own.middle / one.worked.middle:.3g} times"
    if own.meets(one.worked.times(SCHOOL_PI)):
        grade, why, digit = "note", "worked out with 3.14 for π", ""
    elif rounded_coarsely(one.amount, target):
        grade, why, digit = "note", "rounded to a round number", ""
    elif named:
        grade, why, digit = "error", named, ""
    elif own.off(one.worked) <= one.near:
        grade, why, digit = "doubt", f"off by {off} beyond rounding", ""
    else:
        slip = probable(one.amount, target)
        grade, why = (
            "error",
            f"off by {off}, and rounding does not explain it" if share < 1 else f"it is {off} too large",
        )
        digit = str(slip) if slip is not None else "look at each of the figures it comes from"
    yield _finding(one, grade, why=why, digit=digit)


def _finding(one: Worked, grade: Grade, *, why: str, digit: str) -> Finding:
    unit, decimals = one.amount.unit, max(one.amount.decimals, 1)
    middle, *ends = (
        number_text(Fraction(value) / unit.factor, decimals=decimals)
        for value in (one.worked.middle, one.worked.low, one.worked.high)
    )
    spread = f" ({'–'.join(ends)} with the rounding of its parts)" if ends[0] != ends[1] else ""
    return finding(
        "derived",
        grade=grade,
        path=one.path,
        name=one.name,
        printed=f"{one.stated.value.text}; {one.from_what}",
        agrees=f"worked out: {with_unit(middle, unit)}{spread}",
        digit=digit,
        why=f"Worked out again from what it comes from: {why}.",
        source=str(one.part.cited(one.stated) or ""),
    )


def _mouth(cylinder: Cylinder) -> Iterator[Finding]:
    """The opening of a chamber against the area of its bore."""
    bore, stated = _part(cylinder.bore), cylinder.chamber_mouth_area
    mouth = _part(stated)
    if bore is None or stated is None or mouth is None or bore.low <= 0:
        return
    round_area = Interval(bore_area_mm2(bore.low), bore_area_mm2(bore.high))
    low, high = MOUTH
    wide = Interval(round_area.low * low, round_area.high * high)
    whole = mouth.meets(round_area.times(SCHOOL_PI)) and not mouth.meets(round_area)
    if mouth.meets(wide) and not whole:
        return
    said = f"bore {cylinder.bore.value.text}"  # type: ignore[union-attr]
    area = Worked(
        cylinder,
        "cylinder.chamber_mouth_area",
        "Chamber mouth area",
        stated,
        round_area,
        said,
        NEAR,
    )
    if whole:
        yield _finding(area, "note", why="the area of the bore, worked out with 3.14 for π", digit="")
        return
    slip = probable(area.amount, Exact(Fraction(wide.middle), Fraction(wide.high - wide.low) / 2))
    digit = str(slip) if slip is not None and slip.kind == "moved" else ""
    why = f"the opening is {100 * mouth.middle / round_area.middle:.3g}% of the area of the bore"
    yield _finding(area, "error" if digit else "doubt", why=why, digit=digit)


def _most_off(sheet: DataSheet) -> Iterator[Finding]:
    """What may come off the head is at most its height less its least height."""
    head = sheet.head
    if head is None or head.height is None or head.least_height is None or head.most_off is None:
        return
    new, off = interval(head.height.value.first), head.most_off.value.first.high
    least = head.least_height.value.first.low
    if new is None or least is None or off is None:
        return
    floor, own = Interval(least.to("mm"), least.to("mm")), Interval(off.to("mm"), off.to("mm"))
    half = least.half_digit_in("mm") + off.half_digit_in("mm")
    room = Interval(new.low - floor.high - half, new.high - floor.low + half)
    if own.meets(room):
        return
    slip = probable(off, Exact(Fraction(room.middle), Fraction(room.high - room.low) / 2))
    one = Worked(
        head,
        "head.most_off",
        "Most that may come off the head",
        head.most_off,
        room,
        f"height {head.height.value.text}, least height {head.least_height.value.text}",
        0,
    )
    more = own.low > room.high
    grade: Grade = "error" if more or (slip is not None and slip.kind == "moved") else "doubt"
    why = (
        "more may come off than lies between the two heights"
        if more
        else "less than lies between the two heights"
    )
    yield _finding(one, grade, why=why, digit=str(slip or ""))

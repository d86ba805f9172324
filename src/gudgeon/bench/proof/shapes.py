"""Limits with shapes that contradict each other, and shares and spans that are out of reason."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.proof.amounts import exact, shown
from gudgeon.bench.proof.findings import Finding, Grade, finding
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import (
    BetweenCylinders,
    ByDirection,
    PerLength,
    PerSpan,
    Shape,
    TwoFaces,
    WholeAndPerLength,
    WholeFace,
)

HALF = 0.5
"""A cylinder that lacks more than half of the highest is dead: such a share was turned round."""
FAR_OUT_MM = 1.0
"""No face of an engine may be out of flat by more (common practice: hundredths, a few tenths at the most)."""
FLATNESS = ("straightedge lines", "heights", "scanned face")


@dataclass(frozen=True, slots=True)
class Bound:
    """A figure that limits flatness upward: what it is, where it stands, and what it stands for."""

    item: Characteristic
    path: str
    name: str
    figure: Stated
    stands_for: str
    shape: Shape | None = None

    def more_than(self, other: "Bound") -> bool:
        """Whether it is surely the larger one: as printed in one unit, else beyond rounding."""
        mine, its = self.figure.value.first.high, other.figure.value.first.high
        if mine is None or its is None or self.figure is other.figure:
            return False
        if mine.unit is its.unit:
            return mine.number > its.number
        return exact(mine).low > exact(its).high

    @property
    def said(self) -> str:
        """The figure with its name."""
        return f"{self.name} {self.figure.value.text}"

    @property
    def cited(self) -> str:
        """Its source: its own, that of its shape, or that of its characteristic."""
        own = self.figure.source or (self.shape.source if self.shape is not None else None)
        return str(own or self.item.source or "")


def check_shapes(sheet: DataSheet) -> Iterator[Finding]:
    """Every characteristic that has limits with shapes."""
    for key, item in sheet.characteristics.items():
        path = f"characteristics.{key}"
        for number, shape in enumerate(item.limits, start=1):
            inner = f"{path}.limits.{number}"
            if isinstance(shape, BetweenCylinders):
                yield from _shares(item, shape, inner)
            elif isinstance(shape, PerSpan):
                yield from _span(sheet, item, shape, inner)
            elif isinstance(shape, TwoFaces):
                yield from _two_faces(sheet, key, shape, inner)
        if item.method in FLATNESS:
            bounds = list(_bounds(item, path))
            yield from _parts_and_whole(bounds)
            yield from _worn_and_new(bounds)
            yield from _stretches(sheet, item, bounds)


def _bounds(item: Characteristic, path: str) -> Iterator[Bound]:
    """Every figure that limits the flatness of the face: plain ones first."""
    for field, stands_for in (
        ("new_range", "new range"),
        ("wear_limit", "wear limit"),
        ("required", "required"),
    ):
        figure = getattr(item, field)
        if figure is not None:
            yield Bound(item, f"{path}.{field}", "whole", figure, stands_for)
    for number, shape in enumerate(item.limits, start=1):
        inner = f"{path}.limits.{number}"
        for field, figure in shape.limiting().items() if shape.of_flatness else ():
            if isinstance(shape, WholeFace) or field in ("total", "overall"):
                name = "whole"
            elif isinstance(shape, PerLength | WholeAndPerLength):
                name = f"over {shape.over.value.text}"
            elif isinstance(shape, ByDirection):
                name = field
            else:
                continue
            yield Bound(item, f"{inner}.{field}", name, figure, shape.stands_for, shape)


def _parts_and_whole(bounds: list[Bound]) -> Iterator[Finding]:
    """What a part of the face, or one direction, may be out is no more than what the whole may be."""
    for one in bounds:
        if one.name == "whole":
            continue
        for whole in bounds:
            if whole.name == "whole" and whole.stands_for == one.stands_for and one.more_than(whole):
                why = (
                    f"The limit {one.name} is larger than that of the whole face, so that it never decides: "
                    "the two are exchanged, or a digit slipped."
                )
                yield _found("limit-parts", "error", one, whole, why)


def _worn_and_new(bounds: list[Bound]) -> Iterator[Finding]:
    """A limit where a part is used up does not lie inside what a new part has."""
    for new in bounds:
        for worn in bounds:
            plain = new.shape is None and worn.shape is None
            pair = (new.stands_for, worn.stands_for) == ("new range", "wear limit")
            if pair and new.name == worn.name and not plain and new.more_than(worn):
                why = "The wear limit lies inside the new range: some new parts would count as worn out."
                yield _found("wear-limit", "error", worn, new, why)


def _stretches(sheet: DataSheet, item: Characteristic, bounds: list[Bound]) -> Iterator[Finding]:
    """A limit over a length that no line of the face has never applies."""
    face = sheet.faces.get(item.face or "")
    lengths = [line.length_mm() for line in face.lines.values()] if face is not None else []
    known = [length for length in lengths if length is not None]
    if not known or len(known) < len(lengths):
        return
    for one in bounds:
        over = getattr(one.shape, "over", None)
        if isinstance(over, Stated) and over.value.middle_in("mm") > max(known):
            yield finding(
                "limit-over",
                grade="doubt",
                path=one.path.rpartition(".")[0] + ".over",
                name=f"{item.name}, {one.name}",
                printed=f"over {over.value.text}; longest line {max(known):.0f} mm",
                why="No line of the face is so long: the limit never applies.",
                source=one.cited,
            )


def _shares(item: Characteristic, shape: BetweenCylinders, path: str) -> Iterator[Finding]:
    """A share that a cylinder must reach lies above one half, one that it may lack below it."""
    for field in ("percent_of_highest", "percent_below_mean"):
        figure = getattr(shape, field)
        if figure is None:
            continue
        span = figure.value.first
        lacking = field == "percent_below_mean" or span.low is None
        share = float(exact(span.high if span.low is None else span.low).value)
        wrong = share > HALF if lacking else share < HALF and not span.single
        if wrong:
            right = f"{100 * (1 - share):g} %"
            word = "lack" if lacking else "fall to"
            yield finding(
                "share",
                grade="doubt",
                path=f"{path}.{field}",
                name=f"{item.name}, {field.replace('_', ' ')}",
                printed=figure.value.text,
                agrees=right,
                why=f"A cylinder that may {word} {100 * share:g} % does not run: it is told the other way round.",
                source=str(figure.source or shape.source or item.source or ""),
            )


def _span(sheet: DataSheet, item: Characteristic, shape: PerSpan, path: str) -> Iterator[Finding]:
    """What a limit for each unit of span makes of the longest span."""
    face = sheet.faces.get(item.face or "")
    lines = [line.length_mm() for line in face.lines.values()] if face is not None else []
    spans = [shape.span.value.middle_in("mm")] if shape.span is not None else [one for one in lines if one]
    most = shape.limit.value.high_in("mm")
    if not spans or most is None or item.method not in FLATNESS:
        return
    made = most * max(spans) / shape.per.value.middle_in("mm")
    if made > FAR_OUT_MM:
        yield finding(
            "limit-span",
            grade="doubt",
            path=f"{path}.limit",
            name=f"{item.name}, per unit of span",
            printed=f"{shape.limit.value.text} for each {shape.per.value.text}",
            why=f"Over {max(spans):.0f} mm it makes {made:.2f} mm; no face may be out by more than {FAR_OUT_MM:g} mm.",
            source=str(shape.limit.source or shape.source or item.source or ""),
        )


def _two_faces(sheet: DataSheet, key: str, shape: TwoFaces, path: str) -> Iterator[Finding]:
    """Two faces together may be out by less than both alone, else the limit never decides."""
    item, other = sheet.characteristics[key], sheet.characteristics[shape.other]
    most = shape.limit.value.first.high
    alone = [one.wear_limit.value.first.high for one in (item, other) if one.wear_limit is not None]
    if most is None or len(alone) < 2 or None in alone:
        return
    both = [exact(end) for end in alone if end is not None]
    if exact(most).value >= sum(end.value for end in both):
        yield finding(
            "limit-faces",
            grade="note",
            path=f"{path}.limit",
            name=f"{item.name} and {other.name[:1].lower()}{other.name[1:]}, together",
            printed=f"together {shape.limit.value.text}; alone {' and '.join(shown(end) for end in alone if end)}",
            why="Both faces may be out by as much alone: the limit of the two together never decides.",
            source=str(shape.limit.source or shape.source or item.source or ""),
        )


def _found(check: str, grade: Grade, one: Bound, other: Bound, why: str) -> Finding:
    limit = other.figure.value.first.high
    return finding(
        check,
        grade=grade,
        path=one.path,
        name=f"{one.item.name}, {one.name}",
        printed=f"{other.said} ({other.stands_for}); {one.said} ({one.stands_for})",
        agrees=f"{'at least' if check == 'wear-limit' else 'at most'} {shown(limit)}"
        if limit is not None
        else "",
        why=why,
        source=one.cited,
    )

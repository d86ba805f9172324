"""One figure at two places: two pages that differ, and one thing that stands in two parts of the sheet."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from gudgeon.bench.proof.amounts import Exact
from gudgeon.bench.proof.figures import figures, path_text
from gudgeon.bench.proof.findings import GRADES, Finding, Grade, finding
from gudgeon.bench.proof.intervals import interval
from gudgeon.bench.proof.pairs import End, ends_of
from gudgeon.bench.proof.slips import probable
from gudgeon.quantity.written import Printed, Span
from gudgeon.sheet.figures import Sourced, Stated
from gudgeon.sheet.model import DataSheet
from gudgeon.written.located import Path

_START = {
    "two-pages": "Two pages print one figure differently",
    "two-places": "One thing stands at two places of the sheet, and the figures differ",
}


@dataclass(frozen=True, slots=True)
class Place:
    """A figure and where it stands."""

    path: Path
    name: str
    printed: Printed
    source: str


def check_again(sheet: DataSheet) -> Iterator[Finding]:
    """Every figure that another page prints too, and every thing that stands at two places."""
    seen: dict[Path, Place] = {}
    for figure in figures(sheet):
        place = Place(figure.path, figure.name, figure.printed, figure.source)
        seen[figure.path] = place
        if "also" in figure.path:
            yield from _same(seen[figure.path[: figure.path.index("also")]], place, check="two-pages")
    for one, other in _twice(sheet):
        yield from _same(one, other, check="two-places")


def _same(one: Place, other: Place, *, check: str) -> Iterator[Finding]:
    """Two figures of one thing: the grade of the gravest difference between them."""
    found = _differ(one.printed.first, other.printed.first)
    if found is None:
        return
    grade, why = found
    yield finding(
        check,
        grade=grade,
        path=path_text(other.path),
        name=one.name
        if check == "two-pages"
        else f"{one.name}, and {other.name[:1].lower()}{other.name[1:]}",
        printed=f"{one.printed.text} ({one.source}); {other.printed.text} ({other.source})",
        agrees="one of the two, as the latest edition prints it",
        digit=_digit(one.printed.first, other.printed.first) if grade == "error" else "",
        why=f"{_START[check]}: {why}.",
        source=other.source,
    )


def _differ(one: Span, other: Span) -> tuple[Grade, str] | None:
    if {_side(one), _side(other)} == {"most", "least"}:
        return "error", "one limits upward, the other downward"
    ends = ends_of(one, other=other)
    graded = [(_grade(end), end.verdict.why) for end in ends if end.verdict.grade is not None]
    if one.single != other.single and _overlap(one, other):
        return None
    if not graded and _side(one) != _side(other):
        return "note", "one is a range, the other one end of it"
    return min(graded, key=lambda found: GRADES.index(found[0]), default=None)


def _grade(end: End) -> Grade:
    """In one unit nothing was converted: round numbers that differ are a doubt at least."""
    graded = end.verdict.grade
    assert graded is not None  # only ends that differ are graded
    same = end.one.unit is end.other.unit and end.verdict.cause == "coarse"
    return "doubt" if same and graded == "note" else graded


def _side(span: Span) -> str:
    return "most" if span.low is None else "least" if span.high is None else ""


def _overlap(one: Span, other: Span) -> bool:
    first, second = interval(one), interval(other)
    return first is not None and second is not None and first.meets(second)


def _digit(one: Span, other: Span) -> str:
    """The slip of either number that would make it the other."""
    for end in ends_of(one, other=other):
        if end.verdict.grade == "error":
            for amount, against in ((end.other, end.one), (end.one, end.other)):
                value = Fraction(against.number) * against.unit.factor + against.unit.offset
                slip = probable(amount, Exact(value, Fraction(against.step) / 2 * against.unit.factor))
                if slip is not None:
                    return str(slip)
    return ""


def _twice(sheet: DataSheet) -> Iterator[tuple[Place, Place]]:
    """Figures of cylinder, head and joints that a characteristic of the same name states as well."""
    for part, held in (("cylinder", sheet.cylinder), ("head", sheet.head)):
        if held is None:
            continue
        for name in type(held).model_fields:
            value = getattr(held, name)
            if isinstance(value, Stated):
                for key in (name, f"{part}_{name}"):
                    yield from _with(sheet, _place((part, name), f"{part} {name}", value, held), key, "new")
    head = sheet.head
    if head is not None and head.measured_as is not None:
        for field, state in (("height", "new"), ("least_height", "limit")):
            value = getattr(head, field)
            if value is not None and not (
                field == "height" and head.measured_as in ("height", "head_height")
            ):
                place = _place(("head", field), f"head {field}", value, head)
                yield from _with(sheet, place, head.measured_as, state)
    for key, joint in sheet.joints.items():
        if joint.reuse is not None and joint.reuse.limit is not None and joint.reuse.rule == "free length":
            words = f"{joint.name}, free length"
            place = _place(("joints", key, "reuse", "limit"), words, joint.reuse.limit, joint)
            yield from _with(sheet, place, f"{key}_bolt_length", "limit")


def _place(path: Path, name: str, stated: Stated, part: Sourced) -> Place:
    words = name.replace("_", " ")
    return Place(path, words[:1].upper() + words[1:], stated.value, str(part.cited(stated) or ""))


def _with(sheet: DataSheet, place: Place, key: str, state: str) -> Iterator[tuple[Place, Place]]:
    item = sheet.characteristics.get(key)
    if item is None:
        return
    fields = ("new_range", "required") if state == "new" else ("wear_limit",)
    for field in fields:
        stated = getattr(item, field)
        if stated is not None and _kinds(stated.value) == _kinds(place.printed):
            words = f"{item.name}, {field}"
            yield place, _place(("characteristics", key, field), words, stated, item)
            return


def _kinds(printed: Printed) -> str:
    end = printed.first.low or printed.first.high
    assert end is not None  # a span has at least one end
    return end.kind.family

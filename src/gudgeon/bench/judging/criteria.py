"""Every limit of a characteristic in one list, whatever its shape, each with the words that stand on the screen."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.quantity.written import Amount, Printed, Span
from gudgeon.sheet.faces import Along
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import (
    AnyShape,
    BetweenCylinders,
    BetweenPlaces,
    ByDirection,
    Matched,
    PerLength,
    PerSpan,
    ReplaceAlways,
    Shape,
    SumWith,
    TwoFaces,
    WholeAndPerLength,
    WholeFace,
)

OF_FACES = ("heights", "scanned face")
"""Methods whose readings make one figure of the whole face."""


@dataclass(frozen=True, slots=True)
class Criterion:
    """One limit: its words, what it stands for, its ends in the base unit of what it limits, and its source."""

    shape: str
    words: str
    stands_for: str
    low: float | None
    high: float | None
    source: str
    stated: Shape | None = None
    along: Along | None = None
    text: str = ""

    @property
    def called(self) -> str:
        """How the limit is named in a sentence."""
        if self.shape not in ("plain", "whole face of plain"):
            return f"the limit ({self.words})"
        return "what is required" if self.stands_for == "required" else f"the {self.stands_for}"


def criteria(sheet: DataSheet, key: str) -> tuple[Criterion, ...]:
    """Every limit of a characteristic that decides; the range of a new part decides nothing of a used one."""
    item = sheet.characteristics[key]
    return tuple(one for one in _all(sheet, item) if one.stands_for != "new range")


def as_new(sheet: DataSheet, key: str) -> tuple[Criterion, ...]:
    """The limits of a new part that have a shape; the plain new range stands in the characteristic itself."""
    item = sheet.characteristics[key]
    return tuple(one for one in _all(sheet, item) if one.stands_for == "new range")


def stated_limits(sheet: DataSheet, key: str) -> dict[str, str]:
    """Everything that limits a characteristic, in words: its new range, its wear limit, what is required."""
    item = sheet.characteristics[key]
    shaped = [one for one in _all(sheet, item) if one.shape not in ("plain", "whole face of plain")]
    plain = {"new range": item.new_range, "wear limit": item.wear_limit, "required": item.required}
    said = {}
    for stands_for, figure in plain.items():
        own = [one.words for one in shaped if one.stands_for == stands_for]
        texts = [figure.value.text, *own] if figure is not None else own
        if texts:
            said[stands_for] = "; ".join(texts)
    return said


def _all(sheet: DataSheet, item: Characteristic) -> Iterator[Criterion]:
    if item.required is not None:
        yield _plain(item, item.required, "required")
    elif item.wear_limit is not None:
        yield _plain(item, item.wear_limit, "wear limit")
    for shape in item.limits:
        yield from _of_shape(sheet, item, shape)
    if item.grades:
        source = next((str(one) for one in (item.cited(grade) for grade in item.grades.values()) if one), "")
        names = ", ".join(f"{name} {grade.value.text}" for name, grade in item.grades.items())
        yield Criterion("graded", f"grades: {names}", "required", None, None, source)


def _plain(item: Characteristic, stated: Stated, stands_for: str) -> Criterion:
    base = BASE_UNIT[item.kind]
    shape = "whole face of plain" if item.method in OF_FACES else "plain"
    low, high = stated.value.low_in(base), stated.value.high_in(base)
    return Criterion(
        shape,
        limit_words(stated.value),
        stands_for,
        low,
        high,
        _cited(item, None, stated),
        text=stated.value.text,
    )


def _of_shape(sheet: DataSheet, item: Characteristic, shape: AnyShape) -> Iterator[Criterion]:
    def limit(stated: Stated, words: str, *, name: str = "", along: Along | None = None) -> Criterion:
        base = difference_base(item.kind) if isinstance(shape, BetweenPlaces) else "mm"
        return Criterion(
            name or shape.shape, words, shape.stands_for, *_most(stated, base), _cited(item, shape, stated),
            shape, along, stated.value.text,
        )  # fmt: skip

    match shape:
        case WholeFace():
            yield limit(shape.limit, f"whole face, {_bound(shape.limit)}")
        case PerLength():
            yield limit(shape.limit, f"over any {shape.over.value.text}, {_bound(shape.limit)}")
        case WholeAndPerLength():
            yield limit(shape.total, f"whole face, {_bound(shape.total)}", name="whole face")
            over = f"over any {shape.over.value.text}, {_bound(shape.limit)}"
            yield limit(shape.limit, over, name="per length")
        case ByDirection():
            yield from _by_direction(item, shape)
        case PerSpan():
            span = f" over {shape.span.value.text}" if shape.span is not None else " of the line"
            yield limit(shape.limit, f"{_bound(shape.limit)} for each {shape.per.value.text}{span}")
        case TwoFaces() | SumWith():
            other = sheet.characteristics.get(shape.other)
            name = f"{other.name} ({other.part})" if other is not None else f"`{shape.other}`"
            lead = "the two faces together" if isinstance(shape, TwoFaces) else "together"
            yield limit(shape.limit, f"{lead}, with {name}, {_bound(shape.limit)}")
        case BetweenPlaces():
            where = f"places within each {shape.within} differ" if shape.within else "its places differ"
            yield limit(shape.limit, f"{where} by {_bound(shape.limit)}")
        case BetweenCylinders():
            yield _between_cylinders(item, shape)
        case Matched():
            ends = shape.clearance.value
            words = f"matched, so that every pair has {limit_words(ends)}"
            yield Criterion(
                shape.shape, words, shape.stands_for, ends.low_in("mm"), ends.high_in("mm"),
                _cited(item, shape, shape.clearance), shape, text=ends.text,
            )  # fmt: skip
        case ReplaceAlways():
            source = _cited(item, shape, None)
            yield Criterion(shape.shape, "replace always", shape.stands_for, None, None, source, shape)


def _by_direction(item: Characteristic, shape: ByDirection) -> Iterator[Criterion]:
    said: tuple[tuple[str, Stated | None, Along | None], ...] = (
        ("lengthwise", shape.lengthwise, "lengthwise"),
        ("crosswise", shape.crosswise, "crosswise"),
        ("any line", shape.overall, None),
    )
    for name, stated, along in said:
        if stated is not None:
            yield Criterion(
                shape.shape, f"{name}, {_bound(stated)}", shape.stands_for, *_most(stated, "mm"),
                _cited(item, shape, stated), shape, along, stated.value.text,
            )  # fmt: skip


def _between_cylinders(item: Characteristic, shape: BetweenCylinders) -> Criterion:
    stated: Stated
    if shape.percent_of_highest is not None:
        stated, (words, ends) = shape.percent_of_highest, _of_highest(shape.percent_of_highest.value)
    elif shape.percent_below_mean is not None:
        stated, ends = shape.percent_below_mean, (None, _most(shape.percent_below_mean, "1")[1])
        words = f"no cylinder more than {_number(stated.value)} below the mean"
    else:
        assert shape.limit is not None  # one of the three is stated
        stated, ends = shape.limit, (None, _most(shape.limit, difference_base(item.kind))[1])
        words = f"no cylinder more than {_number(stated.value)} below the highest"
    return Criterion(
        shape.shape,
        words,
        shape.stands_for,
        *ends,
        _cited(item, shape, stated),
        shape,
        text=stated.value.text,
    )


def _of_highest(figure: Printed) -> tuple[str, tuple[float | None, float | None]]:
    """The least share of the highest: as printed, or what is left where the share is how far below it may be.

    A bare figure above one half can only be what a cylinder must reach, one below it only what it may lack.
    """
    share = figure.low_in("1") if figure.low_in("1") is not None else figure.high_in("1")
    assert share is not None  # a figure has at least one end
    lacking = share <= 0.5 if figure.first.single else figure.first.low is None
    if lacking:
        return f"no cylinder more than {_number(figure)} below the highest", (1 - share, None)
    return f"every cylinder at least {_number(figure)} of the highest", (share, None)


def difference_base(kind: str) -> str:
    """The base unit of a difference of two readings of a kind."""
    return BASE_UNIT[difference_kind(kind)]


def difference_kind(kind: str) -> str:
    """The kind of a difference of two readings of a kind."""
    return {"length": "length_difference", "temperature": "temperature_difference"}.get(kind, kind)


def _cited(item: Characteristic, shape: Shape | None, stated: Stated | None) -> str:
    own = (stated.source if stated is not None else None) or (shape.source if shape is not None else None)
    return str(own or item.source or "")


def _most(stated: Stated, base: str) -> tuple[float | None, float | None]:
    """The ends of a deviation: a bare figure is the most that it may be."""
    if stated.value.first.single:
        return None, stated.value.high_in(base)
    return stated.value.low_in(base), stated.value.high_in(base)


def limit_words(figure: Printed) -> str:
    """A figure of the sheet as a limit: `at most 0.05 mm (0.002 in)`."""
    if all(span.low is None for span in figure.spans):
        return f"at most {_number(figure)}"
    if all(span.high is None for span in figure.spans):
        return f"at least {_number(figure)}"
    return figure.text


def _bound(stated: Stated) -> str:
    """The words of a deviation, whose bare figure is the most."""
    return f"at most {_number(stated.value)}" if stated.value.first.single else limit_words(stated.value)


def _number(figure: Printed) -> str:
    """The figure without the word that says on which side it limits."""
    ends = [_end(span) for span in figure.spans]
    if any(end is None for end in ends):
        return figure.text
    first, *rest = (str(end).replace("%", " %") for end in ends)
    return f"{first} ({'; '.join(rest)})" if rest else first


def _end(span: Span) -> Amount | None:
    if span.single or span.high is None:
        return span.low
    return span.high if span.low is None else None

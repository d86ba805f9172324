"""Components of an uncertainty as a person writes them: "scale: 3 µm rectangular; repeats: 1.2 µm dof=9"."""

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from gudgeon.calc.metrology.propagation import Component, Distribution
from gudgeon.calc.metrology.uncertainty_errors import (
    ComponentTwice,
    ComponentUnitsMixed,
    ComponentUnknown,
    ComponentUnreadable,
    CorrelationGivenTwice,
    CorrelationUnreadable,
    NoComponents,
)
from gudgeon.errors import InputError
from gudgeon.quantity.kinds import Kind
from gudgeon.quantity.units import convert, kinds_of
from gudgeon.quantity.written import parse_amount, split_amount

_KEYS = ("dof", "sensitivity", "k", "tag")
_KEY = re.compile(r"\s*\b([A-Za-z]\w*)\s*=\s*")
_NAMED = re.compile(r"^\s*([^:=;]*[^:=;\s\d][^:=;]*?)\s*:\s*(.+)$")
_PLUS_MINUS = re.compile(r"^\s*(?:±|\+/-|\+-)\s*")
_PAIR = re.compile(r"^\s*(.+?)\s*[,&]\s*(.+?)\s*=\s*([-+−]?[\d.]+)\s*$")
_WORDS: Mapping[str, Distribution] = {
    "normal": "normal",
    "rectangular": "rectangular",
    "uniform": "rectangular",
    "triangular": "triangular",
    "u-shaped": "u-shaped",
    "arcsine": "u-shaped",
}
_WORD = re.compile(rf"(?<![\w-])({'|'.join(_WORDS)})(?![\w-])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Written:
    """The components that were read, in one unit; of bare numbers there is no kind, and the unit is 1."""

    components: tuple[Component, ...]
    kind: Kind | None
    unit: str


@dataclass(frozen=True, slots=True)
class _Figure:
    """A number and the unit it was written with, which may be none."""

    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class _Parts:
    """One component taken apart: its figures still have their own units."""

    written: str
    name: str
    figure: _Figure
    distribution: Distribution
    sensitivity: _Figure
    per: str
    dof: float
    factor: float
    tag: str

    @property
    def result_unit(self) -> str:
        """The unit in which it moves the result."""
        return self.sensitivity.unit or self.figure.unit


def read_components(text: str) -> Written:
    """The components of a text, apart by semicolons; all are brought to the unit of the first."""
    pieces = [piece.strip() for piece in re.split(r"[;\n]", text) if piece.strip()]
    if not pieces:
        raise NoComponents
    parts = [_parts(piece, number) for number, piece in enumerate(pieces, start=1)]
    unit = parts[0].result_unit
    kind = _kind_of(unit, parts[0]) if unit else None
    return Written(tuple(_component(one, unit, kind) for one in parts), kind, unit or "1")


def read_correlation(text: str, *, components: Sequence[Component]) -> dict[tuple[str, str], float]:
    """Correlations by pairs of names; a component may also be meant by its number."""
    known = {one.name.lower(): one.name for one in components}
    for number, one in enumerate(components, start=1):
        known.setdefault(str(number), one.name)
    found: dict[tuple[str, str], float] = {}
    for piece in re.split(r"[;\n]", text):
        if not piece.strip():
            continue
        match = _PAIR.match(piece)
        if match is None:
            raise CorrelationUnreadable(piece.strip())
        names = [known.get(match[place].lower()) for place in (1, 2)]
        for place, name in enumerate(names, start=1):
            if name is None:
                raise ComponentUnknown(match[place], [one.name for one in components])
        first, second = cast(tuple[str, str], tuple(names))
        if first == second:
            raise ComponentTwice(first)
        if (first, second) in found or (second, first) in found:
            raise CorrelationGivenTwice(first, second)
        try:
            found[first, second] = parse_amount(match[3], kind="number").to("1")
        except InputError:
            raise CorrelationUnreadable(piece.strip()) from None
    return found


def _parts(piece: str, number: int) -> _Parts:
    if "," in piece:
        raise ComponentUnreadable(piece, "`,` does not part anything here, and a decimal takes a point")
    named = _NAMED.match(piece)
    name, rest = (named[1], named[2]) if named else (str(number), piece)
    head, *others = _KEY.split(rest)
    fields = dict(zip(others[::2], others[1::2], strict=True))
    if len(fields) < len(others) // 2:
        raise ComponentUnreadable(piece, "something is said twice in it")
    for key in fields:
        if key not in _KEYS:
            raise ComponentUnreadable(piece, f"`{key}=` is not known here, only {', '.join(_KEYS)}")
    head, fields, distribution = _distribution(piece, head, fields)
    around = _PLUS_MINUS.match(head)
    figure = _figure(piece, head[around.end() :] if around else head, "its figure")
    factor = _plain_number(piece, fields["k"], "k") if "k" in fields else 1.0
    if around and distribution is None and "k" not in fields:
        distribution = "rectangular"
    if distribution not in (None, "normal") and "k" in fields:
        raise ComponentUnreadable(piece, "k belongs to a normal distribution alone")
    if around and distribution == "normal" and "k" not in fields:
        raise ComponentUnreadable(piece, "± of a normal distribution says nothing without its k")
    sensitivity, per = _sensitivity(piece, fields.get("sensitivity", "1"))
    return _Parts(
        piece, name, figure, distribution or "normal", sensitivity, per,
        _dof(piece, fields.get("dof")), factor, fields.get("tag", "").strip(),
    )  # fmt: skip


def _distribution(
    piece: str, head: str, fields: Mapping[str, str]
) -> tuple[str, dict[str, str], Distribution | None]:
    """The name of the distribution, wherever it stands; what is around it stays."""
    found: list[str] = []

    def without(text: str) -> str:
        found.extend(match[1].lower() for match in _WORD.finditer(text))
        return _WORD.sub(" ", text).strip()

    head, rest = without(head), {key: without(text) for key, text in fields.items()}
    if len(found) > 1:
        raise ComponentUnreadable(piece, "it names two distributions")
    return head, rest, _WORDS[found[0]] if found else None


def _figure(piece: str, text: str, what: str) -> _Figure:
    try:
        value, unit = split_amount(text)
    except InputError as error:
        raise ComponentUnreadable(piece, f"{what} cannot be read ({error.message.rstrip('.')})") from None
    return _Figure(float(value), unit.strip())


def _plain_number(piece: str, text: str, what: str) -> float:
    found = _figure(piece, text, what)
    if found.unit:
        raise ComponentUnreadable(piece, f"{what} is a plain number, not `{text}`")
    return found.value


def _dof(piece: str, text: str | None) -> float:
    if text is None or text.lower() in ("inf", "infinite", "∞"):
        return math.inf
    return _plain_number(piece, text, "dof")


def _sensitivity(piece: str, text: str) -> tuple[_Figure, str]:
    """A plain number, or a figure in units of the result per unit of the component."""
    found = _figure(piece, text, "sensitivity")
    if not found.unit:
        return found, ""
    unit, slash, per = found.unit.rpartition("/")
    if not slash or not unit or not per:
        raise ComponentUnreadable(
            piece, f"sensitivity `{text}` is neither a plain number nor one unit per another"
        )
    return _Figure(found.value, unit), per


def _kind_of(unit: str, one: _Parts) -> Kind:
    """The kind that a unit stands for here: an error of a temperature is a difference."""
    kinds = [kind for kind in kinds_of(unit) if kind.name != "temperature"]
    if not kinds:
        raise ComponentUnreadable(one.written, f"`{unit}` is no known unit")
    return kinds[0]


def _component(one: _Parts, unit: str, kind: Kind | None) -> Component:
    """A component whose figure and sensitivity together come out in the unit of the result."""
    value, sensitivity = one.figure.value, one.sensitivity.value
    if one.per:
        if not one.figure.unit:
            raise ComponentUnitsMixed(one.written, kind.words if kind else "a bare number")
        value = _converted(one, value, one.figure.unit, one.per, _kind_of(one.figure.unit, one))
    if kind is None or not one.result_unit:
        if kind is not None or one.result_unit:
            raise ComponentUnitsMixed(one.written, kind.words if kind else "a bare number")
    elif one.per:
        sensitivity = _converted(one, sensitivity, one.sensitivity.unit, unit, kind)
    else:
        value = _converted(one, value, one.figure.unit, unit, kind)
    return Component(one.name, value, one.distribution, sensitivity, one.dof, one.tag, one.factor)


def _converted(one: _Parts, value: float, frm: str, to: str, kind: Kind) -> float:
    if _kind_of(frm, one).family != kind.family or _kind_of(to, one).family != kind.family:
        raise ComponentUnitsMixed(one.written, kind.words)
    return convert(value, frm=frm, to=to, kind=kind)

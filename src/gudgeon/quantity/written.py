"""Figures as a manual prints them: ranges, tolerances, bounds, and one figure in two units.

What was printed is kept as it was; nothing is guessed. What cannot be read without a guess is refused.
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from gudgeon.quantity.errors import (
    BoundOpen,
    BoundsContradict,
    FigureBlank,
    FigureUnreadable,
    NotSingle,
    RangeDownward,
    ToleranceNegative,
    UnitMissing,
)
from gudgeon.quantity.kinds import Kind
from gudgeon.quantity.kinds import kind as _kind
from gudgeon.quantity.numbers import NUMBER, Number, check_marks, read_number
from gudgeon.quantity.units import Unit, exactly, is_unit, offered, unit


@dataclass(frozen=True, slots=True)
class Amount:
    """One number with its unit, as printed."""

    number: Decimal
    unit: Unit
    kind: Kind
    step: Decimal = Decimal(0)  # one of the last printed digit; zero where a fraction was printed

    @property
    def decimals(self) -> int:
        """Digits printed after the point; of a fraction, as many as show it."""
        exponent = self.number.as_tuple().exponent
        return min(max(0, -exponent), 6 if self.step == 0 else 30) if isinstance(exponent, int) else 0

    def to(self, symbol: str) -> float:
        """The value in another unit of its kind."""
        wanted = unit(symbol, kind=self.kind)
        if wanted is self.unit:
            return float(self.number) + 0.0  # no zero is negative
        return float(exactly(Fraction(self.number), frm=self.unit, to=wanted))

    def half_digit_in(self, symbol: str) -> float:
        """Half of the last printed digit, in another unit: what the printing itself may hide."""
        return float(Fraction(self.step) / 2 * self.unit.factor / unit(symbol, kind=self.kind).factor)

    def __str__(self) -> str:
        gap = "" if self.unit.symbol in ("°", "%") else " "
        symbol = "" if self.unit.symbol == "1" else self.unit.symbol
        return f"{self.number:.{self.decimals}f}{gap}{symbol}".rstrip()


@dataclass(frozen=True, slots=True)
class Span:
    """A figure in one unit: single, a range, or open at one end."""

    text: str
    low: Amount | None
    high: Amount | None
    nominal: Amount | None = None

    @property
    def single(self) -> bool:
        """One value, neither a range nor open."""
        return self.low is not None and self.low == self.high

    @property
    def unit(self) -> Unit:
        """The unit in which it is printed."""
        return self._either.unit

    @property
    def _either(self) -> Amount:
        found = self.low if self.low is not None else self.high
        assert found is not None  # a span has at least one end
        return found

    def low_in(self, symbol: str) -> float | None:
        """The lower end in a unit; None where it is open."""
        return None if self.low is None else self.low.to(symbol)

    def high_in(self, symbol: str) -> float | None:
        """The upper end in a unit; None where it is open."""
        return None if self.high is None else self.high.to(symbol)

    def middle_in(self, symbol: str) -> float:
        """The nominal value, else halfway between the ends."""
        if self.nominal is not None:
            return self.nominal.to(symbol)
        if self.low is None or self.high is None:
            raise BoundOpen(self.text, "middle")
        return self.low.to(symbol) if self.single else (self.low.to(symbol) + self.high.to(symbol)) / 2


@dataclass(frozen=True, slots=True)
class Printed:
    """One figure as printed, in one unit or in several; the first leads."""

    text: str
    spans: tuple[Span, ...]

    @property
    def first(self) -> Span:
        """The figure that leads; the others are the same in another unit."""
        return self.spans[0]

    def low_in(self, symbol: str) -> float | None:
        """The lower end of the leading figure in a unit; None where it is open."""
        return self.first.low_in(symbol)

    def high_in(self, symbol: str) -> float | None:
        """The upper end of the leading figure in a unit; None where it is open."""
        return self.first.high_in(symbol)

    def middle_in(self, symbol: str) -> float:
        """The nominal or middle value of the leading figure."""
        return self.first.middle_in(symbol)

    def in_unit(self, symbol: str) -> float:
        """The value of a figure that must be single."""
        if not self.first.single:
            raise NotSingle(self.text)
        return self.first.middle_in(symbol)

    def __str__(self) -> str:
        return self.text


_MOST = r"not more than|no more than|not over|less than|at most|up to|under|below|maximum|max\.?|<=|≤|<"
_LEAST = r"not less than|no less than|not under|more than|at least|over|above|minimum|min\.?|>=|≥|>"
_AFTER_MOST = r"or less|or under|or below|maximum|max\.?"
_AFTER_LEAST = r"or more|or over|or above|minimum|min\.?"
_BEFORE = re.compile(rf"^(?:(?P<least>{_LEAST})|(?P<most>{_MOST}))(?=[\s\d.+-])\s*:?\s*", re.IGNORECASE)
_AFTER = re.compile(rf"(?<!\d)[\s,]+(?:(?P<least>{_AFTER_LEAST})|(?P<most>{_AFTER_MOST}))$", re.IGNORECASE)
_JOIN = re.compile(
    r"\s*(?:(?P<tolerance>±|\+/-|\+-)|(?P<range>\bto\b|–|\.\.\.?|…|-))\s*(?=[-+.\d])", re.IGNORECASE
)
_DEVIATIONS = (
    re.compile(  # the two deviations behind a size: `+5/-3`, `+0.030/+0.010 mm`, the unit before or behind
        r"^(?P<left>[^\d+]*?)\s*(?P<first>[-+](?:\d+\.?\d*|\.\d+))/(?P<second>[-+](?:\d+\.?\d*|\.\d+))\s*"
        r"(?P<right>[^\d+].*)?$"
    )
)
_FIGURE_NEXT = r"(?=[-+.\d])"
_SPLIT = re.compile(  # brackets, "or", a slash that is no fraction, an equals sign, a comma
    rf"\s*[(\[]\s*|\s*[)\]]\s*|\s+or\s+{_FIGURE_NEXT}|\s+/\s+{_FIGURE_NEXT}|(?<=[^\d\s/+])/{_FIGURE_NEXT}"
    rf"|\s*=\s*|,\s+{_FIGURE_NEXT}"
)
_MINUTES = re.compile(r"^([-+]?)(\d+)\s*(?:°|deg)\s*(\d{1,2})\s*(?:′|'|min)$")
_SECOND_FIGURE = re.compile(r"[\s+.,]\d")
_SINGLE = re.compile(rf"^(?P<number>{NUMBER})\s*(?P<unit>.*)$")
_PLAIN = str.maketrans(
    {"−": "-", "‐": "-", "‑": "-", "—": "–", "\u00a0": " ", "\u202f": " ", "\u2009": " ", "º": "°"}
)


def parse_printed(text: str, *, kind: Kind | str) -> Printed:
    """A figure as a manual prints it, in one unit or in several.

    Example:
        >>> found = parse_printed("40 N·m (29.5 lbf·ft)", kind="torque")
        >>> found.in_unit("N·m"), len(found.spans)
        (40.0, 2)
        >>> parse_printed("less than 0.1 mm (0.004 in)", kind="length_difference").high_in("mm")
        0.1
    """
    of = _kind(kind)
    plain = _plain(text, of)
    bound, rest = _bound(plain)
    parts = [part for part in _SPLIT.split(rest) if part]
    if not parts or not _brackets_close(rest):
        raise FigureUnreadable(text, of.name)
    spans: list[Span] = []
    for part in parts:
        own, figure = _bound(part)
        if own and bound and own != bound:
            raise BoundsContradict(text)
        bound = bound or own
        spans.append(_span(figure, of, bound, default=None))
    return Printed(text=text.strip(), spans=tuple(spans))


def parse_amount(text: str, *, kind: Kind | str, default_unit: str | None = None) -> Amount:
    """One number with its unit; a bare number takes the default unit where one is given.

    Example:
        >>> parse_amount("0.002 in", kind="length").to("mm")
        0.0508
    """
    of = _kind(kind)
    span = _span(_plain(text, of), of, "", default=default_unit)
    if not span.single or span.low is None:
        raise NotSingle(text)
    return span.low


def split_amount(text: str) -> tuple[Decimal, str]:
    """Number and unit of a single figure whose kind is not known yet; the unit may be empty.

    Example:
        >>> split_amount("70 lbf·ft")
        (Decimal('70'), 'lbf·ft')
    """
    of = _kind("number")
    match = _SINGLE.match(_plain(text, of))
    if match is None:
        raise FigureUnreadable(text, of.name)
    return read_number(match["number"]).value, match["unit"]


def _plain(text: str, of: Kind) -> str:
    plain = re.sub(r"/\(([^()\d]*)\)", r"/\1", " ".join(text.translate(_PLAIN).split()))
    if not plain:
        raise FigureBlank(of.name)
    check_marks(plain)
    return plain


def _brackets_close(text: str) -> bool:
    return text.count("(") == text.count(")") <= 3 and text.count("[") == text.count("]") <= 3


def _bound(text: str) -> tuple[str, str]:
    """`most`, `least` or nothing, and the text without those words."""
    before = _BEFORE.match(text)
    rest = text[before.end() :] if before else text
    after = _AFTER.search(rest)
    rest = rest[: after.start()] if after else rest
    found = {match.lastgroup for match in (before, after) if match}
    if len(found) > 1:
        raise BoundsContradict(text)
    return (found.pop() or "" if found else ""), rest


def _span(text: str, of: Kind, bound: str, *, default: str | None) -> Span:
    match = _SINGLE.match(_joined_minutes(text, of))
    if match is None:
        raise FigureUnreadable(text, of.name)
    number, rest = read_number(match["number"]), match["unit"]
    deviations = _DEVIATIONS.match(rest)
    if deviations is not None:
        if bound:
            raise BoundsContradict(text)
        return _deviating(text, number, deviations, of, default)
    if _SECOND_FIGURE.search(rest) and not _JOIN.search(rest):
        raise FigureUnreadable(text, of.name)
    if _whole_unit(rest, of) or not _JOIN.search(rest):
        only = _amount(number, rest, of, text, default)
        return Span(text, None if bound == "most" else only, None if bound == "least" else only)
    if bound:
        raise BoundsContradict(text)
    return _joined(text, number, rest, of, default)


def _joined_minutes(text: str, of: Kind) -> str:
    """Degrees and minutes as one fraction of a degree."""
    found = _MINUTES.match(text) if of.family == "angle" else None
    return f"{found[1] or ''}{int(found[2]) * 60 + int(found[3])}/60 °" if found else text


def _whole_unit(rest: str, of: Kind) -> bool:
    return bool(rest) and is_unit(rest, of=of)


def _unit_or_nothing(rest: str, of: Kind) -> bool:
    return not rest or is_unit(rest, of=of)


def _joined(text: str, number: Number, rest: str, of: Kind, default: str | None) -> Span:
    """A range or a tolerance; the unit may stand once or twice."""
    joins = [found for found in _JOIN.finditer(rest) if _unit_or_nothing(rest[: found.start()], of)]
    for join in joins:
        second = _SINGLE.match(rest[join.end() :])
        if second is None:
            continue
        left, right = rest[: join.start()], second["unit"]
        first = _amount(number, left or right, of, text, default)
        other = _amount(read_number(second["number"]), right or left, of, text, default)
        if join["tolerance"]:
            return _tolerance(text, first, other)
        if first.to(first.unit.symbol) > other.to(first.unit.symbol):
            raise RangeDownward(text, str(first), str(other))
        return Span(text, first, other)
    raise FigureUnreadable(text, of.name) if joins else _unknown(rest, of)


def _unknown(rest: str, of: Kind) -> Exception:
    """The refusal of what stands where the unit was expected."""
    head = _JOIN.split(rest)[0].strip() or rest
    unit(head, kind=of)
    return FigureUnreadable(rest, of.name)


def _tolerance(text: str, middle: Amount, half: Amount) -> Span:
    if half.number <= 0:
        raise ToleranceNegative(text)
    shift = Decimal(str(float(Fraction(half.number) * half.unit.factor / middle.unit.factor)))
    if half.unit is middle.unit:
        shift = half.number
    step = max(middle.step, half.step)
    ends = [
        Amount(value, middle.unit, middle.kind, step)
        for value in (middle.number - shift, middle.number + shift)
    ]
    return Span(text, ends[0], ends[1], middle)


def _deviating(text: str, number: Number, found: re.Match[str], of: Kind, default: str | None) -> Span:
    """A size with two deviations; it stays the middle where it lies between its own ends."""
    left, right = found["left"].strip(), (found["right"] or "").strip()
    size = _amount(number, left or right, of, text, default)
    ends = []
    for said in (found["first"], found["second"]):
        deviation = _amount(read_number(said), right or left, of, text, default)
        shift = Fraction(deviation.number) * deviation.unit.factor / size.unit.factor
        value = size.number + (
            deviation.number if deviation.unit is size.unit else Decimal(str(float(shift)))
        )
        ends.append(Amount(value, size.unit, of, max(size.step, deviation.step)))
    low, high = sorted(ends, key=lambda end: end.number)
    if low.number == high.number:
        raise ToleranceNegative(text)
    return Span(text, low, high, size if low.number <= size.number <= high.number else None)


def _amount(number: Number, symbol: str, of: Kind, text: str, default: str | None) -> Amount:
    bare = not symbol.strip()
    if bare and default is None and of.family not in ("ratio", "number"):
        raise UnitMissing(text, of.name, list(offered(of)[:4]))
    found = unit((default or "1") if bare else symbol, kind=of)
    return Amount(number.value, found, of, number.step)

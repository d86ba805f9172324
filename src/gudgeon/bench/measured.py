"""Readings of the book as intervals in base units, at 20 °C where that can be told, with what is uncertain of them."""

import math
from dataclasses import dataclass
from statistics import stdev

from gudgeon.bench.at_20 import At20, at_20
from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.budget import Component, standard_uncertainty_of
from gudgeon.bench.context import Bench
from gudgeon.bench.gauge_error import gauged
from gudgeon.book.state import ReadingState
from gudgeon.errors import GudgeonError
from gudgeon.quantity.format import both, both_ends, known_between
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import parse_amount
from gudgeon.sheet.inspections import Characteristic, place_names, stretch_names


@dataclass(frozen=True, slots=True)
class End:
    """One end of what is known of a place [base unit], and what its uncertainty is made of."""

    value: float
    components: tuple[Component, ...]

    @property
    def u(self) -> float:
        """Its standard uncertainty."""
        return standard_uncertainty_of(self.components)


@dataclass(frozen=True, slots=True)
class Span:
    """What differs over several places: both its least and its greatest are there, and are no ends of a doubt.

    The least is at most `least`, the greatest at least `greatest`; `least_at` and `greatest_at` say where they are.
    """

    least: End
    greatest: End
    least_at: str
    greatest_at: str


@dataclass(frozen=True, slots=True)
class Measured:
    """What is known of one place: between low and high [base unit], the high one with what `components` make of it.

    The low one is as uncertain, unless it has components of its own: two blades err each by itself. A size is as it
    would be at 20 °C, where that can be told: `at_20` is then its text, and `text` what came off the gauge. `scatter`
    are standard deviation and number of repeats. Readings are added and subtracted with `bench.budget.signed`, which
    knows what they have in common. `made_of` are the entries of what is worked out, `entry` that of what was read.
    Of what differs over several places low is the end of the least, high that of the greatest, and `span` is stated.
    """

    place: str
    low: float
    high: float
    components: tuple[Component, ...]
    u_known: bool
    scatter: tuple[float, int] | None
    condition: str
    text: str
    at_20: str
    as_found: str
    instrument: str
    entry: str
    notes: tuple[str, ...] = ()
    low_components: tuple[Component, ...] | None = None
    made_of: tuple[str, ...] = ()
    span: Span | None = None

    @property
    def at_low(self) -> End:
        """The end that it is at least."""
        return End(self.low, self.components if self.low_components is None else self.low_components)

    @property
    def at_high(self) -> End:
        """The end that it is at most."""
        return End(self.high, self.components)

    @property
    def worse(self) -> End:
        """The less certain end."""
        return max(self.at_high, self.at_low, key=lambda end: end.u)

    @property
    def u(self) -> float:
        """The standard uncertainty of the less certain end."""
        return self.worse.u

    @property
    def entries(self) -> tuple[str, ...]:
        """The entries of the book that it rests on."""
        return self.made_of or ((self.entry,) if self.entry else ())


@dataclass(frozen=True, slots=True)
class Odd:
    """A reading of the book that nothing can be made of; `number` is that of its entry."""

    place: str
    number: int
    why: str


LEAST_DECIMALS_AT_20 = 3
"""A size at 20 °C is shown to the thousandth of a millimeter at least: that is what the temperature moves."""

PRESSURES_SHOWN = ("kPa", "psi")
"""A pressure read in another unit, as in bar, is shown in that one first."""

CANNOT = (GudgeonError, ArithmeticError, ValueError)
"""What an entry that makes no sense by the sheet of today can raise."""


def measured(bench: Bench, key: str) -> dict[str, Measured]:
    """Every place of a characteristic that has a reading: as left where there is one, else as found.

    What nothing can be made of is left out, and told by `odd`: one entry never takes the others with it.
    """
    return measured_and_odd(bench, key)[0]


def odd(bench: Bench, key: str) -> dict[str, Odd]:
    """The readings of a characteristic that nothing can be made of, and why, by place."""
    return measured_and_odd(bench, key)[1]


def measured_and_odd(
    bench: Bench, key: str, *, known: dict[str, dict[str, Measured]] | None = None
) -> tuple[dict[str, Measured], dict[str, Odd]]:
    """Both of them, each reading looked at once; `known` is what was looked at before, and is added to."""
    looked_at = {} if known is None else known
    item = bench.sheet.characteristics[key]
    latest = _latest(bench, key, item)
    found: dict[str, Measured] = {}
    strange: dict[str, Odd] = {}
    for (name, place, _), reading in bench.state.readings.items():
        if name == key and (item.computed or place not in latest):
            why = "the sheet works it out" if item.computed else f"the sheet has no place “{place}” any more"
            strange[place] = Odd(place, reading.order, why)
    if item.computed:
        from gudgeon.bench.worked_out import worked_out

        for name in item.of:
            if name not in looked_at:
                looked_at[name] = measured_and_odd(bench, name, known=looked_at)[0]
        return worked_out(item, [looked_at[name] for name in item.of]), strange
    for place, (reading, before) in latest.items():
        try:
            text = reading_text(before, item.kind) if before is not None else ""
            found[place] = _one(bench, reading, item, as_found=text)
        except CANNOT as error:
            strange[place] = Odd(place, reading.order, str(error))
    looked_at[key] = found
    return found, strange


def measured_in(bench: Bench, key: str, *, condition: str) -> dict[str, Measured]:
    """Every place of a characteristic that was read in one condition; what is worked out has no readings of its own."""
    item = bench.sheet.characteristics[key]
    found: dict[str, Measured] = {}
    for place in () if item.computed else (*place_names(item), *stretch_names(item)):
        reading = bench.state.readings.get((key, place, condition))
        if reading is not None:
            try:
                found[place] = _one(bench, reading, item, as_found="")
            except CANNOT:
                continue
    return found


def _latest(
    bench: Bench, key: str, item: Characteristic
) -> dict[str, tuple[ReadingState, ReadingState | None]]:
    """The reading that counts of each place, and the one as found where that is another."""
    found: dict[str, tuple[ReadingState, ReadingState | None]] = {}
    for place in () if item.computed else (*place_names(item), *stretch_names(item)):
        before = bench.state.readings.get((key, place, "as found"))
        after = bench.state.readings.get((key, place, "as left"))
        reading = after or before
        if reading is not None:
            found[place] = (reading, before if after is not None else None)
    return found


def _one(bench: Bench, reading: ReadingState, item: Characteristic, *, as_found: str) -> Measured:
    low, high = interval(reading, item.kind)
    if reading.value is None and reading.low is None and _may_be_below_zero(item):
        low = -math.inf
    by_gauge = gauged(bench.sheet, bench.kit, reading, ends=(low, high))
    warm = at_20(bench.kit, item, reading, length_mm=low if math.isinf(high) else high)
    spread = scatter(reading, item.kind)
    besides = (*_of_scatter(spread), *warm.components)
    own = by_gauge.low_components
    return Measured(
        reading.place, low * warm.factor, high * warm.factor, (*by_gauge.components, *besides), by_gauge.known, spread,
        reading.condition, reading_text(reading, item.kind), _text_at_20(reading, item.kind, warm), as_found,
        reading.instrument, reading.entry, (*by_gauge.notes, *warm.notes), None if own is None else (*own, *besides),
    )  # fmt: skip


def scatter(reading: ReadingState, kind: str) -> tuple[float, int] | None:
    """Standard deviation of the repeats in the base unit, and how many there are."""
    if len(reading.repeats) < 2:
        return None
    values = [in_base(one, unit=reading.unit, kind=kind) for one in reading.repeats]
    return stdev(values), len(values)


def _of_scatter(spread: tuple[float, int] | None) -> tuple[Component, ...]:
    if spread is None:
        return ()
    s, count = spread
    return (Component(f"scatter of {count} repeats", s / math.sqrt(count), dof=count - 1, cause="scatter"),)


def _text_at_20(reading: ReadingState, kind: str, warm: At20) -> str:
    if not warm.corrected:
        return ""
    low, high = (end * warm.factor for end in interval(reading, kind))
    decimals = (
        max(decimals_of(reading, kind), LEAST_DECIMALS_AT_20) if reading.unit == BASE_UNIT[kind] else None
    )
    return known_between(low, high=high, kind=kind, decimals=decimals)


def decimals_of(reading: ReadingState, kind: str) -> int:
    """How many decimals a reading was read with, of repeats those of each."""
    said = reading.repeats or tuple(filter(None, (reading.value, reading.low, reading.high)))
    return max(parse_amount(f"{one} {reading.unit}", kind=kind).decimals for one in said)


def _may_be_below_zero(item: Characteristic) -> bool:
    base = BASE_UNIT[item.kind]
    figures = [one.value for one in (item.new_range, item.wear_limit, item.required) if one is not None]
    ends = [end for figure in figures for end in (figure.low_in(base), figure.high_in(base))]
    return any(end is not None and end < 0 for end in ends)


def middle(reading: ReadingState, kind: str) -> float | None:
    """The middle of a reading; nothing where an end of it is open, or nothing can be made of it."""
    if reading.value is None and (reading.low is None or reading.high is None):
        return None
    try:
        low, high = interval(reading, kind)
    except CANNOT:
        return None
    return (low + high) / 2 if math.isfinite(low + high) else None


def interval(reading: ReadingState, kind: str) -> tuple[float, float]:
    """Both ends of a reading in the base unit of its kind; a plain value is its own two ends."""
    if reading.value is not None:
        value = in_base(reading.value, unit=reading.unit, kind=kind)
        return value, value
    high = math.inf if reading.high is None else in_base(reading.high, unit=reading.unit, kind=kind)
    return in_base(reading.low or "0", unit=reading.unit, kind=kind), high


def in_base(number: str, *, unit: str, kind: str) -> float:
    """A number of a reading in the base unit of its kind."""
    return convert(float(number), frm=unit, to=BASE_UNIT[kind], kind=kind)


def reading_text(reading: ReadingState, kind: str) -> str:
    """A reading in both systems of units, as it came off the gauge."""
    base = BASE_UNIT[kind]

    def shown(number: str) -> str:
        amount = parse_amount(f"{number} {reading.unit}", kind=kind)
        told = both(amount.to(base), kind=kind, decimals=amount.decimals if reading.unit == base else None)
        if kind != "pressure_gauge" or reading.unit in PRESSURES_SHOWN:
            return told
        return f"{number} {reading.unit} ({told.replace(' (', ', ')}"

    if reading.value is not None:
        return shown(reading.value)
    if reading.high is None:
        return f"over {shown(reading.low or '0')}"
    if reading.low is None or float(reading.low) == 0:
        return f"under {shown(reading.high)}"
    low, high = (parse_amount(f"{end} {reading.unit}", kind=kind) for end in (reading.low, reading.high))
    decimals = max(low.decimals, high.decimals) if reading.unit == base else None
    return both_ends(low.to(base), high=high.to(base), kind=kind, decimals=decimals)

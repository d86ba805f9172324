"""What a limit says of one place or of several together, and what it takes to say it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from gudgeon.bench.budget import FACTOR
from gudgeon.bench.context import Bench
from gudgeon.bench.judging.criteria import Criterion, difference_kind
from gudgeon.bench.judging.decision import Terms, Value, decide, inside_as_read
from gudgeon.bench.judging.ways import Doubt, ways_out
from gudgeon.bench.measured import Measured
from gudgeon.quantity.format import both, known_between
from gudgeon.sheet.faces import Face
from gudgeon.sheet.inspections import Characteristic, place_names

NOT_MEASURED = "not measured"
NO_READING = "no reading in the book"


@dataclass(frozen=True, slots=True)
class Case:
    """One limit of one characteristic, and the readings it is judged with."""

    bench: Bench
    key: str
    item: Characteristic
    criterion: Criterion
    readings: Mapping[str, Measured]

    @property
    def face(self) -> Face | None:
        """The face that the lines of the characteristic lie on."""
        return self.bench.sheet.faces.get(self.item.face or "")

    @property
    def as_read(self) -> bool:
        """Whether the sheet says that the reading alone decides."""
        return self.item.accept == "as read"

    @property
    def places(self) -> tuple[str, ...]:
        """Where it is read, by the sheet; of what is worked out, where there is a value."""
        return tuple(self.readings) if self.item.computed else place_names(self.item)

    def lacking(self) -> list[str]:
        """The places that have no reading."""
        return [place for place in self.places if place not in self.readings]


@dataclass(frozen=True, slots=True)
class Finding:
    """One row of the inspection sheet, before it is words: what was judged, the verdict, and why.

    `of` is the reading where it is one reading that is judged; `covers` are the places that go into it. `missing`
    says which reading is wanted where it cannot be judged.
    """

    place: str
    verdict: str
    reason: str
    shown: str = ""
    value: Value | None = None
    of: Measured | None = None
    covers: tuple[str, ...] = ()
    missing: str = ""
    ways_out: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    readings: tuple[Measured, ...] = field(default=(), repr=False)
    percent: bool = False


def lacks(
    case: Case, missing: str, *, place: str = "", covers: Iterable[str] = (), shown: str = ""
) -> Finding:
    """It cannot be judged with what was read, and this is what is wanted."""
    way = f"gudgeon record reading {case.key}" if not case.item.computed else ""
    covered = tuple(covers)
    return Finding(
        place, NOT_MEASURED, missing, shown, covers=covered, missing=missing, ways_out=(way,) if way else (),
        readings=tuple(case.readings[one] for one in covered if one in case.readings),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Judged:
    """What is to be judged: the place or what else it is called, the value, and the readings it is made of."""

    place: str
    value: Value
    terms: Terms
    shown: str = ""
    of: Measured | None = None
    notes: Sequence[str] = ()
    percent: bool = False

    @property
    def covers(self) -> tuple[str, ...]:
        """The places that go into it."""
        return tuple(dict.fromkeys(one.place for _, one in self.terms))


def judge_by(case: Case, made: Judged, *, low: float | None, high: float | None) -> Finding:
    """The verdict of a value by the ends of a limit, its reason, and every way out of a doubt."""
    value, criterion = made.value, case.criterion
    found = decide(value, low=low, high=high, as_read=case.as_read)
    ways: tuple[str, ...] = ()
    if found.verdict != "in doubt":
        reason = f"{found.verdict} {criterion.called}"
        if found.verdict == "outside" and value.extremes:
            reason += f": {_named_extremes(case, value, low=low, high=high, verdict='outside')}"
        strict = decide(value, low=low, high=high)
        if case.as_read and strict.verdict != found.verdict:
            reason += f" as read, as the sheet wants it ({case.item.accept_why or 'no reason given'})"
    else:
        reason = _doubt_words(value, criterion.called, low, high, chance=found.probability_inside)
        if value.extremes:
            reason = f"{_named_extremes(case, value, low=low, high=high, verdict='in doubt')}: {reason}"
        doubt = Doubt(
            value, tuple(made.terms), low, high, difference_kind(case.item.kind), percent=made.percent
        )
        ways = tuple(ways_out(case.bench, case.key, doubt))
    return Finding(
        made.place, found.verdict, reason, made.shown, value, made.of, made.covers, "", ways, tuple(made.notes),
        low, high, tuple(one for _, one in made.terms), made.percent,
    )  # fmt: skip


def _named_extremes(case: Case, value: Value, *, low: float | None, high: float | None, verdict: str) -> str:
    """Which of its least and its greatest the verdict is of, and where that is."""
    found = [
        one
        for one in value.extremes
        if decide(one.value, low=low, high=high, as_read=case.as_read).verdict == verdict
    ]
    return " and ".join(f"{shown_value(one.value, case.item.kind)} {one.where}" for one in found)


def _doubt_words(value: Value, called: str, low: float | None, high: float | None, *, chance: float) -> str:
    if not value.known and inside_as_read(value, low=low, high=high):
        return f"inside {called} as read, but how far the gauge may be off is not known"
    if value.extremes:
        if not any(one.value.step for one in value.extremes):
            return f"the chance of being inside is {100 * chance:.0f} %: the gauges cannot tell"
        return "the limit lies too near what was read there for these gauges"
    if not value.step:
        return f"the chance of being inside is {100 * chance:.0f} %: the gauge cannot tell"
    if value.high == float("inf"):
        return "only what enters was read: how much more would enter is not known"
    if value.low == float("-inf"):
        return "only what does not enter was read: how much less it is, is not known"
    ends = [inside_as_read(Value(end, end, 0.0, True), low=low, high=high) for end in (value.low, value.high)]
    if ends[0] != ends[1]:
        return "the limit lies between the two ends of what was read"
    return "an end of what was read lies too near the limit for this gauge"


def shown_value(value: Value, kind: str) -> str:
    """A value that was worked out, in both systems of units."""
    return known_between(value.low, high=value.high, kind=difference_kind(kind))


def plus_minus(u: float, *, kind: str) -> str:
    """U, twice the standard uncertainty, in both systems of units: `± 0.004 mm (0.0002 in)`."""
    return f"± {both(FACTOR * u, kind=kind, decimals=3 if kind == 'length_difference' else None)}"


MOST_NAMED = 3


def named(places: Sequence[str], *, more: bool = False) -> str:
    """Places in a sentence; of many, how many, and whether they are more than others."""
    said = [place for place in places if place]
    return f"{len(said)} {'more ' if more else ''}places" if len(said) > MOST_NAMED else "; ".join(said)

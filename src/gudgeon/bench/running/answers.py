"""The parts of the answer to “Does it run right?”."""

from dataclasses import dataclass

from gudgeon.bench.answer import Heading


@dataclass(frozen=True, slots=True)
class Missing:
    """What is not known, what therefore cannot be said, where the sheet would state it, and what to do.

    Where it is stated and cannot be, `wrong` says why.
    """

    what: str
    therefore: str
    path: str
    line: int | None
    do: str
    wrong: str = ""

    def __str__(self) -> str:
        where = f" (line {self.line} of the data sheet)" if self.line is not None else ""
        act = "Look at" if self.wrong else "Write"
        place = f" {act} {self.path}{where}." if self.path else ""
        why = f" {self.wrong}" if self.wrong else ""
        return f"{self.what}: {self.therefore}.{why}{place}" + (f" {self.do}" if self.do else "")


@dataclass(frozen=True, slots=True)
class Advice:
    """What readings say, in words, and what is done next."""

    words: str
    do: str


@dataclass(frozen=True, slots=True)
class Air:
    """The air that the engine breathes here."""

    altitude: str
    pressure: str
    pressure_kpa: float
    density_kg_per_m3: float
    known: bool
    words: str


@dataclass(frozen=True, slots=True)
class Expected:
    """The band of cranking pressure of an engine in order, and what it was worked out from."""

    text: str
    low_kpa: float
    high_kpa: float
    ratio: str
    ratio_from: str
    dynamic_ratio: str
    closing: str
    source: str


@dataclass(frozen=True, slots=True)
class PrintedLimit:
    """A pressure as printed, and what it is in the air here by either rule; empty where the altitude is not known."""

    what: str
    printed: str
    by_pressure: str
    by_density: str
    source: str


@dataclass(frozen=True, slots=True)
class CylinderLine:
    """One cylinder: dry and wet, its share of the highest, how it stands to what is expected and to the limits."""

    place: str
    dry: str
    wet: str
    rise: str
    share: str
    expected: str
    verdict: str
    why: str


@dataclass(frozen=True, slots=True)
class BalanceLine:
    """One rule between cylinders: of the sheet, or of the trade."""

    rule: str
    verdict: str
    found: str
    source: str


@dataclass(frozen=True, slots=True)
class Compression:
    """Cranking pressure: expected, limited, measured, compared."""

    expected: Expected | None
    limits: tuple[PrintedLimit, ...]
    how: str
    cylinders: tuple[CylinderLine, ...]
    balance: tuple[BalanceLine, ...]
    says: tuple[Advice, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LeakLine:
    """One cylinder under air: what is lost, through how large a hole, and what the other tester would show."""

    place: str
    reading: str
    lost: str
    hole: str
    on_other: str
    verdict: str


@dataclass(frozen=True, slots=True)
class HeardLine:
    """Where the air is heard, what it means, what is done next."""

    where: str
    means: str
    do: str


@dataclass(frozen=True, slots=True)
class LeakDown:
    """The leak-down test: with which orifice, what was found, where to listen."""

    orifice: str
    supply: str
    other_orifice: str
    lines: tuple[LeakLine, ...]
    heard: tuple[HeardLine, ...]
    words: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OilLine:
    """Oil pressure at one speed against the least of the sheet."""

    at: str
    least: str
    measured: str
    verdict: str
    source: str


@dataclass(frozen=True, slots=True)
class Oil:
    """Oil pressure, and when to stop."""

    lines: tuple[OilLine, ...]
    stop: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CoolantMix:
    """What to pour in, where it freezes, how it is bled and proved tight."""

    glycol: str
    guards_to: str
    share: str
    capacity: str
    left_in: str
    drain: str
    concentrate: str
    water: str
    half_and_half: str
    bleed: tuple[str, ...]
    cap_test: str
    source: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LaterLine:
    """What comes due after the start: a joint tightened again, a recall, a second look."""

    what: str
    when: str
    state: str
    basis: str
    do: str


@dataclass(frozen=True, slots=True)
class Running:
    """The answer to “Does it run right?”."""

    heading: Heading
    air: Air
    compression: Compression
    leak_down: LeakDown
    oil: Oil
    coolant: CoolantMix | None
    again: tuple[LaterLine, ...]
    later: tuple[LaterLine, ...]
    missing: tuple[Missing, ...]
    cautions: tuple[str, ...]

"""What goes into “What does the cut do?”: each figure with its uncertainty and where it comes from.

`Given` is one figure: a `Known` (value, causes of its uncertainty) in millimeters, square millimeters, cubic
centimeters or degrees as its name says; its text in both systems; its source in words; and, of a figure of the sheet,
its path and line. Its `state` says of which head it speaks:

    "new"       a head as it left the maker: what came off before and what comes off now are both to be counted
    "as found"  the head of this job before the cut: what comes off now is to be counted
    "as left"   the head after the cut of this job: nothing is to be counted again
    ""          nothing of the head: a bore, a gasket, a limit

`Inputs` holds all of them; what is not known is None there and stands in `missing`, with what it would take.
`inputs.gather(bench)` makes it.
"""

from dataclasses import dataclass
from typing import Literal

from gudgeon.bench.cut.known import Known

State = Literal["new", "as found", "as left", ""]


@dataclass(frozen=True, slots=True)
class Given:
    """One figure that goes in, and where it comes from."""

    name: str
    known: Known
    text: str
    source: str
    state: State = ""
    path: str = ""
    line: int | None = None
    unit: str = "mm"

    @property
    def value(self) -> float:
        """Its middle."""
        return self.known.value


@dataclass(frozen=True, slots=True)
class Limit:
    """A figure that must not be passed; it is taken as exact."""

    name: str
    value: float
    text: str
    source: str
    path: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Missing:
    """A figure that is not known: its name, where the sheet would state it, and what to do."""

    name: str
    path: str
    do: str
    line: int | None = None

    def __str__(self) -> str:
        where = f"line {self.line} of the data sheet" if self.line is not None else ""
        return f"{self.name} ({', '.join(part for part in (self.path, where, self.do) if part)})"


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Figures of the sheet, or of sheet and book, that cannot both be true."""

    path: str
    line: int | None
    words: str

    def __str__(self) -> str:
        where = f", line {self.line} of the data sheet" if self.line is not None else ""
        return f"{self.path}{where}: {self.words}"


@dataclass(frozen=True, slots=True)
class Heights:
    """The height of the head in one condition: the mean of its places, and its least place [mm]."""

    mean: Given
    least: Given
    least_at: str
    by_place: tuple[tuple[str, Given], ...]


@dataclass(frozen=True, slots=True)
class Deviation:
    """How far the face is off flat as found [mm]: what goes in, and between which ends it is known to lie.

    `at_least` of a face whose greatest deviation may be more than was read: the thickest blade entered.
    """

    given: Given
    low: float
    high: float
    at_least: bool
    where: str


@dataclass(frozen=True, slots=True)
class GasketGiven:
    """One head gasket that can be had.

    `low` and `high` are the cuts [mm], `least_piston` and `most_piston` the piston heights [mm] that it is meant for,
    None where nothing is stated.
    """

    name: str
    mark: str
    thickness: Given
    low: float | None
    high: float | None
    for_cut: str
    least_piston: float | None
    most_piston: float | None
    for_piston_height: str
    source: str

    @property
    def called(self) -> str:
        """`repair (three notches), 1.10 mm (0.0433 in)`."""
        mark = f" ({self.mark})" if self.mark else ""
        return f"{self.name}{mark}, {self.thickness.text}"


@dataclass(frozen=True, slots=True)
class ValvesGiven:
    """The intake or the exhaust valves [mm, °]."""

    which: Literal["intake", "exhaust"]
    margin: Given | None
    least_margin: Limit | None
    angle: Given | None
    opens: Given | None
    closes: Given | None
    lift: Given | None
    at_lift: Given | None = None


@dataclass(frozen=True, slots=True)
class BoltGiven:
    """The head bolts of one family in blind holes [mm]."""

    name: str
    path: str
    length: Given | None
    grip: Given | None
    hole_depth: Given | None
    least_below: Limit


@dataclass(frozen=True, slots=True)
class LifterGiven:
    """Lifters or clearances of an engine whose camshaft stays in the block while its head comes down [mm]."""

    adjustment: str
    preload: Given | None
    most_preload: Limit | None
    rocker_ratio: Given | None


@dataclass(frozen=True, slots=True)
class HeadGiven:
    """The head and its face [mm]. Cuts are counted from `zero`, in words: the head as found, else as it is now.

    `made` is the cut of this job as the heights in the book show it, `before` what had come off earlier.
    """

    zero: str
    found: Heights | None
    left: Heights | None
    made: Given | None
    before: Given | None
    new_height: Given | None
    least_height: Limit | None
    most_off: Limit | None
    flatness: Deviation | None
    pits: Given | None

    @property
    def base(self) -> Heights | None:
        """The heights at a cut of nothing."""
        return self.found or self.left

    @property
    def limited(self) -> bool:
        """Whether the sheet says how much the head itself may lose; the other limits of a cut do not stand for that."""
        return self.least_height is not None or self.most_off is not None


@dataclass(frozen=True, slots=True)
class CylinderGiven:
    """One cylinder, with what makes the ratio and the squish [mm, mm², cm³]."""

    bore: Given | None = None
    stroke: Given | None = None
    rod_length: Given | None = None
    chamber_volume: Given | None = None
    mouth_area: Given | None = None
    crown_volume: Given | None = None
    piston_height: Given | None = None
    gasket_bore: Given | None = None
    gasket_thickness: Given | None = None
    gaskets: tuple[GasketGiven, ...] = ()
    squish_recess: Given | None = None
    least_squish: Limit | None = None
    most_ratio: Limit | None = None
    stated_ratio: Given | None = None


@dataclass(frozen=True, slots=True)
class Inputs:
    """Everything that goes in; `missing` has what is looked for and not known, by the path of its field."""

    head: HeadGiven
    cylinder: CylinderGiven
    bolts: tuple[BoltGiven, ...]
    valves: tuple[ValvesGiven, ...]
    lifters: LifterGiven | None
    missing: tuple[Missing, ...] = ()
    contradictions: tuple[Contradiction, ...] = ()
    notes: tuple[str, ...] = ()

    def lacking(self, *paths: str) -> tuple[Missing, ...]:
        """What is missing of these fields, each once."""
        return tuple(one for one in self.missing if one.path in paths)

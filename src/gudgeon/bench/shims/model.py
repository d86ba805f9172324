"""The answer about the shims, as terminal, page and paper show it."""

from dataclasses import dataclass

from gudgeon.bench.answer import Heading


@dataclass(frozen=True, slots=True)
class ValveLine:
    """One valve: what was found, what is fitted and where that comes from, what results."""

    side: str
    place: str
    found: str
    shim: str
    wanted: str
    now: str
    exact: str
    fitted: str
    comes_from: str
    moved: bool
    result: str
    verdict: str
    why: str
    fitted_mm: float
    result_mm: tuple[float, float]


@dataclass(frozen=True, slots=True)
class ToBuy:
    """A size on the shopping list, how many of it, what one and all of them cost."""

    size: str
    count: int
    each: str
    together: str
    goes_to: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StepLine:
    """One move of one shim."""

    number: int
    words: str
    shim: str
    comes_from: str
    goes_to: str


@dataclass(frozen=True, slots=True)
class WorkRun:
    """Moves that belong together: a chain, or a closed ring that is opened with a card."""

    title: str
    ring: bool
    steps: tuple[StepLine, ...]


@dataclass(frozen=True, slots=True)
class StockLine:
    """A size in stock: how many lie there now, how many when all is done."""

    size: str
    now: int
    after: int


@dataclass(frozen=True, slots=True)
class NeverLine:
    """A valve that no shim at all brings inside, with the nearest one and what that would leave.

    `hint` says what finer reading would settle it, and what it gets where the nearest goes elsewhere.
    """

    valve: str
    words: str
    nearest: str
    result: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class ScrewLine:
    """A valve that is set by a screw: found, wanted, and by how much the clearance must change."""

    side: str
    place: str
    found: str
    wanted: str
    now: str
    change: str
    change_mm: float


@dataclass(frozen=True, slots=True)
class NotSaid:
    """What is missing, and what therefore is not said."""

    missing: str
    therefore: str


@dataclass(frozen=True, slots=True)
class ShimAnswer:
    """The answer about the shims, or about what the engine has instead of them.

    `aims` is what the choice comes to, in the order in which it was sought; `proof` says how sure it is.
    `measure_again` says which readings are older than work that moves them.
    """

    heading: Heading
    adjustment: str
    said: str
    valves: tuple[ValveLine, ...] = ()
    work: tuple[WorkRun, ...] = ()
    shopping: tuple[ToBuy, ...] = ()
    money: str = ""
    stock: tuple[StockLine, ...] = ()
    never: tuple[NeverLine, ...] = ()
    screws: tuple[ScrewLine, ...] = ()
    aims: tuple[tuple[str, str], ...] = ()
    proof: str = ""
    missing: tuple[NotSaid, ...] = ()
    measure_again: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    taken: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()

    @property
    def settled(self) -> bool:
        """Whether every valve was answered for and comes out inside."""
        inside = all(one.verdict == "inside" for one in self.valves)
        return inside and not self.missing and bool(self.valves) and not self.screws

"""The least cut that cleans up, the most that may come off, and which limit binds."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from gudgeon.bench.budget import FACTOR
from gudgeon.bench.cut.given import BoltGiven, Inputs
from gudgeon.bench.cut.known import Known, total
from gudgeon.bench.cut.laws import Answer, Laws, NotWorkedOut
from gudgeon.bench.cut.words import bare
from gudgeon.bench.lately import Lately
from gudgeon.sources.cutting import furthest

FURTHEST_MM = furthest().value
"""Nobody takes more off a head; a limit that is not met up to there never is."""
HEAD_NOT_LIMITED = "how much the head may lose: missing: head.least_height or head.most_off"
_HALVINGS = 50


@dataclass(frozen=True, slots=True)
class Bound:
    """One limit, and the cut at which it is met: at the middle of all figures, and surely, with k = 2.

    None means that any cut keeps it. `passed` says that it is passed, or surely kept no more, without any cut.
    """

    what: str
    limit: str
    source: str
    middle_mm: float | None
    surely_mm: float | None
    passed: bool
    basis: str = ""


@dataclass(frozen=True, slots=True)
class Least:
    """The least cut that cleans the face up [mm]: at the middle, and surely."""

    known: Known
    at_least: bool
    words: str
    source: str

    @property
    def middle_mm(self) -> float:
        """What the readings themselves say."""
        return max(0.0, self.known.value)

    @property
    def surely_mm(self) -> float:
        """With what is uncertain of them."""
        return max(0.0, self.known.most)


@dataclass(frozen=True, slots=True)
class Most:
    """The most that may come off under one gasket, every limit with its own cut, and what cannot be said."""

    bounds: tuple[Bound, ...]
    not_worked_out: tuple[NotWorkedOut, ...]

    @property
    def binding(self) -> Bound | None:
        """The limit that surely leaves the least; None where no limit is known, or none is ever met."""
        return min((one for one in self.bounds if one.surely_mm is not None), key=_surely, default=None)

    @property
    def binding_at_middle(self) -> Bound | None:
        """The limit that leaves the least by the middle of all figures."""
        return min((one for one in self.bounds if one.middle_mm is not None), key=_middle, default=None)

    @property
    def surely_mm(self) -> float | None:
        """So much may surely come off."""
        return self.binding.surely_mm if self.binding is not None else None

    @property
    def middle_mm(self) -> float | None:
        """So much may come off by the middle of all figures."""
        return self.binding_at_middle.middle_mm if self.binding_at_middle is not None else None


def _surely(one: Bound) -> float:
    assert one.surely_mm is not None
    return one.surely_mm


def _middle(one: Bound) -> float:
    assert one.middle_mm is not None
    return one.middle_mm


def least(inputs: Inputs) -> Least | None:
    """The least cut that cleans up: how far the face is off flat, and the deepest pit below it."""
    found, pits = inputs.head.flatness, inputs.head.pits
    if found is None:
        return None
    known, source = found.given.known, found.given.source
    words = f"off flat {found.given.text}"
    if pits is not None:
        known = total([(1.0, known), (1.0, pits.known)])
        words, source = f"{words}, pits {pits.text}", f"{source}; {pits.source}"
    return Least(known, found.at_least, words, source)


def most(laws: Laws) -> Most:
    """Every limit of the sheet with the cut at which it is met; of the same figures it is worked out once."""
    return _MOST.of(laws, lambda: _most(laws))


_MOST = Lately[Laws, Most]()


def _most(laws: Laws) -> Most:
    bounds: list[Bound] = []
    lacking: list[NotWorkedOut] = []
    for what, limit, source, slack, basis in _slacks(laws):
        found = _met(slack)
        if isinstance(found, NotWorkedOut):
            lacking.append(found)
            continue
        (middle, _), (surely, passed) = found
        bounds.append(Bound(what, limit, source, middle, surely, passed, basis))
    return Most(tuple(bounds), tuple(lacking))


Slack = Callable[[Known], Answer]
Limited = tuple[str, str, str, Slack, str]


def _slacks(laws: Laws) -> Iterator[Limited]:
    """What is left to each limit, as a law of the cut: plus is inside."""
    head, cylinder = laws.inputs.head, laws.inputs.cylinder
    if head.least_height is not None:
        one = head.least_height
        yield "height", f"at least {bare(one.text)}", one.source, _above(laws.least_height, one.value), ""
    if head.most_off is not None:
        one = head.most_off
        yield (
            "most off in all", f"at most {bare(one.text)} in all", one.source, _below(laws.in_all, one.value), "",
        )  # fmt: skip
    if cylinder.most_ratio is not None:
        one = cylinder.most_ratio
        yield "compression ratio", f"at most {bare(one.text)}", one.source, _below(laws.ratio, one.value), ""
    if cylinder.least_squish is not None:
        one = cylinder.least_squish
        yield "squish", f"at least {bare(one.text)}", one.source, _above(laws.squish, one.value), ""
    yield from _gear(laws)
    gasket = laws.gasket
    if gasket is not None and gasket.high is not None:
        text = f"the gasket {gasket.name} is meant for {_upto(gasket.for_cut)}"
        yield "gasket", text, gasket.source, _below(laws.in_all, gasket.high), ""


def _gear(laws: Laws) -> Iterator[Limited]:
    for valves in laws.inputs.valves:
        if valves.least_margin is not None:
            one = valves.least_margin
            slack = _above(partial(laws.margin, valves), one.value)
            yield (
                f"{valves.which} valve to piston", f"at least {bare(one.text)}", one.source, slack,
                "" if laws.turned_counts(valves) else "without what the turned camshaft adds",
            )  # fmt: skip
    for bolt in laws.inputs.bolts:
        one = bolt.least_below
        slack = _above(partial(laws.free_below, bolt), one.value)
        yield bolt_words(laws.inputs, bolt), f"at least {bare(one.text)}", one.source, slack, ""
    lifters = laws.inputs.lifters
    if lifters is not None and lifters.most_preload is not None:
        one = lifters.most_preload
        yield (
            "preload of the lifters",
            f"at most {bare(one.text)}",
            one.source,
            _below(laws.preload, one.value),
            "",
        )


def bolt_words(inputs: Inputs, bolt: BoltGiven) -> str:
    """What stays free below the bolts; of several families, which."""
    return "free below the head bolts" if len(inputs.bolts) == 1 else f"free below the bolts, {bolt.name}"


def _above(law: Slack, limit: float) -> Slack:
    return lambda cut: _less(law(cut), limit, 1.0)


def _below(law: Slack, limit: float) -> Slack:
    return lambda cut: _less(law(cut), limit, -1.0)


def _less(found: Answer, limit: float, sign: float) -> Answer:
    if isinstance(found, NotWorkedOut):
        return found
    return Known(sign * (found.value - limit), found.components, found.certain)


def _met(slack: Slack) -> tuple[tuple[float | None, bool], tuple[float | None, bool]] | NotWorkedOut:
    """The cut at which a slack is used up: by its middle, and by its middle less U."""
    first = slack(Known(0.0))
    if isinstance(first, NotWorkedOut):
        return first
    return _crossing(slack, 0.0), _crossing(slack, FACTOR)


def _crossing(slack: Slack, factor: float) -> tuple[float | None, bool]:
    """Where slack less so many standard uncertainties becomes nothing; no slack grows with the cut."""

    def left(cut_mm: float) -> float:
        found = slack(Known(cut_mm))
        # What can no longer be worked out has passed every limit: no volume is left.
        return -1.0 if isinstance(found, NotWorkedOut) else found.value - factor * found.u

    if left(0.0) < -_EQUAL:
        return 0.0, True
    if left(FURTHEST_MM) >= -_EQUAL:
        return None, False
    low, high = 0.0, FURTHEST_MM
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if left(middle) >= -_EQUAL else (low, middle)
    return low, False


_EQUAL = 1e-9
"""What was added up in another order may be off by so much: a limit that is just met is kept."""


def _upto(printed: str) -> str:
    return f"cuts of at most {bare(printed)}" if printed.startswith("max") else f"cuts of {printed}"

"""A cut with everything that it is judged by, worked out once: for its table, for its picture, for both."""

from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.camshafts import camshafts
from gudgeon.bench.cut.gasket import gasket_of
from gudgeon.bench.cut.given import GasketGiven, Inputs
from gudgeon.bench.cut.headline import headline, refuse_too_much
from gudgeon.bench.cut.inputs import gather
from gudgeon.bench.cut.known import Known, printed
from gudgeon.bench.cut.laws import Laws
from gudgeon.bench.cut.limits import Least, Most, least, most
from gudgeon.bench.errors import Unknown
from gudgeon.calc.errors import not_negative
from gudgeon.quantity.written import parse_printed

Ends = tuple[Least | None, Most]


@dataclass(frozen=True, slots=True)
class Case:
    """The laws with the gasket, the least and the most, and the cut asked about where one was; `named` is a gasket."""

    laws: Laws
    ends: Ends
    asked: Known | None
    named: bool

    @property
    def inputs(self) -> Inputs:
        """What the sheet and the book know of it."""
        return self.laws.inputs

    @property
    def verdict(self) -> str:
        """The answer in one sentence."""
        return headline(self.laws, self.ends, asked=self.asked, named=self.named)


def case_of(bench: Bench, *, off: str | None = None, gasket: str | None = None) -> Case:
    """The cut that was made (from the heights in the book), or one asked about."""
    bench.unlock()
    inputs = gather(bench)
    laws = Laws(inputs, camshafts(bench), gasket_named(inputs, gasket))
    asked = asked_cut(off) if off is not None else None
    if asked is not None:
        refuse_too_much(inputs, asked)
    return Case(laws, (least(inputs), most(laws)), asked, named=gasket is not None)


def gasket_named(inputs: Inputs, name: str | None) -> GasketGiven | None:
    """The gasket of a name; refuses one that is not in the list."""
    names = [one.name for one in inputs.cylinder.gaskets]
    if name is not None and name not in names:
        raise Unknown("gasket", name, names)
    return gasket_of(inputs, name)


def asked_cut(text: str) -> Known:
    """A cut that is asked about: exactly so much, or over its tolerance where one is written."""
    figure = parse_printed(text, kind="length_difference")
    found = printed(figure, unit="mm", tag="cut asked about")
    not_negative(found.value, "Cut", unit="mm")
    return Known(found.value) if figure.first.single else found

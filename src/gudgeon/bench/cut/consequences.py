"""What does the cut do? Least, most, what binds, and all that one cut does; from as-left figures once there are any."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.cut.case import Case, Ends, case_of
from gudgeon.bench.cut.given import Given, Inputs
from gudgeon.bench.cut.headline import as_meant
from gudgeon.bench.cut.known import EXACTLY_ZERO, Known
from gudgeon.bench.cut.laws import Laws
from gudgeon.bench.cut.limits import HEAD_NOT_LIMITED, Least, Most, most
from gudgeon.bench.cut.said import (
    LeastSaid,
    LimitsSaid,
    down,
    least_said,
    limits_said,
    rounded_up,
    ways_of,
)
from gudgeon.bench.cut.table import Line, Table, table
from gudgeon.bench.cut.words import MEANS, SAME_MM, mm, mm_as_read, plus_minus
from gudgeon.bench.errors import CannotWorkOut
from gudgeon.bench.shop.ordered import MORE, NOT_MORE, against, as_value, less_than_cleans, most_of, order_of
from gudgeon.quantity.format import first_system, units_shown
from gudgeon.quantity.units import convert


@dataclass(frozen=True, slots=True)
class InputLine:
    """One figure that went in: its value with what is uncertain of it, and where it comes from."""

    name: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class CutAnswer:
    """The answer to “What does the cut do?”.

    `tables` are the cut that was made or was asked about; where neither is known, the least that cleans up and the
    most that may come off.
    """

    heading: Heading
    counted_from: str
    least: LeastSaid | None
    most: LimitsSaid
    verdict: str
    ways_out: tuple[str, ...]
    ordered: str
    tables: tuple[Table, ...]
    missing: tuple[str, ...]
    contradictions: tuple[str, ...]
    notes: tuple[str, ...]
    inputs: tuple[InputLine, ...]
    basis: str


def consequences(bench: Bench, *, off: str | None = None, gasket: str | None = None) -> CutAnswer:
    """What a cut does: the one that was made (from the heights in the book), or one asked about."""
    return consequences_of(bench, case_of(bench, off=off, gasket=gasket))


def consequences_of(bench: Bench, case: Case) -> CutAnswer:
    """What the cut of a case does."""
    inputs, laws, (low, high) = case.inputs, case.laws, case.ends
    tables = tuple(_tables(bench, laws, case.asked, case.ends, named=case.named))
    if low is None and not high.bounds and not any(one.lines for one in tables):
        raise CannotWorkOut("What a cut does", map(str, inputs.missing))
    order = order_of(bench, part="head")
    return CutAnswer(
        heading=bench.heading("What does the cut do?"),
        counted_from=inputs.head.zero,
        least=least_said(low, inputs) if low is not None else None,
        most=limits_said(laws, high),
        verdict=case.verdict,
        ways_out=ways_of(laws, low, high, bench=bench) if inputs.head.made is None else (),
        ordered=order.ordered if order is not None else "",
        tables=tables,
        missing=tuple(_missing(inputs, low, high, tables)),
        contradictions=tuple(map(str, inputs.contradictions)),
        notes=tuple(filter(None, (less_than_cleans(order, low), *inputs.notes))),
        inputs=tuple(_input_lines(inputs)),
        basis=MEANS,
    )


def _tables(bench: Bench, laws: Laws, asked: Known | None, ends: Ends, *, named: bool) -> Iterator[Table]:
    """The cut asked about, else the one that was made, else the least and the most."""
    low, high = ends
    made = laws.inputs.head.made
    if asked is not None:
        words = "as asked"
        if made is not None:
            words += f"; {mm(made.value)} were made, by the heights in the book"
        yield _one(laws, asked, words, high, named=named)
    elif made is not None:
        yield _one(laws, made.known, made.source, high, named=named, first=_against_order(bench, made.known))
    else:
        if laws.inputs.head.left is not None or _as_left(laws.inputs):
            yield _one(laws, EXACTLY_ZERO, "the head as it is now", high, named=named)
        if low is not None:
            yield _one(
                laws, Known(rounded_up(low.surely_mm)), "the least that surely cleans up", high, named=named
            )
        if high.surely_mm is not None:
            words = "the most that may surely come off"
            yield _one(laws, Known(down(high.surely_mm)), words, high, named=True)


def _as_left(inputs: Inputs) -> bool:
    """Whether the chamber or a margin was read after the cut."""
    chamber = inputs.cylinder.chamber_volume
    margins = [one.margin for one in inputs.valves]
    return any(one is not None and one.state == "as left" for one in (chamber, *margins))


def _one(
    laws: Laws, cut: Known, words: str, limits: Most, *, named: bool, first: tuple[Line, ...] = ()
) -> Table:
    """One cut under the gasket that was named, else under the one that its maker means for it."""
    under = as_meant(laws, cut, named=named)
    if under is not laws:
        laws, limits = under, most(under)
    return table(laws, cut, cut_from=words, limits=limits, first=first)


def _against_order(bench: Bench, cut: Known) -> tuple[Line, ...]:
    """What was taken against what was ordered: the figures below follow what was taken."""
    order = order_of(bench, part="head")
    allowed = most_of(order)
    if order is None or allowed is None:
        return ()
    more = cut.value - allowed
    said = NOT_MORE
    if more > SAME_MM:
        follows = "all below follows what was taken"
        said = f"{MORE} by {mm_as_read(more)}; {follows}"
        if against(allowed, taken=as_value(cut)) != MORE:
            said = f"in doubt: {mm_as_read(more)} more than ordered, within the error of the gauge; {follows}"
    text = plus_minus(cut, kind="length_difference")
    limit = f"ordered: at most {order.most_off}"
    return (Line("Taken off", "", text, limit, said, "shop order", cut.value, cut.expanded, "mm"),)


def _missing(inputs: Inputs, low: Least | None, high: Most, tables: tuple[Table, ...]) -> Iterator[str]:
    """Everything that cannot be said, each once, beside what the tables name themselves."""
    named = {text for one in tables for text in one.missing}
    said: list[str] = []
    if low is None:
        lacking = "; ".join(map(str, inputs.lacking("head.face")))
        said.append(f"the least that cleans up: missing: {lacking}")
    if not inputs.head.limited:
        said.append(HEAD_NOT_LIMITED)
    if inputs.head.made is None:
        said.append(f"the cut that was made: missing: {_no_made(inputs)}; it can be asked about without them")
    said += [f"limit not worked out: {one}" for one in high.not_worked_out if str(one) not in named]
    unlimited = {
        "cylinder.most_ratio": inputs.cylinder.most_ratio,
        "cylinder.least_squish": inputs.cylinder.least_squish,
        **{f"valve_gear.{one.which}.least_piston_margin": one.least_margin for one in inputs.valves},
    }
    without = [path for path, limit in unlimited.items() if limit is None]
    if without:
        said.append(f"no limit is stated, so none can bind: {', '.join(without)}")
    yield from dict.fromkeys(said)


def _no_made(inputs: Inputs) -> str:
    """Which heights are not in the book."""
    lacking = [
        name
        for name, heights in (("as found", inputs.head.found), ("as left", inputs.head.left))
        if heights is None
    ]
    return f"the height of the head {' and '.join(lacking)}"


def _input_lines(inputs: Inputs) -> Iterator[InputLine]:
    head, one = inputs.head, inputs.cylinder
    heights = [held.mean for held in (head.found, head.left) if held is not None]
    flatness = head.flatness.given if head.flatness is not None else None
    given = [
        *heights, head.made, head.before, flatness, head.pits, one.bore, one.stroke, one.chamber_volume, one.mouth_area,
        one.crown_volume, one.piston_height, one.gasket_bore, one.gasket_thickness, one.squish_recess,
        *(figure for held in inputs.bolts for figure in (held.length, held.grip, held.hole_depth)),
        *(figure for held in inputs.valves for figure in (held.margin, held.angle)),
    ]  # fmt: skip
    for figure in given:
        if figure is not None:
            line = f", line {figure.line}" if figure.line is not None else ""
            state = f" ({figure.state})" if figure.state and figure.state not in figure.source else ""
            yield InputLine(f"{figure.name}{state}", _with_u(figure), f"{figure.source}{line}")


def _with_u(figure: Given) -> str:
    u = figure.known.expanded
    if u <= 0:
        return figure.text
    shown, unit = _in_person_unit(u, figure.unit)
    return f"{figure.text}, U {shown:.2g}{'' if unit == '°' else ' '}{unit}".rstrip()


_SIZES = {"mm": "length_difference", "mm²": "area", "cm³": "volume"}


def _in_person_unit(u: float, unit: str) -> tuple[float, str]:
    """An uncertainty in the system that the person reads first."""
    kind = _SIZES.get(unit)
    if kind is None or first_system() == "metric":
        return u, unit
    inch = units_shown(kind)[-1]
    return convert(u, frm=unit, to=inch, kind=kind), inch

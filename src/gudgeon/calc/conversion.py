"""The calculator of units: the kind of quantity is found from the units, and never guessed."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.input_errors import InputRefused, KindsDiffer, UnitNowhereKnown
from gudgeon.calc.reading import text
from gudgeon.errors import InputError
from gudgeon.quantity.errors import KindAmbiguous, UnitMissing
from gudgeon.quantity.kinds import KINDS, Kind, kind
from gudgeon.quantity.units import exactly, kinds_of, unit, units
from gudgeon.quantity.written import split_amount

COMMON = ("mm", "in", "N·m", "lbf·ft", "kPa", "psi", "°C", "cm³")


def convert_figure(values: Mapping[str, Value]) -> Worked:
    """Works out quantity.convert."""
    try:
        number, frm = split_amount(text(values, "value"))
    except InputError as error:
        raise InputRefused("value", error) from None
    to, given = text(values, "to"), values["kind"]
    if not frm:
        raise InputRefused("value", UnitMissing(text(values, "value"), "number", COMMON))
    candidates = [kind(str(given))] if given is not None else _kinds(frm, to)
    answers = {
        one.name: exactly(Fraction(number), frm=unit(frm, kind=one), to=unit(to, kind=one))
        for one in candidates
    }
    if len(set(answers.values())) > 1:
        raise KindAmbiguous(frm, list(answers))
    chosen = candidates[0]
    value = float(answers[chosen.name])
    symbol = unit(to, kind=chosen).symbol
    return Worked(
        {"value": value, "kind": chosen.name},
        shown={"value": f"{value:.7g} {symbol}", "kind": " or ".join(kind(name).words for name in answers)},
        units={"value": symbol},
    )


def _kinds(frm: str, to: str) -> Sequence[Kind]:
    """The kinds that take both units."""
    first, second = kinds_of(frm), kinds_of(to)
    for symbol, found in ((frm, first), (to, second)):
        if not found:
            raise UnitNowhereKnown(symbol, [one.symbol for of in KINDS.values() for one in units(of)])
    shared = [one for one in first if one in second]
    if not shared:
        raise KindsDiffer(frm, first[0].words, to, second[0].words)
    return shared

"""The calculator of conformity: from inputs to the kernel and back to results."""

import math
from collections.abc import Mapping
from typing import cast

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.input_errors import InputRefused
from gudgeon.calc.metrology.verdict import Rule, judge
from gudgeon.calc.reading import figure, maybe, text
from gudgeon.errors import InputError
from gudgeon.quantity.format import both
from gudgeon.quantity.kinds import Kind, kind
from gudgeon.quantity.written import parse_amount

NO_READING = "With this uncertainty no reading could prove it: use a better gauge."


def conformity(values: Mapping[str, Value]) -> Worked:
    """Works out metrology.conformity; reading, uncertainty and limits are of one kind."""
    of = kind(text(values, "kind"))
    # An uncertainty of a temperature is a difference: its zero is no point of the scale.
    spread = kind("temperature_difference") if of.name == "temperature" else of
    value, uncertainty = _figure(values, "value", of), _figure(values, "u", spread)
    assert value is not None
    assert uncertainty is not None
    dof, rule = maybe(values, "dof"), cast(Rule, text(values, "rule"))
    found = judge(
        value,
        u=uncertainty,
        lower=_figure(values, "lower", of),
        upper=_figure(values, "upper", of),
        risk=figure(values, "risk"),
        rule=rule,
        dof=math.inf if dof is None else dof,
    )
    band = found.guard_band
    return Worked(
        {
            "verdict": found.verdict,
            "probability_inside": found.probability_inside,
            "guard_band": band,
        },
        flags=_flags(rule, band),
        shown={"guard_band": "none is wide enough" if band is None else both(band, kind=spread)},
        units={"guard_band": spread.base},
    )


def _flags(rule: Rule, band: float | None) -> tuple[str, ...]:
    if rule == "simple":
        return ("Simple rule: the reading alone decides, and its uncertainty does not count.",)
    return () if band is not None else (NO_READING,)


def _figure(values: Mapping[str, Value], key: str, of: Kind) -> float | None:
    if values[key] is None:
        return None
    try:
        return parse_amount(text(values, key), kind=of, default_unit=of.base).to(of.base)
    except InputError as error:
        raise InputRefused(key, error) from None

"""What a calculator worked out, as plain data for programs."""

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.calc.calculator import CalculatorAnswer, Found


@dataclass(frozen=True, slots=True)
class Told:
    """Inputs as they were understood; every result as a number in its unit, and as it is shown in both systems."""

    calculator: str
    title: str
    inputs: Mapping[str, str]
    results: Mapping[str, Found]
    units: Mapping[str, str]
    shown: Mapping[str, str]
    flags: tuple[str, ...]
    method: str
    source: str


def told(answer: CalculatorAnswer) -> Told:
    """The answer of a calculator by the names of its results."""
    return Told(
        answer.name,
        answer.title,
        dict(answer.inputs),
        {one.name: one.value for one in answer.results},
        {one.name: one.unit for one in answer.results if one.unit is not None},
        {one.name: one.shown for one in answer.results},
        answer.flags,
        answer.method,
        answer.source,
    )

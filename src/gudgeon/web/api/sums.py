"""The calculators: what there is, what each takes, and what it works out. Nothing is written."""

from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Body, Path
from pydantic import BaseModel, ConfigDict, Field, StrictStr
from starlette.responses import Response

from gudgeon.calc.calculator import Calculator, calculator, names, run_sent
from gudgeon.calc.told import Told, told
from gudgeon.web.api.asking import READING_REFUSALS, READS, REFUSALS, Reading, given

ROUTER = APIRouter(prefix="/api", tags=["Sums"], responses=READING_REFUSALS)
_OF_A_SUM: dict[int | str, dict[str, Any]] = {status: REFUSALS[status] for status in (400, 413, 415)}
NAME = Path(description="The calculator, by its name.", examples=["quantity.convert"])
EXAMPLES: dict[str, Any] = {
    "a figure in another unit": {"value": {"inputs": {"value": "70 lbf·ft", "to": "N·m"}}},
}


@dataclass(frozen=True, slots=True)
class CalculatorLine:
    """One calculator in the list of all."""

    name: str
    title: str


class Inputs(BaseModel):
    """What a calculator is given."""

    model_config = ConfigDict(extra="forbid")

    inputs: Annotated[
        dict[str, StrictStr],
        Field(max_length=60, description="Each input as a person writes it, with its unit, by its name."),
    ]


@ROUTER.get("/calculators", response_model=list[CalculatorLine], openapi_extra=READS)
def calculators(desk: Reading) -> Response:
    """Every calculator, by its name."""
    return given([CalculatorLine(one.name, one.title) for one in map(calculator, names())])


@ROUTER.get("/calculators/{name}", response_model=Calculator, openapi_extra=READS)
def one_calculator(desk: Reading, name: Annotated[str, NAME]) -> Response:
    """What a calculator takes and gives, and its source."""
    return given(calculator(name))


@ROUTER.post("/calculators/{name}", response_model=Told, responses=_OF_A_SUM, openapi_extra=READS)
def work_out(
    desk: Reading,
    name: Annotated[str, NAME],
    given_inputs: Annotated[Inputs, Body(openapi_examples=EXAMPLES)],
) -> Response:
    """Work it out: `results` are in the units of `units`, `shown` are the same in both systems.

    Where a calculator takes a file the lines of the file are sent themselves: no file of this machine is read.
    """
    return given(told(run_sent(name, given_inputs.inputs)))

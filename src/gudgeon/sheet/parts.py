"""The parts list: what is renewed every time, after which use, and how parts like it wear out."""

import re
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema, model_validator

from gudgeon.quantity.written import Printed
from gudgeon.sheet.figures import Source, Sourced, StatedRatio
from gudgeon.written.fields import Section, Text, YesNo, read_figure, refuse

MONTHS_A_YEAR = 12
_AGE = re.compile(r"(?P<number>\d{1,4})\s*(?P<unit>months?|years?)", re.IGNORECASE)
_EITHER = re.compile(r"\s*(?:,\s*)?\bor\b\s*", re.IGNORECASE)
_FIRST = re.compile(r"[,;]?\s*whichever (?:is|comes) (?:first|earlier|sooner)\.?\s*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Use:
    """How much a part is used: a distance, an age in months, or both, as printed."""

    text: str
    distance: Printed | None = None
    months: int | None = None

    def __str__(self) -> str:
        return self.text


def _use(value: Any) -> Use:
    """`60000 km or 60 months`, in either order; one of the two alone is enough."""
    if isinstance(value, Use):
        return value
    text = " ".join(value.split()) if isinstance(value, str) else ""
    distance: Printed | None = None
    months: int | None = None
    for one in _EITHER.split(_FIRST.sub("", text)):
        age = _AGE.fullmatch(one.strip())
        if age is not None and months is None and int(age["number"]) > 0:
            years = age["unit"].lower().startswith("year")
            months = int(age["number"]) * (MONTHS_A_YEAR if years else 1)
        elif age is None and distance is None:
            distance = _distance(one, whole=text)
        else:
            raise refuse(_NO_USE.format(text))
    return Use(text, distance, months)


def _distance(one: str, *, whole: str) -> Printed:
    if not re.search(r"\d\s*(?:km|mi)", one):
        raise refuse(_NO_USE.format(whole))
    found = read_figure(one.strip(), "distance")
    if found.low_in("km") != found.high_in("km") or not found.middle_in("km") > 0:
        raise refuse(_NO_USE.format(whole))
    return found


_NO_USE = "`{}` is no use of a part. Write one distance, an age in months or years, or both: `60000 km or 60 months`."

AnyUse = Annotated[
    Use,
    PlainValidator(_use),
    WithJsonSchema(
        {"type": "string", "examples": ["60000 km or 60 months", "5 years", "90000 km (56000 mi)"]}
    ),
]


class StatedUse(Section):
    """A use of a part. Written alone, it takes the source of the part."""

    value: AnyUse
    source: Source | None = None
    note: Text | None = None

    @classmethod
    def __get_pydantic_json_schema__(cls, core: Any, handler: Any) -> dict[str, Any]:
        """An editor is told that the figure may stand alone."""
        return {"anyOf": [{"type": "string"}, handler(core)]}

    @model_validator(mode="before")
    @classmethod
    def _alone(cls, value: Any) -> Any:
        return {"value": value} if isinstance(value, str | Use) else value


class Wear(Sourced):
    """How parts like this one wear out: a Weibull distribution.

    With a shape above 1 age wears it out; by the life 63 of 100 have failed.
    """

    shape: StatedRatio
    life: StatedUse

    @model_validator(mode="after")
    def _one_unit(self) -> "Wear":
        life = self.life.value
        if (life.distance is None) == (life.months is None):
            raise refuse(
                f"A life is one distance or one age; `{life.text}` is not. Take the one that wears it out."
            )
        if not self.shape.value.first.single or not self.shape.value.middle_in("1") > 0:
            raise refuse(
                f"`{self.shape.value.text}` is no shape of a life. Write one number above 0, like `3`."
            )
        return self


class Part(Sourced):
    """A part of the parts list; `one_time` says that it is renewed every time.

    `renew_after` is the use after which the maker has it renewed, `wear` how parts like it last.
    """

    name: Text
    one_time: YesNo = False
    quantity: Text | None = None
    compare: Text | None = None
    renew_after: StatedUse | None = None
    wear: Wear | None = None
    note: Text | None = None

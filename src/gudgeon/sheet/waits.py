"""How long something has to wait, as the manual states it: by temperature where it says so."""

from typing import Any

from pydantic import Field, model_validator

from gudgeon.sheet.figures import Sourced, StatedTime
from gudgeon.sheet.inspections import Milestone
from gudgeon.written.fields import Section, Temperature, Text


class WaitFrom(Sourced):
    """A wait that holds from a temperature upward, as far as the next one."""

    from_: Temperature = Field(alias="from")
    time: StatedTime


class Waits(Sourced):
    """The waits of this engine: how long hydraulic lifters bleed down before anything is turned."""

    bleed_down: tuple[WaitFrom, ...] = ()


class AgainAfter(Section):
    """When a finished joint is tightened again, as after the first heat; written alone it says when."""

    after: Text
    note: Text | None = None
    due_before: Milestone = "handover"

    @classmethod
    def __get_pydantic_json_schema__(cls, core: Any, handler: Any) -> dict[str, Any]:
        """An editor is told that the words may stand alone."""
        return {"anyOf": [{"type": "string", "examples": ["first heat"]}, handler(core)]}

    @model_validator(mode="before")
    @classmethod
    def _alone(cls, value: Any) -> Any:
        return {"after": value} if isinstance(value, str) else value

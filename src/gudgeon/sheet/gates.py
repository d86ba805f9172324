"""What the sheet says against a gate of the program: for this engine it does not hold, and where that is printed."""

from typing import Literal

from pydantic import model_validator

from gudgeon.sheet.figures import Sourced
from gudgeon.written.fields import Text, refuse

GateName = Literal[
    "pins in",
    "bolt against pins",
    "piston near the top",
    "followers pumped up",
    "keyless without a holder",
    "starter before hand turns",
]
"""The gates, as the program names them when it refuses."""


class GateOverruled(Sourced):
    """One gate that does not hold for this engine: because the manual says so, on a page."""

    gate: GateName
    because: Text

    @model_validator(mode="after")
    def _with_a_source(self) -> "GateOverruled":
        if self.source is None:
            raise refuse(
                f"The gate “{self.gate}” is overruled without a source. Name the page: `source: manual p. 51`."
            )
        return self

"""Whether fasteners may be used again: by which rule of the manual, and where its readings stand.

Manuals judge used bolts in several ways, and some ask for more than one:

    reuse:
      rule: free length
      limit: max 134.00 mm
      measured_as: head_bolt_length
      and:
        - {rule: count of uses, most_uses: 5}
"""

from typing import Annotated, Any, Literal

from pydantic import Field, WithJsonSchema, field_validator, model_validator

from gudgeon.sheet.figures import Sourced, StatedGap, StatedLength
from gudgeon.written.fields import Key, Whole, refuse

ReuseRule = Literal[
    "always new",
    "free length",
    "least diameter",
    "difference of two diameters",
    "thread against a straightedge",
    "pits",
    "count of uses",
    "as found good",
    "not stated",
]
MEASURED: dict[str, int] = {
    "free length": 1,
    "least diameter": 1,
    "difference of two diameters": 2,
    "thread against a straightedge": 1,
    "pits": 1,
}
"""Rules that readings decide, and of how many characteristics."""


_ONE_OR_TWO = {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}, "maxItems": 2}]}


class Reuse(Sourced):
    """One rule, its limit, the characteristics that hold its readings, and the rules that stand beside it.

    `measured_as` names one characteristic whose places are the bolts; the difference of two diameters
    names two. Where the rule states no limit, that of the characteristic counts.
    """

    rule: ReuseRule
    limit: StatedLength | None = None
    difference: StatedGap | None = None
    measured_as: Annotated[tuple[Key, ...], WithJsonSchema(_ONE_OR_TWO)] = ()
    most_uses: Whole | None = Field(default=None, ge=1, le=100)
    also_by: tuple["Reuse", ...] = Field(default=(), alias="and")

    @field_validator("measured_as", mode="before")
    @classmethod
    def _one_or_two(cls, value: Any) -> Any:
        return (value,) if isinstance(value, str) else value

    @model_validator(mode="after")
    def _said_whole(self) -> "Reuse":
        wanted = MEASURED.get(self.rule, 0)
        if self.measured_as and len(self.measured_as) != wanted:
            many = {0: "none", 1: "one characteristic", 2: "two characteristics"}[wanted]
            raise refuse(
                f"The rule `{self.rule}` takes {many} in measured_as; {len(self.measured_as)} were found."
            )
        if self.rule == "count of uses" and self.most_uses is None:
            raise refuse("The rule `count of uses` needs the most uses: `most_uses: 5`.")
        if self.most_uses is not None and self.rule != "count of uses":
            raise refuse("`most_uses` belongs to the rule `count of uses` alone.")
        if self.difference is not None and self.rule != "difference of two diameters":
            raise refuse("`difference` belongs to the rule `difference of two diameters`; write `limit`.")
        return self

    @property
    def rules(self) -> tuple["Reuse", ...]:
        """This rule, then those that stand beside it."""
        return (self, *(rule for one in self.also_by for rule in one.rules))

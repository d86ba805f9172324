"""What the sheet orders for a bolt in doubt, by the kind of doubt and from which stage on.

doubts:
  noise: slacken and start again
  angle lost:
    - slacken and start again
    - {rule: renew, from_stage: 4, note: and the gasket, source: manual p. 49}
"""

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema, model_validator

from gudgeon.sheet.figures import Sourced
from gudgeon.written.fields import Text, Whole

DoubtKind = Literal["noise", "soft", "angle lost", "interrupted", "slipped", "other"]
DoubtOrder = Literal["go on", "slacken and start again", "renew"]


class DoubtRule(Sourced):
    """What is done about a doubt; from a stage on, where the manual tells stages apart."""

    rule: DoubtOrder
    from_stage: Whole = Field(default=1, ge=1, le=100)
    note: Text | None = None

    @model_validator(mode="before")
    @classmethod
    def _alone(cls, value: Any) -> Any:
        return {"rule": value} if isinstance(value, str) else value


_RULE: dict[str, Any] = {
    "anyOf": [
        {"enum": ["go on", "slacken and start again", "renew"]},
        {
            "type": "object",
            "properties": {
                "rule": {"enum": ["go on", "slacken and start again", "renew"]},
                "from_stage": {"type": ["integer", "string"]},
                "note": {"type": "string"},
                "source": {"type": "string", "examples": ["manual p. 41"]},
            },
            "required": ["rule"],
            "additionalProperties": False,
        },
    ]
}


def _several(value: Any) -> Any:
    return tuple(value) if isinstance(value, list | tuple) else (value,)


DoubtRules = Annotated[
    tuple[DoubtRule, ...],
    Field(min_length=1),
    BeforeValidator(_several),
    WithJsonSchema({"anyOf": [*_RULE["anyOf"], {"type": "array", "items": _RULE}]}),
]
"""One rule, or several that begin at different stages."""


def rule_at(rules: Mapping[Any, tuple[DoubtRule, ...]], kind: str, *, stage: int) -> DoubtRule | None:
    """The rule for a kind of doubt in a stage: the one that begins last before it."""
    fitting = [one for one in rules.get(kind, ()) if one.from_stage <= stage]
    return max(fitting, key=lambda one: one.from_stage, default=None)

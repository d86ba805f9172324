"""Bodies: the state of the engine as a whole, what an act does to it, and what mends an act against a gate."""

from typing import Literal

from pydantic import Field, model_validator

from gudgeon.book.body import About, Body, EntryId, Name, Reason, Remark, Said, Seen
from gudgeon.book.gates import Act, Gate


class EngineIs(Body):
    """What is known of the engine; what is not named stays as it was.

    `crank` is where the pistons stand: `moved` is turned since it was last looked at. `pins` are pins and locks that
    hold the timing and take no torque; `holder` is a tool that does.
    """

    crank: Literal["near the top", "half-way", "moved"] | None = None
    cams: Literal["in", "out"] | None = None
    belt: Literal["on", "off"] | None = None
    pins: Literal["in", "out"] | None = None
    holder: Literal["fitted", "off"] | None = None
    followers: Literal["bled down", "pumped up"] | None = None


class Doing(Body):
    """What an act is to the engine: its kind, what is so afterwards, and the gates that the sheet overrules for it.

    `overruled` gives, by the gate, what the sheet says and where.
    """

    acts: list[Act] = Field(default_factory=list)
    sets: EngineIs | None = None
    overruled: dict[Gate, Said] = Field(default_factory=dict)


class EngineState(EngineIs):
    """The engine as somebody saw it."""

    seen: Seen

    @model_validator(mode="after")
    def _says_something(self) -> "EngineState":
        if all(getattr(self, name) is None for name in EngineIs.model_fields):
            raise ValueError(
                "what is known of the engine is missing: crank, cams, belt, pins, holder or followers"
            )
        return self


class Turned(Body):
    """The engine was turned: by hand or by the starter, how far, and what was felt."""

    by: Literal["hand", "starter"]
    seen: Seen
    doing: Doing


class Inspected(Body):
    """What an act against a gate has done was looked for, and what was found."""

    entry: EntryId
    gate: Gate
    found: Seen
    by: Name


class Override(Body):
    """A named person lets something pass that is open or refused; it is shown for ever.

    `shown` is what the program said against it that day.
    """

    about: About
    by: Name
    why: Reason
    shown: Remark = ""


class SignedOff(Body):
    """A named person stands for the engine as it is, before a milestone."""

    milestone: Literal["crank", "fire", "drive", "handover"]
    by: Name
    words: Said

"""Bodies: what is done to the bolts of a joint."""

from typing import Literal

from pydantic import Field, model_validator

from gudgeon.book.bodies_engine import Doing
from gudgeon.book.body import Body, EntryId, Name, Number, Ordinal, Remark, Said, Seen

Doubt = Literal["noise", "soft", "angle lost", "interrupted", "slipped", "other"]
"""What is doubtful about a pull: it made a noise, it turned softly, the angle was lost, and so on."""


class Pull(Body):
    """One action on one bolt."""

    joint: Name
    stage: Ordinal
    round: Ordinal
    bolt: Name
    outcome: Literal[
        "clicked while turning", "clicked at once", "angle reached", "stopped at", "done", "doubtful"
    ]
    angle_deg: Number | None = None
    tool: Remark = ""
    setting: Remark = ""
    shown: dict[str, str] = Field(default_factory=dict)
    why: Remark = ""
    doubt: Doubt | None = None
    doing: Doing | None = None

    @model_validator(mode="after")
    def _says_enough(self) -> "Pull":
        if self.doubt is not None and self.outcome != "doubtful":
            raise ValueError(f"a pull that is `{self.outcome}` is not in doubt: its outcome is `doubtful`")
        if self.outcome == "stopped at" and self.angle_deg is None:
            raise ValueError("the angle at which it stopped is missing")
        if self.outcome == "doubtful" and not self.why.strip():
            raise ValueError("what is doubtful about it is missing")
        return self


class BoltLoosened(Body):
    """One action on one bolt while a joint is taken apart by its loosening program."""

    joint: Name
    stage: Ordinal
    round: Ordinal
    bolt: Name
    outcome: Literal["done", "stopped at", "doubtful"]
    angle_deg: Number | None = None
    tool: Remark = ""
    shown: dict[str, str] = Field(default_factory=dict)
    why: Remark = ""
    doing: Doing | None = None

    @model_validator(mode="after")
    def _says_enough(self) -> "BoltLoosened":
        if self.outcome == "stopped at" and self.angle_deg is None:
            raise ValueError("the angle at which it stopped is missing")
        if self.outcome == "doubtful" and not self.why.strip():
            raise ValueError("what is doubtful about it is missing")
        return self


class JointMarked(Body):
    """A joint is marked as finished."""

    joint: Name
    how: Said


class JointDisturbed(Body):
    """A joint is slackened or opened again."""

    joint: Name
    why: Said
    doing: Doing | None = None


class JointWitnessed(Body):
    """A second look at a marked joint: by another person, or on another day."""

    joint: Name
    by: Name
    seen: Seen


class TightenedAgain(Body):
    """A finished joint was tightened again when its sheet says so, as after the first heat, and what was seen."""

    joint: Name
    seen: Seen


class Looked(Body):
    """After a stop: the last recorded action was looked at before the work goes on."""

    entry: EntryId
    seen: Seen
    as_recorded: bool

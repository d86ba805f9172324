"""Bodies: holds, waits, tasks, stops, notes, strikes."""

from decimal import Decimal
from typing import Literal

from pydantic import Field, model_validator

from gudgeon.book.bodies_engine import Doing
from gudgeon.book.body import (
    Body,
    Due,
    DueLater,
    EntryId,
    Name,
    Number,
    PhotoSha,
    Reason,
    Remark,
    RestsOn,
    Said,
    seen,
)


class HoldProved(Body):
    """A hold is proved with the value seen, or with a photo of it; `shown` are the figures that it was held against."""

    hold: Name
    value: Remark = ""
    photo: PhotoSha | None = None
    rests_on: list[RestsOn] = Field(default_factory=list)
    shown: dict[str, str] = Field(default_factory=dict)
    doing: Doing | None = None

    @model_validator(mode="after")
    def _a_value_or_a_photo(self) -> "HoldProved":
        said = self.value.strip()
        if not said and self.photo is None:
            raise ValueError("the value that was seen is missing, or a photo of it")
        if said:
            seen(said)
        return self


class HoldVoided(Body):
    """A hold no longer stands."""

    hold: Name
    why: Said


TimerKind = Literal[
    "cool-down", "drain", "open time", "cure", "bleed-down", "battery", "cold morning", "recall", "other"
]


class TimerStarted(Body):
    """A wait begins: for so many minutes, or for so far to drive.

    An `open time` is the other way round: what it belongs to must be together before it ends.
    """

    timer: Name
    name: Name
    kind: TimerKind = "other"
    minutes: int | None = Field(default=None, ge=1, le=10_000_000)
    distance: Number | None = None
    odometer: Number | None = None
    unit: Literal["km", "mi"] | None = None
    task: Said
    joint: Name | None = None
    due_before: DueLater
    temperature_c: Number | None = None
    why: Remark = ""

    @model_validator(mode="after")
    def _one_measure(self) -> "TimerStarted":
        if (self.minutes is None) == (self.distance is None):
            raise ValueError("how long was expected, or how far: one of the two")
        if self.distance is not None and (self.odometer is None or self.unit is None):
            raise ValueError("a wait by distance names what the odometer shows now, and its unit")
        if self.distance is not None and Decimal(self.distance) <= 0:
            raise ValueError("the distance is not more than nothing")
        return self


class SealantLaid(Body):
    """A bead is laid at a joint, and with it two clocks start: be together before one, wait for the other.

    Minutes are those of the sheet or given by hand, None where nobody knows them; `shown` says where they stand.
    `timer` names both clocks, with `_open` and `_cure` behind it. The cure counts from when the joint is together.
    """

    sealant: Name
    timer: Name
    name: Name
    joint: Name
    minutes_ago: int = Field(default=0, ge=0, le=100_000)
    open_minutes: int | None = Field(default=None, ge=1, le=1_000_000)
    cure_minutes: int | None = Field(default=None, ge=1, le=1_000_000)
    task: Said
    due_before: Due
    shown: dict[str, str] = Field(default_factory=dict)
    why: Remark = ""


class TimerEnded(Body):
    """A wait is over before its time."""

    timer: Name
    how: Reason


class TaskStarted(Body):
    """A task of the job is begun, or taken up again."""

    task: Name
    doing: Doing | None = None


class TaskPaused(Body):
    """A task is left standing, and why."""

    task: Name
    why: Said


class TaskDone(Body):
    """A task is finished; the minutes of hands where somebody looked at the clock."""

    task: Name
    minutes: int | None = Field(default=None, ge=0, le=100_000)
    note: Remark = ""
    doing: Doing | None = None


class PausedBody(Body):
    """A stop; `screen` is the page or the command that was in front of him."""

    hand: Said
    next_action: Said
    screen: Remark = ""


class Note(Body):
    """Anything else."""

    text: Said


class Strike(Body):
    """An earlier entry no longer counts."""

    entry: EntryId
    why: Reason

"""The bodies of entries, one strict model per kind and version; loaded only where an entry is written."""

from collections.abc import Mapping
from datetime import datetime
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationError,
    model_validator,
)

from gudgeon.book.errors import BodyRefused, UnknownKind

Said = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
Due = Literal["crank", "fire", "drive", "handover"]


def _number(text: str) -> str:
    try:
        value = float(text)
    except ValueError:
        raise ValueError("a decimal number was expected") from None
    if value != value or value in (float("inf"), float("-inf")):
        raise ValueError("a finite number was expected")
    return text


Number = Annotated[str, AfterValidator(_number)]


class Body(BaseModel):
    """What every body keeps to."""

    model_config = ConfigDict(extra="forbid", strict=True)


class BuildOpened(Body):
    """A build is begun."""

    name: Said
    engine: Said
    sheet_path: Said
    kit_path: Said


class IdentityRead(Body):
    """The code as read off the engine."""

    code: Said
    read_from: Said
    matches: bool
    why_not: Said | None = None


class Reading(Body):
    """A value, or the interval of a go and a no-go."""

    item: Said
    place: str
    value: Number | None = None
    low: Number | None = None
    high: Number | None = None
    unit: Said
    instrument: str = ""
    condition: Literal["as found", "as left"]
    shown: dict[str, str] = Field(default_factory=dict)
    note: str = ""

    @model_validator(mode="after")
    def _value_or_interval(self) -> "Reading":
        if (self.value is None) == (self.low is None and self.high is None):
            raise ValueError("one value or an interval was expected")
        if self.low is not None and self.high is not None and float(self.low) > float(self.high):
            raise ValueError("the blade that enters is thicker than the one that does not")
        return self


class Pull(Body):
    """One action on one bolt."""

    joint: Said
    stage: int = Field(ge=1)
    round: int = Field(ge=1)
    bolt: Said
    outcome: Literal[
        "clicked while turning", "clicked at once", "angle reached", "stopped at", "done", "doubtful"
    ]
    angle_deg: Number | None = None
    tool: str = ""
    setting: str = ""
    shown: dict[str, str] = Field(default_factory=dict)
    why: str = ""

    @model_validator(mode="after")
    def _says_enough(self) -> "Pull":
        if self.outcome == "stopped at" and self.angle_deg is None:
            raise ValueError("the angle at which it stopped is missing")
        if self.outcome == "doubtful" and not self.why.strip():
            raise ValueError("what is doubtful about it is missing")
        return self


class JointMarked(Body):
    """A joint is marked as finished."""

    joint: Said
    how: Said


class JointDisturbed(Body):
    """A joint is slackened or opened again."""

    joint: Said
    why: Said


class ProvisionalMade(Body):
    """Something is left loose on purpose."""

    item: Said
    name: Said
    joint: Said | None = None
    why: Said
    due_task: Said
    due_before: Due


class Closed(Body):
    """Something on a list is closed, and how."""

    item: Said
    how: Said


class ItemOnly(Body):
    """Something on a list is closed."""

    item: Said


class PutIn(Body):
    """A temporary thing goes in, or an opening is closed."""

    item: Said
    name: Said
    where: Said
    due_before: Due


class TakenOff(Body):
    """Something comes off that has to go back."""

    item: Said
    group: Literal["connector", "hose", "strap", "bracket", "bolt", "cover", "part"]
    name: Said
    place: Said | None = None
    due_before: Due


class Refitted(Body):
    """Something is back."""

    item: Said
    place: Said | None = None


class HoldProved(Body):
    """A hold is proved with the value seen."""

    hold: Said
    value: Said
    rests_on: list[Said] = Field(default_factory=list)

    @model_validator(mode="after")
    def _a_value(self) -> "HoldProved":
        if self.value.lower() in ("ok", "yes", "done", "good", "x", "checked", "true"):
            raise ValueError(f"`{self.value}` is a bare tick; write the value that was seen")
        return self


class HoldVoided(Body):
    """A hold no longer stands."""

    hold: Said
    why: Said


class TimerStarted(Body):
    """A wait begins."""

    timer: Said
    name: Said
    minutes: int = Field(ge=1, le=10_000_000)
    task: Said
    due_before: Due
    why: str = ""


class TimerEnded(Body):
    """A wait is over before its time."""

    timer: Said
    how: Said


class PartDisposition(Body):
    """What becomes of a part."""

    part: Said
    decision: Literal["reuse", "rework", "renew", "accept"]
    why: Said


class PartReceived(Body):
    """A part came."""

    part: Said
    compared: bool
    note: str = ""


class ShopOut(Body):
    """A part goes to the machine shop."""

    part: Said
    shop: Said
    ordered: Said
    most_off: Said | None = None


class ShopBack(Body):
    """A part is back from the machine shop."""

    part: Said
    found: Said


class AcceptedBody(Body):
    """Something outside its limit is accepted by a named person."""

    what: Said
    by: Said
    why: Said


class PausedBody(Body):
    """A stop."""

    hand: Said
    next_action: Said


class Note(Body):
    """Anything else."""

    text: Said


class Strike(Body):
    """An earlier entry no longer counts."""

    entry: Said
    why: Said


BODIES: dict[str, tuple[int, type[Body]]] = {
    "build-opened": (1, BuildOpened),
    "identity-read": (1, IdentityRead),
    "reading": (1, Reading),
    "pull": (1, Pull),
    "joint-marked": (1, JointMarked),
    "joint-disturbed": (1, JointDisturbed),
    "provisional-made": (1, ProvisionalMade),
    "provisional-cleared": (1, Closed),
    "left-in": (1, PutIn),
    "taken-out": (1, ItemOnly),
    "plugged": (1, PutIn),
    "opened": (1, ItemOnly),
    "taken-off": (1, TakenOff),
    "refitted": (1, Refitted),
    "hold-proved": (1, HoldProved),
    "hold-voided": (1, HoldVoided),
    "timer-started": (1, TimerStarted),
    "timer-ended": (1, TimerEnded),
    "part-disposition": (1, PartDisposition),
    "part-received": (1, PartReceived),
    "shop-out": (1, ShopOut),
    "shop-back": (1, ShopBack),
    "accepted": (1, AcceptedBody),
    "paused": (1, PausedBody),
    "note": (1, Note),
    "strike": (1, Strike),
}


def validated(kind: str, body: Mapping[str, Any]) -> tuple[int, dict[str, Any]]:
    """The version of a kind and the body as it goes into the book, or a refusal."""
    if kind not in BODIES:
        raise UnknownKind(kind, tuple(BODIES))
    version, model = BODIES[kind]
    try:
        return version, model.model_validate(body).model_dump()
    except ValidationError as error:
        said = tuple(_problem(detail) for detail in error.errors(include_url=False))
        raise BodyRefused(kind, said) from None


def _problem(detail: Any) -> str:
    where = ".".join(map(str, detail["loc"]))
    message = str(detail["msg"]).removeprefix("Value error, ")
    return f"{where}: {message}" if where else message


def valid_time(text: str) -> bool:
    """Whether a time is ISO 8601 with its offset from UTC."""
    try:
        return datetime.fromisoformat(text).tzinfo is not None
    except ValueError:
        return False

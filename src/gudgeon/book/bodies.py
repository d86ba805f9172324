"""The bodies of entries, one strict model per kind and version; loaded only where an entry is written."""

import re
from collections.abc import Mapping
from datetime import datetime
from decimal import Decimal
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

from gudgeon.book.entries import Draft
from gudgeon.book.errors import BodyRefused, UnknownKind

_DECIMAL = re.compile(r"[+-]?\d{1,30}(\.\d{1,30})?([eE][+-]?\d{1,2})?", re.ASCII)
_TICKS = frozenset(("ok", "okay", "yes", "y", "done", "good", "fine", "x", "checked", "true", "✓", "✔"))


def _plain_decimal(text: str) -> str:
    """A decimal without an exponent, its last digit kept: 0.050 says more than 0.05."""
    if not _DECIMAL.fullmatch(text):
        raise ValueError("a decimal number was expected, like 0.05")
    return format(Decimal(text), "f")


def _time_with_offset(text: str) -> str:
    """A moment that means the same everywhere; the years keep room for every wait that can be started."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise ValueError("a time as ISO 8601 was expected, like 2026-03-07T10:00:00+01:00") from None
    if moment.tzinfo is None:
        raise ValueError("the time has no offset from UTC")
    if not 1970 <= moment.year < 3000:
        raise ValueError("the year is not between 1970 and 2999; set the clock of the device")
    return text


Said = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=20_000)]
Name = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=300)]
Remark = Annotated[str, StringConstraints(max_length=20_000)]
Number = Annotated[str, AfterValidator(_plain_decimal)]
Ordinal = Annotated[int, Field(ge=1, le=10_000)]
EntryId = Annotated[str, StringConstraints(pattern="^[0-9a-f]{32}$")]
Hash = Annotated[str, StringConstraints(pattern="^([0-9a-f]{64})?$")]
RestsOn = Annotated[str, StringConstraints(pattern=r"^(joint|hold|state):\S.*$", max_length=300)]
Time = Annotated[str, AfterValidator(_time_with_offset)]
Due = Literal["crank", "fire", "drive", "handover"]


class Body(BaseModel):
    """What every body keeps to."""

    model_config = ConfigDict(extra="forbid", strict=True)


class BuildOpened(Body):
    """A build is begun."""

    name: Name
    engine: Name
    sheet_path: Said
    kit_path: Said


class IdentityRead(Body):
    """The code as read off the engine."""

    code: Name
    read_from: Said
    matches: bool
    why_not: Said | None = None


class Reading(Body):
    """A value, or the interval of a go and a no-go."""

    item: Name
    place: Remark
    value: Number | None = None
    low: Number | None = None
    high: Number | None = None
    unit: Name
    instrument: Remark = ""
    condition: Literal["as found", "as left"]
    shown: dict[str, str] = Field(default_factory=dict)
    note: Remark = ""

    @model_validator(mode="after")
    def _value_or_interval(self) -> "Reading":
        if (self.value is None) == (self.low is None and self.high is None):
            raise ValueError("one value or an interval was expected")
        if self.low is not None and self.high is not None and Decimal(self.low) > Decimal(self.high):
            raise ValueError("the blade that enters is thicker than the one that does not")
        return self


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

    @model_validator(mode="after")
    def _says_enough(self) -> "Pull":
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


class ProvisionalMade(Body):
    """Something is left loose on purpose."""

    item: Name
    name: Name
    joint: Name | None = None
    why: Said
    due_task: Said
    due_before: Due


class Closed(Body):
    """Something on a list is closed, and how."""

    item: Name
    how: Said


class ItemOnly(Body):
    """Something on a list is closed."""

    item: Name


class PutIn(Body):
    """A temporary thing goes in, or an opening is closed."""

    item: Name
    name: Name
    where: Said
    due_before: Due


class TakenOff(Body):
    """Something comes off that has to go back."""

    item: Name
    group: Literal["connector", "hose", "strap", "bracket", "bolt", "cover", "part"]
    name: Name
    place: Name | None = None
    due_before: Due


class Refitted(Body):
    """Something is back."""

    item: Name
    place: Name | None = None


class HoldProved(Body):
    """A hold is proved with the value seen."""

    hold: Name
    value: Said
    rests_on: list[RestsOn] = Field(default_factory=list)

    @model_validator(mode="after")
    def _a_value(self) -> "HoldProved":
        if self.value.lower().rstrip(".!") in _TICKS:
            raise ValueError(f"`{self.value}` is a bare tick; write the value that was seen")
        return self


class HoldVoided(Body):
    """A hold no longer stands."""

    hold: Name
    why: Said


class TimerStarted(Body):
    """A wait begins."""

    timer: Name
    name: Name
    minutes: int = Field(ge=1, le=10_000_000)
    task: Said
    due_before: Due
    why: Remark = ""


class TimerEnded(Body):
    """A wait is over before its time."""

    timer: Name
    how: Said


class TaskStarted(Body):
    """A task of the job is begun, or taken up again."""

    task: Name


class TaskPaused(Body):
    """A task is left standing, and why."""

    task: Name
    why: Said


class TaskDone(Body):
    """A task is finished; the minutes of hands where somebody looked at the clock."""

    task: Name
    minutes: int | None = Field(default=None, ge=0, le=100_000)
    note: Remark = ""


class PartDisposition(Body):
    """What becomes of a part."""

    part: Name
    decision: Literal["reuse", "rework", "renew", "accept"]
    why: Said


class PartReceived(Body):
    """A part came."""

    part: Name
    compared: bool
    note: Remark = ""


class ShopOut(Body):
    """A part goes to the machine shop."""

    part: Name
    shop: Name
    ordered: Said
    most_off: Said | None = None


class ShopBack(Body):
    """A part is back from the machine shop."""

    part: Name
    found: Said


class AcceptedBody(Body):
    """Something outside its limit is accepted by a named person."""

    what: Said
    by: Name
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

    entry: EntryId
    why: Said


class Header(Body):
    """What stands around a body, as the sender supplies it."""

    id: EntryId
    kind: Name
    build: Name
    who: Name
    device: Name
    device_time: Time
    basis: Hash
    sheet: Hash
    kit: Hash


BODIES: dict[str, tuple[int, type[Body]]] = {
    "build-opened": (1, BuildOpened),
    "identity-read": (1, IdentityRead),
    "reading": (1, Reading),
    "pull": (1, Pull),
    "bolt-loosened": (1, BoltLoosened),
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
    "task-started": (1, TaskStarted),
    "task-paused": (1, TaskPaused),
    "task-done": (1, TaskDone),
    "part-disposition": (1, PartDisposition),
    "part-received": (1, PartReceived),
    "shop-out": (1, ShopOut),
    "shop-back": (1, ShopBack),
    "accepted": (1, AcceptedBody),
    "paused": (1, PausedBody),
    "note": (1, Note),
    "strike": (1, Strike),
}
"""Every kind of entry with its version; a kind that changes its body gets the next one."""

_HEADER = tuple(Header.model_fields)


def validated(kind: str, body: Mapping[str, Any]) -> tuple[int, dict[str, Any]]:
    """The version of a kind and the body as it goes into the book; or a refusal that lists what is wrong."""
    version, model = _model(kind)
    checked, wrong = _checked(model, body)
    if wrong:
        raise BodyRefused(kind, wrong)
    return version, checked


def validated_draft(draft: Draft) -> dict[str, Any]:
    """A whole draft as it goes into the book; or a refusal that lists what is wrong with it."""
    version, model = _model(draft.kind)
    header, wrong = _checked(Header, {name: getattr(draft, name) for name in _HEADER})
    body, wrong_body = _checked(model, draft.body)
    if wrong or wrong_body:
        raise BodyRefused(draft.kind, [*wrong, *wrong_body])
    return {**header, "version": version, "body": body}


def _model(kind: str) -> tuple[int, type[Body]]:
    if kind not in BODIES:
        raise UnknownKind(kind, tuple(BODIES))
    return BODIES[kind]


def problems(*, kind: str, version: int, body: Mapping[str, Any]) -> list[str]:
    """What is wrong with a body that stands in a book; nothing when all is well."""
    if kind not in BODIES or version != BODIES[kind][0]:
        return [f"this program does not know version {version} of `{kind}`"]
    checked, wrong = _checked(BODIES[kind][1], body)
    return wrong or ([] if checked == body else ["its body is not as it is written today"])


def _checked(model: type[Body], values: Mapping[str, Any]) -> tuple[dict[str, Any], list[str]]:
    try:
        return model.model_validate(dict(values)).model_dump(), []
    except ValidationError as error:
        return {}, [_problem(detail) for detail in error.errors(include_url=False)]


_OWN_WORDS = {
    "string_too_short": "it is empty",
    "string_too_long": "it is longer than a book takes",
    "string_unicode": "it is not readable text",
    "greater_than_equal": "it is too small",
    "less_than_equal": "it is too large",
}


def _problem(detail: Any) -> str:
    where = ".".join(map(str, detail["loc"]))
    message = _OWN_WORDS.get(detail["type"], str(detail["msg"]).removeprefix("Value error, "))
    return f"{where}: {message}" if where else message

"""The bodies of entries, one strict model per kind and version; loaded only where an entry is written."""

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from gudgeon.book import (
    bodies_engine,
    bodies_job,
    bodies_joints,
    bodies_lists,
    bodies_measuring,
    bodies_parts,
    bodies_plan,
)
from gudgeon.book.body import Body, EntryId, Hash, Name, Time
from gudgeon.book.entries import Draft, Entry
from gudgeon.book.errors import NO_TEXT, BodyRefused, UnknownKind


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


class Standing(Header):
    """What stands around a body in the book."""

    version: int
    prev: Hash
    server_time: Time


BODIES: dict[str, tuple[int, type[Body]]] = {
    "build-opened": (1, bodies_measuring.BuildOpened),
    "identity-read": (1, bodies_measuring.IdentityRead),
    "reading": (2, bodies_measuring.Reading),
    "face-scanned": (1, bodies_measuring.FaceScanned),
    "pull": (1, bodies_joints.Pull),
    "bolt-loosened": (1, bodies_joints.BoltLoosened),
    "joint-marked": (1, bodies_joints.JointMarked),
    "joint-disturbed": (1, bodies_joints.JointDisturbed),
    "provisional-made": (1, bodies_lists.ProvisionalMade),
    "provisional-cleared": (1, bodies_lists.Closed),
    "left-in": (1, bodies_lists.PutIn),
    "taken-out": (1, bodies_lists.ItemOnly),
    "plugged": (1, bodies_lists.PutIn),
    "opened": (1, bodies_lists.ItemOnly),
    "taken-off": (1, bodies_lists.TakenOff),
    "refitted": (1, bodies_lists.Refitted),
    "hold-proved": (1, bodies_job.HoldProved),
    "hold-voided": (1, bodies_job.HoldVoided),
    "timer-started": (1, bodies_job.TimerStarted),
    "sealant-laid": (1, bodies_job.SealantLaid),
    "timer-ended": (1, bodies_job.TimerEnded),
    "task-started": (1, bodies_job.TaskStarted),
    "task-paused": (1, bodies_job.TaskPaused),
    "task-done": (1, bodies_job.TaskDone),
    "part-disposition": (1, bodies_parts.PartDisposition),
    "part-received": (1, bodies_parts.PartReceived),
    "shop-out": (1, bodies_parts.ShopOut),
    "shop-back": (1, bodies_parts.ShopBack),
    "accepted": (1, bodies_parts.AcceptedBody),
    "paused": (1, bodies_job.PausedBody),
    "note": (1, bodies_job.Note),
    "odometer-read": (1, bodies_measuring.OdometerRead),
    "photo": (1, bodies_measuring.Photo),
    "joint-witnessed": (1, bodies_joints.JointWitnessed),
    "tightened-again": (1, bodies_joints.TightenedAgain),
    "looked": (1, bodies_joints.Looked),
    "engine-state": (1, bodies_engine.EngineState),
    "turned": (1, bodies_engine.Turned),
    "inspected": (1, bodies_engine.Inspected),
    "override": (1, bodies_engine.Override),
    "signed-off": (1, bodies_engine.SignedOff),
    "counted": (1, bodies_lists.Counted),
    "explained": (1, bodies_lists.Explained),
    "money": (1, bodies_parts.Money),
    "strike": (1, bodies_job.Strike),
    "job-chosen": (1, bodies_plan.JobChosen),
    "task-added": (1, bodies_plan.TaskAdded),
    "task-dropped": (1, bodies_plan.TaskDropped),
    "task-minutes": (1, bodies_plan.TaskMinutes),
    "task-order": (1, bodies_plan.TaskOrder),
    "day-planned": (1, bodies_plan.DayPlanned),
    "promised": (1, bodies_plan.Promised),
    "part-ordered": (1, bodies_plan.PartOrdered),
    "price-seen": (1, bodies_plan.PriceSeen),
    "part-age": (1, bodies_plan.PartAge),
    "part-life": (1, bodies_plan.PartLife),
    "cost-expected": (1, bodies_plan.CostExpected),
    "estimate-told": (1, bodies_plan.EstimateTold),
    "ceiling-agreed": (1, bodies_plan.CeilingAgreed),
    "approval": (1, bodies_plan.Approval),
}
"""Every kind of entry with the version that is written; a kind that changes its body gets the next one."""

EARLIER: dict[tuple[str, int], type[Body]] = {
    ("reading", 1): bodies_measuring.Reading1,
}
"""Versions that are no longer written, and are read for ever."""

_HEADER = tuple(Header.model_fields)
_STANDING = tuple(Standing.model_fields)


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


def known_bodies() -> dict[tuple[str, int], type[Body]]:
    """Every body that may stand in a book, by its kind and version."""
    return {**EARLIER, **{(kind, version): model for kind, (version, model) in BODIES.items()}}


def problems(*, kind: str, version: int, body: Mapping[str, Any]) -> list[str]:
    """What is wrong with a body that stands in a book; nothing when all is well."""
    model = known_bodies().get((kind, version))
    if model is None:
        return [f"this program does not know version {version} of `{kind}`"]
    checked, wrong = _checked(model, body)
    return wrong or ([] if checked == body else ["its body is not as it is written today"])


def header_problems(entry: Entry) -> list[str]:
    """What is wrong with what stands around a body in a book; nothing when all is well."""
    _, wrong = _checked(Standing, {name: getattr(entry, name) for name in _STANDING})
    return wrong or ([] if isinstance(entry.body, dict) else ["it has no body"])


def _checked(model: type[Body], values: Mapping[str, Any]) -> tuple[dict[str, Any], list[str]]:
    try:
        checked = model.model_validate(dict(values)).model_dump()
    except ValidationError as error:
        return {}, [_problem(detail) for detail in error.errors(include_url=False)]
    return checked, [f"{name}: {NO_TEXT}" for name, value in checked.items() if _holds_nul(value)]


def _holds_nul(value: Any) -> bool:
    """Whether the sign that ends a text in many programs stands anywhere in a value; PostgreSQL keeps no such text."""
    if isinstance(value, str):
        return "\0" in value
    if isinstance(value, Mapping):
        return any(_holds_nul(key) or _holds_nul(inner) for key, inner in value.items())
    return isinstance(value, list | tuple) and any(map(_holds_nul, value))


_OWN_WORDS = {
    "string_too_short": "it is empty",
    "string_unicode": "it is not readable text",
}
_AT_THE_LIMIT = {
    "greater_than_equal": ("too small", "ge", "more"),
    "less_than_equal": ("too large", "le", "less"),
}


def _problem(detail: Any) -> str:
    where = ".".join(map(str, detail["loc"]))
    if detail["type"] == "string_too_long":
        most = detail["ctx"]["max_length"]
        return f"{where}: it has {len(detail['input']):,} letters; a book takes at most {most:,} of it. Shorten it"
    if detail["type"] in _AT_THE_LIMIT:
        words, name, tail = _AT_THE_LIMIT[detail["type"]]
        return f"{where}: {detail['input']} is {words}; a book takes {detail['ctx'][name]:,} or {tail}"
    message = _OWN_WORDS.get(detail["type"], str(detail["msg"]).removeprefix("Value error, "))
    return f"{where}: {message}" if where else message

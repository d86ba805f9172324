"""Recording by a program: one entry at a time, each with an id of its own, so that sending twice counts once."""

from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Annotated, Any

from fastapi import APIRouter, Body
from pydantic import BaseModel, ConfigDict, Field, StrictBool, StrictInt, StrictStr
from starlette.responses import Response

from gudgeon.bench.acts import loosened_fields, pull_fields, reading_fields
from gudgeon.bench.context import Bench, entries_of, state_after
from gudgeon.bench.photos import record_with_photo
from gudgeon.bench.record import Recorded, find_entry, record
from gudgeon.bench.sent_before import as_sent_before, seen_through, told_before
from gudgeon.web.api.asking import REFUSALS, WRITES, Writing, given
from gudgeon.web.api.errors import OtherBasis
from gudgeon.web.api.kinds import fields_of, kind_named
from gudgeon.web.recording import LONGEST_WAIT

ROUTER = APIRouter(prefix="/api", tags=["The book"], responses=REFUSALS)
ID = "^[0-9a-f]{32}$"
HEAD = "^([0-9a-f]{64})?$"

Said = StrictStr | StrictBool | StrictInt | list[StrictStr] | None


class Sent(BaseModel):
    """One entry to be written."""

    model_config = ConfigDict(extra="forbid")

    id: Annotated[
        str,
        Field(pattern=ID, description="Made by the sender: 32 letters of 0-9 and a-f, anew for each entry."),
    ]
    kind: Annotated[
        str,
        Field(
            max_length=60,
            description="What is recorded: a `name` of /api/kinds.",
            examples=["note", "reading", "pull", "off", "strike"],
        ),
    ]
    fields: Annotated[
        dict[str, Said], Field(max_length=40, description="What is said of it, by the fields of its kind.")
    ]
    basis: Annotated[
        str,
        Field(
            pattern=HEAD,
            description="The `head` of the answer that was looked at: what others wrote since then is told back.",
        ),
    ] = ""
    knew: Annotated[
        list[Annotated[str, Field(pattern=ID)]],
        Field(max_length=400, description="Ids that the sender wrote itself since its basis."),
    ] = []
    ago: Annotated[
        int,
        Field(
            strict=True,
            ge=0,
            le=int(LONGEST_WAIT.total_seconds()),
            description="How many seconds ago it was done, where it had to wait.",
        ),
    ] = 0


@dataclass(frozen=True, slots=True)
class Written:
    """What the book holds now. `again` says that it was there before, and `basis` is the head to go on from."""

    entry: str
    kind: str
    said: str
    remarks: tuple[str, ...]
    basis: str
    again: bool


EXAMPLES: dict[str, Any] = {
    "a note": {
        "value": {
            "id": "0f1e2d3c4b5a69788796a5b4c3d2e1f0",
            "kind": "note",
            "fields": {"text": "The dowel of the timing cover is bent."},
        }
    },
    "a pull": {
        "value": {
            "id": "1f1e2d3c4b5a69788796a5b4c3d2e1f0",
            "kind": "pull",
            "fields": {"joint": "head", "outcome": "clicked", "setting": "40 N·m"},
        }
    },
    "an entry struck": {
        "value": {
            "id": "2f1e2d3c4b5a69788796a5b4c3d2e1f0",
            "kind": "strike",
            "fields": {"entry": "12", "why": "Written at the wrong bolt."},
        }
    },
}
AGAIN: dict[int | str, dict[str, Any]] = {
    200: {"model": Written, "description": "It was in the book before."}
}


@ROUTER.post("/entries", status_code=201, response_model=Written, responses=AGAIN, openapi_extra=WRITES)
def write(desk: Writing, sent: Annotated[Sent, Body(openapi_examples=EXAMPLES)]) -> Response:
    """Write one entry; it is on the disk when the answer comes.

    The same entry may be sent again under its id, and counts once. An entry is struck by one of the kind `strike`.
    A photo is sent by the pages, as a form with its file.
    """
    with desk.bench() as bench:
        done = _written(replace(bench, now=bench.now - timedelta(seconds=sent.ago)), sent)
        again = told_before(done.remarks)
        told = Written(done.entry, done.kind, done.said, done.remarks, state_after(bench).head, again)
    return given(told, status=200 if again else 201)


def _written(bench: Bench, sent: Sent) -> Recorded:
    of = kind_named(sent.kind)
    fields = as_sent_before(bench, sent.id, kind=of.kind, fields=fields_of(of, sent.fields))
    basis = _basis(bench, sent)
    if of.kind == "reading":
        fields = reading_fields({**fields, "unit": ""})
    elif of.kind == "pull":
        fields = pull_fields(bench, fields)
    elif of.kind == "bolt-loosened":
        fields = loosened_fields(bench, fields)
    elif of.kind == "strike":
        fields = {**fields, "entry": find_entry(bench, fields["entry"])}
    elif of.kind == "hold-proved":
        fields.pop("photo")
        return record_with_photo(bench, of.kind, fields, sent=None, entry_id=sent.id, basis=basis)
    return record(bench, of.kind, fields, entry_id=sent.id, basis=basis)


def _basis(bench: Bench, sent: Sent) -> str | None:
    """What the sender had seen; nothing said means that it had not looked."""
    if not sent.basis and sent.ago:
        return ""  # what it had seen when it was written nobody knows
    if not sent.basis:
        return None
    if all(one.hash != sent.basis for one in entries_of(bench)):
        raise OtherBasis(sent.basis)
    return seen_through(bench, sent.basis, own=frozenset(sent.knew)) if sent.knew else sent.basis

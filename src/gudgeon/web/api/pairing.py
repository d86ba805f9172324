"""Letting a program in: with a code that was made for it, once."""

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Body, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import Response

from gudgeon.bench.context import clock
from gudgeon.web.api.asking import OPEN, REFUSALS, given
from gudgeon.web.desk import Desk
from gudgeon.web.devices import CodeRefused

ROUTER = APIRouter(prefix="/api", tags=["Devices"], responses=REFUSALS)


class Asks(BaseModel):
    """Who wants to be let in."""

    model_config = ConfigDict(extra="forbid")

    code: Annotated[
        str,
        Field(
            max_length=80,
            description="The code that `gudgeon devices --invite` made.",
            examples=["K7WM 42PX"],
        ),
    ]
    name: Annotated[
        str, Field(max_length=200, description="What its entries call it.", examples=["dial reader"])
    ]
    who: Annotated[str, Field(max_length=200, description="Whose hand it is.", examples=["Robin"])]


@dataclass(frozen=True, slots=True)
class LetIn:
    """A paired device. `secret` is told this once: keep it as you keep a key."""

    device: str
    key: str
    secret: str


@ROUTER.post("/pair", status_code=201, response_model=LetIn, openapi_extra=OPEN)
def pair(request: Request, asks: Annotated[Asks, Body()]) -> Response:
    """Pair a program: a code is good once and for ten minutes.

    What comes back as `secret` is sent from then on in the header `Authorization: Bearer SECRET`.
    """
    desk: Desk = request.app.state.desk
    door, now = desk.door, clock()
    door.knocks.look(now)
    try:
        device, secret = door.devices.pair(asks.code, name=asks.name, who=asks.who, now=now)
    except CodeRefused:
        door.knocks.wrong(now)
        raise
    return given(LetIn(device.name, device.key, secret), status=201)

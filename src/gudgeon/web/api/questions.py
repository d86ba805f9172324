"""The questions of the bench, one address for each; the answers are those of the terminal with --json."""

from typing import Annotated, Literal

from fastapi import APIRouter, Path, Query
from starlette.responses import Response

from gudgeon.bench.changed import Changes, changes
from gudgeon.bench.costs.costs import costs
from gudgeon.bench.costs.model import Costs
from gudgeon.bench.good import Inspection, inspect
from gudgeon.bench.now import Now, now
from gudgeon.bench.open_lists import OpenLists, open_lists
from gudgeon.bench.photos import Photos, photos_report
from gudgeon.bench.pull_list import JointCard, JointList, all_joints, card, loosening_card
from gudgeon.bench.ready import Readiness, ready
from gudgeon.bench.reuse import ReuseAnswer, reuse
from gudgeon.web.api.asking import READING_REFUSALS, READS, Reading, answered

ROUTER = APIRouter(prefix="/api", tags=["Questions"], responses=READING_REFUSALS)
Milestone = Literal["crank", "fire", "drive", "handover"]
JOINT = Path(description="The joint, by its key in the data sheet.", examples=["head"])
BOLTS_ARE = Query(
    description="Whether the bolts are new or used, where the program differs and the book does not say."
)


@ROUTER.get("/now", response_model=Now, openapi_extra=READS)
def what_now(desk: Reading) -> Response:
    """What do I do now? What is in hand, what may be begun, what runs by itself, what waits and for what."""
    return answered(desk, now)


@ROUTER.get("/ready", response_model=Readiness, openapi_extra=READS)
def may_i_start(
    desk: Reading,
    before: Annotated[Milestone, Query(alias="for", description="Before which milestone.")] = "crank",
) -> Response:
    """May I start it? Yes, or every reason why not, with what closes it."""
    return answered(desk, lambda bench: ready(bench, milestone=before))


@ROUTER.get("/open", response_model=OpenLists, openapi_extra=READS)
def what_is_open(desk: Reading) -> Response:
    """What is open? Provisional, left in, plugged and left over; and what was counted off and on."""
    return answered(desk, open_lists)


@ROUTER.get("/joints", response_model=JointList, openapi_extra=READS)
def joints(desk: Reading) -> Response:
    """Every bolted joint and how far it is."""
    return answered(desk, all_joints)


@ROUTER.get("/joints/{joint}", response_model=JointCard, openapi_extra=READS)
def one_joint(
    desk: Reading,
    joint: Annotated[str, JOINT],
    *,
    loosening: Annotated[bool, Query(description="How it is taken apart, instead of tightened.")] = False,
    bolts_are: Annotated[Literal["", "new", "used"], BOLTS_ARE] = "",
) -> Response:
    """What do I set? The stages with tool and setting, and every pull in its order, from where the book stands."""
    return answered(
        desk,
        lambda bench: loosening_card(bench, joint) if loosening else card(bench, joint, bolts_are=bolts_are),
    )


@ROUTER.get("/joints/{joint}/reuse", response_model=ReuseAnswer, openapi_extra=READS)
def bolts_again(desk: Reading, joint: Annotated[str, JOINT]) -> Response:
    """Which bolts of a joint may be used again, and by which rule."""
    return answered(desk, lambda bench: reuse(bench, joint))


@ROUTER.get("/judge", response_model=Inspection, openapi_extra=READS)
def is_it_good(
    desk: Reading,
    item: Annotated[
        str | None,
        Query(description="One characteristic by its key, or the parts whose names hold these words."),
    ] = None,
) -> Response:
    """Is it good? Every characteristic with its readings, its limits and a verdict in words."""
    return answered(desk, lambda bench: inspect(bench, only=item))


@ROUTER.get("/changes", response_model=Changes, openapi_extra=READS)
def what_changed(desk: Reading) -> Response:
    """What was made against a figure of the sheet or the kit that is no longer so."""
    return answered(desk, changes)


@ROUTER.get("/money", response_model=Costs, openapi_extra=READS)
def money(
    desk: Reading,
    *,
    closing: Annotated[bool, Query(description="The closing account before it is handed over.")] = False,
) -> Response:
    """What will it cost? A range for each currency, line by line; the ceiling, what is spent, what has no amount."""
    return answered(desk, lambda bench: costs(bench, closing=closing))


@ROUTER.get("/photos", response_model=Photos, openapi_extra=READS)
def photos(desk: Reading) -> Response:
    """The photos of the book, each file read to its end. They are sent by the pages, as forms with a file."""
    return answered(desk, photos_report)

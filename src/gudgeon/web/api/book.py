"""The book: what was done, entry by entry, and what can be recorded."""

from typing import Annotated

from fastapi import APIRouter, Path, Query
from starlette.responses import Response

from gudgeon.bench.entry_pages import EntryPage, WholeEntry, entry_page, whole_entry
from gudgeon.bench.recordable_inputs import Recordable
from gudgeon.web.api.asking import READING_REFUSALS, READS, Reading, answered, given
from gudgeon.web.api.kinds import KINDS

ROUTER = APIRouter(prefix="/api", tags=["The book"], responses=READING_REFUSALS)
MOST = 1_000


@ROUTER.get("/entries", response_model=EntryPage, openapi_extra=READS)
def entries(
    desk: Reading,
    after: Annotated[
        int, Query(ge=0, le=2**53, description="The number of the last entry that is known; 0 for none.")
    ] = 0,
    limit: Annotated[int, Query(ge=1, le=MOST, description="How many entries at most.")] = 100,
) -> Response:
    """What was done? The book read on from an entry; `next` is what to say as `after` for the following ones."""
    return answered(desk, lambda bench: entry_page(bench, after=after, most=limit))


@ROUTER.get("/entries/{entry}", response_model=WholeEntry, openapi_extra=READS)
def one_entry(
    desk: Reading,
    entry: Annotated[
        str, Path(description="Its number, its id, or the first letters of it.", examples=["1"])
    ],
) -> Response:
    """One entry whole, as it stands in the book, with what it says in words."""
    return answered(desk, lambda bench: whole_entry(bench, entry))


@ROUTER.get("/kinds", response_model=list[Recordable], openapi_extra=READS)
def kinds(desk: Reading) -> Response:
    """What can be recorded, and what is said of each: `name` is the kind to send, `inputs` are its fields."""
    return given(KINDS)

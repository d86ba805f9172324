"""What the bench works out of the sheet and the readings: cut, fits, shims, timing, the first run, the sheet itself."""

from typing import Annotated

from fastapi import APIRouter, Query
from starlette.responses import Response

from gudgeon.bench.buying.ask import buy
from gudgeon.bench.buying.model import BuyAnswer
from gudgeon.bench.cut.consequences import CutAnswer, consequences
from gudgeon.bench.fits.answer import FitsAnswer
from gudgeon.bench.fits.ask import fits
from gudgeon.bench.running.answers import Running
from gudgeon.bench.running.question import running
from gudgeon.bench.sheet_answer import SheetAnswer, sheet_answer
from gudgeon.bench.shims.model import ShimAnswer
from gudgeon.bench.shims.shims import shims
from gudgeon.bench.timing.answer import TimingAnswer, timing
from gudgeon.web.api.asking import READING_REFUSALS, READS, Reading, answered

ROUTER = APIRouter(prefix="/api", tags=["Questions"], responses=READING_REFUSALS)


@ROUTER.get("/cut", response_model=CutAnswer, openapi_extra=READS)
def what_cut_does(
    desk: Reading,
    off: Annotated[
        str | None,
        Query(
            description="A cut of the head as found (else the one in the book).",
            openapi_examples={"metric": {"value": "0.2 mm"}},
        ),
    ] = None,
    gasket: Annotated[str | None, Query(description="With this head gasket of the data sheet.")] = None,
) -> Response:
    """What does the cut do? The least, the most, which limit binds, and all that follows."""
    return answered(desk, lambda bench: consequences(bench, off=off, gasket=gasket))


@ROUTER.get("/timing", response_model=TimingAnswer, openapi_extra=READS)
def is_it_timed(
    desk: Reading,
    seen: Annotated[
        list[str],
        Query(
            max_length=40,
            description="Marks seen off, like `intake: half a tooth late`; may be said more than once.",
        ),
    ] = [],  # noqa: B006  (never changed)
) -> Response:
    """Is it timed? Wheels, marks, teeth, events, and whether two turns by hand are proved."""
    return answered(desk, lambda bench: timing(bench, seen_off=seen))


@ROUTER.get("/buy", response_model=BuyAnswer, openapi_extra=READS)
def what_to_buy(
    desk: Reading,
    *,
    no_delay: Annotated[
        bool, Query(description="Only what delays nothing, instead of the least cost.")
    ] = False,
) -> Response:
    """What do I buy? What becomes of every part, the list, from whom, what is used up, which tools are lacking."""
    return answered(desk, lambda bench: buy(bench, no_delay=no_delay))


@ROUTER.get("/shims", response_model=ShimAnswer, openapi_extra=READS)
def which_shims(desk: Reading) -> Response:
    """Which shim goes where: as few bought as can be, and the moves in their order."""
    return answered(desk, shims)


@ROUTER.get("/fits", response_model=FitsAnswer, openapi_extra=READS)
def what_fits(
    desk: Reading,
    *,
    what: Annotated[str | None, Query(description="One fit (else all of them).")] = None,
    codes: Annotated[
        list[str],
        Query(max_length=40, description="Codes stamped on the engine for a bearing, like `main: A1 B2 A1`."),
    ] = [],  # noqa: B006  (never changed)
    shells: Annotated[
        list[str],
        Query(max_length=40, description="The shells that are in it now, like `main: red blue red`."),
    ] = [],  # noqa: B006  (never changed)
) -> Response:
    """What fits where: shells by grade, parts matched to places, rings among the bores, equal weights."""
    return answered(desk, lambda bench: fits(bench, what=what, codes=codes, shells=shells))


@ROUTER.get("/running", response_model=Running, openapi_extra=READS)
def does_it_run_right(
    desk: Reading,
    left_in: Annotated[str, Query(description="Coolant still in the system, like `2 L`.")] = "",
    glycol: Annotated[str, Query(description="How much glycol that holds, like `30 percent`.")] = "",
) -> Response:
    """Does it run right? Cranking pressure, leak-down, oil pressure, coolant, what comes due later."""
    return answered(desk, lambda bench: running(bench, left_in=left_in, glycol_in_it=glycol))


@ROUTER.get("/sheet", response_model=SheetAnswer, openapi_extra=READS)
def the_sheet(desk: Reading) -> Response:
    """The data sheet proof-read: what does not agree in it, and what is not stated."""
    return answered(desk, sheet_answer)

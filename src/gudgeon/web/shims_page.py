"""Which shim goes where."""

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.shims.shims import shims
from gudgeon.web.desk import Address, Asked, Desk


def which_shim(desk: Desk, asked: Asked) -> Response:
    """The shims of all valves, with the moves and what to buy."""
    with desk.bench() as bench:
        return desk.page(
            "shims.html", bench=bench, asked=asked, answer=shims(bench), sources=bench.sheet.sources
        )


def shims_decide(bench: Bench, item: str) -> bool:
    """Whether the readings of a characteristic are what the choice of shims rests on."""
    gear = bench.sheet.valve_gear
    if gear is None or gear.adjustment not in ("shims", "screw adjusters"):
        return False
    sides = [side for side in (gear.intake, gear.exhaust) if side is not None]
    return any(item in (side.clearance, side.shim) for side in sides)


ADDRESSES = (Address("/timing/shims", which_shim),)

"""The kit, read only: it is written in its file."""

from starlette.responses import Response

from gudgeon.bench.kit_view import KitAnswer, kit_answer
from gudgeon.web.desk import Address, Asked, Desk


def what_he_owns(desk: Desk, asked: Asked) -> Response:
    """The kit: wrenches, gauges, tools for turning, shims in stock, hours and rates."""
    with desk.bench() as bench:
        answer = kit_answer(bench)
        return desk.page("kit.html", bench=bench, asked=asked, answer=answer, told_here=_told_here(answer))


def _told_here(answer: KitAnswer) -> set[str]:
    """The groups with a warning that the notice of checks that are due does not tell: these stand open."""
    return {
        title
        for title, owned in answer.groups
        if any(f"{one.name}: {said}" not in answer.due for one in owned for said in one.warnings)
    }


ADDRESSES = (Address("/kit", what_he_owns),)

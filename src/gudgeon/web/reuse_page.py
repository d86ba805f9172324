"""Which bolts of a joint may be used again."""

from starlette.responses import Response

from gudgeon.bench.reuse import reuse
from gudgeon.web.desk import Address, Asked, Desk


def used_again(desk: Desk, asked: Asked) -> Response:
    """Every bolt of a joint, judged by the rules of the sheet for using it again."""
    with desk.bench() as bench:
        answer = reuse(bench, asked.path["joint"])
        return desk.page("reuse.html", bench=bench, asked=asked, answer=answer)


ADDRESSES = (Address("/set/{joint}/again", used_again),)

"""The questions that need no form of their own."""

from starlette.responses import Response

from gudgeon.bench.now import now
from gudgeon.web.desk import Address, Asked, Desk


def what_now(desk: Desk, asked: Asked) -> Response:
    """What do I do now?"""  # noqa: D400  (the question is the sentence)
    with desk.bench() as bench:
        return desk.page("now.html", bench=bench, asked=asked, answer=now(bench))


ADDRESSES = (Address("/", what_now),)

"""The questions whose pages only show: now, the cut, may I start it, what is open."""

from starlette.responses import Response

from gudgeon.bench.cut import consequences
from gudgeon.bench.errors import Unknown
from gudgeon.bench.now import now
from gudgeon.bench.open_lists import open_lists
from gudgeon.bench.ready import MILESTONES, WORDS, ready
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk


def what_now(desk: Desk, asked: Asked) -> Response:
    """Answer “What do I do now?”."""
    with desk.bench() as bench:
        return desk.page("now.html", bench=bench, asked=asked, answer=now(bench))


def what_the_cut_does(desk: Desk, asked: Asked) -> Response:
    """Answer “What does the cut do?”, for the cut that was made or for one asked about."""
    off = asked.query.get("off", "").strip()
    with desk.bench() as bench:
        try:
            answer, error, status = consequences(bench, off=off or None), None, 200
        except GudgeonError as refused:
            answer, error, status = None, refused, 422
        return desk.page(
            "cut.html", bench=bench, asked=asked, status=status, answer=answer, error=error, off=off
        )


def may_i_start(desk: Desk, asked: Asked) -> Response:
    """Answer “May I start it?” for one milestone."""
    with desk.bench() as bench:
        answer = ready(bench, milestone=milestone_of(asked))
        families: dict[str, list[object]] = {}
        for reason in answer.reasons:
            families.setdefault(reason.family, []).append(reason)
        return desk.page(
            "start.html", bench=bench, asked=asked, answer=answer, families=families, milestones=WORDS
        )


def milestone_of(asked: Asked) -> str:
    """The milestone that was asked for: turning it with the starter where none is named."""
    milestone = asked.query.get("for", "crank")
    if milestone not in MILESTONES:
        raise Unknown("milestone", milestone, MILESTONES)
    return milestone


def what_is_open(desk: Desk, asked: Asked) -> Response:
    """The four open lists, each item with what closes it."""
    with desk.bench() as bench:
        return desk.page("open.html", bench=bench, asked=asked, answer=open_lists(bench))


ADDRESSES = (
    Address("/", what_now),
    Address("/cut", what_the_cut_does),
    Address("/start", may_i_start),
    Address("/open", what_is_open),
)

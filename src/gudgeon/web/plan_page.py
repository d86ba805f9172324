"""The plan, asked as “When will it run?”.

The plan takes a second or two, its date as a range some more: both are worked out beside the pages and kept. The plan
is shown as soon as it is there, and says how far the range is; without a script the page looks again by itself.
"""

from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.book.tell import Tell
from gudgeon.errors import GudgeonError, InputError
from gudgeon.web.desk import Address, Asked, Desk, go
from gudgeon.web.work import From, Result, TooMuchAtOnce, Work

if TYPE_CHECKING:
    from gudgeon.bench.pictures.bars import BarsPicture
    from gudgeon.bench.planning.answer import Distribution, PlanAnswer

HERE = From("/when", "When will it run?")
KEPT_MINUTES = 15
"""So long a plan is taken for one of now."""


@dataclass(frozen=True, slots=True)
class PlanAsked:
    """What a plan depends on, for whoever asks again a moment later; `simulated` where its date is a range too."""

    build: str
    head: str
    sheet: str
    kit: str
    quarter: int
    simulated: bool

    @classmethod
    def of(cls, bench: Bench, *, simulated: bool) -> "PlanAsked":
        """What is asked now."""
        quarter = int(bench.now.timestamp()) // (60 * KEPT_MINUTES)
        papers = bench.papers
        return cls(bench.build, bench.state.head, papers.sheet_sha, papers.kit_sha, quarter, simulated)


def when_will_it_run(desk: Desk, asked: Asked) -> Response:
    """Answer “When will it run?”: the date as a range, the next free time, bars over real days, what drives the date.

    `?again=yes` asks for the range once more where it was stopped or failed.
    """
    from gudgeon.bench.planning.question import known_answer, plan_answer

    with desk.bench() as bench:
        if known_answer(bench) is not None:
            return _page(desk, asked, bench, plan_answer(bench))
        question = PlanAsked.of(bench, simulated=True)
    found = _plan(desk)
    if isinstance(found, Work):
        return go(f"/under-way/{found.id}")
    answer = None if isinstance(found, GudgeonError) else found
    work = (
        _range(desk, question, again="again" in asked.query) if answer is not None and answer.dated else None
    )
    with desk.bench() as bench:
        if isinstance(found, GudgeonError):
            return _page(desk, asked, bench, None, error=found)
        if work is not None and work.state == "done":
            return _page(desk, asked, bench, plan_answer(bench))
        return _page(desk, asked, bench, found, work=work)


def _page(
    desk: Desk,
    asked: Asked,
    bench: Bench,
    answer: "PlanAnswer | None",
    *,
    work: Work | None = None,
    error: GudgeonError | None = None,
) -> Response:
    from gudgeon.bench.pictures.bars import bars_picture
    from gudgeon.bench.pictures.bars_weeks import weeks_picture

    found = answer.distribution if answer is not None else None
    bars = answer.bars if answer is not None else ()
    return desk.page(
        "when.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=answer,
        work=work,
        between=_between(found, bench),
        drawn=bars_picture(answer) if answer is not None else None,
        weeks=weeks_picture(found) if found is not None else None,
        by_phase=[(name, list(some)) for name, some in groupby(bars, key=lambda one: one.phase)],
        error=error,
    )


def _between(found: "Distribution | None", bench: Bench) -> tuple[str, str] | None:
    """The days between which 8 of 10 lie; the second is empty where it lies beyond the days that were planned."""
    from gudgeon.bench.planning.words import day_words

    if found is None or found.early is None:
        return None
    first, last = (
        day_words(one.astimezone().date(), now=bench.now) if one is not None else ""
        for one in (found.early, found.late)
    )
    return (first, last)


def _plan(desk: Desk) -> "PlanAnswer | Work | GudgeonError":
    """The plan where it is kept or found within a second; else the work on it, or why it is refused."""
    with desk.bench() as bench:
        question = PlanAsked.of(bench, simulated=False)
    kept: PlanAnswer | None = desk.kept.of(question)
    if kept is not None:
        return kept

    def do(_: Path, tell: Tell) -> Result:
        tell("laying the work into your hours")
        answer = _answer(desk, simulate=False)
        desk.kept.keep(question, answer)
        return Result(answer, then=HERE.address)

    try:
        work = desk.works.start("The plan", kind="plan", do=do, begun_from=HERE, same=repr(question))
    except TooMuchAtOnce as busy:
        return busy
    if work.fault is not None:
        return work.fault
    found: PlanAnswer | None = work.result.answer
    return found if work.state == "done" and found is not None else work


def _range(desk: Desk, question: PlanAsked, *, again: bool) -> Work | None:
    """The work on the date as a range, begun or joined; one that was stopped or failed is begun `again` when asked."""
    before = desk.works.of(desk.kept.of(("range", question)) or "")
    if before is not None and not again:
        return before

    def do(_: Path, tell: Tell) -> Result:
        tell("trying how it goes when work takes longer, parts come late and something goes wrong")
        return Result(_answer(desk, simulate=True), then=HERE.address)

    try:
        work = desk.works.start(
            "How sure the date is", kind="plan", do=do, begun_from=HERE, same=repr(question), patient=False
        )
    except TooMuchAtOnce:
        return None
    desk.kept.keep(("range", question), work.id)
    return work


def _answer(desk: Desk, *, simulate: bool) -> "PlanAnswer":
    """The plan as the book stands; the same is not worked out again."""
    from gudgeon.bench.planning.question import known_answer, plan_answer

    with desk.bench() as bench:
        return plan_answer(bench, simulate=simulate or known_answer(bench) is not None)


class NothingPlanned(InputError):
    """A drawing or a calendar of a plan in which no day is planned."""

    def __init__(self) -> None:
        super().__init__(
            "Nothing is planned on any day, so there is nothing to show of it. The question “When will it run?” says "
            "what is missing."
        )


def bars_drawn(desk: Desk, asked: Asked) -> Response:
    """The plan over real days, week below week, as SVG."""
    from gudgeon.paper.svg_bars import bars_svg

    return _svg(bars_svg(_bars(desk)))


def bars_drawn_wide(desk: Desk, asked: Asked) -> Response:
    """The plan over real days, all weeks side by side, as SVG."""
    from gudgeon.paper.svg_bars import bars_wide_svg

    return _svg(bars_wide_svg(_bars(desk)))


def _bars(desk: Desk) -> "BarsPicture":
    from gudgeon.bench.pictures.bars import bars_picture

    picture = bars_picture(_answer(desk, simulate=False))
    if picture is None:
        raise NothingPlanned
    return picture


def weeks_drawn(desk: Desk, asked: Asked) -> Response:
    """How many of 100 simulated plans reach the first start in each week, as SVG."""
    from gudgeon.bench.pictures.bars_weeks import weeks_picture
    from gudgeon.paper.svg_bars_weeks import weeks_svg

    found = _answer(desk, simulate=True).distribution
    if found is None:
        raise NothingPlanned
    return _svg(weeks_svg(weeks_picture(found)))


def calendar(desk: Desk, asked: Asked) -> Response:
    """The times at the engine and the days of promises as a calendar file (RFC 5545)."""
    from gudgeon.bench.planning.calendar_file import calendar_file

    answer = _answer(desk, simulate=False)
    if not answer.dated:
        raise NothingPlanned
    return Response(
        calendar_file(answer),
        media_type="text/calendar; charset=utf-8",
        headers={"Content-Disposition": 'attachment; filename="engine.ics"'},
    )


def _svg(drawn: str) -> Response:
    return Response(drawn, media_type="image/svg+xml", headers={"Content-Disposition": "inline"})


ADDRESSES = (
    Address("/when", when_will_it_run),
    Address("/when/bars.svg", bars_drawn),
    Address("/when/bars-wide.svg", bars_drawn_wide),
    Address("/when/weeks.svg", weeks_drawn),
    Address("/when.ics", calendar),
)

"""What limits the clamp of a joint, and what would change it.

The answer takes a second or more: it is worked out beside the pages, and kept for whoever asks the same again. Who has
to wait sees how far it is, and can stop it.
"""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote, urlencode

from starlette.responses import Response

from gudgeon.bench.clamp_asked import TRIALS, ClampAsked, clamp_asked
from gudgeon.bench.context import Bench
from gudgeon.book.tell import Tell
from gudgeon.errors import InputError
from gudgeon.web.desk import Address, Asked, Desk, go
from gudgeon.web.work import From, Result, Work

if TYPE_CHECKING:
    from gudgeon.bench.clamp import Clamp

MORE = ((TRIALS, "10,000, as usual"), (25_000, "25,000"), (50_000, "50,000"))
"""How many tightenings a page may ask for, with their words."""


def what_limits(desk: Desk, asked: Asked) -> Response:
    """How far the clamp of a joint scatters and where that comes from; `?if=` asks what would change it.

    `?trials=` asks for more tightenings. What takes longer than a page should is seen on its way.
    """
    what_if, trials = asked.query.get("if", ""), _trials(asked)
    error = None
    with desk.bench() as bench:
        question = _question(bench, asked, what_if=what_if)
    then = f"{asked.address}?{urlencode({'trials': trials, 'if': what_if})}"
    found = _answer(desk, question, then=then)
    if isinstance(found, InputError) and what_if:
        error, found = found, _answer(desk, replace(question, what_if=()), then=then)
    if isinstance(found, Work):
        return go(f"/under-way/{found.id}")
    if isinstance(found, InputError):
        raise found
    with desk.bench() as bench:
        return desk.page(
            "clamp.html",
            bench=bench,
            asked=asked,
            status=200 if error is None else 422,
            answer=found,
            what_if=what_if,
            trials=trials,
            more=[(str(number), words) for number, words in MORE],
            error=error,
        )


def drawn(desk: Desk, asked: Asked) -> Response:
    """The band of each bolt after the last stage, as SVG."""
    from gudgeon.bench.clamp import clamp  # it takes numpy, which no other page needs
    from gudgeon.bench.pictures.clamp import clamp_picture
    from gudgeon.paper.svg_clamp import clamp_svg

    with desk.bench() as bench:
        question = _question(bench, asked, what_if=asked.query.get("if", ""))
        answer = desk.kept.of(question) or clamp(bench, question.joint, trials=question.trials)
    svg = clamp_svg(clamp_picture(answer))
    return Response(svg, media_type="image/svg+xml", headers={"Content-Disposition": "inline"})


def _trials(asked: Asked) -> int:
    """How many tightenings are asked for; the usual number where that is none of those that are offered."""
    said = asked.query.get("trials", "")
    return next((number for number, _ in MORE if str(number) == said), TRIALS)


def _question(bench: Bench, asked: Asked, *, what_if: str) -> ClampAsked:
    return clamp_asked(
        bench, asked.path["joint"], what_if=(what_if,) if what_if else (), trials=_trials(asked)
    )


def _answer(desk: Desk, question: ClampAsked, *, then: str) -> "Clamp | Work | InputError":
    """The answer where it is kept or found within a second; else the work on it, or why it is refused."""
    kept: Clamp | None = desk.kept.of(question)
    if kept is not None:
        return kept

    def do(_: Path, tell: Tell) -> Result:
        from gudgeon.bench.clamp import clamp  # as above

        with desk.bench() as bench:
            now = clamp_asked(bench, question.joint, what_if=question.what_if, trials=question.trials)
            answer = clamp(bench, now.joint, what_if=now.what_if, trials=now.trials, tell=tell)
        desk.kept.keep(now, answer)
        return Result(answer, then=then)

    work = desk.works.start(
        f"What limits the clamp: {question.trials:,} tightenings",
        kind="clamp",
        do=do,
        begun_from=From(f"/set/{quote(question.joint, safe='')}", "The joint"),
        same=repr(question),
    )
    if isinstance(work.fault, InputError):
        return work.fault
    found: Clamp | None = work.result.answer
    return found if work.state == "done" and found is not None else work


ADDRESSES = (
    Address("/set/{joint}/clamp", what_limits),
    Address("/set/{joint}/clamp.svg", drawn),
)

"""The questions whose pages only show: now, the cut, may I start it, what is open."""

from starlette.responses import Response

from gudgeon.bench.changed import changes
from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.errors import CannotWorkOut, Unknown
from gudgeon.bench.gaps import Gap, gaps
from gudgeon.bench.now import now
from gudgeon.bench.open_lists import open_lists
from gudgeon.bench.ready import ready
from gudgeon.bench.reason import MILESTONES, WORDS
from gudgeon.bench.stops import Stop
from gudgeon.errors import GudgeonError
from gudgeon.web.commands import command_link
from gudgeon.web.desk import Address, Asked, Desk, own_address


def what_now(desk: Desk, asked: Asked) -> Response:
    """Answer “What do I do now?”."""
    with desk.bench() as bench:
        standing = {task for task, one in bench.state.tasks.items() if one.status == "paused"}
        answer = now(bench)
        back_to = stopped_at(answer.stop) if answer.stop is not None else ""
        return desk.page(
            "now.html", bench=bench, asked=asked, answer=answer, standing=standing, back_to=back_to
        )


def stopped_at(stop: Stop) -> str:
    """The page on which he stopped: the address that was kept, else the page of the command, else the joint's."""
    link = command_link(stop.command)
    kept = own_address(stop.screen, otherwise="")
    return kept or (link.address if link is not None else "") or "/"


_RESTS_ON = frozenset(
    f"cylinder.{name}"
    for name in (
        "bore", "stroke", "chamber_volume", "chamber_mouth_area", "crown_volume", "piston_height",
        "gasket_bore", "gasket_thickness",
    )
)  # fmt: skip
"""Without these no ratio; a squish that cannot be worked out leaves the ratio."""


def what_the_cut_does(desk: Desk, asked: Asked) -> Response:
    """Answer “What does the cut do?”, for the cut that was made or for one asked about."""
    off = asked.query.get("off", "").strip()
    with desk.bench() as bench:
        answer, lacking, status = None, list[Gap](), 200
        error: GudgeonError | None = None
        try:
            answer = consequences(bench, off=off or None)
        except CannotWorkOut as refused:
            error, lacking = refused, [one for one in gaps(bench.sheet) if one.path in _RESTS_ON]
        except GudgeonError as refused:
            error, status = refused, 422
        head = bench.sheet.head
        return desk.page(
            "cut.html",
            bench=bench,
            asked=asked,
            status=status,
            answer=answer,
            error=error,
            lacking=lacking,
            measured_as=head.measured_as if isinstance(error, CannotWorkOut) and head is not None else None,
            off=off,
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


def what_has_changed(desk: Desk, asked: Asked) -> Response:
    """Every figure of sheet or kit that something was made against and that is no longer so."""
    with desk.bench() as bench:
        return desk.page("changes.html", bench=bench, asked=asked, answer=changes(bench))


ADDRESSES = (
    Address("/", what_now),
    Address("/changes", what_has_changed),
    Address("/cut", what_the_cut_does),
    Address("/start", may_i_start),
    Address("/open", what_is_open),
)

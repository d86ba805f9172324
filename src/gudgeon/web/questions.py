"""The questions whose pages only show: now, may I start it, what is open."""

from datetime import datetime, timedelta

from starlette.responses import Response

from gudgeon.bench.changed import changes
from gudgeon.bench.errors import Unknown
from gudgeon.bench.now import now
from gudgeon.bench.open_lists import open_lists
from gudgeon.bench.ready import ready
from gudgeon.bench.reason import MILESTONES, WORDS
from gudgeon.bench.stops import Stop
from gudgeon.web.commands import command_link
from gudgeon.web.desk import Address, Asked, Desk, own_address

PAIRED_ANEW = timedelta(seconds=30)
"""So long the first page tells a device under which name it was paired."""


def what_now(desk: Desk, asked: Asked) -> Response:
    """Answer “What do I do now?”."""
    with desk.bench() as bench:
        standing = {task for task, one in bench.state.tasks.items() if one.status == "paused"}
        answer = now(bench)
        back_to = stopped_at(answer.stop) if answer.stop is not None else ""
        return desk.page(
            "now.html",
            bench=bench,
            asked=asked,
            answer=answer,
            standing=standing,
            back_to=back_to,
            just_paired=_just_paired(asked, now=bench.now),
        )


def _just_paired(asked: Asked, *, now: datetime) -> bool:
    """Whether the device that asks was paired a moment ago, and is told so."""
    holder = asked.seen.holder
    return holder is not None and timedelta(0) <= now - holder.device.paired < PAIRED_ANEW


def stopped_at(stop: Stop) -> str:
    """The page on which he stopped: the address that was kept, else the page of the command, else the joint's."""
    link = command_link(stop.command)
    kept = own_address(stop.screen, otherwise="")
    return kept or (link.address if link is not None else "") or "/"


def may_i_start(desk: Desk, asked: Asked) -> Response:
    """Answer “May I start it?” for one milestone."""
    with desk.bench() as bench:
        answer = ready(bench, milestone=milestone_of(asked))
        families: dict[str, list[object]] = {}
        for reason in answer.reasons:
            families.setdefault(reason.family, []).append(reason)
        return desk.page(
            "start.html",
            bench=bench,
            asked=asked,
            answer=answer,
            families=families,
            milestones=WORDS,
            sources=bench.sheet.sources,
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
    Address("/start", may_i_start),
    Address("/open", what_is_open),
)

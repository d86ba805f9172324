"""What will it cost? One account for each currency, what has no amount yet, and his own hours apart."""

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.costs.account import Asked, account
from gudgeon.bench.costs.facts import currencies, facts
from gudgeon.bench.costs.hours import own_hours
from gudgeon.bench.costs.missing import missing
from gudgeon.bench.costs.model import Costs
from gudgeon.bench.costs.money import payments, sums
from gudgeon.bench.costs.ranges import behind
from gudgeon.bench.costs.said import ceilings, told
from gudgeon.bench.costs.where import where
from gudgeon.bench.network import job, job_named

QUESTION = "What will it cost?"


def costs(bench: Bench, *, closing: bool = False) -> Costs:
    """Everything about the money of a build; the closing account once it is handed over, or where it is asked for."""
    found, agreed, said = facts(bench), ceilings(bench), told(bench)
    at = where(bench, words=found.words, told=said)
    closed = closing or at.handed_over
    known = currencies(found, more=[*(one.currency for one in agreed), *(one.currency for one in said)])
    first = next((one.hash for one in entries_of(bench)), "")
    accounts = tuple(
        account(Asked(found, one, said, agreed, at, first, one == known[0], closed)) for one in known
    )
    return Costs(
        heading=bench.heading(QUESTION),
        job=job(job_named(bench.state)).name,
        where=at.words,
        reached=at.point,
        accounts=accounts,
        missing=missing(bench, found),
        hours=own_hours(bench, minutes_left=at.minutes_left),
        payments=payments(bench),
        sums=sums(bench),
        over=any(one.over for one in accounts),
        closed=closed,
        behind=behind(first),
    )

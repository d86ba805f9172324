"""What do I buy? Every part and what becomes of it, the list, from whom, what is used up, what is lacking."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date

from gudgeon.bench.buying.counts import counted
from gudgeon.bench.buying.disposing import dispositions, part_names
from gudgeon.bench.buying.grounds import Judged, judged
from gudgeon.bench.buying.lines import Need, Work, in_order, line_of, needs, to_order
from gudgeon.bench.buying.market import Market, asked_for, known_price, market_of
from gudgeon.bench.buying.model import (
    COMPARED,
    FITTED,
    LATE,
    ORDERED,
    RECEIVED,
    STATES,
    TO_ORDER,
    BuyAnswer,
    Buying,
    Disposition,
    Line,
)
from gudgeon.bench.buying.of_job import left_out
from gudgeon.bench.buying.part_tasks import task_for
from gudgeon.bench.buying.purchase import Wanted, purchases
from gudgeon.bench.buying.said import SaidOfPart, said_of_parts
from gudgeon.bench.buying.sizes import Sized, sized
from gudgeon.bench.buying.too_many import too_many
from gudgeon.bench.context import Bench
from gudgeon.bench.network import tasks_of
from gudgeon.bench.standing import Network
from gudgeon.bench.supplies.tools import lacking_tools
from gudgeon.bench.supplies.used_up import supplies

QUESTION = "What do I buy?"


def buy(bench: Bench, *, no_delay: bool = False) -> BuyAnswer:
    """Answer for all parts; `no_delay` buys only where it comes in time."""
    bench.unlock()
    said = said_of_parts(bench)
    known = judged(bench)
    market = market_of(bench, said)
    names = part_names(bench, known)
    sizes, chosen, lacking = sized(bench, names)
    known = replace(known, chosen=chosen)
    found = _dispositions(bench, names, said=said, known=known, market=market)
    away = left_out(bench, found, said=said)
    of_job = [one for one in found if one.part not in away.keys]
    sizes = tuple(one for one in sizes if one.of not in away.keys)
    wanted = needs(bench, of_job, known=known, sizes=sizes, said=said)
    parts = _without_sizes(found, wanted)
    work = work_of(bench, planned_days(bench, plan_now=no_delay))
    to_buy = [
        Wanted(one, count, within(bench, one.name, work))
        for one in wanted
        if (count := to_order(one, _of(said, one)))
    ]
    made, nobody, remarks = purchases(market, to_buy, no_delay=no_delay)
    lines = in_order(_lines(bench, wanted, said=said, market=market, work=work, made=made), work.tasks)
    coming = tuple(one for one in parts if one.part not in away.keys)
    undecided = tuple(_may_come(coming, sizes, lines, by_eye=known.by_eye))
    return BuyAnswer(
        heading=bench.heading(QUESTION),
        said=_said(lines, undecided, made),
        no_delay=no_delay,
        parts=parts,
        lines=lines,
        may_come=undecided,
        purchases=made,
        nobody=nobody,
        supplies=supplies(bench),
        tools=lacking_tools(bench),
        remarks=(
            *away.words,
            *too_many(bench, found, wanted, said=said, market=market),
            *market.remarks,
            *remarks,
        ),
        missing=lacking,
    )


def _dispositions(
    bench: Bench, names: Mapping[str, str], *, said: Mapping[str, SaidOfPart], known: Judged, market: Market
) -> tuple[Disposition, ...]:
    needed = {key: counted(part.quantity).number for key, part in bench.sheet.parts.items()}
    prices = {
        key: known_price(market, key, name=name, quantity=needed.get(key, 1)) for key, name in names.items()
    }
    return dispositions(bench, names, said=said, known=known, prices=prices, needed=needed)


def _of(said: Mapping[str, SaidOfPart], need: Need) -> SaidOfPart:
    return said.get(need.key, SaidOfPart())


def _without_sizes(parts: tuple[Disposition, ...], wanted: tuple[Need, ...]) -> tuple[Disposition, ...]:
    """A size that was ordered by its name is a line of the list, and no part of its own."""
    sizes = {one.key for one in wanted if one.key not in one.priced_as[1:] and one.size}
    return tuple(one for one in parts if one.part not in sizes or one.decision)


def _lines(
    bench: Bench,
    wanted: tuple[Need, ...],
    *,
    said: Mapping[str, SaidOfPart],
    market: Market,
    work: Work,
    made: tuple[Buying, ...],
) -> Iterator[Line]:
    chosen = {line.part: order.supplier for one in made for order in one.orders for line in order.lines}
    for need in wanted:
        asked = asked_for(market, need)
        yield line_of(
            bench, need, said=_of(said, need), asked=asked, work=work, called=market.name,
            supplier=chosen.get(need.key, ""),
        )  # fmt: skip


def planned_days(bench: Bench, *, plan_now: bool) -> Mapping[str, date]:
    """On which day each task is planned: by the plan that is at hand; one is only made where days are asked for."""
    from gudgeon.bench.planning.question import known_answer, plan_answer

    plan = known_answer(bench) or known_answer(bench, quick=True)
    if plan is None and plan_now:
        plan = plan_answer(bench, simulate=False, quick=True)
    if plan is None or not plan.dated:
        return {}
    return {
        one.task: min(hands).astimezone().date()
        for one in plan.bars
        if one.state != "done" and (hands := [span.begins for span in one.spans if span.kind == "work"])
    }


def within(bench: Bench, name: str, work: Work) -> int | None:
    """Within how many days a part has to come: it is there the day before the one for which its task is planned."""
    task = task_for(name, tasks=work.tasks)
    day = work.days.get(task.key) if task is not None else None
    return None if day is None else max(0, (day - bench.now.astimezone().date()).days - 1)


def work_of(bench: Bench, days: Mapping[str, date]) -> Work:
    """The tasks of the build, which of them are done, and the days of a plan."""
    tasks = tasks_of(bench.sheet, bench.state)
    network = Network(bench, tasks)
    done = frozenset(key for key in network.tasks if network.stand(key).where == "done")
    return Work({one.key: one for one in tasks}, done, days)


def _may_come(
    parts: tuple[Disposition, ...],
    sizes: tuple[Sized, ...],
    lines: tuple[Line, ...],
    *,
    by_eye: tuple[str, ...],
) -> Iterator[str]:
    """What is not decided, and what another question chose that is not sure yet."""
    there = {one.part for one in lines}
    for part in parts:
        if part.asks and part.part not in there:
            yield f"{part.name}: {part.asks}"
    listed = {one.size for one in lines}
    for size in sizes:
        if size.size not in listed:
            why = "; ".join(size.notes) or "nothing is decided about them"
            yield f"{size.count} × {size.name} {size.size} ({size.where_from}): {why}"
    if by_eye:
        yield f"Fasteners that only the eye judges: {', '.join(by_eye)}: look at thread, neck and bearing face"


def _said(lines: tuple[Line, ...], undecided: tuple[str, ...], made: tuple[Buying, ...]) -> str:
    """The answer in a sentence or two."""
    counts = {state: sum(one.state == state for one in lines) for state in STATES}
    told = []
    if counts[TO_ORDER]:
        sums = " and ".join(one.total for one in made if one.total)
        told.append(f"{_many(counts[TO_ORDER], 'line')} to order" + (f", {sums} at least" if sums else ""))
    elif lines:
        told.append("nothing is left to order")
    else:
        told.append("nothing is to be bought, as far as it was decided")
    words = {
        LATE: "late", ORDERED: "under way", RECEIVED: "there, not compared with the old one", COMPARED: "compared",
        FITTED: "fitted",
    }  # fmt: skip
    told += [f"{counts[state]} {text}" for state, text in words.items() if counts[state]]
    first = ", ".join(told)
    more = (
        f" {_many(len(undecided), 'more')} may still come: nothing is decided about them."
        if undecided
        else ""
    )
    return f"{first[0].upper()}{first[1:]}.{more}"


def _many(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 or what == 'more' else 's'}"

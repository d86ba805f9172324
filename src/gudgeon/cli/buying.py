"""What to buy, in the terminal."""

from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, point, say, table

if TYPE_CHECKING:
    from gudgeon.bench.buying.model import BuyAnswer, Buying, Disposition, Line
    from gudgeon.bench.supplies.model import Lacking, Supply

NOT_DECIDED = "not decided"


def buy(chosen: Namespace) -> int:
    """Say what to buy, and of whom; 1 while something is to be ordered."""
    from gudgeon.bench.buying.ask import buy as ask

    answer = ask(bench_of(chosen), no_delay=chosen.no_delay)
    code = NO if answer.open else YES
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    say(answer.said)
    for remark in answer.remarks:
        say(remark, lead="! ")
    _list(answer)
    for one in answer.purchases:
        _purchase(one, no_delay=answer.no_delay)
    _points("Nobody sells", answer.nobody)
    _points("May still come", answer.may_come)
    _parts(answer)
    _points("Used up by the job", [_supply(one) for one in answer.supplies])
    _points("Tools that are lacking", [_tool(one) for one in answer.tools])
    _points("Not known", answer.missing)
    closing(answer.heading)
    return code


def _points(title: str, texts: "list[str] | tuple[str, ...]") -> None:
    if texts:
        print(f"\n{title}")
    for text in texts:
        point(text)


def _supply(one: "Supply") -> str:
    """Something that is used up: how much, for what, how that was worked out; or what is not known of it."""
    said = f"{one.name}: {one.amount}" if one.amount else one.name
    case = f", only {one.only_if}" if one.only_if else ""
    how = "; ".join(filter(None, (one.how, f"not known: {one.missing}" if one.missing else "")))
    source = f" ({one.source})" if one.source else ""
    return f"{said}, {one.for_what}{case}. {how}{source}"


def _tool(one: "Lacking") -> str:
    before = f"; before “{one.before}”" if one.before else ""
    return f"{one.name}: {' or '.join(one.get)}. {one.why}{before}. {one.how}".strip()


def _list(answer: "BuyAnswer") -> None:
    if not answer.lines:
        return
    print("\nThe list")
    table(
        ("how many", "part", "size", "state", "before", "asked"),
        [(one.counted, _name(one), one.size, _state(one), _before(one), _asked(one)) for one in answer.lines],
    )
    for one in answer.lines:
        told = [
            *(order.late for order in one.orders if order.late),
            one.old if one.old and one.compare else "",
        ]
        compare = (
            f"compare: {one.compare}" if one.compare and one.state in ("ordered", "late", "received") else ""
        )
        for text in (*told, compare, *one.notes):
            if text:
                point(f"{one.name}: {text}")
        if one.records and one.state != "to order":
            point(f"{one.name}: {one.records[0][1]}", mark=">")
    first = next((one for one in answer.lines if one.state == "to order"), None)
    if first is not None:
        point(f"Ordered? Like this: {first.records[0][1]}", mark=">")


def _name(one: "Line") -> str:
    return f"{one.name} (new every time)" if one.one_time else one.name


def _state(one: "Line") -> str:
    if one.state == "to order" and one.to_order != one.quantity:
        return f"{one.to_order} to order"
    said = [f"of {order.supplier}{f', {order.expected}' if order.expected else ''}" for order in one.orders]
    return f"{one.state} {'; '.join(said)}" if said and one.state in ("ordered", "late") else one.state


def _before(one: "Line") -> str:
    return f"{one.before} ({one.day})" if one.day else one.before


def _asked(one: "Line") -> str:
    if one.state != "to order":
        return ""
    return "; ".join(
        f"{ask.price}{f' for {ask.pack}' if ask.pack > 1 else ''}, {ask.supplier}" for ask in one.asked
    )


def _purchase(one: "Buying", *, no_delay: bool) -> None:
    how = "without delay" if no_delay else "at the least cost"
    print(f"\nFrom whom, {how} ({one.currency})")
    if one.cannot:
        say(one.cannot, lead="! ")
        return
    for order in one.orders:
        days = f", there {order.days}" if order.days else ""
        print(
            clean(
                f"{order.supplier}: goods {order.goods}, shipping {order.shipping}, together {order.total}{days}"
            )
        )
        for line in order.lines:
            packs = (
                f" ({line.packs} pack{'' if line.packs == 1 else 's'})" if line.packs != line.pieces else ""
            )
            article = f", {line.article}" if line.article else ""
            point(f"{line.pieces} × {line.name}{packs}{article}: {line.cost}")
    say(f"Together {one.total}. {one.proof}")
    for text in (*one.alone, *one.too_late):
        point(text)


def _parts(answer: "BuyAnswer") -> None:
    print("\nWhat becomes of each part")
    table(
        ("part", "decided", "proposed", "because"),
        [(one.name, _decided(one), one.proposal, _because(one)) for one in answer.parts],
    )
    for one in answer.parts:
        if one.differs:
            point(f"{one.name}: {one.differs}", mark="!")
    for one in answer.parts:
        _while_open(one)


def _decided(one: "Disposition") -> str:
    return one.decision or ("renew (every time)" if one.one_time else NOT_DECIDED)


def _because(one: "Disposition") -> str:
    speaking = [ground for ground in one.grounds if ground.proposes == one.proposal] or list(one.grounds)
    told = [f"{ground.words}{f' ({ground.source})' if ground.source else ''}" for ground in speaking]
    return one.why or one.asks or "; ".join(told)


def _while_open(one: "Disposition") -> None:
    sums = one.while_open
    if sums is None:
        return
    print(f"\n{clean(one.name)}, while it is open")
    for text in filter(None, (*sums.sums, sums.best_age, sums.said)):
        point(text)
    for text in sums.missing:
        point(f"not known: {text}", mark="!")

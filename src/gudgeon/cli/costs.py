"""What it will cost, in the terminal."""

import sys
from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, closing, heading, point, say, table

if TYPE_CHECKING:
    from gudgeon.bench.costs.model import Account, Closing, Costs


def money(chosen: Namespace) -> int:
    """Say what it will cost; 1 while it is, or is likely to be, above the ceiling without a yes to that."""
    from gudgeon.bench.costs.costs import costs

    answer = costs(bench_of(chosen), closing=chosen.closing)
    if chosen.picture is not None:
        _write(chosen, answer)
    code = NO if answer.over else YES
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    say(f"{answer.job}. {answer.where}")
    for one in answer.accounts:
        _account(one, several=len(answer.accounts) > 1)
    if not answer.accounts:
        point("nothing was written down: gudgeon record cost WHAT --low … --likely … --high … --currency …")
    _rest(answer)
    closing(answer.heading)
    return code


def _write(chosen: Namespace, answer: "Costs") -> None:
    from gudgeon.bench.pictures.costs import costs_picture
    from gudgeon.cli.picture import svg_file
    from gudgeon.paper.svg_costs import costs_svg

    drawn = costs_svg(costs_picture(answer))
    path = svg_file(chosen.picture)
    path.write_text(drawn, encoding="utf-8")
    # With --json only the answer goes to the output.
    print(f"Picture: {path}", file=sys.stderr if chosen.json else sys.stdout)


def _account(one: "Account", *, several: bool) -> None:
    from gudgeon.bench.costs.amounts import told

    print(f"\n{'In ' + one.currency + ': ' if several else ''}{one.said}")
    if one.over:
        point(one.over, mark="!")
    for text in one.unapproved:
        point(f"nobody has said yes to it: {text}", mark="  !")
    for text in one.remarks:
        point(text, mark="!")
    if one.ceiling is not None:
        _ceiling(one)
    print("\nThe estimate at each point")
    rows = [
        (
            point_.words,
            point_.range.words if point_.range is not None else "" if point_.reached else "still to come",
            told(point_.range)[1] if point_.range is not None else "",
            "; ".join(point_.told),
        )
        for point_ in one.points
    ]
    rows.append(("today", one.today.words, told(one.today)[1], ""))
    table(("point", "eight of ten cases", "middle", "told to the owner"), rows, right=(2,))
    print("\nLine by line")
    table(
        ("what", "kind", "expected", "known", "state", "agreed", "spent", "counts", "note"),
        [
            (
                line.what, line.kind, line.expected, line.known, line.state, line.agreed, line.spent, line.counts,
                "; ".join(filter(None, [line.note, line.basis])),
            )
            for line in one.lines
        ],
        right=(5, 6),
        most=150,
    )  # fmt: skip
    to_come = f", to come: {one.to_come.words}" if one.to_come is not None else ""
    agreed = f", of that agreed: {one.agreed}" if one.agreed else ""
    print(f"Spent: {one.spent}{to_come}{agreed}")
    _said(one)
    if one.closing is not None:
        _closing(one.closing)


def _ceiling(one: "Account") -> None:
    assert one.ceiling is not None
    ceiling = one.ceiling
    with_more = f" ({ceiling.limit} with what was approved since)" if ceiling.limit != ceiling.agreed else ""
    tail = "; ".join(filter(None, [ceiling.within, ceiling.until, ceiling.note]))
    point(f"ceiling {ceiling.agreed}{with_more}, agreed by {ceiling.by} on {ceiling.when}: {tail}")


def _said(one: "Account") -> None:
    if one.changes:
        print("\nWhat changed it")
    for change in one.changes:
        point(f"{change.at}: {change.words}")
    if one.approvals:
        print("\nYes and no")
    for said in one.approvals:
        amount = f", {said.amount}" if said.amount else ""
        point(f"{said.answer} by {said.by}, {said.when}: {said.what}{amount} ({said.effect})")


def _closing(of: "Closing") -> None:
    print("\nThe closing account")
    table(
        ("what", "expected", "spent", "difference", "note"),
        [(one.what, one.expected, one.spent, one.difference, one.note) for one in of.lines]
        + [("in all", of.expected, of.spent, of.difference, "")],
        right=(1, 2, 3),
    )
    for text in of.said:
        say(text)


def _rest(answer: "Costs") -> None:
    if answer.missing:
        print("\nNot in any sum, because no amount is written down")
    for why in dict.fromkeys(one.why for one in answer.missing):
        names = [one.what for one in answer.missing if one.why == why]
        point(f"{'; '.join(names)}: {why}")
    hours = answer.hours
    rate = f" at {hours.rate}: {hours.worth}" if hours.worth else f" ({hours.rate})" if hours.rate else ""
    print()
    say(f"Own hours, not money: {hours.done}; still to do: {hours.left}{rate}")
    if answer.payments:
        print("\nEvery amount")
        table(
            ("when", "for what", "amount", "", "way", "part", "to or from"),
            [
                (one.when, one.what, one.amount, one.currency, one.way, one.part, one.to)
                for one in answer.payments
            ],
            right=(2,),
        )
    for one in answer.sums:
        back = f" ({one.spent} spent, {one.back} got back)" if one.back != "0" else ""
        got_back = "got back " if one.total.startswith("−") else ""
        point(f"{one.total.removeprefix('−')} {one.currency} {got_back}in all{back}")
    if answer.accounts:
        print("\nHow the ranges are made")
    for text in answer.behind if answer.accounts else ():
        point(text)

"""The estimate on paper, for the owner: the range, the ceiling, the lines, what is not in it, and a place to sign."""

from typing import Any

from gudgeon.bench.costs.amounts import told
from gudgeon.bench.costs.model import Account, Costs
from gudgeon.bench.pictures.costs import CostPicture, costs_picture
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words, without_commands


def estimate_pdf(answer: Costs, *, size: str) -> bytes:
    """The estimate of a build on paper; a closing account where the answer has one."""
    return press("estimate.typ", estimate_data(answer), size=size, dated_as=dated(answer.heading))


def estimate_data(answer: Costs) -> dict[str, Any]:
    """Everything that stands on the estimate, in the order in which it stands there."""
    title = "The closing account" if answer.closed else "The estimate"
    return {
        "page": page_words(answer.heading, about=title),
        "title": title,
        "closed": answer.closed,
        "job": answer.job,
        "where": answer.where,
        "accounts": [_account(one, costs_picture(answer, currency=one.currency)) for one in answer.accounts],
        "missing": [
            {
                "why": upper_first(why).removesuffix("."),
                "what": [one.what for one in answer.missing if without_commands(one.why) == why],
            }
            for why in dict.fromkeys(without_commands(one.why) for one in answer.missing)
        ],
        "hours": _hours(answer),
        "behind": list(answer.behind),
    }


def _account(one: Account, drawn: CostPicture) -> dict[str, Any]:
    ceiling = one.ceiling
    return {
        "currency": one.currency,
        "said": one.said,
        "over": one.over,
        "unapproved": list(one.unapproved),
        "remarks": list(one.remarks),
        "ceiling": _ceiling(one),
        "bars": _bars(drawn),
        "limit": drawn.ceiling / drawn.most if drawn.ceiling is not None else None,
        "limit_words": drawn.ceiling_words,
        "spent": drawn.spent / drawn.most,
        "spent_words": one.spent,
        "most": drawn.most_words,
        "points": [
            [point.words, point.range.words if point.range else "", told(point.range)[1] if point.range else "",
             "; ".join(point.told)]
            for point in one.points
            if point.reached and (point.range or point.told)
        ]
        + [["today", one.today.words, told(one.today)[1], ""]],
        "ahead": [point.words for point in one.points if not point.reached],
        "lines": [
            [line.what, _unparted(line.expected, one.currency) or line.basis or "nothing", line.state, line.counts,
             line.note]
            for line in one.lines
        ],
        "in_all": one.today.words,
        "to_come": one.to_come.words if one.to_come is not None else "nothing",
        "changes": [[change.at, change.words] for change in one.changes],
        "approvals": [
            f"{said.answer} by {said.by}, {said.when}: {said.what}{', ' + said.amount if said.amount else ''} "
            f"({said.effect})"
            for said in one.approvals
        ],
        "agreed_by": ceiling.by if ceiling is not None else "",
        "closing": _closing(one),
    }  # fmt: skip


def _unparted(amounts: str, currency: str) -> str:
    """Amounts whose currency stays on the line of the last of them."""
    return amounts.replace(f" {currency}", f"\u00a0{currency}")


def upper_first(text: str) -> str:
    """A text as it begins a sentence."""
    return text[:1].upper() + text[1:]


def _ceiling(one: Account) -> str:
    if one.ceiling is None:
        return "No ceiling is agreed."
    ceiling = one.ceiling
    more = f" ({ceiling.limit} with what was approved since)" if ceiling.limit != ceiling.agreed else ""
    said = f"At most {ceiling.agreed}{more}, agreed by {ceiling.by} on {ceiling.when}. {upper_first(ceiling.within)}."
    return " ".join(
        filter(None, [said, f"{upper_first(ceiling.until)}." if ceiling.until else "", ceiling.note])
    )


def _bars(drawn: CostPicture) -> list[dict[str, Any]]:
    return [
        {
            "name": one.name,
            "low": one.low / drawn.most,
            "middle": one.middle / drawn.most,
            "high": one.high / drawn.most,
            "words": one.words,
            "today": one.today,
        }
        for one in drawn.bars
    ]


def _closing(one: Account) -> dict[str, Any] | None:
    if one.closing is None:
        return None
    closing = one.closing
    return {
        "lines": [
            [line.what, line.expected, line.spent, line.difference, line.note] for line in closing.lines
        ],
        "in_all": ["In all", closing.expected, closing.spent, closing.difference, ""],
        "said": list(closing.said),
    }


def _hours(answer: Costs) -> str:
    hours = answer.hours
    worth = f", at {hours.rate} {hours.worth}" if hours.worth else ""
    return f"Hours of work are in no sum: {hours.done}, still to do {hours.left}{worth}."

"""What came back from the shop on paper: against the order, with room for the figures of the shop and his own."""

from typing import Any

from gudgeon.bench.shop.return_sheet import AWAY, BACK, NO_ORDER, ReturnSheet
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words, plain

NOT_THERE = {
    AWAY: "Not back yet: to be filled in when it is.",
    NO_ORDER: "No order for it is in the book: to be filled in all the same.",
}


def shop_back_pdf(answer: ReturnSheet, *, size: str) -> bytes:
    """What came back of one part on paper."""
    return press("shop_back.typ", shop_back_data(answer), size=size, dated_as=dated(answer.heading))


def shop_back_data(answer: ReturnSheet) -> dict[str, Any]:
    """Everything that stands on the sheet, in the order in which it stands there."""
    check = answer.check
    title = f"Back from the shop: {check.part}"
    return {
        "page": page_words(answer.heading, about=title),
        "title": title,
        "state": NOT_THERE.get(answer.state, answer.heading.question),
        "shop": check.shop,
        "out": answer.out,
        "promised": answer.promised,
        "back_on": answer.back_on,
        "back": answer.state == BACK,
        "ordered": check.ordered,
        "said": check.said,
        "standing": plain(check.standing) if answer.state == BACK else "",
        "plain": [plain(text) for text in check.plain],
        "rows": [
            {
                "what": one.what,
                "ordered": one.ordered + (f" ({one.source})" if one.source and one.source != "order" else ""),
                "read": one.read,
                "verdict": one.verdict,
                "difference": plain(one.difference),
                "to_do": one.to_do,
            }
            for one in answer.rows
        ],
        "rests_on": answer.rests_on,
        "figures": [
            {
                "what": one.what,
                "how": one.how,
                "places": [[at.place or "the one place", at.before, at.after, at.off] for at in one.places],
                "cut": any(at.off for at in one.places),
            }
            for one in answer.figures
        ],
        "askew": [check.askew.verdict, check.askew.words] if check.askew is not None else [],
        "askew_follows": [plain(text) for text in check.askew.follows] if check.askew is not None else [],
        "after": [[one.what, one.before, one.after, one.limit, one.verdict] for one in check.after.lines],
        "not_worked_out": [plain(text) for text in check.after.missing],
        "accepted": list(check.accepted),
        "basis": check.basis,
    }

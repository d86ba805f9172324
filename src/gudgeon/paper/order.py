"""The shop order on paper: it leaves with the part, is worked from, and comes back filled in."""

from collections.abc import Sequence
from typing import Any

from gudgeon.bench.shop.found import NOT_READ, FoundLine
from gudgeon.bench.shop.order import NO_STAYS, NO_STAYS_BLOCK, ShopOrder
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words, plain, without_commands


def order_pdf(order: ShopOrder, *, size: str) -> bytes:
    """The order of one part on paper."""
    return press("order.typ", order_data(order), size=size, dated_as=dated(order.heading))


def order_data(order: ShopOrder) -> dict[str, Any]:
    """Everything that stands on the order, in the order in which it stands there."""
    return {
        "page": page_words(order.heading, about=f"Shop order: {order.part}"),
        "part": order.part,
        "facts": _facts(order),
        "been": order.been,
        "most": order.room.most,
        "off_already": order.room.off_already,
        "most_why": order.room.most_why,
        "most_source": order.room.most_source,
        "least": order.room.least,
        "least_why": order.room.least_why,
        "assumes": list(order.room.assumes),
        "verdict": order.room.verdict,
        "bounds": [[one.what, one.most, one.source] for one in order.room.bounds],
        "work": [{"what": one.what, "why": one.why, "basis": one.basis} for one in order.work],
        "face": order.face,
        "flatness": _found(order.flatness),
        "flatness_limit": order.flatness_limit,
        "heights_called": "Height, by place" if order.kind == "head" else "Piston height, by place",
        "heights": _found(order.heights),
        "heights_limit": order.heights_limit,
        "tunnel": [without_commands(text) for text in order.straighten.tunnel] if order.straighten else [],
        "datum": plain(order.datum),
        "datum_source": order.datum_source,
        "stays": [plain(text) for text in order.stays],
        "stays_unsaid": order.stays in ((NO_STAYS,), (NO_STAYS_BLOCK,)),
        "finish": {
            "asked": order.finish.asked,
            "source": order.finish.source,
            "rows": [
                [one.gasket, one.metal or "any", one.asked, one.against, one.source]
                for one in order.finish.rows
            ],
            "disagree": list(order.finish.disagree),
            "rule": order.finish.rule,
            "metal": order.finish.metal,
        },
        "never": [[one.words, one.basis] for one in order.never],
        "back": [_figure(order, one.what, one.places, one.how) for one in order.send_back],
        "missing": [
            plain(text) for text in order.missing if text not in (order.room.most_why, order.room.least_why)
        ],
    }


def _facts(order: ShopOrder) -> list[list[str]]:
    straight = order.straighten
    told = straight is not None and any(straight.why == one.why for one in order.work)
    facts = {
        "Engine code": order.code,
        "Material": order.material,
        "Straighten": f"{straight.due}. {straight.why}" if straight is not None and not told else "",
    }
    return [[name, text] for name, text in facts.items() if text]


def _found(lines: Sequence[FoundLine]) -> list[list[str]]:
    return [
        [one.place or "the one place", one.reading, one.gauge, one.uncertainty, one.condition]
        for one in lines
    ]


def _figure(order: ShopOrder, what: str, places: Sequence[str], how: str) -> dict[str, Any]:
    """A figure to send back; beside the blank of each place stands what was read there before it left."""
    before = {one.place: one.reading for one in (*order.flatness, *order.heights) if one.reading != NOT_READ}
    return {
        "what": what,
        "how": how,
        "places": [[place, before.get(place, "")] for place in places],
    }

"""The shop order, and the check of what came back."""

from starlette.responses import Response

from gudgeon.bench.errors import Unknown
from gudgeon.bench.recordable import RECORDABLES
from gudgeon.bench.shop.found import PARTS, PartKind
from gudgeon.bench.shop.incoming import incoming
from gudgeon.bench.shop.order import ShopOrder, shop_order
from gudgeon.web.commands import record_address
from gudgeon.web.desk import Address, Asked, Desk


def the_order(desk: Desk, asked: Asked) -> Response:
    """What is ordered for the head, or for the block: `?part=block`."""
    with desk.bench() as bench:
        answer = shop_order(bench, part=part_of(asked))
        return desk.page(
            "shop_order.html", bench=bench, asked=asked, answer=answer, give_away=_give_away(answer, asked)
        )


def what_came_back(desk: Desk, asked: Asked) -> Response:
    """What came back against its order: `?part=block` for the block."""
    with desk.bench() as bench:
        answer = incoming(bench, part=part_of(asked))
        return desk.page("shop_back.html", bench=bench, asked=asked, answer=answer)


def part_of(asked: Asked) -> PartKind:
    """The part that is asked about: the head where none is named."""
    said = asked.query.get("part", "head")
    for part in PARTS:
        if said == part:
            return part
    raise Unknown("part that is cut", said, PARTS)


def _give_away(answer: ShopOrder, asked: Asked) -> str:
    """The form that records the order, filled in as far as is known; only its own button writes."""
    shop_out = next(one for one in RECORDABLES if one.name == "shop-out")
    said = {"part": answer.part, "ordered": answer.ordered, "most_off": answer.most_off, "back": asked.here}
    return record_address(shop_out, {name: text for name, text in said.items() if text})


ADDRESSES = (Address("/cut/order", the_order), Address("/cut/back", what_came_back))

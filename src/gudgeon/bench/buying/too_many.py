"""What was ordered beyond what is needed, and what was ordered although it is used again."""

from collections.abc import Iterator, Mapping, Sequence

from gudgeon.bench.buying.counts import counted
from gudgeon.bench.buying.disposing import WORDS
from gudgeon.bench.buying.lines import Need
from gudgeon.bench.buying.market import Market
from gudgeon.bench.buying.model import RENEW, Disposition
from gudgeon.bench.buying.said import SaidOfPart
from gudgeon.bench.context import Bench

SEND_BACK = "If that was not meant, cancel the order or send it back, and strike it in the book"


def too_many(
    bench: Bench,
    parts: Sequence[Disposition],
    wanted: Sequence[Need],
    *,
    said: Mapping[str, SaidOfPart],
    market: Market,
) -> Iterator[str]:
    """A sentence for each; what a pack has more than is needed is no surprise."""
    for need in wanted:
        ordered = sum(one.quantity for one in said.get(need.key, SaidOfPart()).orders)
        needed = _needed(bench, need)
        packs = max((one.pack for one in market.of(need.priced_as)), default=1)
        if ordered - needed >= packs:
            yield (
                f"{need.name}: {ordered} {'is' if ordered == 1 else 'are'} ordered or here, and {needed} "
                f"{'is' if needed == 1 else 'are'} needed: {ordered - needed} too many. {SEND_BACK}"
            )
    listed = {need.key for need in wanted}
    for part in parts:
        if (
            part.part not in listed
            and part.decision not in ("", RENEW)
            and said.get(part.part, SaidOfPart()).orders
        ):
            yield f"{part.name}: it was ordered, and you decided: {WORDS[part.decision]}. {SEND_BACK}"


def _needed(bench: Bench, need: Need) -> int:
    """As many as the sheet says, where nothing is decided and the line counts what was ordered."""
    part = bench.sheet.parts.get(need.key)
    if need.why or need.one_time or part is None:
        return need.quantity
    count = counted(part.quantity)
    return min(need.quantity, count.number) if count.known else need.quantity

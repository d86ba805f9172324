"""What was ordered of a part, and how what came off stands to it."""

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.known import Known, bound
from gudgeon.bench.cut.limits import Least
from gudgeon.bench.cut.said import rounded_up
from gudgeon.bench.cut.words import SAME_MM, mm
from gudgeon.bench.judging.decision import Value, between, decide
from gudgeon.bench.measured import End
from gudgeon.bench.shop.found import PartKind, face_key
from gudgeon.book.state import ShopState
from gudgeon.quantity.written import parse_printed

MORE, NOT_MORE, IN_DOUBT = "more than ordered", "not more than ordered", "in doubt"


def part_name(bench: Bench, *, part: PartKind) -> str:
    """What the sheet calls the part."""
    head = bench.sheet.head
    keys = [face_key(bench, part=part), head.measured_as if head is not None and part == "head" else None]
    items = [bench.sheet.characteristics[key] for key in keys if key in bench.sheet.characteristics]
    return items[0].part if items else f"Cylinder {part}"


def order_of(bench: Bench, *, part: PartKind) -> ShopState | None:
    """The part at the shop, found by its name, else by the word for it."""
    shops, name = bench.state.shop, part_name(bench, part=part)
    exact = [one for key, one in shops.items() if key.lower() == name.lower()]
    near = [one for key, one in shops.items() if part in key.lower().split()]
    return next(iter((*exact, *near)), None)


def most_of(order: ShopState | None) -> float | None:
    """The most that was ordered to come off [mm]; nothing where the order says none."""
    if order is None or not order.most_off:
        return None
    return bound(parse_printed(order.most_off, kind="length_difference"), unit="mm", upper=True)


def less_than_cleans(order: ShopState | None, low: Least | None) -> str:
    """That less was ordered than surely cleans the face up; nothing where it is enough, or it is back already."""
    allowed = most_of(order)
    if order is None or order.back or allowed is None or low is None or allowed >= low.surely_mm - SAME_MM:
        return ""
    return (
        f"Ordered at most {mm(allowed)}: less than the {mm(rounded_up(low.surely_mm))} that surely clean the face up "
        f"({low.words}). Talk to the shop before it is cut."
    )


def as_value(cut: Known) -> Value:
    """What came off as what is judged."""
    end = End(cut.value, cut.components)
    return between(end, high=end, known=cut.certain)


def against(most: float, *, taken: Value) -> str:
    """Whether more came off than was ordered, as far as the gauge tells."""
    if not taken.known:
        return IN_DOUBT
    found = decide(taken, low=None, high=most).verdict
    return {"outside": MORE, "inside": NOT_MORE}.get(found, IN_DOUBT)

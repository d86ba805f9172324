"""The incoming check: what came back against what was ordered, by the figures read after it came back.

Nothing here is worked out from what was ordered: an order is a wish.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.cut.words import mm_as_read
from gudgeon.bench.judging.decision import Value
from gudgeon.bench.judging.finding import NOT_MEASURED
from gudgeon.bench.shop.after import After, after_the_cut
from gudgeon.bench.shop.back_lines import Check, NotBack, of_the_face, of_the_head
from gudgeon.bench.shop.found import PartKind, face_key
from gudgeon.bench.shop.ordered import MORE, NOT_MORE, against, most_of, order_of, part_name
from gudgeon.bench.shop.room import DECK
from gudgeon.bench.shop.taken import Askew, PlaceTaken, Taken, spread_words, taken
from gudgeon.book.state import ShopState

QUESTION = "Is what came back what was ordered?"
BASIS = (
    "Every figure is one that was read after the part came back; nothing is worked out from the order. A verdict is "
    "given with the uncertainty of the gauge (U with k = 2), as everywhere."
)


@dataclass(frozen=True, slots=True)
class IncomingCheck:
    """The answer to “Is what came back what was ordered?”.

    `plain` is the whole of it in a few sentences, `said` what the shop said. `after` is what the engine is like now.
    `not_back` names what was not read or not sent back, each with how it gets into the book.
    """

    heading: Heading
    kind: PartKind
    part: str
    shop: str
    ordered: str
    said: str
    standing: str
    plain: tuple[str, ...]
    lines: tuple[Check, ...]
    places: tuple[PlaceTaken, ...]
    askew: Askew | None
    after: After
    accepted: tuple[str, ...]
    not_back: tuple[NotBack, ...]
    basis: str = BASIS

    @property
    def wrong(self) -> bool:
        """Whether more came off than was ordered, or a figure of the part or of the engine is outside its limit."""
        verdicts = [one.verdict for one in self.lines] + [one.verdict for one in self.after.lines]
        return any(one == MORE or one.startswith("outside") for one in verdicts)


def incoming(bench: Bench, *, part: PartKind = "head") -> IncomingCheck:
    """What came back of the head, or of the block, against its order."""
    bench.unlock()
    name = part_name(bench, part=part)
    order = order_of(bench, part=part)
    head = bench.sheet.head
    key = head.measured_as if head is not None and part == "head" else None
    cut = taken(bench, key) if key is not None and key in bench.sheet.characteristics else None
    first, lacking = _taken_line(order, cut, key=key, part=part)
    checks = [first, *of_the_head(bench, part), *of_the_face(bench, part)]
    lines = tuple(one for one in checks if isinstance(one, Check))
    made = cut is not None and cut.value is not None
    after = after_the_cut(bench, made=made) if part == "head" else After((), (DECK,))
    standing = " ".join(filter(None, [_standing(order, name), _older(bench, order, part)]))
    return IncomingCheck(
        bench.heading(QUESTION), part, name, order.shop if order is not None else "",
        order.ordered if order is not None else "", order.found if order is not None else "",
        standing, tuple(_plain(cut, order, after)), lines, cut.places if cut is not None else (),
        cut.askew if cut is not None else None, after, tuple(_accepted(bench, part)),
        (*lacking, *(one for one in checks if isinstance(one, NotBack))),
    )  # fmt: skip


def _standing(order: ShopState | None, name: str) -> str:
    """What is to be known before the figures are believed."""
    if order is None:
        return f"No order for it is in the book to hold it against: gudgeon record shop-out {_quoted(name)}"
    if not order.back:
        return (
            f"By the book it is still at {order.shop}. When it is back: gudgeon record shop-back {_quoted(name)} "
            "--found …"
        )
    return ""


def _older(bench: Bench, order: ShopState | None, part: PartKind) -> str:
    """Whether figures as left are older than the order: of another visit, or of an order that was written down late."""
    head = bench.sheet.head
    keys = {face_key(bench, part=part), head.measured_as if head is not None and part == "head" else None}
    if order is None:
        return ""
    out = datetime.fromisoformat(order.out)
    older = sum(
        key in keys and condition == "as left" and datetime.fromisoformat(one.time) < out
        for (key, _, condition), one in bench.state.readings.items()
    )
    if not older:
        return ""
    return (
        f"{_numbered(older)} older than this order: of an earlier visit to a shop, unless the order was written "
        "down late. Read again what is of an earlier visit; what came off is counted from the heights as found."
    )


def _numbered(readings: int) -> str:
    """`1 reading as left is`, `4 readings as left are`."""
    return "1 reading as left is" if readings == 1 else f"{readings} readings as left are"


def _quoted(name: str) -> str:
    return f'"{name}"' if " " in name else name


def _taken_line(
    order: ShopState | None, cut: Taken | None, *, key: str | None, part: PartKind
) -> tuple[Check | None, list[NotBack]]:
    """How much came off against the most that was ordered."""
    most = most_of(order)
    asked = f"at most {mm_as_read(most)}" if most is not None else "no most was ordered"
    lacking = []
    if cut is None or cut.value is None:
        how = f"gudgeon record reading {key}" if key is not None else ""
        why = (
            "the height before and after the cut is not in the book"
            if part == "head"
            else "the sheet holds no height of the block, so what came off is not known by a reading"
        )
        return Check("Taken off", asked, "", NOT_MEASURED, why, "order"), [
            NotBack("height as left", how, why)
        ]
    if cut.unread:
        lacking.append(
            NotBack(f"height as left: {', '.join(cut.unread)}", f"gudgeon record reading {key}", "not read")
        )
    value = cut.value
    got = f"{mm_as_read(_middle(value))}, {spread_words(value)}"
    if most is None:
        return Check("Taken off", asked, got, "no limit given", "", "order"), lacking
    return Check("Taken off", asked, got, against(most, taken=value), _more(value, most), "order"), lacking


def _more(value: Value, most: float) -> str:
    more = _middle(value) - most
    if abs(more) < 0.0005:
        return "just what was ordered, by the middle of the readings"
    if more < 0:
        return f"{mm_as_read(-more)} less than the most"
    sure = "" if against(most, taken=value) == MORE else ", within what the gauge may be off"
    return f"{mm_as_read(more)} more than ordered{sure}; all that follows is by what came off"


def _middle(value: Value) -> float:
    return (value.low + value.high) / 2


def _plain(cut: Taken | None, order: ShopState | None, after: After) -> Iterator[str]:
    """It all in a few sentences."""
    if cut is None or cut.value is None:
        yield "How much came off is not known: the heights before and after are not both in the book."
        return
    value, most = cut.value, most_of(order)
    came = f"{mm_as_read(_middle(value))} came off"
    if most is None:
        yield f"{came}; no most was ordered."
    else:
        more = _middle(value) - most
        verdict = against(most, taken=value)
        if verdict == MORE:
            yield f"{came}, {mm_as_read(more)} more than ordered."
        elif verdict == NOT_MORE:
            yield f"{came}, not more than ordered."
        elif more > 0:
            yield f"{came}, {mm_as_read(more)} more than ordered, but the gauge may be off by as much."
        else:
            yield f"{came}; whether that is more than ordered cannot be told with this gauge."
    if cut.askew is not None and cut.askew.verdict == "askew":
        yield f"The face was left askew: {cut.askew.words}."
    elif cut.askew is not None and cut.askew.verdict == "as before":
        yield "The head leaned before and still does: the cut did not make it."
    elif cut.askew is not None and cut.askew.verdict == "leans":
        yield f"The head leans: {cut.askew.words}."
    yield from _now(after)


FIRST = ("Compression ratio", "Squish")
"""What is said of any cut; of the rest what is not well, and how many are."""


def _now(after: After) -> Iterator[str]:
    """What the engine is like now."""
    well = 0
    for line in after.lines:
        bad = line.verdict.startswith(("outside", "in doubt", "too thin"))
        if line.what in FIRST or bad:
            was = f", was {line.before}" if line.before else ""
            yield f"{line.what}: now {line.after}{was}" + (f"; {line.verdict}." if line.verdict else ".")
        elif line.verdict.startswith("inside"):
            well += 1
    if well:
        yield (
            "1 other figure is inside its limit."
            if well == 1
            else f"{well} other figures are inside their limits."
        )
    for text in after.missing:
        yield f"Not worked out: {text}."


def _accepted(bench: Bench, part: PartKind) -> Iterator[str]:
    """What a named person lets be of this part."""
    for one in bench.state.accepted:
        if part in one.what.lower().split():
            yield f"{one.what}, by {one.by}: {one.why}"

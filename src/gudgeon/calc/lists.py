"""Lists that a calculator takes as one text, such as the layers of a joint: "steel 20 mm; cast iron 25 mm"."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.calc.input_errors import CommaBetween, ItemUnreadable
from gudgeon.quantity.units import kinds_of
from gudgeon.quantity.written import parse_amount

_APART = re.compile(r"\s*[×*@:=]\s*|\s+x\s+|(?<=\d)x(?=\d)")
_FIGURE = re.compile(
    r"(?P<number>(?:\d+\s+)?\d+/\d+|\d*\.?\d+(?:[eE][+-]?\d+)?)\s*(?P<unit>[A-Za-zµ\"][A-Za-z²³/·0-9]*)?"
)


@dataclass(frozen=True, slots=True)
class Item:
    """One item of a list: its figures by kind, bare numbers in their order, and the words beside them."""

    text: str
    figures: tuple[tuple[str, float], ...]
    bare: tuple[float, ...]
    words: str

    def of(self, kind: str) -> float | None:
        """The one figure of a kind, in its base unit."""
        found = [value for name, value in self.figures if name == kind]
        return found[0] if len(found) == 1 else None

    def all_of(self, kind: str) -> tuple[float, ...]:
        """The figures of a kind in their order, in its base unit."""
        return tuple(value for name, value in self.figures if name == kind)


def items(text: str, *, kinds: tuple[str, ...]) -> Iterator[Item]:
    """The items of a list, which stand apart by semicolons; a figure of another kind is refused.

    A comma is refused: it stands too near to the `x` of one item, and is a decimal point in half of the world.
    """
    if "," in text:
        raise CommaBetween(text, kinds)
    for part in re.split(r"[;\n]", text):
        if part.strip():
            yield _item(part.strip(), kinds)


def _item(part: str, kinds: tuple[str, ...]) -> Item:
    figures: list[tuple[str, float]] = []
    bare: list[float] = []
    words: list[str] = []
    for piece in _APART.split(part):
        rest = piece
        while match := _FIGURE.search(rest):
            words.append(rest[: match.start()])
            unit = match["unit"] or ""
            known = [one.name for one in kinds_of(unit)] if unit else []
            kind = next((name for name in kinds if name in known), None)
            if known and kind is None:
                raise ItemUnreadable(part, kinds)
            if kind is None:  # a bare number; what stood where a unit stands is a word, such as "thread"
                bare.append(parse_amount(match["number"], kind="number").to("1"))
                rest = rest[match.end("number") :]
                words.append(unit)
                rest = rest.lstrip()[len(unit) :]
            else:
                amount = parse_amount(f"{match['number']} {unit}", kind=kind)
                figures.append((kind, amount.to(amount.kind.base)))
                rest = rest[match.end() :]
        words.append(rest)
    return Item(part, tuple(figures), tuple(bare), " ".join(" ".join(words).split()).lower())

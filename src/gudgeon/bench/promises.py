"""What a promise is about: one part under one name, and whether anything can be promised of it."""

import re

from gudgeon.bench.buying.said import SaidOfPart, said_of_parts
from gudgeon.bench.context import Bench
from gudgeon.bench.network import tasks_of
from gudgeon.bench.part_keys import key_of
from gudgeon.bench.plan_errors import CameAlready, NeverSent
from gudgeon.sheet.model import DataSheet


def part_called(sheet: DataSheet, said: str) -> str:
    """What a part is called: as the data sheet calls it, else as it was said."""
    part = sheet.parts.get(said)
    return part.name if part is not None else said


def shop_name(bench: Bench, said: str) -> str:
    """A part at the machine shop, by the name under which the book has it: `head` is its `Cylinder head`.

    What the shop has counts before what was promised, and that before the parts of the sheet. Words that fit two
    parts stay as they were said.
    """
    parts = [part.name for part in bench.sheet.parts.values()]
    return _known_as(bench, said, [*_shop_words(bench), parts]) or said.strip()


def sent_name(bench: Bench, said: str) -> str:
    """A part that leaves for the shop or comes back, by the name that the book has of it, else as it is said."""
    return _known_as(bench, said, _shop_words(bench)) or said


def _shop_words(bench: Bench) -> list[list[str]]:
    """What the shop had, and what was promised of it."""
    return [list(bench.state.shop), [what for of, what in bench.state.plan.promises if of == "shop"]]


def _known_as(bench: Bench, said: str, names: list[list[str]]) -> str:
    wanted = key_of(bench.sheet, said.strip())
    for known in names:
        exact = [one for one in known if key_of(bench.sheet, one) == wanted]
        found = exact or [one for one in known if same_words(one, other=said)]
        if exact or len(found) == 1:
            return found[0]
    return ""


def same_words(one: str, *, other: str) -> bool:
    """Whether one name is the other with words before it: `head` and `Cylinder head`, not `head` and `head bolt`."""
    first, second = _words(one), _words(other)
    short, long = sorted((first, second), key=len)
    return bool(short) and long[-len(short) :] == short


def _words(said: str) -> list[str]:
    words = re.findall(r"[a-z0-9]+", said.lower())
    return [one.removesuffix("s") for one in words if one not in ("the", "a", "my")]


def can_be_promised(bench: Bench, *, of: str, what: str) -> None:
    """Nothing is promised that is here already, or that the shop neither has nor will get."""
    if of == "shop":
        there = bench.state.shop.get(what)
        if there is not None:
            if there.back:
                raise CameAlready(what, of)
            return
        sent = (one.shop_part for one in tasks_of(bench.sheet, bench.state) if one.shop_part)
        words = set(what.lower().replace("_", " ").split())
        if not any(part in words or f"{part}shaft" in words for part in sent):
            raise NeverSent(what)
        return
    one = said_of_parts(bench).get(key_of(bench.sheet, what), SaidOfPart())
    if one.state.received and not one.under_way:
        raise CameAlready(part_called(bench.sheet, what), of)

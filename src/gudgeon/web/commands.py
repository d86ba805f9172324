"""Commands of the terminal as addresses of pages.

An answer names what closes a thing as a command, because a command is something a person can type and
keep. On a page the same command is a link to the form that does it, filled in as far as it says.
"""

import re
import shlex
from dataclasses import dataclass
from functools import lru_cache
from urllib.parse import quote, urlencode

from gudgeon.bench.recordable import RECORDABLES
from gudgeon.bench.recordable_inputs import Recordable

_COMMAND = re.compile(r"`?gudgeon [a-z]+(?:-[a-z]+)*(?: (?:\"[^\"]*\"|[^\s;,()`\"]+))*`?")
_BLANK = re.compile(r"[A-Z]+|…|\W+")

_WORDS = {
    "tighten": "Go on with it",
    "judge": "Is it good?",
    "ready": "May I start it?",
    "cut": "What does the cut do?",
    "timing": "Is it timed?",
    "shims": "Which shim goes where?",
    "reuse": "Used again?",
    "buy": "What do I buy?",
    "money": "What will it cost?",
    "fits": "What fits where?",
    "running": "Does it run right?",
    "open": "What is open?",
    "plan": "When will it run?",
    "now": "What do I do now?",
    "changes": "What has changed?",
    "photos": "The photos",
    "strike": "Strike it",
}
_DO = {
    "identity": "Record the code",
    "reading": "Measure it",
    "pull": "Record a pull",
    "marked": "Mark it",
    "disturbed": "I slackened it",
    "cleared": "Make it final",
    "taken-out": "Take it out",
    "opened": "Take the plug out",
    "refitted": "Put it back",
    "hold": "Prove it",
    "timer-ended": "End the wait",
    "accepted": "Accept it",
    "shop-back": "Fetch it",
    "inspected": "I looked into it",
    "witnessed": "A second look",
    "override": "Let it pass by a name",
}
"""What is still to be done, in words that nobody can take for a state."""
_DO_ALL = {
    "cleared": "Make them final",
    "taken-out": "Take them out",
    "opened": "Take the plugs out",
    "refitted": "Put them back",
}
_LISTS = {"cleared": "provisional", "taken-out": "left-in", "opened": "plugged", "refitted": "left-over"}


_SHOP = {
    "--order": ("Shop order", "/cut/order"),
    "--back": ("Is what came back what was ordered?", "/cut/back"),
}
_PAPER = {
    "shims": ("Print the shims", "/paper/shims.pdf"),
    "buy": ("Print the shopping list", "/paper/buy.pdf"),
    "estimate": ("Print the estimate", "/paper/estimate.pdf"),
    "shop-order": ("Print the shop order", "/paper/shop-order.pdf"),
    "shop-back": ("Print what came back", "/paper/shop-back.pdf"),
}


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a text; with an address where it is a command that a page can do."""

    text: str
    address: str = ""


@lru_cache(maxsize=1024)
def pieces(text: str, *, back: str = "") -> tuple[Piece, ...]:
    """A text with its commands turned into links that lead back here; everything else is left as it is."""
    found, start = [], 0
    for match in _COMMAND.finditer(text):
        link = command_link(match[0].strip("`"), back=back)
        if link is None:
            continue
        found += [Piece(text[start : match.start()]), link]
        start = match.end()
    return tuple(piece for piece in (*found, Piece(text[start:])) if piece.text)


def command_link(command: str, *, back: str = "") -> Piece | None:
    """The page that does what a command does, or nothing where no page does it.

    `back` is where the person stands: a form leads there again.
    """
    words = [word for word in shlex.split(command)[1:] if not _BLANK.fullmatch(word)]
    if not words:
        return None
    name, rest = words[0], words[1:]
    if name == "record" and rest:
        return _record_link(rest[0], rest[1:], back=back)
    if name == "print" and rest:
        return _paper_link(rest[0], rest[1:])
    if name == "cut" and (which := next((word for word in rest if word in _SHOP), None)):
        return _of_part(_SHOP[which], rest)
    said = [word for word in rest if not word.startswith("--")]
    if name == "calc" and said:
        return Piece("Work it out", f"/sums/{quote(said[0])}")
    address = {
        "now": "/",
        "changes": "/changes",
        "judge": f"/good/{quote(said[0])}" if said else "/good",
        "tighten": f"/set/{quote(said[0])}" if said else "/set",
        "cut": "/cut",
        "fits": "/fits",
        "running": "/running",
        "timing": "/timing",
        "shims": "/timing/shims",
        "reuse": f"/set/{quote(said[0])}/again" if said else "/set",
        "buy": "/buy",
        "money": "/money",
        "ready": f"/start?for={quote(said[0])}" if said else "/start",
        "open": "/open",
        "plan": "/when",
        "photos": "/photos",
        "strike": f"/strike/{quote(said[0])}{_led_back(back)}" if said else "/done",
    }.get(name)
    return Piece(_WORDS[name], address) if address is not None else None


def _paper_link(name: str, rest: list[str]) -> Piece | None:
    """What is printed without a name of its own; nothing of the others, whose pages print them."""
    return _of_part(_PAPER[name], rest) if name in _PAPER else None


def _of_part(page: tuple[str, str], rest: list[str]) -> Piece:
    """A page of the head, or of the block where that is said."""
    words, address = page
    return Piece(words, f"{address}?part=block" if "block" in rest else address)


def _led_back(back: str) -> str:
    return f"?{urlencode({'back': back})}" if back else ""


def _record_link(name: str, rest: list[str], *, back: str) -> Piece | None:
    found = next((one for one in RECORDABLES if one.name == name), None)
    if found is None:
        return None
    if name in _LISTS and not rest:
        return Piece(_DO_ALL[name], f"/open#{_LISTS[name]}")
    said = _said(found, rest)
    return Piece(_DO.get(name, found.title), record_address(found, {**said, "back": back} if back else said))


def _said(of: Recordable, rest: list[str]) -> dict[str, str]:
    """What a command says of the fields: those by their place, and those by their flag."""
    by_place = [one.field for one in of.inputs if not one.flag]
    by_flag = {one.flag: one.field for one in of.inputs if one.flag}
    ticked = {one.flag for one in of.inputs if one.shape == "yes"}
    fields: dict[str, str] = {}
    flag = ""
    for word in rest:
        if word in ticked:
            fields[by_flag[word]], flag = "yes", ""
        elif word.startswith("--"):
            flag = word
        elif flag:
            if flag in by_flag:
                fields[by_flag[flag]] = word
            flag = ""
        elif by_place:
            fields[by_place.pop(0)] = word
    return fields


def record_address(of: Recordable, fields: dict[str, str]) -> str:
    """The form of something that can be recorded, filled in as far as is known."""
    if of.name == "reading" and "item" in fields:
        return f"/good/{quote(fields['item'])}#record"
    if of.name == "pull" and "joint" in fields:
        return f"/set/{quote(fields['joint'])}"
    return f"/record/{of.name}" + (f"?{urlencode(fields)}" if fields else "")

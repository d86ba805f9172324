"""What a photo can be about: the things of this engine and its book, each by its family, its key and its name."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from gudgeon.bench.context import Bench, entry_of
from gudgeon.bench.errors import Unknown
from gudgeon.bench.holds import holds_of
from gudgeon.bench.network import job_named, tasks_of
from gudgeon.bench.places import find_place, stands_in
from gudgeon.bench.record import find_entry

ENGINE = {
    "crank": "where the crankshaft stands",
    "cams": "the camshafts",
    "belt": "the timing drive",
    "pins": "the timing pins",
    "holder": "what holds the crankshaft",
    "followers": "the followers",
}
_LISTS = {
    "provisional": "provisional",
    "left in": "left_in",
    "plugged": "plugged",
    "left over": "left_over",
}
_SHOWN = 8
WHAT = "thing that a photo can be about (by its key, or by words of its name that fit only one)"


@dataclass(frozen=True, slots=True)
class Thing:
    """Something with a name: how an entry calls it, and what it is called by itself in its family."""

    about: str
    key: str
    name: str

    @property
    def family(self) -> str:
        """Of which kind it is."""
        return self.about.partition(":")[0]


def things(bench: Bench) -> Iterator[Thing]:
    """Everything that can be named, the joints first."""
    for key, joint in bench.sheet.joints.items():
        yield Thing(f"joint:{key}", key, joint.name)
    for hold in holds_of(bench.sheet, job_named(bench.state)):
        yield Thing(f"hold:{hold.id}", hold.id, hold.name)
    for words, name in _LISTS.items():
        for key, item in getattr(bench.state, name).items():
            yield Thing(f"item:{words}:{key}", key, item.name)
    for part in _parts(bench):
        yield Thing(f"part:{part}", part, part)
    for key, item in bench.sheet.characteristics.items():
        yield Thing(f"reading:{key}", key, item.name)
    for key, name in ENGINE.items():
        yield Thing(f"engine:{key}", key, name)
    for task in tasks_of(bench.sheet, bench.state):
        yield Thing(f"task:{task.key}", task.key, task.title)


def _parts(bench: Bench) -> tuple[str, ...]:
    named = (item.part for item in bench.sheet.characteristics.values())
    return tuple(dict.fromkeys(part for part in (*named, *bench.state.parts, *bench.state.shop) if part))


def find_thing(bench: Bench, said: str) -> str:
    """What is meant by `joint:head`, by a key, or by words of a name that fit only one thing."""
    family, mark, rest = (part.strip() for part in said.partition(":"))
    if mark and family == "entry":
        return f"entry:{find_entry(bench, rest)}"
    every = tuple(things(bench))
    families = tuple(dict.fromkeys(one.family for one in every))
    if not mark or family not in families:
        family, rest = "", said.strip()
    among = tuple(one for one in every if family in ("", one.family))
    if family == "reading":
        place = _with_place(bench, rest)
        if place:
            return place
    found = _meant(rest, among)
    if len(found) == 1:
        return found[0].about
    raise Unknown(WHAT, said, _near(rest, found or among, every))


def _meant(said: str, among: Sequence[Thing]) -> list[Thing]:
    low = said.casefold()
    for fits in (
        lambda one: low in (one.key.casefold(), one.about.casefold(), one.about.partition(":")[2].casefold()),
        lambda one: low == one.name.casefold(),
        lambda one: stands_in(one.name, said=said),
    ):
        found = [one for one in among if fits(one)]
        if found:
            return found
    return []


def _with_place(bench: Bench, rest: str) -> str:
    """One place of what is measured in several, like `reading:bore 1 top across`."""
    key, _, place = rest.partition(" ")
    item = bench.sheet.characteristics.get(key)
    return f"reading:{key} {find_place(item, place)}" if item is not None and place.strip() else ""


def _near(said: str, found: Sequence[Thing], every: Sequence[Thing]) -> list[str]:
    """What could have been meant: those that fit, else those that look alike, else the first of each family."""
    if len(found) <= _SHOWN:
        return [f"`{one.about}`" for one in found]
    by_word = {one.name: one for one in found} | {one.key: one for one in found}
    close = [by_word[word] for word in get_close_matches(said, by_word, n=_SHOWN, cutoff=0.5)]
    if not close:
        close = list({one.family: one for one in reversed(every)}.values())[::-1]
    return [f"`{one}`" for one in dict.fromkeys(one.about for one in close)]


def thing_words(bench: Bench, about: str) -> str:
    """What a photo is about, by its name; what nothing is known of stays as it was said."""
    found = next((one.name for one in things(bench) if one.about == about), "")
    if found:
        return found
    family, _, key = about.partition(":")
    if family == "entry":
        entry = entry_of(bench, key)
        return f"entry {entry.number}" if entry is not None else f"entry {key[:8]}"
    item = bench.sheet.characteristics.get(key.partition(" ")[0]) if family == "reading" else None
    return f"{item.name}, {key.partition(' ')[2]}" if item is not None else key

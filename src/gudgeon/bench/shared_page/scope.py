"""What is shared: everything that was done, or one operation; and which entries belong to it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.errors import Unknown
from gudgeon.bench.holds import all_holds
from gudgeon.bench.holds import joints_of as joints_of_hold
from gudgeon.bench.shared_page.deeds import hold_name
from gudgeon.bench.shop.found import PartKind, face_key
from gudgeon.book.entries import Entry

Family = Literal["everything", "joint", "reading", "hold", "cut"]
EVERYTHING = "everything"
CUT_HOLDS = {"head_back_inside_limits", "block_back_inside_limits", "head_tested"}
"""What is proved of a part that came back from the machine shop."""


@dataclass(frozen=True, slots=True)
class Scope:
    """What is shared, its key in its family, and how the page is titled."""

    family: Family
    key: str
    title: str

    @property
    def said(self) -> str:
        """How it is asked for again."""
        return f"{self.family}:{self.key}" if self.key else self.family


def scopes(bench: Bench) -> tuple[Scope, ...]:
    """Everything that can be shared: what the book holds something of, the whole job first."""
    found = [Scope("everything", "", "What was done")]
    by_kind: dict[str, set[str]] = {"joint": set(), "reading": set(), "hold": set()}
    for one in entries_of(bench):
        for field, family in (("joint", "joint"), ("item", "reading"), ("hold", "hold")):
            if one.kind in _DONE_TO[family]:
                by_kind[family].add(str(one.body[field]))
    sheet = bench.sheet
    found += [Scope("joint", key, one.name) for key, one in sheet.joints.items() if key in by_kind["joint"]]
    found += [
        Scope("reading", key, one.name)
        for key, one in sheet.characteristics.items()
        if key in by_kind["reading"] or by_kind["reading"].intersection(one.of)
    ]
    if bench.state.shop:
        found.append(Scope("cut", "", "What was cut at the machine shop"))
    found += [Scope("hold", key, hold_name(key)) for key in all_holds() if key in by_kind["hold"]]
    return tuple(found)


_DONE_TO: Mapping[str, tuple[str, ...]] = {
    "joint": (
        "pull",
        "bolt-loosened",
        "joint-marked",
        "joint-disturbed",
        "joint-witnessed",
        "tightened-again",
    ),
    "reading": ("reading", "face-scanned"),
    "hold": ("hold-proved", "hold-voided"),
}


def scope_said(bench: Bench, said: str) -> Scope:
    """What `everything`, `cut`, `joint:head`, `reading:bore` or `hold:timing_proved` names.

    A key alone serves where it is of one family only. Errors: `Unknown` with what there is.
    """
    wanted = said.strip() or EVERYTHING
    every = scopes(bench)
    found = [one for one in every if wanted in (one.said, one.key)]
    if len(found) != 1:
        raise Unknown("operation that the book holds something of", wanted, [one.said for one in every])
    return found[0]


def entries_in(bench: Bench, entries: Iterable[Entry], scope: Scope) -> tuple[Entry, ...]:
    """The entries that belong to what is shared, in their order; those about others of them come with them."""
    if scope.family == "everything":
        return tuple(entries)
    belongs = _Belongs(bench, scope)
    chosen: list[Entry] = []
    ids: set[str] = set()
    for one in entries:
        if belongs.directly(one) or one.body.get("entry") in ids:
            chosen.append(one)
            ids.add(one.id)
    return tuple(chosen)


class _Belongs:
    """Whether an entry says something of one operation."""

    def __init__(self, bench: Bench, scope: Scope) -> None:
        self._scope = scope
        self._joints, self._items, self._holds = self._about(bench, scope)

    @staticmethod
    def _about(bench: Bench, scope: Scope) -> tuple[set[str], set[str], set[str]]:
        if scope.family == "joint":
            holds = {key for key, one in all_holds().items() if scope.key in joints_of_hold(one, bench.sheet)}
            return {scope.key}, set(), holds
        if scope.family == "reading":
            return set(), {scope.key, *bench.sheet.characteristics[scope.key].of}, set()
        if scope.family == "hold":
            return set(), set(), {scope.key}
        return set(), set(cut_items(bench)), CUT_HOLDS & all_holds().keys()

    def directly(self, one: Entry) -> bool:
        """By what it names itself."""
        body = one.body
        if self._scope.family == "cut" and one.kind in ("shop-out", "shop-back"):
            return True
        if one.kind == "photo":
            return any(self._photo_of(about) for about in body["about"])
        if one.kind == "accepted":
            return str(body["what"]).partition(" ")[0] in self._joints | self._items
        if one.kind in _DONE_TO["hold"]:
            return body["hold"] in self._holds
        if one.kind in _DONE_TO["reading"]:
            return body["item"] in self._items
        return str(body.get("joint") or "") in self._joints

    def _photo_of(self, about: Any) -> bool:
        family, _, key = str(about).partition(":")
        among = {"joint": self._joints, "reading": self._items, "hold": self._holds}.get(family, set())
        return key in among or (family == "reading" and key.partition(" ")[0] in among)


def cut_items(bench: Bench) -> Iterator[str]:
    """What is measured before and after a cut: how flat the faces are, and how high the head is."""
    parts: tuple[PartKind, ...] = ("head", "block")
    for part in parts:
        key = face_key(bench, part=part)
        if key is not None and any(part in name.lower() for name in bench.state.shop):
            yield key
    head = bench.sheet.head
    if head is not None and head.measured_as in bench.sheet.characteristics:
        yield str(head.measured_as)


def photo_entries(bench: Bench, entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The photos that may be chosen: those that were not struck, each once, as it was said last."""
    latest = {
        one.body["sha"]: one for one in entries if one.kind == "photo" and one.id not in bench.state.struck
    }
    return tuple(sorted(latest.values(), key=lambda one: one.number))

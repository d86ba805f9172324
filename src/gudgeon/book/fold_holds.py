"""Holds: proved with a value, void when what they rest on is gone, proved again and never restored."""

from collections import deque
from collections.abc import Callable, Mapping
from dataclasses import replace

from gudgeon.book.entries import Entry
from gudgeon.book.kept import as_it_is
from gudgeon.book.part_names import is_part
from gudgeon.book.state import HoldState


class Holds:
    """The holds while the entries are folded. No proved hold rests on one that is not."""

    def __init__(self, *, on_change: Callable[[str], None]) -> None:
        self._on_change = on_change
        self._holds: dict[str, HoldState] = {}
        self._number: dict[str, int] = {}
        """Where in the chain the proof of each hold stands."""
        self._resting: dict[str, set[str]] = {}
        """The proved holds by each thing that they rest on."""
        self._last_proof: dict[str, str] = {}
        """The last proof of each hold, struck or not: what a proof on top of it went by, beside readings."""
        self._went_by: dict[str, frozenset[str]] = {}

    def proved(self, hold: str) -> bool:
        """Whether a hold was proved and nothing has voided it since."""
        found = self._holds.get(hold)
        return found is not None and found.status == "proved"

    def prove(
        self, entry: Entry, *, struck: bool, stale: str, gone: Callable[[str], str], read: frozenset[str]
    ) -> None:
        """A hold is proved, unless what it rests on does not stand: then it is void at once.

        `gone` says of anything but a hold why it holds nothing up now; `read` are the readings that it goes by.
        """
        hold, rests_on = entry.body["hold"], tuple(entry.body["rests_on"])
        why, path = self._why_not(rests_on, gone)
        why = f"proved when it was {stale}" if stale else why
        if struck and why and hold in self._holds:
            self._void_with_all_above(hold, why, by=entry.id, path=path)
        if not struck:
            self._forget(hold)
            self._holds[hold] = HoldState(
                entry.id, "void" if why else "proved", entry.body["value"], why, rests_on,
                entry.id if why else "", path, entry.device_time, entry.body["photo"] or "", entry.number,
                entry.sheet, entry.body["shown"],
            )  # fmt: skip
            self._on_change(hold)
            self._number[hold] = entry.number
            proofs = (
                self._last_proof.get(name.removeprefix("hold:"))
                for name in rests_on
                if name.startswith("hold:")
            )
            self._went_by[hold] = read.union(proof for proof in proofs if proof is not None)
            if why:
                self.void_on(f"hold:{hold}", why=why, by=entry.id, path=path)
            else:
                for name in rests_on:
                    self._resting.setdefault(name, set()).add(hold)
        self._last_proof[hold] = entry.id

    def _why_not(self, rests_on: tuple[str, ...], gone: Callable[[str], str]) -> tuple[str, tuple[str, ...]]:
        for name in rests_on:
            family, _, key = name.partition(":")
            under = self._holds.get(key)
            if family == "hold" and under is None:
                return "what it rests on is not proved", (name,)
            if family == "hold" and under is not None and under.status != "proved":
                return "what it rests on is void", (*under.void_path, name)
            why = "" if family == "hold" else gone(name)
            if why:
                return why, (name,)
        return "", ()

    def voided(self, entry: Entry) -> None:
        """Someone says that a hold no longer stands."""
        hold, why = entry.body["hold"], entry.body["why"]
        self._on_change(hold)
        if hold in self._holds:
            self._void_with_all_above(hold, why, by=entry.id)
        else:
            self._holds[hold] = HoldState(entry.id, "void", "", why, (), entry.id)
            self._number[hold] = entry.number

    def void_on(self, thing: str, *, why: str, by: str, path: tuple[str, ...] = ()) -> None:
        """Void every hold that rests on a thing, and every hold that rests on those."""
        if not self._resting.get(thing):
            return
        todo = deque([(thing, path)])
        while todo:
            under, way = todo.popleft()
            way = (*way, under)
            for hold in sorted(self._resting.get(under, ())):
                self._void(hold, why, by=by, path=way)
                todo.append((f"hold:{hold}", way))

    def void_on_part(self, said: str, *, why: str, by: str) -> None:
        """Void every hold that rests on a part of this name."""
        for thing in sorted(self._resting):
            family, _, part = thing.partition(":")
            if family == "part" and is_part(part, said=said):
                self.void_on(thing, why=why, by=by)

    def _void_with_all_above(self, hold: str, why: str, *, by: str, path: tuple[str, ...] = ()) -> None:
        if self._holds[hold].status == "proved":
            self._void(hold, why, by=by, path=path)
            self.void_on(f"hold:{hold}", why=why, by=by, path=path)

    def _void(self, hold: str, why: str, *, by: str, path: tuple[str, ...]) -> None:
        self._forget(hold)
        self._on_change(hold)
        under = path[-1] if path else ""
        said = f"it rested on a hold that is void ({why})" if under.startswith("hold:") else why
        self._holds[hold] = replace(
            self._holds[hold], status="void", why_void=said, void_by=by, void_path=path
        )

    def _forget(self, hold: str) -> None:
        """A hold that is not proved holds nothing up and is not looked for."""
        found = self._holds.get(hold)
        for name in found.rests_on if found is not None else ():
            self._resting.get(name, set()).discard(hold)

    def strike(self, target: Entry, *, strike: Entry) -> None:
        """A proof is struck: the hold is void unless it was proved again since, and so is what went by that proof."""
        hold = target.body["hold"]
        why = f"its proof was struck: {strike.body['why']}"
        found = self._holds.get(hold)
        if found is None:
            rests_on = tuple(target.body["rests_on"])
            self._holds[hold] = HoldState(
                target.id, "void", target.body["value"], why, rests_on, strike.id, time=target.device_time
            )
            self._number[hold] = target.number
        elif self._number[hold] < target.number:
            self._void_with_all_above(hold, why, by=strike.id)
        for above in sorted(self._resting.get(f"hold:{hold}", ())):
            if target.id in self._went_by[above]:
                went = f"a proof that it went by was struck: {strike.body['why']}"
                self._void_with_all_above(above, went, by=strike.id)

    def reading_struck(self, target: Entry, *, strike: Entry) -> None:
        """A reading is struck: what was proved by it is void; a newer one of the same place took it from none."""
        why = f"a reading that it went by was struck: {strike.body['why']}"
        for hold in sorted(self._went_by):
            if target.id in self._went_by[hold]:
                self._void_with_all_above(hold, why, by=strike.id)

    def states(self) -> Mapping[str, HoldState]:
        """The holds as they stand."""
        return as_it_is(self._holds)

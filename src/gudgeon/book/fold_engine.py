"""The engine as a whole while the entries are folded: its state, acts against a gate, and what mends them.

A breach is never taken back by a strike: that it was written down is reason enough to look. What holds the timing is in
as long as anybody says so: the list of what is left in, or the last word on the engine.
"""

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.fold_holds import Holds
from gudgeon.book.fold_overrides import Overrides
from gudgeon.book.gates import RULES, TIMING_PROOF, broken
from gudgeon.book.state import Breach, EngineState

FIELDS = tuple(one.name for one in fields(EngineState))


class Engine:
    """The state of the engine and its breaches, entry by entry."""

    def __init__(self, holds: Holds, overrides: Overrides) -> None:
        self._holds = holds
        self._overrides = overrides
        self._said = EngineState()
        self._left_in: dict[str, str] = {}
        self._breaches: list[Breach] = []

    @property
    def state(self) -> EngineState:
        """The engine as it is known now."""
        there = set(self._left_in.values())
        said = self._said
        return replace(
            said,
            pins="in" if "timing" in there else said.pins,
            holder="fitted" if "torque" in there else said.holder,
        )

    def act(self, entry: Entry, *, struck: bool) -> None:
        """What an act asks of the gates, and what is so after it.

        A struck one was said to be done: it still breaks gates and shakes holds, and sets nothing.
        """
        doing = entry.body.get("doing")
        if doing is None:
            return
        for act in doing["acts"]:
            proved = self._holds.proved(TIMING_PROOF)
            for gate in broken(act, self.state, timing_proved=proved):
                if gate not in doing["overruled"]:
                    self._breach(entry, act=act, gate=gate)
        if doing["sets"] is not None:
            self.set(doing["sets"], entry, struck=struck)

    def _breach(self, entry: Entry, *, act: str, gate: Any) -> None:
        rule = RULES[gate]
        passed = self._overrides.use(f"gate:{gate}")
        self._breaches.append(
            Breach(
                entry.id, entry.number, gate, act, rule.why, entry.device_time, entry.who, passed_by=passed
            )
        )
        for thing in rule.shakes:
            self._holds.void_on(thing, why=f"{act} against a gate: {rule.why}", by=entry.id)

    def set(self, said: Mapping[str, Any], entry: Entry, *, struck: bool) -> None:
        """What is known from now on; holds that rest on the engine being otherwise are void."""
        new = {name: said[name] for name in FIELDS if said.get(name) is not None}
        for name, now in new.items():
            if now in UNDOES[name] and getattr(self.state, name) != now:
                self._holds.void_on(f"state:{name}", why=f"{_WORDS[name]}: {now}", by=entry.id)
        if not struck:
            self._said = replace(self._said, **new)

    def put_in(self, entry: Entry, *, struck: bool) -> None:
        """Something is left in: it may hold the timing, or take torque."""
        holds = entry.body["holds"]
        if holds == "timing":
            self.set({"pins": "in"}, entry, struck=True)
        if holds != "nothing" and not struck:
            self._left_in[entry.body["item"]] = holds

    def taken_out(self, entry: Entry) -> None:
        """It is out; with the last thing that held the timing, the pins are out."""
        kind = self._left_in.pop(entry.body["item"], None)
        if kind is not None and kind not in self._left_in.values():
            out = {"pins": "out"} if kind == "timing" else {"holder": "off"}
            self._said = replace(self._said, **out)

    def inspected(self, entry: Entry) -> bool:
        """What an act against a gate has done was looked for; whether there was such an act, still open."""
        body, hit = entry.body, False
        for place, one in enumerate(self._breaches):
            if (one.entry, one.gate) == (body["entry"], body["gate"]) and not one.found:
                self._breaches[place] = replace(one, found=body["found"], inspected_by=body["by"])
                hit = True
        return hit

    def breaches(self) -> tuple[Breach, ...]:
        """Every act against a gate, in the order of the chain."""
        return tuple(self._breaches)


UNDOES: Mapping[str, tuple[str, ...]] = {
    "crank": ("moved", "near the top"),
    "cams": ("out",),
    "belt": ("off",),
    "pins": ("in",),
    "holder": (),
    "followers": ("pumped up",),
}
"""What of each takes away the ground of a proof that rests on it."""

_WORDS = {
    "crank": "the crank",
    "cams": "the camshafts",
    "belt": "the belt",
    "pins": "pins and locks",
    "holder": "the holder",
    "followers": "the lifters",
}

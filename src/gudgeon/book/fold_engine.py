"""The engine as a whole while the entries are folded: its state, acts against a gate, and what mends them.

A breach is never taken back by a strike: that it was written down is reason enough to look. So an act is asked of
the engine as it was known then, and as it is known to have been without what was struck since; and what a strike
takes away is the ground of every proof that rests on it. What holds the timing is in as long as anybody says so: the
list of what is left in, or the last word on the engine.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields, replace
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.fold_holds import Holds
from gudgeon.book.fold_overrides import Overrides
from gudgeon.book.gates import RULES, TIMING_PROOF, Act, broken, why
from gudgeon.book.state import Breach, EngineState

FIELDS = tuple(one.name for one in fields(EngineState))


@dataclass(slots=True)
class _Known:
    """The engine as far as some of the entries say it."""

    said: EngineState = field(default_factory=EngineState)
    left_in: dict[str, set[str]] = field(default_factory=dict)

    @property
    def state(self) -> EngineState:
        """What is said, and what is on the list of what is left in."""
        if not self.left_in:
            return self.said
        there = set().union(*self.left_in.values())
        return replace(
            self.said,
            pins="in" if "timing" in there else self.said.pins,
            holder="fitted" if "torque" in there else self.said.holder,
        )

    def take_out(self, item: str) -> None:
        """With the last thing that held the timing, the pins are out."""
        kinds = self.left_in.pop(item, set())
        for kind in kinds.difference(*self.left_in.values()):
            out = {"pins": "out"} if kind == "timing" else {"holder": "off"}
            self.said = replace(self.said, **out)


class Engine:
    """The state of the engine and its breaches, entry by entry."""

    def __init__(self, holds: Holds, overrides: Overrides) -> None:
        self._holds = holds
        self._overrides = overrides
        self._now = _Known()
        """Without anything that is struck, now or later."""
        self._then = _Known()
        """As it was known at each entry: what is struck counts until it is struck."""
        self._told: list[tuple[str, Callable[[_Known], None]]] = []
        self._struck: set[str] = set()
        self._breaches: list[Breach] = []

    @property
    def state(self) -> EngineState:
        """The engine as it is known now."""
        return self._now.state

    def act(self, entry: Entry, *, struck: bool) -> None:
        """What an act asks of the gates, and what is so after it.

        A struck one was said to be done: it still breaks gates and shakes holds, and sets nothing. Of an override
        of a gate the next act that the gate asks about makes use, whether it would have been refused or not.
        """
        doing = entry.body.get("doing")
        if doing is None:
            return
        for act in doing["acts"]:
            against = self._against(act)
            for gate, rule in RULES.items():
                if act not in rule.acts or gate in doing["overruled"]:
                    continue
                passed = self._overrides.use(f"gate:{gate}")
                if gate in against:
                    self._breach(entry, act=act, gate=gate, passed=passed)
        if doing["sets"] is not None:
            self.set(doing["sets"], entry, struck=struck)

    def _against(self, act: Act) -> set[str]:
        timing = f"hold:{TIMING_PROOF}"
        proved = self._holds.proved(TIMING_PROOF) or self._overrides.stands(timing)
        return {
            gate
            for known in (self._then, self._now)
            for gate in broken(act, known.state, timing_proved=proved)
        }

    def _breach(self, entry: Entry, *, act: str, gate: Any, passed: str) -> None:
        rule = RULES[gate]
        self._breaches.append(
            Breach(
                entry.id,
                entry.number,
                gate,
                act,
                why(gate, self.state),
                entry.device_time,
                entry.who,
                passed_by=passed,
            )
        )
        cams_out = all(known.state.cams == "out" for known in (self._then, self._now))
        for thing in rule.shakes:
            if thing == "state:valves" and act.startswith("turn by") and cams_out:
                continue  # no camshaft opens a valve that a piston could meet
            self._holds.void_on(thing, why=f"{act} against a gate: {rule.why}", by=entry.id)

    def set(self, said: Mapping[str, Any], entry: Entry, *, struck: bool) -> None:
        """What is known from now on; holds that rest on the engine being otherwise are void."""
        new = {name: said[name] for name in FIELDS if said.get(name) is not None}
        self._undo(new, entry)

        def tell(known: _Known) -> None:
            known.said = replace(known.said, **new)

        self._tell(tell, entry, struck=struck)

    def _undo(self, new: Mapping[str, str], entry: Entry) -> None:
        for name, now in new.items():
            was = {getattr(known.state, name) for known in (self._then, self._now)}
            if now in UNDOES[name] and was != {now}:
                self._holds.void_on(f"state:{name}", why=f"{_WORDS[name]}: {now}", by=entry.id)

    def _tell(self, tell: Callable[[_Known], None], entry: Entry, *, struck: bool) -> None:
        self._told.append((entry.id, tell))
        tell(self._then)
        if not struck:
            tell(self._now)

    def put_in(self, entry: Entry, *, struck: bool) -> None:
        """Something is left in: it may hold the timing, or take torque."""
        item, holds = entry.body["item"], entry.body["holds"]
        if holds == "timing":
            self._undo({"pins": "in"}, entry)
        if holds != "nothing":
            self._tell(lambda known: known.left_in.setdefault(item, set()).add(holds), entry, struck=struck)

    def taken_out(self, entry: Entry, *, struck: bool) -> None:
        """It is out."""
        item = entry.body["item"]
        self._tell(lambda known: known.take_out(item), entry, struck=struck)

    def strike(self, target: Entry, *, strike: Entry) -> None:
        """What was said of the engine is struck: what is otherwise by that no longer holds a proof up."""
        if all(told != target.id for told, _ in self._told):
            return
        before, self._then = self._then.state, _Known()
        self._struck.add(target.id)
        for told, tell in self._told:
            if told not in self._struck:
                tell(self._then)
        for name in FIELDS:
            if getattr(before, name) != getattr(self._then.state, name):
                why = f"what was said of {_WORDS[name]} was struck: {strike.body['why']}"
                self._holds.void_on(f"state:{name}", why=why, by=strike.id)

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

"""What is open in a book, worked out plainly: walked through from the first entry to the last, with sets and counts.

Slow and simple on purpose, and without anything of the program's own reckoning. It may miss something that is open;
what it calls open is open.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.state import EngineState
from tests.properties.gate_table import TABLE, is_broken

ORDER = ("crank", "fire", "drive", "handover")
OPENS = {
    "provisional-made": "provisional",
    "left-in": "left in",
    "plugged": "plugged",
    "taken-off": "left over",
}
CLOSES = {
    "provisional-cleared": "provisional",
    "taken-out": "left in",
    "opened": "plugged",
    "refitted": "left over",
}
UNDOES = {
    "crank": ("moved", "near the top"), "cams": ("out",), "belt": ("off",), "pins": ("in",), "followers": ("pumped up",),
}  # fmt: skip
"""Of each thing that is known of the engine, what takes the ground from a proof."""

GOOD = {"hand-run": ("done",), "torque": ("clicked while turning", "done"), "turn": ("angle reached",)}

Open = tuple[str, str]
"""Before which milestone it is due, and what an override of it names."""


@dataclass(frozen=True)
class Needs:
    """What an engine needs, as its sheet was written for the test: stages by joint, bolts, holds with their ground."""

    stages: Mapping[str, tuple[str, ...]]
    bolts: Mapping[str, tuple[str, ...]]
    due: Mapping[str, str]
    holds: Mapping[str, tuple[str, ...]]
    hold_due: Mapping[str, str]
    most: Mapping[str, float]


def struck_ids(entries: Sequence[Entry]) -> dict[str, int]:
    """The struck entries, and the number of the strike."""
    kinds: dict[str, str] = {}
    found: dict[str, int] = {}
    for entry in entries:
        if entry.kind == "strike" and kinds.get(entry.body["entry"], "strike") not in (
            "strike",
            "build-opened",
        ):
            found.setdefault(entry.body["entry"], entry.number)
        kinds[entry.id] = entry.kind
    return found


def live(entries: Sequence[Entry]) -> list[Entry]:
    """The entries that nobody struck."""
    gone = struck_ids(entries)
    return [entry for entry in entries if entry.id not in gone]


def open_before(milestone: str, entries: Sequence[Entry], needs: Needs, *, now: datetime) -> set[str]:
    """Everything that is open and due before a milestone, as an override names it."""
    most = ORDER.index(milestone)
    return {about for due, about in _open(entries, needs, now) if due in ORDER[: most + 1]}


def _open(entries: Sequence[Entry], needs: Needs, now: datetime) -> Iterator[Open]:
    stands = live(entries)
    if not any(entry.kind == "identity-read" for entry in stands):
        yield "crank", "the engine code"
    yield from _items(stands)
    yield from _timers(stands, now)
    yield from _begun(stands)
    for joint in needs.stages:
        yield from _joint(joint, entries, needs)
    yield from _away(stands)
    yield from _readings(stands, needs)
    yield from _counts(stands)
    yield from _doubts(entries)
    walk = Walk(entries)
    yield from ((needs.hold_due[hold], f"hold:{hold}") for hold in needs.holds if hold not in walk.proved)
    yield from (("crank", f"breach:{entry}:{gate}") for entry, gate in walk.breaches)


def _items(stands: Iterable[Entry]) -> Iterator[Open]:
    there: dict[tuple[str, str], tuple[str, int]] = {}
    holding: dict[str, bool] = {}
    for entry in stands:
        if entry.kind in OPENS:
            key = (OPENS[entry.kind], entry.body["item"])
            due, off = there.get(key, ("handover", 0))
            there[key] = (
                min(due, entry.body["due_before"], key=ORDER.index),
                max(off, entry.body.get("count", 1)),
            )
            if entry.kind == "left-in":
                holding[entry.body["item"]] = (
                    holding.get(entry.body["item"], False) or entry.body["holds"] != "nothing"
                )
        elif entry.kind in CLOSES:
            key = (CLOSES[entry.kind], entry.body["item"])
            if key in there:
                due, off = there.pop(key)
                back = entry.body.get("count") or off
                if off > back:
                    there[key] = (due, off - back)
                elif entry.kind == "taken-out":
                    holding.pop(entry.body["item"], None)
    for (name, item), (due, _) in there.items():
        yield due, f"item:{name}:{item}"
        if name == "left in" and holding[item]:
            yield "crank", "gate:pins in"


def _timers(stands: Iterable[Entry], now: datetime) -> Iterator[Open]:
    running: dict[str, tuple[datetime, str]] = {}
    for entry in stands:
        key = str(entry.body.get("timer"))
        if entry.kind == "timer-started":
            end = datetime.fromisoformat(entry.device_time) + timedelta(minutes=entry.body["minutes"])
            running[key] = (max(end, running[key][0]) if key in running else end, entry.body["due_before"])
        elif entry.kind == "timer-ended":
            running.pop(key, None)
    yield from ((due, f"timer:{key}") for key, (end, due) in running.items() if end > now)


ONLY_SAID = ("lower_head", "agree_scope")
"""Tasks of which nothing but a word tells that they are done: no pull, no proof, no shop."""


def _begun(stands: Iterable[Entry]) -> Iterator[Open]:
    kinds = ("task-started", "task-paused", "task-done")
    last = {one.body["task"]: one for one in stands if one.kind in kinds}
    for task in ONLY_SAID:
        if task in last and last[task].kind != "task-done":
            yield "crank", f"entry:{last[task].id}"


def _joint(joint: str, entries: Sequence[Entry], needs: Needs) -> Iterator[Open]:
    """A joint is complete when every bolt had every stage since it was slackened, nothing odd, and then a mark."""
    gone, pulls, marked = struck_ids(entries), dict[tuple[int, str], Entry](), False
    for entry in entries:
        if entry.body.get("joint") != joint:
            continue
        if entry.kind == "provisional-made":  # struck or not: somebody said that it was loose
            marked = False
        if entry.id in gone:
            continue
        if entry.kind == "pull":
            pulls[(entry.body["stage"], entry.body["bolt"])], marked = entry, False
        elif entry.kind == "joint-disturbed" or (entry.kind == "bolt-loosened" and pulls):
            pulls, marked = {}, False
        elif entry.kind == "joint-marked":
            marked = True
    wanted = {
        (number, bolt): kind
        for number, kind in enumerate(needs.stages[joint], start=1)
        for bolt in needs.bolts[joint]
    }
    done = {
        step for step, one in pulls.items() if step in wanted and one.body["outcome"] in GOOD[wanted[step]]
    }
    if not marked or done != set(wanted) or any(_ground_gone(step, pulls, entries, gone) for step in pulls):
        yield needs.due[joint], f"joint:{joint}"


def _ground_gone(
    step: tuple[int, str],
    pulls: Mapping[tuple[int, str], Entry],
    entries: Sequence[Entry],
    gone: Mapping[str, int],
) -> bool:
    """Whether an earlier stage of the bolt was struck after this one was pulled, and nothing else was there for it."""
    own = pulls[step]
    for entry in entries:
        if entry.kind != "pull" or entry.id not in gone or entry.body["joint"] != own.body["joint"]:
            continue
        under = (entry.body["stage"], entry.body["bolt"])
        earlier = under[1] == step[1] and under[0] < step[0] and entry.number < own.number < gone[entry.id]
        again = under in pulls and pulls[under].number < own.number
        slack = any(
            one.kind in ("joint-disturbed", "bolt-loosened") and one.body["joint"] == own.body["joint"]
            and one.number > entry.number
            for one in entries
        )  # fmt: skip
        if earlier and not again and not slack:
            return True
    return False


def _away(stands: Iterable[Entry]) -> Iterator[Open]:
    away: set[str] = set()
    for entry in stands:
        if entry.kind == "shop-out":
            away.add(entry.body["part"])
        elif entry.kind == "shop-back":
            away.discard(entry.body["part"])
    yield from (("crank", f"part:{part}") for part in away)


def _readings(stands: Sequence[Entry], needs: Needs) -> Iterator[Open]:
    """Whatever was accepted, of whatever place, is no word for a reading that comes after it."""
    if any(entry.kind == "part-disposition" for entry in stands):
        return
    accepted = max((entry.number for entry in stands if entry.kind == "accepted"), default=-1)
    last: dict[tuple[str, str], tuple[bool, float, int]] = {}
    for entry in stands:
        if entry.kind == "reading":
            key, left = (entry.body["item"], entry.body["place"]), entry.body["condition"] == "as left"
            if left or not last.get(key, (False, 0.0, 0))[0]:
                last[key] = (left, float(entry.body["value"]), entry.number)
    for (item, place), (_, value, number) in last.items():
        if value > needs.most[item] and number > accepted:
            yield "crank", f"reading:{item} {place}".strip()


def _counts(stands: Sequence[Entry]) -> Iterator[Open]:
    counted: dict[str, dict[str, int]] = {}
    for entry in stands:
        if entry.kind == "counted":
            counted.setdefault(entry.body["group"], {})[entry.body["when"]] = entry.body["count"]
    explained = {entry.body["group"] for entry in stands if entry.kind == "explained"}
    for group, said in counted.items():
        if "off" in said and said.get("back") != said["off"] and group not in explained:
            yield "handover", f"counted:{group}"


def about_of(entry: Entry) -> str:
    """The one thing of a list, a wait, a joint or a part that an entry is about, in the words of an override."""
    body = entry.body
    if entry.kind in {**OPENS, **CLOSES}:
        return f"item:{ {**OPENS, **CLOSES}[entry.kind] }:{body['item']}"
    if entry.kind in ("timer-started", "timer-ended"):
        return f"timer:{body['timer']}"
    if entry.kind in ("pull", "bolt-loosened", "joint-marked", "joint-disturbed", "joint-witnessed"):
        return f"joint:{body['joint']}"
    if entry.kind in ("shop-out", "shop-back"):
        return f"part:{body['part']}"
    if entry.kind == "counted":
        return f"counted:{body['group']}"
    if entry.kind == "hold-proved":
        return f"hold:{body['hold']}"
    return ""


def _doubts(entries: Sequence[Entry]) -> Iterator[Open]:
    """What closes nothing, and what was written on a state that had changed and was not written again since."""
    stands, hashes = live(entries), {entry.hash: entry.number for entry in entries}
    there: set[str] = set()
    off: dict[str, int] = {}
    for entry in stands:
        about = about_of(entry)
        if entry.kind in OPENS:
            there.add(about)
            off[about] = max(off.get(about, 0), entry.body.get("count", 1))
        elif entry.kind in CLOSES and about not in there:
            yield "crank", f"entry:{entry.id}"
        elif entry.kind in CLOSES:
            off[about] -= entry.body.get("count") or off[about]
            if off[about] <= 0:
                there.discard(about)
                off.pop(about)
        if (
            not about
            or about.startswith(("hold:", "joint:", "part:", "counted:"))
            or entry.basis in ("", entry.prev)
        ):
            continue
        seen = hashes.get(entry.basis)
        between = [
            one
            for one in entries
            if seen is not None and seen < one.number < entry.number and about_of(one) == about
        ]
        again = [one for one in stands if one.number > entry.number and about_of(one) == about]
        if (seen is None or between) and not again:
            yield "crank", f"entry:{entry.id}"


@dataclass
class Known:
    """The engine by the word of some entries."""

    said: dict[str, str] = field(default_factory=dict)
    items: dict[str, set[str]] = field(default_factory=dict)

    def engine(self) -> EngineState:
        """What is known, with what is left in."""
        there = {kind for kinds in self.items.values() for kind in kinds}
        more = {
            name: value
            for name, kind, value in (("pins", "timing", "in"), ("holder", "torque", "fitted"))
            if kind in there
        }
        return EngineState(**{**self.said, **more})

    def hear(self, entry: Entry) -> None:
        """One entry further."""
        item = str(entry.body.get("item"))
        if entry.kind == "left-in" and entry.body["holds"] != "nothing":
            self.items.setdefault(item, set()).add(entry.body["holds"])
        elif entry.kind == "taken-out" and item in self.items:
            kinds = self.items.pop(item)
            left = {kind for others in self.items.values() for kind in others}
            self.said |= {"pins": "out"} if "timing" in kinds - left else {}
            self.said |= {"holder": "off"} if "torque" in kinds - left else {}
        self.said |= sets(entry)


def sets(entry: Entry) -> dict[str, str]:
    """What an entry says of the engine."""
    said: Mapping[str, Any] = (
        entry.body if entry.kind == "engine-state" else (entry.body.get("doing") or {}).get("sets") or {}
    )
    return {name: said[name] for name in EngineState.__slots__ if said.get(name) is not None}


def heard(entries: Iterable[Entry], *, until: int, gone: Mapping[str, int], then: bool) -> EngineState:
    """The engine before an entry: as it was known then, or without all that was ever struck."""
    known = Known()
    for entry in entries:
        if entry.number < until and (entry.id not in gone or (then and gone[entry.id] >= until)):
            known.hear(entry)
    return known.engine()


class Walk:
    """Holds and acts against a gate, walked through entry by entry."""

    def __init__(self, entries: Sequence[Entry]) -> None:
        self.entries = entries
        self.gone = struck_ids(entries)
        self.telling = [one for one in entries if one.kind in ("left-in", "taken-out") or sets(one)]
        self.proofs: dict[str, Entry] = {}
        self.last: dict[str, str] = {}
        self.went_by: dict[str, set[str]] = {}
        self.proved: set[str] = set()
        broken: list[tuple[str, str]] = []
        for entry in entries:
            against = self._broken(entry)
            broken += [(entry.id, gate) for gate in against]
            self._shake(self._shaken(entry, against))
            self._prove(entry)
            if entry.kind == "strike":
                self._strike(entry)
        over = {one.body["about"] for one in live(entries) if one.kind == "override"}
        looked = {(one.body["entry"], one.body["gate"]) for one in live(entries) if one.kind == "inspected"}
        self.breaches = {one for one in broken if one not in looked and f"gate:{one[1]}" not in over}

    def _broken(self, entry: Entry) -> list[str]:
        doing = entry.body.get("doing") or {}
        found: set[str] = set()
        for act in doing.get("acts", ()):
            for then in (True, False):
                engine = heard(self.telling, until=entry.number, gone=self.gone, then=then)
                found |= is_broken(act, engine, proved="timing_proved" in self.proved)
        return sorted(found - set(doing.get("overruled", ())))

    def _shaken(self, entry: Entry, against: Iterable[str]) -> set[str]:
        """What an entry takes the ground from, struck or not."""
        found = {f"state:{one}" for gate in against for one in TABLE[gate].suffers}
        acts = (entry.body.get("doing") or {}).get("acts", ())
        if any(act.startswith("turn by") for act in acts):
            found -= {"state:valves"}  # not where the camshafts are out: that is tried apart
        if entry.kind in ("pull", "bolt-loosened", "joint-disturbed", "provisional-made"):
            found.add(f"joint:{entry.body['joint']}")
        said = {"pins": "in"} if entry.kind == "left-in" and entry.body["holds"] == "timing" else sets(entry)
        for name, value in said.items():
            was = [
                getattr(heard(self.telling, until=entry.number, gone=self.gone, then=then), name)
                for then in (True, False)
            ]
            if value in UNDOES.get(name, ()) and value not in was:
                found.add(f"state:{name}")
        return found

    def _shake(self, things: set[str]) -> None:
        gone = {hold for hold in self.proved if things & set(self.proofs[hold].body["rests_on"])}
        while gone:
            self.proved -= gone
            under = {f"hold:{hold}" for hold in gone}
            gone = {hold for hold in self.proved if under & set(self.proofs[hold].body["rests_on"])}

    def _drop(self, hold: str) -> None:
        if hold in self.proved:
            self.proved.discard(hold)
            self._shake({f"hold:{hold}"})

    def _prove(self, entry: Entry) -> None:
        hold = entry.body.get("hold", "")
        if entry.kind == "hold-voided":
            self._drop(hold)
        if entry.kind != "hold-proved":
            return
        if entry.id not in self.gone:
            under = {one.removeprefix("hold:") for one in entry.body["rests_on"] if one.startswith("hold:")}
            self._drop(hold) if not under <= self.proved else None
            self.proofs[hold] = entry
            self.went_by[hold] = {self.last[one] for one in under if one in self.last}
            if under <= self.proved:
                self.proved.add(hold)
        self.last[hold] = entry.id

    def _strike(self, strike: Entry) -> None:
        target = next((one for one in self.entries if one.id == strike.body["entry"]), None)
        if target is None or self.gone.get(target.id) != strike.number or target.kind != "hold-proved":
            return
        hold = target.body["hold"]
        if hold in self.proofs and self.proofs[hold].number < target.number:
            self._drop(hold)
        for above in sorted(self.proved):
            if target.id in self.went_by[above]:
                self._drop(above)

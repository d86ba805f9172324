"""Entries to state: a pure function, in the order of the book.

A struck entry loses what it stated; what it voided stays void, because a hold is proved again
and never restored by a strike. Nothing here raises on a sequence of valid entries: what closes
something that is not open is kept as doubtful.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.state import (
    Accepted,
    Count,
    HoldState,
    IdentityState,
    JointState,
    OpenItem,
    PartState,
    Paused,
    PullState,
    ReadingState,
    ShopState,
    State,
    Struck,
    TimerState,
)


def fold(entries: Iterable[Entry]) -> State:
    """The state of one build."""
    listed = tuple(entries)
    work = _Fold(listed)
    for entry in listed:
        work.take(entry)
    return work.state()


def subject(entry: Entry) -> str:
    """What an entry is about: two entries on one subject may contradict each other."""
    body = entry.body
    if "joint" in body and entry.kind.startswith(("pull", "joint")):
        return f"joint:{body['joint']}"
    if entry.kind == "reading":
        return f"reading:{body['item']}:{body['place']}:{body['condition']}"
    for key in ("item", "hold", "timer", "part", "entry"):
        if key in body:
            return f"{key}:{body[key]}"
    return entry.kind


class _Fold:
    """The state while it grows."""

    def __init__(self, entries: tuple[Entry, ...]) -> None:
        self.entries = entries
        self.by_id = {entry.id: entry for entry in entries}
        self.place = {entry.hash: index for index, entry in enumerate(entries)}
        self.struck = {
            entry.body["entry"]: Struck(entry.id, entry.body["why"], entry.who)
            for entry in entries
            if entry.kind == "strike" and self._can_be_struck(entry)
        }
        self.identity: IdentityState | None = None
        self.readings: dict[tuple[str, str, str], ReadingState] = {}
        self.joints: dict[str, JointState] = {}
        self.lists: dict[str, dict[str, OpenItem]] = {
            name: {} for name in ("provisional", "in", "plugged", "off")
        }
        self.off: dict[str, int] = {}
        self.on: dict[str, int] = {}
        self.holds: dict[str, HoldState] = {}
        self.timers: dict[str, TimerState] = {}
        self.parts: dict[str, PartState] = {}
        self.shop: dict[str, ShopState] = {}
        self.accepted: list[Accepted] = []
        self.paused: Paused | None = None
        self.doubtful: list[tuple[str, str]] = []
        self.notes: list[str] = []
        self.stale = ""

    def _can_be_struck(self, strike: Entry) -> bool:
        target = self.by_id.get(strike.body["entry"])
        return (
            target is not None
            and target.kind not in ("strike", "build-opened")
            and target.number < strike.number
        )

    def take(self, entry: Entry) -> None:
        """One entry further."""
        if entry.id in self.struck:
            self._voids(entry)
            return
        self.stale = self._stale(entry)
        if self.stale:
            self.doubtful.append((entry.id, self.stale))
        _HANDLERS.get(entry.kind, _nothing)(self, entry, entry.body)
        self._voids(entry)

    def _stale(self, entry: Entry) -> str:
        """Made on an outdated state, and something on the same subject came between."""
        if not entry.basis or entry.basis == entry.prev or entry.basis not in self.place:
            return ""
        between = self.entries[self.place[entry.basis] + 1 : entry.number - 1]
        about = subject(entry)
        others = [other for other in between if subject(other) == about and other.id not in self.struck]
        if not others:
            return ""
        return (
            f"recorded on an older state: meanwhile {others[-1].who} had recorded {_words(others[-1].kind)}"
        )

    def _voids(self, entry: Entry) -> None:
        """What an entry voids, also when it was struck later."""
        body = entry.body
        if entry.kind == "joint-disturbed":
            self.void_on(f"joint:{body['joint']}", f"its joint was disturbed: {body['why']}")
        elif entry.kind == "hold-voided":
            self.void(body["hold"], body["why"])
        elif entry.kind == "strike" and self._can_be_struck(entry):
            self._strike_voids(self.by_id[body["entry"]], body["why"])

    def _strike_voids(self, target: Entry, why: str) -> None:
        if target.kind in ("pull", "joint-marked"):
            self.void_on(f"joint:{target.body['joint']}", f"an entry it rested on was struck: {why}")
        elif target.kind == "hold-proved":
            self.void(target.body["hold"], f"its proof was struck: {why}")

    def void(self, hold: str, why: str) -> None:
        """Void one hold, and whatever rested on it."""
        found = self.holds.get(hold)
        if found is not None and found.status == "proved":
            self.holds[hold] = replace(found, status="void", why_void=why)
            self.void_on(f"hold:{hold}", f"it rested on a hold that is void ({why})")

    def void_on(self, basis: str, why: str) -> None:
        """Void every hold that rests on something."""
        for hold, found in list(self.holds.items()):
            if found.status == "proved" and basis in found.rests_on:
                self.void(hold, why)

    def close(self, name: str, entry: Entry) -> OpenItem | None:
        """Take an item off a list; what is not on it is kept as doubtful."""
        found = self.lists[name].pop(entry.body["item"], None)
        if found is None:
            self.doubtful.append((entry.id, f"closes {entry.body['item']}, which was not open"))
        return found

    def state(self) -> State:
        """What it all adds up to."""
        last = self.entries[-1] if self.entries else None
        groups = sorted({*self.off, *self.on})
        return State(
            build=last.build if last else "",
            identity=self.identity,
            readings=self.readings,
            joints=self.joints,
            provisional=self.lists["provisional"],
            left_in=self.lists["in"],
            plugged=self.lists["plugged"],
            left_over=self.lists["off"],
            counts={group: Count(self.off.get(group, 0), self.on.get(group, 0)) for group in groups},
            holds=self.holds,
            timers=self.timers,
            parts=self.parts,
            shop=self.shop,
            accepted=tuple(self.accepted),
            paused=self.paused,
            doubtful=tuple(self.doubtful),
            notes=tuple(self.notes),
            struck=self.struck,
            head=last.hash if last else "",
            count=len(self.entries),
        )


def _words(kind: str) -> str:
    return kind.replace("-", " ")


Handler = Callable[[_Fold, Entry, dict[str, Any]], None]


def _nothing(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    """Kinds that change nothing but the chain."""


def _identity(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    work.identity = IdentityState(entry.id, body["code"], body["read_from"], body["matches"], body["why_not"])


def _reading(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    key = (body["item"], body["place"], body["condition"])
    work.readings[key] = ReadingState(
        entry.id, body["item"], body["place"], body["value"], body["low"], body["high"], body["unit"],
        body["instrument"], body["condition"], entry.device_time, entry.sheet,
    )  # fmt: skip


def _pull(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    joint = work.joints.get(body["joint"], JointState())
    doubtful = body["outcome"] == "doubtful" or bool(work.stale)
    pull = PullState(
        entry.id, entry.number, body["outcome"], body["angle_deg"], doubtful, body["why"] or work.stale,
        entry.device_time, body["tool"], body["setting"],
    )  # fmt: skip
    pulls = dict(joint.pulls)
    pulls[(body["stage"], body["round"], body["bolt"])] = pull
    work.joints[body["joint"]] = replace(joint, pulls=pulls, marked=False, disturbed_why="")
    work.paused = None


def _marked(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    work.joints[body["joint"]] = replace(work.joints.get(body["joint"], JointState()), marked=True)


def _disturbed(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    work.joints[body["joint"]] = JointState(disturbed_why=body["why"])


def _opens(name: str) -> Handler:
    def opened(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
        if body["item"] in work.lists[name]:
            work.doubtful.append((entry.id, f"{body['item']} was on the list already"))
        work.lists[name][body["item"]] = OpenItem(
            entry=entry.id,
            item=body["item"],
            name=body["name"],
            where=body.get("where") or body.get("place") or "",
            why=body.get("why", ""),
            due_before=body["due_before"],
            due_task=body.get("due_task", ""),
            since=entry.device_time,
            group=body.get("group", ""),
            joint=body.get("joint"),
        )

    return opened


def _closes(name: str) -> Handler:
    def closed(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
        work.close(name, entry)

    return closed


def _taken_off(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    _opens("off")(work, entry, body)
    work.off[body["group"]] = work.off.get(body["group"], 0) + 1


def _refitted(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    found = work.close("off", entry)
    if found is None:
        return
    work.on[found.group] = work.on.get(found.group, 0) + 1
    if body["place"] and found.where and body["place"] != found.where:
        work.doubtful.append(
            (entry.id, f"{found.name} came from place {found.where}, went to {body['place']}")
        )


def _hold_proved(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    rests = tuple(body["rests_on"])
    under = [name.removeprefix("hold:") for name in rests if name.startswith("hold:")]
    void = [name for name in under if name in work.holds and work.holds[name].status != "proved"]
    status, why = ("void", "what it rests on is void") if void else ("proved", "")
    work.holds[body["hold"]] = HoldState(entry.id, status, body["value"], why, rests)


def _timer_started(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    ends = datetime.fromisoformat(entry.device_time) + timedelta(minutes=body["minutes"])
    work.timers[body["timer"]] = TimerState(
        entry.id, body["name"], entry.device_time, ends.isoformat(), False, body["task"], body["due_before"]
    )


def _timer_ended(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    found = work.timers.get(body["timer"])
    if found is None:
        work.doubtful.append((entry.id, f"ends {body['timer']}, which was not running"))
    else:
        work.timers[body["timer"]] = replace(found, ended=True)


def _part(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    known = work.parts.get(body["part"], PartState())
    work.parts[body["part"]] = replace(known, decision=body["decision"], why=body["why"])


def _received(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    known = work.parts.get(body["part"], PartState())
    work.parts[body["part"]] = replace(known, received=True, compared=known.compared or body["compared"])


def _shop_out(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    work.shop[body["part"]] = ShopState(
        body["shop"], body["ordered"], body.get("most_off"), entry.device_time, False, ""
    )


def _shop_back(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    known = work.shop.get(body["part"])
    if known is None:
        work.doubtful.append((entry.id, f"{body['part']} is back, and was not given away"))
    else:
        work.shop[body["part"]] = replace(known, back=True, found=body["found"])


def _accepted(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    work.accepted.append(Accepted(entry.id, body["what"], body["by"], body["why"]))


def _paused(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    work.paused = Paused(entry.id, body["hand"], body["next_action"], entry.device_time)


def _note(work: _Fold, entry: Entry, body: dict[str, Any]) -> None:
    work.notes.append(body["text"])


_HANDLERS: dict[str, Handler] = {
    "identity-read": _identity,
    "reading": _reading,
    "pull": _pull,
    "joint-marked": _marked,
    "joint-disturbed": _disturbed,
    "provisional-made": _opens("provisional"),
    "provisional-cleared": _closes("provisional"),
    "left-in": _opens("in"),
    "taken-out": _closes("in"),
    "plugged": _opens("plugged"),
    "opened": _closes("plugged"),
    "taken-off": _taken_off,
    "refitted": _refitted,
    "hold-proved": _hold_proved,
    "timer-started": _timer_started,
    "timer-ended": _timer_ended,
    "part-disposition": _part,
    "part-received": _received,
    "shop-out": _shop_out,
    "shop-back": _shop_back,
    "accepted": _accepted,
    "paused": _paused,
    "note": _note,
}

"""Entries to state: a pure function of the entries of one build.

A struck entry loses what it stated; what it voided stays void, because a hold is proved again and never
restored by a strike. Nothing here raises on a sequence of valid entries: a closing of what was not open,
an entry made on an outdated state, are kept and are in doubt.

A strike reaches back: what was struck is known before the first entry is taken. So a fold that is kept goes on with
later entries only where none of them strikes one that it has taken; otherwise all are folded anew.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from operator import attrgetter

from gudgeon.book.entries import Entry
from gudgeon.book.fold_counted import Counted
from gudgeon.book.fold_doubts import Doubts, Outdated, subject, touches
from gudgeon.book.fold_engine import Engine
from gudgeon.book.fold_holds import Holds
from gudgeon.book.fold_joints import Joints
from gudgeon.book.fold_lists import CLOSES, OPENS, OpenLists
from gudgeon.book.fold_overrides import Overrides
from gudgeon.book.fold_plan import TAKES, Planned
from gudgeon.book.fold_readings import KINDS as MEASURED
from gudgeon.book.fold_readings import Readings
from gudgeon.book.fold_records import Records
from gudgeon.book.fold_shop import Shop
from gudgeon.book.fold_stops import WORK, Stops
from gudgeon.book.fold_timers import Timers
from gudgeon.book.kept import as_it_is
from gudgeon.book.state import (
    Accepted,
    IdentityState,
    PartState,
    Paused,
    State,
    Struck,
    TaskState,
)

NEVER_STRUCK = ("strike", "build-opened")


def fold(entries: Iterable[Entry]) -> State:
    """The state of one build, whose entries may come in any order."""
    return Folding(entries).state()


def _in_order(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """Entries come from a store in order; only others need to be sorted."""
    numbers = [entry.number for entry in entries]
    return entries if numbers == sorted(numbers) else tuple(sorted(entries, key=attrgetter("number")))


class Folding:
    """The state while it grows. What it has said of a state stays as it was when it goes on."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        self.last: Entry | None = None
        self.count = 0
        self.by_id: dict[str, Entry] = {}
        self.struck: dict[str, Struck] = {}
        self.about = ""
        """What the entry that is being taken states."""
        self.outdated = Outdated()
        self.doubts = Doubts()
        self.overrides = Overrides()
        self.holds = Holds(on_change=lambda hold: self.overrides.touched(f"hold:{hold}"))
        self.engine = Engine(self.holds, self.overrides)
        self.joints = Joints(self.holds)
        self.lists = OpenLists(self.doubts)
        self.identity: IdentityState | None = None
        self.readings = Readings()
        self.timers = Timers()
        self.tasks: dict[str, TaskState] = {}
        self.parts: dict[str, PartState] = {}
        self.shop = Shop(self.holds)
        self.accepted: list[Accepted] = []
        self.paused: Paused | None = None
        self.stops = Stops()
        self.notes: list[str] = []
        self.records = Records()
        self.planned = Planned()
        self.counted = Counted()
        self._take_all(_in_order(tuple(entries)))

    def goes_on(self, entries: Iterable[Entry]) -> bool:
        """Take the entries that come next; where one of them reaches back none is taken: all have to be folded anew."""
        more = tuple(entries)
        number = self.last.number if self.last is not None else 0
        for entry in more:
            if entry.number <= number or self._reaches_back(entry):
                return False
            number = entry.number
        self._take_all(more)
        return True

    def _reaches_back(self, entry: Entry) -> bool:
        if entry.kind != "strike":
            return False
        target = self.by_id.get(entry.body["entry"])
        return target is not None and target.kind not in NEVER_STRUCK and target.id not in self.struck

    def _take_all(self, entries: tuple[Entry, ...]) -> None:
        self._find_struck(entries)
        for entry in entries:
            self.take(entry)
            self.last = entry
        self.count += len(entries)

    def _find_struck(self, entries: tuple[Entry, ...]) -> None:
        """The first strike of an entry counts; what cannot be struck is not."""
        for entry in entries:
            if entry.kind == "strike":
                target = self.by_id.get(entry.body["entry"])
                if target is not None and target.kind not in NEVER_STRUCK:
                    self.struck.setdefault(target.id, Struck(entry.id, entry.body["why"], entry.who))
            self.by_id[entry.id] = entry

    def take(self, entry: Entry) -> None:
        """One entry further."""
        kind, struck = entry.kind, entry.id in self.struck
        if (kind, entry.version) not in KNOWN:
            self.doubts.add(entry, "this program does not know this kind of entry; use a newer one")
            self.outdated.note(entry, ())
            return
        self.about = about = subject(entry)
        stale, voids = self.outdated.why(entry), _VOIDS.get(kind)
        if kind in MEASURED:
            self.readings.said(entry)
        if entry.body.get("doing") is not None:
            self.engine.act(entry, struck=struck)
        if voids is not None:
            voids(self, entry, struck, stale)
        elif not struck:
            self.stated(entry, stale)
        if not struck and kind in WORK:
            if self.paused is not None and self.stops.ended_by(entry):
                self.paused = None
            self.stops.worked(entry)
        self.overrides.seen(entry)
        self.counted.seen(entry)
        touched = self._touches(entry) if kind == "strike" else touches(entry, about)
        self.outdated.note(entry, touched, struck=struck)

    def stated(self, entry: Entry, stale: str) -> None:
        """Take what an entry states; in doubt when its sender had not seen what it speaks of."""
        if stale:
            self.doubts.add(entry, stale, settled_by=self.about)
        else:
            self.doubts.settle(self.about)
        _STATES[entry.kind](self, entry)

    def _touches(self, strike: Entry) -> tuple[str, ...]:
        """A strike touches what the struck entry was about."""
        target = self.before(strike)
        if target is None or (target.kind, target.version) not in KNOWN:
            return ()
        more = (f"reading:{target.body['item']}",) if target.kind in MEASURED else ()
        return (*touches(target, subject(target)), *more)

    def before(self, entry: Entry) -> Entry | None:
        """The entry that another one speaks of, where it stands before that."""
        found = self.by_id.get(entry.body["entry"])
        return found if found is not None and found.number < entry.number else None

    def gone(self, thing: str) -> str:
        """Why something that a proof rests on holds nothing up now; nothing where it does."""
        family, _, key = thing.partition(":")
        if family == "joint" and self.joints.in_doubt(key):
            return "its joint is in doubt"
        return self.shop.away(key) if family == "part" else ""

    def state(self) -> State:
        """What it all adds up to."""
        last = self.last
        doubtful = [(entry.id, why) for entry, why in self.doubts.listed()] + list(self.joints.doubtful())
        doubtful.sort(key=lambda one: self.by_id[one[0]].number)
        return State(
            build=last.build if last else "",
            identity=self.identity,
            readings=self.readings.states(),
            joints=self.joints.states(),
            provisional=self.lists.items("provisional"),
            left_in=self.lists.items("left in"),
            plugged=self.lists.items("plugged"),
            left_over=self.lists.items("left over"),
            counts=self.lists.counts(),
            holds=self.holds.states(),
            timers=self.timers.states(),
            tasks=as_it_is(self.tasks),
            parts=as_it_is(self.parts),
            shop=self.shop.states(),
            accepted=tuple(self.accepted),
            paused=self.paused,
            doubtful=tuple(doubtful),
            notes=tuple(self.notes),
            struck=as_it_is(self.struck),
            head=last.hash if last else "",
            count=self.count,
            last_time=last.device_time if last else "",
            made_final=self.lists.made_final(),
            engine=self.engine.state,
            breaches=self.engine.breaches(),
            overrides=self.overrides.listed(),
            photos=tuple(self.records.photos),
            money=tuple(self.records.money),
            plan=self.planned.plan(),
            buying=self.planned.buying(),
            agreed=self.planned.agreed(),
            signed=tuple(self.records.signed),
            tallies=self.records.tallies(),
            odometer=self.records.odometer,
            tightened_again=self.records.tightened_again(),
            last_run=self.records.last_run,
            scans=self.records.scans(),
        )


def _at_joint(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    take = {
        "pull": work.joints.pull,
        "bolt-loosened": work.joints.loosened,
        "joint-marked": work.joints.marked,
        "joint-disturbed": work.joints.disturbed,
    }
    take[entry.kind](entry, struck=struck, stale=stale)


def _hold_proved(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    if not struck:
        work.doubts.settle(work.about)
    if stale and not struck:
        work.doubts.add(entry, stale, settled_by=work.about)
    read = work.readings.counting(entry.body["shown"])
    work.holds.prove(entry, struck=struck, stale=stale, gone=work.gone, read=read)


def _in_or_out(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    take = work.engine.put_in if entry.kind == "left-in" else work.engine.taken_out
    take(entry, struck=struck)
    if not struck:
        work.stated(entry, stale)


def _sent(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    work.shop.left(entry)
    if not struck:
        work.stated(entry, stale)


def _shop(work: Folding, entry: Entry) -> None:
    take = work.shop.out if entry.kind == "shop-out" else work.shop.back
    why = take(entry)
    if why:
        work.doubts.add(entry, why)


def _left_loose(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    work.joints.left_loose(entry)
    if not struck:
        work.stated(entry, stale)


def _override(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    work.overrides.made(entry, struck=struck)


def _engine_state(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    work.engine.set(entry.body, entry, struck=struck)
    if not struck:
        work.stated(entry, stale)


def _hold_voided(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    work.holds.voided(entry)


def _strike(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    struck_by = work.struck.get(entry.body["entry"])
    if struck_by is None or struck_by.by != entry.id:
        return
    target = work.by_id[entry.body["entry"]]
    if (target.kind, target.version) not in KNOWN:
        return
    work.overrides.seen(target)
    work.engine.strike(target, strike=entry)
    if target.kind in ("pull", "bolt-loosened", "joint-marked", "joint-witnessed", "joint-disturbed"):
        work.joints.strike(target, strike=entry)
    elif target.kind == "hold-proved":
        work.holds.strike(target, strike=entry)
    elif target.kind in MEASURED and target.number < entry.number:
        work.readings.struck(target)
        work.holds.reading_struck(target, strike=entry)
    elif target.kind == "looked":
        work.joints.look_struck(work.before(target), look=target, strike=entry)


def _nothing(work: Folding, entry: Entry) -> None:
    """Kinds that change nothing but the chain."""


def _identity(work: Folding, entry: Entry) -> None:
    work.identity = IdentityState(entry.id, time=entry.device_time, **entry.body)


def _reading(work: Folding, entry: Entry) -> None:
    work.readings.read(entry)


def _opens(work: Folding, entry: Entry) -> None:
    work.lists.put_on(entry)


def _closes(work: Folding, entry: Entry) -> None:
    work.lists.take_off(entry)


def _witnessed(work: Folding, entry: Entry) -> None:
    why = work.joints.witnessed(entry)
    if why:
        work.doubts.add(entry, why)


def _looked(work: Folding, entry: Entry, struck: bool, stale: str) -> None:
    """After a stop: what is not as it was recorded is in doubt; the stop of what was looked at is over."""
    target = work.before(entry)
    if target is None:
        if not struck:
            work.doubts.add(entry, "it looks at an entry that is not before it")
        return
    if target.kind in NEVER_STRUCK:  # the doubt is the look's: nobody could close that of the other
        if not struck and not entry.body["as_recorded"]:
            work.doubts.add(entry, "it looks at what is no work: strike it, and say what you saw of the work")
        return
    if target.kind == "pull":
        work.joints.looked(target, entry=entry, struck=struck)
    if struck:
        return
    if target.kind != "pull" and not entry.body["as_recorded"] and target.id not in work.struck:
        why = f"looked at after a stop, it is not as recorded: {entry.body['seen']}"
        work.doubts.add(target, why, settled_by=subject(target))
    stop = work.paused
    if stop is None or stop.joint not in ("", target.body.get("joint")):
        return
    if work.joints.last_pull(stop.joint) in ("", target.id):  # an older pull says nothing of the last one
        work.paused = None


def _inspected(work: Folding, entry: Entry) -> None:
    if not work.engine.inspected(entry):
        work.doubts.add(entry, "it inspects an act against a gate that is not there, or was inspected before")


def _timer_started(work: Folding, entry: Entry) -> None:
    """A wait by distance also says what the odometer shows."""
    work.timers.started(entry, not_before=work.outdated.not_before(entry))
    body = entry.body
    if body["odometer"] is not None:
        why = work.records.drove(body["odometer"], unit=body["unit"])
        if why:
            work.doubts.add(entry, why, settled_by="odometer")


def _sealant(work: Folding, entry: Entry) -> None:
    work.timers.laid(entry, not_before=work.outdated.not_before(entry))


def _timer_ended(work: Folding, entry: Entry) -> None:
    why = work.timers.ended(entry)
    if why:
        work.doubts.add(entry, why)


def _drove(work: Folding, entry: Entry) -> None:
    why = work.records.drove(entry.body["value"], unit=entry.body["unit"])
    if why:
        work.doubts.add(entry, why, settled_by="odometer")


def _turned(work: Folding, entry: Entry) -> None:
    if entry.body["by"] == "starter":
        work.records.last_run = entry.device_time


def _task(work: Folding, entry: Entry) -> None:
    """What is said last of a task counts."""
    body = entry.body
    work.tasks[body["task"]] = TaskState(
        entry.id, _STATUS[entry.kind], entry.device_time, entry.number,
        body.get("minutes"), body.get("why") or body.get("note") or "",
    )  # fmt: skip


_STATUS = {"task-started": "running", "task-paused": "paused", "task-done": "done"}


def _part(work: Folding, entry: Entry) -> None:
    body = entry.body
    known = work.parts.get(body["part"], PartState())
    now = replace(known, decision=body["decision"], why=body["why"], covers=work.counted.now())
    if not body.get("joint"):
        now = replace(now, decided=entry.number, renewed=entry.number if body["decision"] == "renew" else 0)
    elif body["decision"] == "renew":
        work.joints.renewed(entry)
    work.parts[body["part"]] = now


def _received(work: Folding, entry: Entry) -> None:
    known = work.parts.get(entry.body["part"], PartState())
    covers = known.covers if known.decision == "accept" else work.counted.now()
    work.parts[entry.body["part"]] = replace(
        known, received=True, compared=entry.body["compared"], covers=covers
    )


def _accepted(work: Folding, entry: Entry) -> None:
    body = entry.body
    work.accepted.append(Accepted(entry.id, body["what"], body["by"], body["why"], work.counted.now()))


def _paused(work: Folding, entry: Entry) -> None:
    joint, task = work.stops.in_hand
    work.stops.stop()
    if joint:
        work.joints.stopped(joint, order=entry.number)
    body = entry.body
    work.paused = Paused(
        entry.id, body["hand"], body["next_action"], entry.device_time, body["screen"], joint, task
    )


def _record(work: Folding, entry: Entry) -> None:
    keep = {
        "photo": work.records.photo,
        "money": work.records.paid,
        "signed-off": work.records.sign,
        "counted": work.records.counted,
        "explained": work.records.explained,
        "tightened-again": work.records.again,
        "face-scanned": work.records.scanned,
    }
    keep[entry.kind](entry)


def _note(work: Folding, entry: Entry) -> None:
    work.notes.append(entry.body["text"])


_VOIDS: dict[str, Callable[[Folding, Entry, bool, str], None]] = {
    **dict.fromkeys(("pull", "bolt-loosened", "joint-marked", "joint-disturbed"), _at_joint),
    "hold-proved": _hold_proved,
    "hold-voided": _hold_voided,
    **dict.fromkeys(("left-in", "taken-out"), _in_or_out),
    "engine-state": _engine_state,
    "looked": _looked,
    "override": _override,
    "shop-out": _sent,
    "provisional-made": _left_loose,
    "strike": _strike,
}
"""Kinds that can void something, or let it be void, which they do even when they are struck."""

_STATES: dict[str, Callable[[Folding, Entry], None]] = {
    "build-opened": _nothing,
    "identity-read": _identity,
    "reading": _reading,
    **dict.fromkeys(OPENS, _opens),
    "engine-state": _nothing,
    **dict.fromkeys(CLOSES, _closes),
    "timer-started": _timer_started,
    "sealant-laid": _sealant,
    "timer-ended": _timer_ended,
    **dict.fromkeys(_STATUS, _task),
    "part-disposition": _part,
    "part-received": _received,
    **dict.fromkeys(("shop-out", "shop-back"), _shop),
    "accepted": _accepted,
    "paused": _paused,
    "note": _note,
    "joint-witnessed": _witnessed,
    "inspected": _inspected,
    "turned": _turned,
    "odometer-read": _drove,
    **dict.fromkeys(
        ("photo", "money", "signed-off", "counted", "explained", "tightened-again", "face-scanned"), _record
    ),
    **dict.fromkeys(TAKES, lambda work, entry: work.planned.take(entry)),
}
"""Kinds that only state something, which a strike takes back."""

_LATER = (("reading", 2),)
"""Versions beyond the first one."""

KNOWN = frozenset((*((kind, 1) for kind in (*_VOIDS, *_STATES)), *_LATER))
"""The kinds and versions of entries that are understood."""

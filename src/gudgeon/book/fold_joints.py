"""Joints: what was pulled since each was last slackened, and what of it is in doubt.

A bolt that is turned by its angle twice is spoiled. So nothing here makes a pull quietly undone: what a
strike puts in question stays on the list, in doubt, until the joint is slackened or the pull recorded anew.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from gudgeon.book.entries import Entry
from gudgeon.book.fold_holds import Holds
from gudgeon.book.kept import as_it_is
from gudgeon.book.state import JointState, LookedAt, PullState

Step = tuple[int, int, str]

TURNED_TWICE = "the angle of this stage was recorded before: was the bolt turned twice?"
"""The doubt of two entries for one turn: one of them wrong, or a bolt spoiled."""


@dataclass(slots=True)
class _Joint:
    """One joint while the entries are folded; a series of pulls ends when the joint is disturbed."""

    series: int = 1
    pulls: dict[Step, PullState] = field(default_factory=dict)
    found: dict[Step, str] = field(default_factory=dict)
    turned: set[Step] = field(default_factory=set)
    history: list[PullState] = field(default_factory=list)
    marked: bool = False
    witnessed: str = ""
    disturbed_why: str = ""
    disturbed_order: int = 0
    doubts: dict[str, tuple[str, str]] = field(default_factory=dict)
    loosened: dict[Step, PullState] = field(default_factory=dict)
    looked: LookedAt | None = None
    stopped_order: int = 0
    renewed: dict[str, int] = field(default_factory=dict)

    def start_again(self, *, why: str, order: int) -> None:
        """What was pulled stands no more."""
        self.series += 1
        self.history += self.pulls.values()
        self.pulls, self.found, self.turned, self.doubts = {}, {}, set(), {}
        self.disturbed_why, self.disturbed_order = why, order

    def unmark(self) -> None:
        """A mark and a second look say how the joint was before it was worked on."""
        self.marked, self.witnessed = False, ""

    def doubt(self, step: Step, why: str) -> None:
        """A pull that counted is in question."""
        pull = self.pulls[step]
        said = f"{pull.why}; {why}" if pull.doubtful and pull.why else why
        self.pulls[step] = replace(pull, doubtful=True, why=said)
        self.found[step] = f"{self.found[step]}; {why}" if step in self.found else why


class Joints:
    """The joints while the entries are folded."""

    def __init__(self, holds: Holds) -> None:
        self._holds = holds
        self._joints: dict[str, _Joint] = {}
        self._series: dict[str, int] = {}

    def _of(self, entry: Entry) -> _Joint:
        name = entry.body["joint"]
        found = self._joints.get(name)
        if found is None:
            found = self._joints[name] = _Joint()
        return found

    def in_doubt(self, joint: str) -> bool:
        """Whether anything about a joint is in doubt."""
        found = self._joints.get(joint)
        return found is not None and (
            bool(found.doubts) or any(pull.doubtful for pull in found.pulls.values())
        )

    def last_pull(self, joint: str) -> str:
        """The entry of the pull recorded last at a joint that is not marked; empty where there is none."""
        found = self._joints.get(joint)
        if found is None or found.marked:
            return ""
        last = max(found.pulls.values(), key=lambda pull: pull.order, default=None)
        return last.entry if last is not None else ""

    def pull(self, entry: Entry, *, struck: bool, stale: str) -> None:
        """A bolt was worked on: marks and proofs of its joint from before no longer say how it is now."""
        body, joint = entry.body, self._of(entry)
        self._series[entry.id] = joint.series
        joint.unmark()
        self._holds.void_on(f"joint:{body['joint']}", why="its joint was worked on since", by=entry.id)
        if struck:
            return
        step = (body["stage"], body["round"], body["bolt"])
        if step in joint.pulls:
            joint.history.append(joint.pulls[step])
        joint.found.pop(step, None)
        joint.disturbed_why = ""
        joint.loosened = {}
        joint.pulls[step] = _state_of(entry)
        if stale:
            joint.doubt(step, stale)
        if step in joint.turned and body["outcome"] in ("angle reached", "stopped at"):
            joint.doubt(step, TURNED_TWICE)
        if body["outcome"] == "angle reached" and not stale:
            joint.turned.add(step)

    def loosened(self, entry: Entry, *, struck: bool, stale: str) -> None:
        """A bolt was loosened by the loosening program: the first one ends all that was pulled before."""
        body, joint = entry.body, self._of(entry)
        self._series[entry.id] = joint.series
        joint.unmark()
        self._opened(entry, why="its joint was loosened")
        if struck:
            return
        if joint.pulls:
            joint.start_again(why="it was loosened", order=entry.number)
        pull = _state_of(entry)
        said = replace(pull, doubtful=True, why=stale) if stale else pull
        joint.loosened[(body["stage"], body["round"], body["bolt"])] = said

    def marked(self, entry: Entry, *, struck: bool, stale: str) -> None:
        """A joint is marked as finished."""
        joint = self._of(entry)
        self._series[entry.id] = joint.series
        if struck:
            return
        joint.marked = True
        joint.doubts = {entry.kind: (entry.id, f"marked, {stale}")} if stale else {}

    def witnessed(self, entry: Entry) -> str:
        """Somebody had a second look at a marked joint; or why that says nothing."""
        joint = self._of(entry)
        self._series[entry.id] = joint.series
        if not joint.marked:
            return "a second look at a joint that is not marked"
        joint.witnessed = f"{entry.body['by']}: {entry.body['seen']}"
        return ""

    def looked(self, target: Entry, *, entry: Entry, struck: bool) -> None:
        """After a stop an action was looked at; what is not as it was recorded is in doubt, and proves nothing."""
        joint, seen = self._of(target), entry.body["seen"]
        if not struck:
            joint.looked = LookedAt(target.id, entry.device_time, seen, entry.body["as_recorded"])
            joint.stopped_order = entry.number
        if entry.body["as_recorded"]:
            return
        self._void(target, why=f"looked at after a stop, its joint is not as recorded: {seen}", by=entry)
        step = (target.body["stage"], target.body["round"], target.body["bolt"])
        there = joint.pulls.get(step)
        if not struck and there is not None and there.entry == target.id:
            joint.doubt(step, f"looked at after a stop, it is not as recorded: {seen}")

    def look_struck(self, target: Entry | None, *, look: Entry, strike: Entry) -> None:
        """A look is struck that had found something: what was not proved because of it is not proved by that."""
        if target is not None and target.kind == "pull" and not look.body["as_recorded"]:
            self._void(target, why=f"a look at its joint was struck: {strike.body['why']}", by=strike)

    def _void(self, target: Entry, *, why: str, by: Entry) -> None:
        """Void what rests on the joint of an action, if the joint was not slackened since."""
        if self._series.get(target.id) == self._of(target).series:
            self._holds.void_on(f"joint:{target.body['joint']}", why=why, by=by.id)

    def stopped(self, joint: str, *, order: int) -> None:
        """The work on a joint was stopped: what its wrench was set to has to be read again."""
        self._joints.setdefault(joint, _Joint()).stopped_order = order

    def renewed(self, entry: Entry) -> None:
        """A new bolt is in hand."""
        self._of(entry).renewed[entry.body["bolt"]] = entry.number

    def disturbed(self, entry: Entry, *, struck: bool, stale: str) -> None:
        """A joint starts again. Struck, it gives the pulls back, and neither a mark nor a hold."""
        why, joint = entry.body["why"], self._of(entry)
        self._series[entry.id] = joint.series
        joint.unmark()
        self._opened(entry, why=f"its joint was disturbed: {why}")
        if struck:
            return
        joint.start_again(why=why, order=entry.number)
        if stale:
            joint.doubts[entry.kind] = (entry.id, f"disturbed, {stale}")

    def left_loose(self, entry: Entry) -> None:
        """Something of a joint is loose on purpose: a mark and what was proved of it say how it was before.

        What is pulled as far as its program goes for now is left so by design, has neither yet, and loses nothing.
        """
        joint = self._joints.get(entry.body["joint"] or "")
        if joint is not None:
            joint.unmark()
            why = f"its joint was left loose: {entry.body['name']}"
            self._holds.void_on(f"joint:{entry.body['joint']}", why=why, by=entry.id)

    def _opened(self, entry: Entry, *, why: str) -> None:
        """What is proved of a joint, and what was seen before it was closed over that, has to be seen again."""
        for family in ("joint", "under"):
            self._holds.void_on(f"{family}:{entry.body['joint']}", why=why, by=entry.id)

    def strike(self, target: Entry, *, strike: Entry) -> None:
        """An entry on a joint is struck: what rested on it is gone, if the joint was not slackened since."""
        joint = self._of(target)
        if self._series.get(target.id) != joint.series:
            return
        why = strike.body["why"]
        self._void(target, why=f"an entry on its joint was struck: {why}", by=strike)
        if target.kind == "joint-witnessed":
            joint.witnessed = ""
        if target.kind == "joint-marked":
            joint.unmark()
        if target.kind != "pull":
            return
        joint.unmark()
        gone = (target.body["stage"], target.body["round"], target.body["bolt"])
        there = joint.pulls.get(gone)
        for step, pull in joint.pulls.items():
            later = step[2] == gone[2] and step[:2] > gone[:2]
            if later and not (there is not None and there.order < pull.order):
                joint.doubt(step, f"stage {gone[0]} before it was struck: {why}")
                joint.turned.discard(step)

    def states(self) -> Mapping[str, JointState]:
        """The joints as they stand."""
        return MappingProxyType(
            {
                name: JointState(
                    as_it_is(joint.pulls), joint.marked, joint.disturbed_why,
                    tuple(why for _, why in joint.doubts.values()), tuple(joint.history),
                    joint.disturbed_order, as_it_is(joint.loosened), joint.witnessed,
                    joint.looked, joint.stopped_order, as_it_is(joint.renewed),
                )
                for name, joint in self._joints.items()
            }
        )  # fmt: skip

    def doubtful(self) -> Iterator[tuple[str, str]]:
        """The entries on joints that are in doubt, and why; not those that their own recorder doubted."""
        for joint in self._joints.values():
            yield from joint.doubts.values()
            yield from ((joint.pulls[step].entry, why) for step, why in joint.found.items())


def _state_of(entry: Entry) -> PullState:
    """What an entry says of one action on one bolt."""
    body, shown = entry.body, entry.body["shown"]
    return PullState(
        entry.id, entry.number, body["outcome"], body["angle_deg"], body["outcome"] == "doubtful",
        body["why"], entry.device_time, body["tool"], body.get("setting", ""), entry.who, entry.sheet,
        shown.get("target", ""), shown.get("setting", ""), shown.get("adapter", ""), shown.get("room", ""),
        shown.get("unfitted", ""), shown, body.get("doubt") or "", entry.kit,
        body["stage"], body["bolt"],
    )  # fmt: skip

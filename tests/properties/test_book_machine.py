"""No sequence of entries makes a yes while something is open: any facts, in any order, struck, outdated, overridden.

What is open is worked out by `naive_book.py`, which knows nothing of the program's own reckoning. From time to time
everything is put right, so that what is done next is done to an engine that may be started.
"""

import random
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule, run_state_machine_as_test

from gudgeon.bench.holds import IDENTITY, Hold, holds_of, standings
from gudgeon.bench.progress import progress
from gudgeon.bench.ready import ready
from gudgeon.bench.reason import Reason
from gudgeon.book.entries import Entry
from gudgeon.book.fold import fold
from gudgeon.book.state import State
from gudgeon.sheet.load import parse_sheet
from tests.properties.gate_engines import Book, bench
from tests.properties.naive_book import ORDER, Needs, about_of, open_before, struck_ids
from tests.properties.test_book_fold import facts
from tests.unit.book.chains import START
from tests.unit.sheet.sheets import SMALL

MORE = """\
  pulley:
    name: Pulley bolt
    role: crank pulley
    fastener: {thread: M12x1.25, strength_class: "10.9"}
    bolts: 1
    order: [1]
    thread_state: dry
    due_before: fire
    loosening:
      - loosen: fully
    program:
      - {hand-run: to contact, provisional: until the flywheel lock is in}
      - torque: 60 N·m
    source: manual p. 11
"""
SHEET = parse_sheet(SMALL + MORE, file="sheet.yaml").sheet
KEYS = [hold.id for hold in holds_of(SHEET) if hold.id != IDENTITY]


def _ground(hold: Hold) -> tuple[str, ...]:
    joints = {"cylinder head": "head", "crank pulley": "pulley"}
    under = [f"hold:{one}" for one in hold.rests_on if one in KEYS]
    return (*under, *([f"joint:{joints[hold.joint]}"] if hold.joint in joints else []))


NEEDS = Needs(
    stages={"head": ("hand-run", "torque", "torque", "turn"), "pulley": ("hand-run", "torque")},
    bolts={"head": ("1", "3", "2", "4"), "pulley": ("1",)},
    due={"head": "crank", "pulley": "fire"},
    holds={hold.id: _ground(hold) for hold in holds_of(SHEET) if hold.id != IDENTITY},
    hold_due={hold.id: hold.before for hold in holds_of(SHEET)},
    most={"head_face": 0.05},
)
"""What the sheet above asks for, as it is written there."""

ITEMS = st.sampled_from(["a", "b"])
DUE = st.sampled_from(ORDER)
OUTCOME = {"hand-run": "done", "torque": "clicked while turning", "turn": "angle reached"}
ABOUTS = st.sampled_from(
    [
        "item:left in:a", "item:left over:a", "item:plugged:b", "item:provisional:a", "timer:a", "joint:head", "joint:pulley",
        "part:a", "hold:walk_round", "hold:timing_proved", "counted:hose", "gate:pins in", "gate:starter before hand turns",
        "reading:head_face along",
    ]
)  # fmt: skip


def body(kind: str, **fields: Any) -> st.SearchStrategy[tuple[str, dict[str, Any]]]:
    plain = {
        name: one if isinstance(one, st.SearchStrategy) else st.just(one) for name, one in fields.items()
    }
    return st.tuples(st.just(kind), st.fixed_dictionaries(plain))


LISTS = st.one_of(
    body("provisional-made", item=ITEMS, name="bolt", joint=st.sampled_from([None, "head", "pulley"]), why="to turn it",
         due_task="the end", due_before=DUE),
    body("provisional-cleared", item=ITEMS, how="new bolt"),
    body("left-in", item=ITEMS, name="tool", where="flywheel", due_before=DUE,
         holds=st.sampled_from(["nothing", "timing", "torque"])),
    body("taken-out", item=ITEMS),
    body("plugged", item=ITEMS, name="port", where="head", due_before=DUE),
    body("opened", item=ITEMS),
    body("taken-off", item=ITEMS, group=st.sampled_from(["hose", "bolt"]), name="hose", count=st.integers(1, 3), due_before=DUE),
    body("refitted", item=ITEMS, count=st.sampled_from([None, 1, 2])),
    body("counted", group=st.sampled_from(["hose", "bolt"]), when=st.sampled_from(["off", "back"]), count=st.integers(0, 2)),
)  # fmt: skip
JOINTS = st.one_of(
    st.sampled_from([("head", stage, bolt) for stage in (1, 2, 3, 4) for bolt in "1324"] + [("pulley", 1, "1"), ("pulley", 2, "1")]).flatmap(
        lambda step: body("pull", joint=step[0], stage=step[1], bolt=step[2], why="seen", outcome=st.sampled_from(
            [OUTCOME[NEEDS.stages[step[0]][step[1] - 1]], "doubtful"]))
    ),
    body("bolt-loosened", joint="pulley", stage=1, bolt="1", outcome="done"),
    body("joint-marked", joint=st.sampled_from(["head", "pulley"]), how="paint"),
    body("joint-disturbed", joint=st.sampled_from(["head", "pulley"]), why="slipped"),
    body("joint-witnessed", joint="head", by="Bo", seen="4 lines"),
)  # fmt: skip
PROOFS = st.one_of(
    body("hold-proved", hold=st.sampled_from(KEYS), value="seen by Ada"),
    body("hold-voided", hold=st.sampled_from(KEYS), why="looked wrong"),
)
ENGINE = st.one_of(
    body("engine-state", seen="looked", pins=st.sampled_from(["in", "out"])),
    body("engine-state", seen="looked", holder=st.sampled_from(["fitted", "off"])),
    body("engine-state", seen="looked", cams=st.sampled_from(["in", "out"])),
    body("engine-state", seen="looked", followers=st.sampled_from(["pumped up", "bled down"])),
    body("turned", by=st.sampled_from(["hand", "starter"]), seen="half a turn"),
    body(
        "task-started",
        task=st.sampled_from(["two_turns", "crank_for_oil", "lower_head", "pulley_final", "agree_scope"]),
    ),
    body("task-paused", task="lower_head", why="rain"),
    body("task-done", task=st.sampled_from(["two_turns", "crank_for_oil", "lower_head", "pulley_final"])),
)
OTHER = st.one_of(
    body("timer-started", timer=ITEMS, name="bead", minutes=st.sampled_from([3, 60, 5000]), task="oil", due_before=DUE),
    body("timer-ended", timer=ITEMS, how="firm"),
    body("shop-out", part=ITEMS, shop="Mill Lane", ordered="clean up"),
    body("shop-back", part=ITEMS, found="flat"),
    body("part-disposition", part=st.sampled_from(["a", "cylinder head"]), decision=st.sampled_from(["reuse", "renew"]), why="worn"),
    body("part-received", part=ITEMS, compared=st.booleans()),
    body("reading", item="head_face", place=st.sampled_from(["along", "across"]), value=st.sampled_from(["0.02 mm", "0.20 mm"]),
         condition=st.sampled_from(["as found", "as left"])),
    body("accepted", what="head_face along", by="Sam", why="it seals"),
    body("identity-read", code="L1-A"),
    body("paused", hand="wrench", next_action="bolt 3"),
    body("note", text="cold"),
    body("odometer-read", value=st.sampled_from(["84100", "84200"]), unit="km"),
    body("signed-off", milestone=DUE, by="Sam", words="it is good"),
    body("money", what="gasket", amount="30", currency="EUR"),
    body("explained", group="hose", way="missing", what="short one", why="it is not fitted any more"),
    body("override", about=ABOUTS, by="Sam", why="it is a trial", shown="what was shown"),
)  # fmt: skip


class Bookkeeping(RuleBasedStateMachine):
    """Anybody writes anything; after each entry every answer is held against what is open."""

    def __init__(self) -> None:
        super().__init__()
        self.book = Book(SHEET)
        self.later = timedelta(0)

    @property
    def entries(self) -> list[Entry]:
        return self.book.chain.entries

    @property
    def now(self) -> datetime:
        return START + timedelta(minutes=len(self.entries)) + self.later

    def basis(self, seen: int | None) -> str | None:
        """What a sender had seen: all of it, or only the entries before one of the last."""
        if seen is None:
            return None
        return self.entries[-min(seen, len(self.entries))].hash

    @initialize(good=st.booleans())
    def begin(self, good: bool) -> None:
        if good:
            self.put_right()

    SEEN = st.one_of(st.none(), st.none(), st.none(), st.integers(1, 4))
    WHO = st.sampled_from(["Ada", "Bo"])

    @rule(said=st.one_of(LISTS, JOINTS, PROOFS, ENGINE, OTHER), seen=SEEN, who=WHO)
    def write(self, said: tuple[str, dict[str, Any]], seen: int | None, who: str) -> None:
        self.book.record(said[0], basis=self.basis(seen), who=who, **said[1])

    @rule(data=st.data())
    def close_or_look(self, data: st.DataObject) -> None:
        """What fits what is there: a closing of what is open, a look, an inspection, an override of what is said."""
        state, chain = self.book.state, self.book.chain
        reasons = [
            one for one in ready(bench(SHEET, state, now=self.now), milestone="handover").reasons if one.about
        ]
        breaches = [one for one in state.breaches if one.open]
        ways: list[Callable[[], object]] = []
        if reasons:
            reason = data.draw(st.sampled_from(reasons))
            shown = f"{reason.what}: {reason.why}"
            if ":" in reason.about and not reason.about.startswith("reading:head_face changed"):
                ways.append(
                    lambda: chain.add("override", about=reason.about, by="Sam", why="seen", shown=shown)
                )
        if breaches:
            one = data.draw(st.sampled_from(breaches))
            ways.append(
                lambda: chain.add("inspected", entry=one.entry, gate=one.gate, found="no mark", by="Ada")
            )
        looked = data.draw(st.sampled_from(self.entries))
        ways.append(
            lambda: chain.add("looked", entry=looked.id, seen="dot", as_recorded=data.draw(st.booleans()))
        )
        data.draw(st.sampled_from(ways))()

    @rule(back=st.integers(1, 25), seen=SEEN)
    def strike(self, back: int, seen: int | None) -> None:
        """Any entry is struck; what was void stays so, and nothing that was written later is lost."""
        target, before = self.entries[-min(back, len(self.entries))], self.book.state
        self.book.chain.add("strike", entry=target.id, why="wrong", basis=self.basis(seen))
        after, number = self.book.state, {entry.id: entry.number for entry in self.entries}
        assert standing(after) <= standing(before), f"a strike of {target.kind} restored a hold"
        later = {one for one in facts(before) if number[one[-1]] > target.number}
        assert later <= facts(after), f"a strike of {target.kind} lost a later fact"
        broken = {(one.entry, one.gate) for one in before.breaches}
        assert broken <= {(one.entry, one.gate) for one in after.breaches}, (
            "a strike took back an act against a gate"
        )

    @rule(hours=st.sampled_from([1, 80]))
    def wait(self, hours: int) -> None:
        self.later += timedelta(hours=hours)

    @rule()
    def put_right(self) -> None:
        """Everything is finished and proved; only what somebody accepted stays."""
        put_right(self.book)
        self.later += timedelta(hours=100)
        named = any(one.kind in ("override", "accepted") for one in self.entries)
        for milestone in ORDER:
            found = ready(bench(SHEET, self.book.state, now=self.now), milestone=milestone)
            assert found.answer != "no", [(one.what, one.why) for one in found.reasons]
            assert named or found.answer == "yes"

    @rule()
    def do_what_is_asked(self) -> None:
        """Whoever does all that the program asks for, and no more, comes to a yes; what is open then was not asked."""
        put_right(self.book, only_asked=True)
        self.later += timedelta(hours=100)
        found = ready(bench(SHEET, self.book.state, now=self.now), milestone="handover")
        assert found.answer != "no", [(one.what, one.why) for one in found.reasons]

    @invariant()
    def no_yes_while_something_is_open(self) -> None:
        state = self.book.state
        for milestone in ORDER if len(self.entries) % 4 == 0 else ("crank", "handover"):
            answer = ready(bench(SHEET, state, now=self.now), milestone=milestone).answer
            if answer == "no":
                continue
            left = open_before(milestone, self.entries, NEEDS, now=self.now)
            let_pass = passed(self.entries)
            assert left <= let_pass, f"{answer} for {milestone}, and open: {sorted(left - let_pass)}"
            assert answer != "yes" or not left, (
                f"a plain yes for {milestone}, and only let pass: {sorted(left)}"
            )
            assert answer == "yes" or self._somebody(), "somebody is said to have accepted what nobody did"

    def _somebody(self) -> bool:
        return any(one.kind in ("override", "accepted") for one in self.entries)

    @invariant()
    def the_order_in_which_entries_are_read_does_not_matter(self) -> None:
        if len(self.entries) % 7 == 0:
            mixed = list(self.entries)
            random.Random(len(mixed)).shuffle(mixed)
            assert fold(mixed) == self.book.state

    @invariant()
    def an_override_ends_when_its_subject_changes(self) -> None:
        for over in self.book.state.overrides:
            touched = [
                one.kind
                for one in self.entries
                if one.number > over.order and over.about in touches(one, self.entries)
            ]
            assert not (over.stands and touched), (over.about, touched)


def standing(state: State) -> set[str]:
    return {name for name, hold in state.holds.items() if hold.status == "proved"}


def passed(entries: list[Entry]) -> set[str]:
    """What somebody lets pass, and has not changed since."""
    gone = struck_ids(entries)
    return {
        over.body["about"]
        for over in entries
        if over.kind == "override"
        and over.id not in gone
        and not any(
            over.body["about"] in touches(one, entries) for one in entries if one.number > over.number
        )
    }


def touches(entry: Entry, entries: list[Entry]) -> tuple[str, ...]:
    """What an entry changes, in the words of an override; a strike changes what the struck one was about."""
    if entry.kind != "strike":
        return (about_of(entry),)
    gone = struck_ids(entries)
    return tuple(
        about_of(one) for one in entries if gone.get(one.id) == entry.number and one.kind != "hold-proved"
    )


def put_right(book: Book, *, only_asked: bool = False) -> None:
    """Whatever is open is closed, as a person would do it who looks at everything, or only at what the program asks."""
    for _ in range(3):
        _strike_doubtful(book)
        _close_lists(book)
    if book.state.identity is None or not only_asked:
        book.record("identity-read", code="L1-A")
    if not only_asked or any(one.about.startswith("gate:") for one in _asked(book)):
        said = {"pins": "out", "holder": "off", "cams": "in", "belt": "on", "followers": "bled down"}
        book.record("engine-state", seen="looked", **said)
    for joint in NEEDS.stages:
        _tighten(book, joint)
    for place in ("along", "across"):
        book.record("reading", item="head_face", place=place, value="0.02 mm", condition="as left")
    for turn in range(3):  # an act against a gate in proving shakes what was proved before
        anew = turn == 0 and not only_asked
        stands = _stands(book.state)
        for key in KEYS if anew else [key for key in KEYS if key not in stands]:
            if anew or key not in _stands(book.state):
                book.record("hold-proved", hold=key, value="seen by Ada")
        for one in book.state.breaches:
            if one.open:
                book.chain.add("inspected", entry=one.entry, gate=one.gate, found="no mark", by="Ada")
    _strike_doubtful(book)


def _asked(book: Book) -> tuple[Reason, ...]:
    return ready(book.bench, milestone="handover").reasons


def _stands(state: State) -> set[str]:
    return {one.hold.id for one in standings(SHEET, state) if one.stands}


def _strike_doubtful(book: Book) -> None:
    while book.state.doubtful:
        number = {entry.id: entry.number for entry in book.chain.entries}
        book.chain.add(
            "strike", entry=max(book.state.doubtful, key=lambda one: number[one[0]])[0], why="not so"
        )


def _close_lists(book: Book) -> None:
    state = book.state
    for kind, items in (
        ("provisional-cleared", state.provisional),
        ("taken-out", state.left_in),
        ("opened", state.plugged),
    ):
        for item in items:
            book.record(kind, item=item, **({"how": "new bolt"} if kind == "provisional-cleared" else {}))
    for item in state.left_over:
        book.record("refitted", item=item)
    for key, timer in state.timers.items():
        if not timer.ended:
            book.record("timer-ended", timer=key, how="firm")
    for part, one in state.shop.items():
        if not one.back:
            book.record("shop-back", part=part, found="flat")
    for group in sorted({*state.tallies, *state.counts}):
        named = state.counts[group].named if group in state.counts else 0
        for when in ("off", "back"):
            book.record("counted", group=group, when=when, count=named)


def _tighten(book: Book, joint: str) -> None:
    found = progress(SHEET.joints[joint], book.state.joints.get(joint))
    if not found.complete:
        book.record("joint-disturbed", joint=joint, why="from the beginning")
        for number, kind in enumerate(NEEDS.stages[joint], start=1):
            for bolt in NEEDS.bolts[joint]:
                book.record("pull", joint=joint, stage=number, bolt=bolt, outcome=OUTCOME[kind])
    book.record("joint-marked", joint=joint, how="paint")


def run(examples: int, steps: int, *, phases: tuple[Phase, ...] = tuple(Phase)) -> None:
    """Try so many sequences, each of so many entries at most."""
    run_state_machine_as_test(  # type: ignore[no-untyped-call]
        Bookkeeping,
        settings=settings(
            max_examples=examples,
            stateful_step_count=steps,
            deadline=None,
            derandomize=True,
            database=None,
            suppress_health_check=list(HealthCheck),
            phases=phases,
            report_multiple_bugs=False,
        ),
    )


PLAIN = (45, 30)
"""How many sequences every run tries, and how long each is."""


def test_no_sequence_of_entries_makes_a_yes_too_early() -> None:
    run(*PLAIN)


@pytest.mark.long
def test_no_longer_sequence_of_more_entries_does() -> None:
    run(400, 60)

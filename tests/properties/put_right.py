"""Putting a book right: as somebody does who looks at everything, or who does what the program asks and no more."""

from collections.abc import Callable
from datetime import datetime

from gudgeon.bench.holds import standings
from gudgeon.bench.progress import progress
from gudgeon.bench.ready import ready
from gudgeon.bench.reason import Reason
from gudgeon.book.state import State
from tests.properties.any_facts import KEYS, NEEDS, OUTCOME, SHEET
from tests.properties.gate_engines import Book, bench
from tests.properties.naive_book import CLOSES


def put_right(book: Book) -> None:
    """Whatever may be open is closed and proved, as a person would do it who looks at everything."""
    for _ in range(3):
        _strike_doubtful(book)
        _close_lists(book)
    book.record("identity-read", code="L1-A")
    said = {"pins": "out", "holder": "off", "cams": "in", "belt": "on", "followers": "bled down"}
    book.record("engine-state", seen="looked", **said)
    for joint in NEEDS.stages:
        _tighten(book, joint)
    for place in ("along", "across"):
        book.record("reading", item="head_face", place=place, value="0.02 mm", condition="as left")
    for turn in range(3):  # an act against a gate in proving shakes what was proved before
        stands = _stands(book.state) if turn else set()
        for key in KEYS:
            if key not in stands:
                book.record("hold-proved", hold=key, value="seen by Ada")
        for one in book.state.breaches:
            if one.open:
                book.chain.add("inspected", entry=one.entry, gate=one.gate, found="no mark", by="Ada")
    _strike_doubtful(book)


def do_what_is_asked(book: Book, *, now: Callable[[], datetime]) -> None:
    """What the program gives as reasons is closed, and nothing else, until it gives none: first things, then proofs."""
    reasons: tuple[Reason, ...] = ()
    for _ in range(12):
        reasons = ready(bench(SHEET, book.state, now=now()), milestone="handover").reasons
        if not reasons:
            return
        first = [one for one in reasons if not one.about.startswith("hold:")]
        for one in first:
            _close(book, one)
        if not first:
            _prove(book, {one.about for one in reasons})
    raise AssertionError(f"what is asked can be done for ever: {[(one.what, one.why) for one in reasons]}")


def _prove(book: Book, wanted: set[str]) -> None:
    """What is let pass carries no proof: what rests on it cannot be proved before it is closed or proved itself."""
    for about in [one.about for one in book.state.overrides if not one.about.startswith("hold:")]:
        _close(book, Reason(family="", what="", why="", due_before="", close_with="", about=about))
    wanted = wanted | {one.about for one in book.state.overrides}
    for key in [key for key in KEYS if f"hold:{key}" in wanted]:
        if key not in _stands(book.state):
            book.record("hold-proved", hold=key, value="seen by Ada")


def _close(book: Book, reason: Reason) -> None:
    """One reason, by what it is about; what stands for several is closed as a whole."""
    family, _, key = reason.about.partition(":")
    state, closing = book.state, {name: kind for kind, name in CLOSES.items()}
    if family == "item" or not reason.about:
        name, _, item = key.partition(":")
        if reason.what == "Engine code":
            book.record("identity-read", code="L1-A")
        lists = {
            "provisional": state.provisional,
            "left in": state.left_in,
            "plugged": state.plugged,
            "left over": state.left_over,
        }
        for one in [item] if item else list(lists.get(reason.family, ())):
            if one in lists[name or reason.family]:
                how = {"how": "new bolt"} if name == "provisional" else {}
                book.record(closing[name or reason.family], item=one, **how)
            elif one.startswith("joint "):
                _tighten(book, one.removeprefix("joint "))
    elif family == "joint":
        _tighten(book, key)
    elif family == "timer":
        book.record("timer-ended", timer=key, how="firm")
    elif family == "part":
        book.record("shop-back", part=key, found="flat")
    elif family == "counted":
        for when in ("off", "back"):
            named = state.counts[key].named if key in state.counts else 0
            book.record("counted", group=key, when=when, count=named)
    elif family == "gate":
        book.record("engine-state", seen="looked", pins="out", holder="off", followers="bled down")
        for item, there in state.left_in.items():
            if there.holds != "nothing":
                book.record("taken-out", item=item)
    elif family == "breach":
        entry, _, gate = key.partition(":")
        book.chain.add("inspected", entry=entry, gate=gate, found="no mark", by="Ada")
    elif family == "reading":
        place = key.rpartition(" ")[2]
        book.record("reading", item="head_face", place=place, value="0.02 mm", condition="as left")
    elif key not in state.struck:
        book.chain.add("strike", entry=key, why="not so")


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
    for task, said in state.tasks.items():
        if said.status != "done":
            book.record("task-done", task=task)
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

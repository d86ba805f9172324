"""No sequence of entries makes a yes while something is open: any facts, in any order, struck, outdated, overridden.

What is open is worked out by `naive_book.py`, which knows nothing of the program's own reckoning. From time to time
everything is put right, so that what is done next is done to an engine that may be started.
"""

import random
from collections.abc import Callable, Iterable
from datetime import datetime, timedelta
from functools import lru_cache
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule, run_state_machine_as_test

from gudgeon.bench.ready import ready
from gudgeon.book.entries import Entry
from gudgeon.book.fold import fold
from gudgeon.book.state import State
from tests.properties.any_facts import ENGINE, JOINTS, LISTS, NEEDS, OTHER, PROOFS, SHEET, THEMES
from tests.properties.gate_engines import Book, bench
from tests.properties.naive_book import ORDER, about_of, open_before, struck_ids
from tests.properties.put_right import do_what_is_asked, put_right
from tests.properties.test_book_fold import facts
from tests.unit.book.chains import START, Chain


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
        do_what_is_asked(self.book, now=lambda: self.now)

    @invariant()
    def no_yes_while_something_is_open(self) -> None:
        few = ("crank", "handover")
        no_yes_too_early(self.book, now=self.now, milestones=ORDER if len(self.entries) % 4 == 0 else few)

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


def gives_nothing_back(before: State, book: Book) -> None:
    """After a strike no hold stands that did not, no later fact is lost, no act against a gate is taken back."""
    after, number = book.state, {entry.id: entry.number for entry in book.chain.entries}
    target = next(one for one in book.chain.entries if one.id == book.chain.entries[-1].body["entry"])
    assert standing(after) <= standing(before), f"a strike of {target.kind} restored a hold"
    later = {one for one in facts(before) if number[one[-1]] > target.number}
    assert later <= facts(after), f"a strike of {target.kind} lost a later fact"
    broken = {(one.entry, one.gate) for one in before.breaches}
    assert broken <= {(one.entry, one.gate) for one in after.breaches}, (
        "a strike took back an act against a gate"
    )


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


def no_yes_too_early(book: Book, *, now: datetime, milestones: Iterable[str] = ORDER) -> None:
    """A yes only where nothing is open, a plain one only where nobody had to let anything pass."""
    entries, let_pass = book.chain.entries, passed(book.chain.entries)
    for milestone in milestones:
        answer = ready(bench(SHEET, book.state, now=now), milestone=milestone).answer
        if answer == "no":
            continue
        left = open_before(milestone, entries, NEEDS, now=now)
        assert left <= let_pass, f"{answer} for {milestone}, and open: {sorted(left - let_pass)}"
        assert answer != "yes" or not left, f"a plain yes for {milestone}, and only let pass: {sorted(left)}"
        somebody = any(one.kind in ("override", "accepted") for one in entries)
        assert answer == "yes" or somebody, "somebody is said to have accepted what nobody did"


@lru_cache(maxsize=1)
def _good() -> tuple[Entry, ...]:
    book = Book(SHEET)
    put_right(book)
    assert (
        ready(bench(SHEET, book.state, now=START + timedelta(days=9)), milestone="handover").answer == "yes"
    )
    return tuple(book.chain.entries)


Fact = tuple[tuple[str, dict[str, Any]] | int, int | None, str]


def _facts_of(kind: st.SearchStrategy[tuple[str, dict[str, Any]]]) -> st.SearchStrategy[list[Fact]]:
    """Some facts of one kind of thing, so that they meet; a number strikes the entry so many before the last."""
    seen = st.sampled_from([None, None, 2, 3])
    one = st.tuples(
        st.one_of(kind, kind, kind, kind, st.integers(1, 8)), seen, st.sampled_from(["Ada", "Bo"])
    )
    return st.lists(one, min_size=1, max_size=6)


AFTER_A_YES = st.sampled_from(THEMES).flatmap(_facts_of)


def check_what_comes_after_a_yes(said: list[Fact]) -> None:
    """All is done; then some facts; then, of some, whatever is asked for is done: at no time a yes while something is open."""
    book = Book(SHEET, Chain(list(_good())))
    entries = book.chain.entries

    def now() -> datetime:
        return START + timedelta(minutes=len(entries))

    for fact, seen, who in said:
        basis = None if seen is None else entries[-seen].hash
        if isinstance(fact, int):
            before = book.state
            book.chain.add("strike", entry=entries[-fact].id, why="wrong", basis=basis, who=who)
            gives_nothing_back(before, book)
        else:
            book.record(fact[0], basis=basis, who=who, **fact[1])
        no_yes_too_early(book, now=now(), milestones=("crank", "handover"))
    no_yes_too_early(book, now=now())
    if len(said) % 3 == 0:
        do_what_is_asked(book, now=now)
        no_yes_too_early(book, now=now())


def search(examples: int, *, phases: tuple[Phase, ...] = tuple(Phase)) -> None:
    """Try so many sequences of facts after a yes."""
    chosen = settings(
        max_examples=examples, deadline=None, derandomize=True, database=None,
        suppress_health_check=list(HealthCheck), phases=phases, report_multiple_bugs=False,
    )  # fmt: skip
    chosen(given(said=AFTER_A_YES)(check_what_comes_after_a_yes))()


AFTER = 400
"""How many sequences of facts after a yes every run tries."""


def test_after_a_yes_no_fact_leaves_one_that_is_not_so() -> None:
    search(AFTER)


@pytest.mark.long
def test_after_a_yes_no_fact_of_many_more_leaves_one_that_is_not_so() -> None:
    search(2000)


def run(examples: int, steps: int, *, phases: tuple[Phase, ...] = tuple(Phase)) -> None:
    """Try so many sequences, each of so many entries at most."""
    run_state_machine_as_test(
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


PLAIN = (10, 25)
"""How many sequences every run tries, and how long each is."""


def test_no_sequence_of_entries_makes_a_yes_too_early() -> None:
    run(*PLAIN)


@pytest.mark.long
def test_no_longer_sequence_of_more_entries_does() -> None:
    run(40, 40)

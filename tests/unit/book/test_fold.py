"""Readings, strikes, and entries made by someone who had not seen the latest."""

import subprocess
import sys
from dataclasses import replace

import pytest

from gudgeon.book.bodies import known_bodies
from gudgeon.book.entries import Entry
from gudgeon.book.fold import KNOWN, fold
from tests.unit.book.chains import Chain, begun, reasons


@pytest.fixture
def chain() -> Chain:
    return begun()


def read(
    chain: Chain, value: str, *, condition: str = "as found", basis: str | None = None, who: str = "Ada"
) -> Entry:
    body = {"item": "bore", "place": "1 top", "unit": "mm", "condition": condition, "value": value}
    return chain.add("reading", basis=basis, who=who, **body)


def value(chain: Chain, condition: str = "as found") -> str | None:
    return chain.state.readings[("bore", "1 top", condition)].value


def test_nothing_folds_to_nothing() -> None:
    state = fold([])
    assert (state.build, state.head, state.count, state.identity) == ("", "", 0, None)


def test_the_state_names_its_build_its_head_and_its_length(chain: Chain) -> None:
    last = chain.add("note", text="cold")
    state = chain.state
    assert (state.build, state.head, state.count, state.notes) == ("van", last.hash, 2, ("cold",))


def test_the_latest_reading_counts_and_each_condition_is_its_own(chain: Chain) -> None:
    read(chain, "81.00")
    read(chain, "81.02")
    read(chain, "81.50", condition="as left")
    assert (value(chain), value(chain, "as left")) == ("81.02", "81.50")


def test_a_struck_reading_gives_way_to_the_one_before(chain: Chain) -> None:
    read(chain, "81.00")
    chain.strike(read(chain, "18.00"), "digits swapped")
    assert value(chain) == "81.00"


def test_a_strike_says_who_and_why(chain: Chain) -> None:
    wrong = read(chain, "18.00")
    strike = chain.strike(wrong, "digits swapped")
    struck = chain.state.struck[wrong.id]
    assert (struck.by, struck.why, struck.who) == (strike.id, "digits swapped", "Ada")
    assert len(chain.state.readings) == 0


def test_the_code_read_off_the_engine(chain: Chain) -> None:
    chain.add("identity-read", code="L1-B", read_from="pad", matches=False, why_not="same but for the cover")
    identity = chain.state.identity
    assert identity is not None
    assert (identity.code, identity.matches, identity.why_not) == ("L1-B", False, "same but for the cover")


def test_accepted_by_a_named_person(chain: Chain) -> None:
    chain.add("accepted", what="bore 1 top", by="Robin", why="0.01 over, oil use accepted")
    assert [(one.what, one.by) for one in chain.state.accepted] == [("bore 1 top", "Robin")]


def test_what_cannot_be_struck_is_not(chain: Chain) -> None:
    wrong = read(chain, "18.00")
    strike = chain.strike(wrong)
    for target in (strike.id, chain.entries[0].id, "f" * 32):
        chain.add("strike", entry=target, why="never mind")
    # An entry cannot be struck before it is written either.
    chain.add("strike", entry=f"{len(chain.entries) + 2:032x}", why="in advance")
    read(chain, "81.00")
    assert set(chain.state.struck) == {wrong.id}
    assert value(chain) == "81.00"


def test_the_first_strike_of_an_entry_counts(chain: Chain) -> None:
    pull = chain.pull(1)
    first = chain.strike(pull)
    chain.prove("bolts", "joint:head")
    chain.strike(pull, "once more")
    assert chain.state.struck[pull.id].by == first.id
    assert chain.state.holds["bolts"].status == "proved"


def test_entries_come_in_any_order(chain: Chain) -> None:
    read(chain, "81.00")
    read(chain, "81.02")
    assert fold(reversed(chain.entries)) == chain.state


class TestOutdated:
    """Two devices: the second had not seen what the first wrote. Both facts are kept, the second in doubt."""

    def test_on_the_same_joint(self, chain: Chain) -> None:
        seen = chain.head
        chain.pull(1, "1", who="Ada")
        late = chain.pull(1, "2", who="Bo", basis=seen)
        pull = chain.state.joints["head"].pulls[(1, 1, "2")]
        assert pull.doubtful
        assert pull.why == "recorded on an older state: Ada had recorded “pull” on the same in the meantime"
        assert reasons(chain.state) == {late.id: pull.why}

    def test_recorded_anew_it_is_settled(self, chain: Chain) -> None:
        seen = chain.head
        chain.pull(1, "1")
        chain.pull(1, "2", who="Bo", basis=seen)
        chain.pull(1, "2", who="Bo")
        assert chain.state.doubtful == ()
        assert not chain.state.joints["head"].in_doubt

    def test_on_another_joint_nothing_is_in_doubt(self, chain: Chain) -> None:
        seen = chain.head
        chain.pull(1, "1")
        chain.pull(1, "2", basis=seen, joint="pulley")
        read(chain, "81.00", basis=seen)
        assert chain.state.doubtful == ()

    def test_on_the_same_reading(self, chain: Chain) -> None:
        seen = chain.head
        read(chain, "81.00")
        late = read(chain, "81.05", basis=seen, who="Bo")
        assert value(chain) == "81.05"
        assert list(reasons(chain.state)) == [late.id]
        read(chain, "81.02")
        assert chain.state.doubtful == ()

    def test_a_proof_on_a_joint_slackened_meanwhile_is_void(self, chain: Chain) -> None:
        chain.pull(1)
        seen = chain.head
        chain.disturb()
        late = chain.prove("bolts", "joint:head", basis=seen, who="Bo")
        hold = chain.state.holds["bolts"]
        assert hold.status == "void"
        assert hold.why_void.startswith("proved when it was recorded on an older state: Ada")
        assert list(reasons(chain.state)) == [late.id]
        chain.pull(1)
        chain.prove("bolts", "joint:head")
        assert chain.state.holds["bolts"].status == "proved"
        assert chain.state.doubtful == ()

    def test_a_strike_meanwhile_counts_for_what_it_struck(self, chain: Chain) -> None:
        wrong = chain.pull(1, "1")
        seen = chain.head
        chain.strike(wrong)
        late = chain.pull(2, "1", basis=seen, who="Bo")
        assert late.id in reasons(chain.state)

    def test_striking_what_came_between_does_not_settle_it(self, chain: Chain) -> None:
        seen = chain.head
        first = chain.pull(1, "1")
        late = chain.pull(1, "2", basis=seen, who="Bo")
        chain.strike(first)
        assert late.id in reasons(chain.state)

    def test_striking_the_late_entry_settles_it(self, chain: Chain) -> None:
        seen = chain.head
        chain.pull(1, "1")
        chain.strike(chain.pull(1, "2", basis=seen, who="Bo"))
        assert chain.state.doubtful == ()

    def test_a_state_that_is_not_in_the_chain(self, chain: Chain) -> None:
        late = chain.pull(1, basis="a" * 64)
        assert reasons(chain.state) == {late.id: "recorded on a state that is not in this chain"}

    def test_who_had_not_looked_is_not_held_to_it(self, chain: Chain) -> None:
        chain.pull(1, "1", basis="")
        chain.pull(1, "2", basis="")
        assert chain.state.doubtful == ()

    def test_a_provisional_thing_belongs_to_its_joint(self, chain: Chain) -> None:
        seen = chain.head
        chain.add(
            "provisional-made", item="p", name="pulley bolt", joint="head", why="to turn it", due_task="x", due_before="crank",
        )  # fmt: skip
        late = chain.pull(1, basis=seen, who="Bo")
        assert list(reasons(chain.state)) == [late.id]


def test_a_kind_of_a_later_program_is_kept_in_doubt(chain: Chain) -> None:
    last = chain.add("note", text="cold")
    later = replace(last, kind="smell", number=3, id="9" * 32)
    state = fold([*chain.entries, later])
    assert reasons(state) == {later.id: "this program does not know this kind of entry; use a newer one"}
    assert state.notes == ("cold",)


def test_a_struck_kind_of_a_later_program_is_not_looked_into(chain: Chain) -> None:
    """A later program may say other things of a pull: what is in its body is not known here."""
    last = chain.pull(1, "1")
    later = replace(last, version=2, number=3, id="9" * 32, body={"bolts": "all"})
    strike = replace(last, kind="strike", number=4, id="8" * 32, body={"entry": later.id, "why": "mistyped"})
    state = fold([*chain.entries, later, strike])
    assert reasons(state) == {later.id: "this program does not know this kind of entry; use a newer one"}
    assert state.joints["head"].pulls[(1, 1, "1")].doubtful is False


def test_every_kind_that_can_be_recorded_is_understood() -> None:
    assert set(known_bodies()) == KNOWN


def test_reading_a_book_does_not_load_the_validation_of_bodies() -> None:
    script = "import sys, gudgeon.book.fold, gudgeon.book.sqlite; print('pydantic' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, check=True, text=True)
    assert done.stdout.strip() == "False"


def test_a_look_at_what_is_no_work_is_in_doubt_itself(chain: Chain) -> None:
    """What cannot be struck cannot be put right: the doubt of it could never be closed."""
    note = chain.add("note", text="late")
    strike = chain.add("strike", entry=note.id, why="wrong day")
    look = chain.add("looked", entry=strike.id, seen="dot", as_recorded=False)
    why = "it looks at what is no work: strike it, and say what you saw of the work"
    assert fold(chain.entries).doubtful == ((look.id, why),)
    chain.add("strike", entry=look.id, why="of the wrong entry")
    assert fold(chain.entries).doubtful == ()

"""The proof: what of it is in the book, what is not, and that the hold does not stand without it."""

from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.ready import ready
from gudgeon.bench.timing.proof import Proof, ProofPart, turns_said
from tests.unit.bench.benches import Job
from tests.unit.bench.timing.engines import asked, job

TURNS, CONTACT, MARKS, PIN, TOOLS = range(5)


def proof(of: Job) -> Proof:
    return asked(of).proof


def part(of: Job, place: int) -> ProofPart:
    return proof(of).parts[place]


def belt_on(of: Job) -> None:
    of.record("engine-state", belt="on", seen="belt on by its marks")


def turned(of: Job, seen: str, by: str = "hand") -> None:
    of.record("turned", by=by, seen=seen)


def left_in(of: Job, item: str, name: str, holds: str = "nothing") -> None:
    of.record("left-in", item=item, name=name, where="front", due_before="crank", holds=holds)


def test_nothing_in_the_book_is_nothing_proved(tmp_path: Path) -> None:
    found = proof(job(tmp_path))
    assert (found.answer, found.stands) == ("not proved", False)
    assert [one.state for one in found.parts] == ["not yet"] * 5
    assert [one.what for one in found.parts] == [
        "Two full turns of the crankshaft by hand, in the running direction",
        "No hard contact on the way",
        "All marks of the wheels back in their places",
        "Tensioner pin out and counted",
        "Locking tools out and counted",
    ]
    assert [one.command for one in found.parts] == [
        "gudgeon record turned hand --seen …",
        "gudgeon record turned hand --seen …",
        "gudgeon record hold timing_proved VALUE",
        "gudgeon record hold tensioner_pin_out VALUE",
        "gudgeon record hold locking_tools_out VALUE",
    ]
    assert found.parts[TURNS].said == (
        "no entry says that belt, chain or gears went on (gudgeon record engine --belt on --seen …)"
    )
    assert found.parts[PIN].do == "3 mm pin beside the roller"
    assert found.parts[TOOLS].do == "camshaft bar"


def test_only_turns_since_the_belt_went_on_count(tmp_path: Path) -> None:
    of = job(tmp_path)
    turned(of, "two full turns, free")
    belt_on(of)
    assert part(of, TURNS).state == "not yet"
    assert part(of, TURNS).said.startswith("nothing in the book since they went on, ")
    turned(of, "two full turns, free all the way", by="starter")
    assert part(of, TURNS).state == "not yet"
    turned(of, "two full turns, free all the way")
    assert part(of, TURNS).state == "proved"
    assert "“two full turns, free all the way”" in part(of, TURNS).said
    of.record("engine-state", belt="off", seen="belt off again")
    assert part(of, TURNS).state == "not yet"
    assert part(of, TURNS).said == "by the book, belt, chain or gears are off"


@pytest.mark.parametrize(
    ("seen", "state"),
    [
        ("two full turns, marks back", "proved"),
        ("2 turns", "proved"),
        ("turned twice", "in doubt"),
        ("one turn, marks opposite", "in doubt"),
        ("half a turn", "in doubt"),
        ("1.5 turns", "in doubt"),
    ],
)
def test_what_was_written_of_the_turns_is_counted(tmp_path: Path, seen: str, state: str) -> None:
    of = job(tmp_path)
    belt_on(of)
    turned(of, seen)
    assert part(of, TURNS).state == state


def test_one_turn_and_another_are_two(tmp_path: Path) -> None:
    of = job(tmp_path)
    belt_on(of)
    turned(of, "one full turn, free")
    assert part(of, TURNS).said.endswith(": 1 of two turns")
    turned(of, "one more turn, free")
    assert part(of, TURNS).state == "proved"


@pytest.mark.parametrize(
    ("seen", "state"),
    [
        ("two turns, free", "proved"),
        ("two turns, no hard contact", "proved"),
        ("two turns without any contact", "proved"),
        ("two turns, stopped at a hard spot", "in doubt"),
        ("two turns, one valve knocked", "in doubt"),
    ],
)
def test_a_contact_that_was_felt_is_not_passed_over(tmp_path: Path, seen: str, state: str) -> None:
    of = job(tmp_path)
    belt_on(of)
    turned(of, seen)
    assert part(of, CONTACT).state == state


def test_a_turn_that_was_struck_counts_no_more(tmp_path: Path) -> None:
    of = job(tmp_path)
    belt_on(of)
    entry = of.record("turned", by="hand", seen="two full turns, free").entry
    of.record("strike", entry=entry, why="that was another engine")
    assert part(of, TURNS).state == "not yet"


def test_what_is_still_in_is_named_with_what_takes_it_out(tmp_path: Path) -> None:
    of = job(tmp_path)
    left_in(of, "pin", "Tensioner pin")
    left_in(of, "bar", "Camshaft bar", holds="timing")
    left_in(of, "block", "Block of wood")
    found = proof(of).parts
    assert found[PIN].said == "still on the list of what is left in: Tensioner pin"
    assert found[PIN].command == "gudgeon record taken-out pin"
    assert found[TOOLS].said == "still on the list of what is left in: Camshaft bar"
    assert found[TOOLS].command == "gudgeon record taken-out bar"


def test_with_a_lock_in_it_is_not_to_be_turned(tmp_path: Path) -> None:
    of = job(tmp_path)
    left_in(of, "bar", "Camshaft bar", holds="timing")
    refused = proof(of).refused
    assert len(refused) == 1
    assert refused[0].startswith(
        "a pin, a lock or a holder is in: the engine would turn against it. Take it out"
    )


def test_the_hold_does_not_stand_on_its_own_word(tmp_path: Path) -> None:
    of = job(tmp_path)
    belt_on(of)
    turned(of, "two full turns, free")
    of.record("hold-proved", hold="timing_proved", value="two turns, marks back", photo=None)
    found = proof(of)
    assert (found.answer, found.stands) == ("not proved", False)
    assert found.why_not == "void: what it rests on is not proved"
    assert found.parts[MARKS].state == "in doubt"
    assert found.command == "gudgeon record hold timing_proved VALUE"


def test_what_the_proof_rests_on_is_named_with_what_proves_it(tmp_path: Path) -> None:
    of = job(tmp_path)
    belt_on(of)
    said = of.record("hold-proved", hold="timing_proved", value="two turns, marks back", photo=None).remarks
    first = proof(of).first
    # HAND: the engine has no overhead cam caps; of the holds in rests_on of timing_proved these two and the sprockets
    # apply to it, and the head bolts rest on the head nuts, of which no pull is in the book.
    commands = [one.command for one in first]
    assert commands.index("gudgeon tighten head") < commands.index(
        "gudgeon record hold head_bolts_all_stages VALUE"
    )
    assert "gudgeon record hold tensioner_pin_out VALUE" in commands
    named = next(one for one in first if one.command == "gudgeon record hold tensioner_pin_out VALUE")
    assert (named.name, named.why) == ("Tensioner pin in the hand", "not proved yet")
    assert any(str(named) in one and one.endswith("Then prove this again.") for one in said)
    bench = open_bench(of.book, now=of.now)
    try:
        reason = next(one for one in ready(bench, milestone="crank").reasons if "two turns" in one.what)
    finally:
        bench.store.close()
    assert reason.why.startswith("void: what it rests on is not proved: “")
    assert "“Tensioner pin in the hand” (gudgeon record hold tensioner_pin_out VALUE)" in reason.why


def test_a_proof_rests_on_nothing_more_once_all_of_it_is_proved(tmp_path: Path) -> None:
    of = job(tmp_path)
    before = len(proof(of).first)
    of.record("hold-proved", hold="tensioner_pin_out", value="on the bench", photo=None)
    assert len(proof(of).first) == before - 1


@pytest.mark.parametrize(
    ("words", "turns"),
    [
        ("two full turns", 2.0),
        ("2 complete turns and one more turn", 3.0),
        ("a quarter turn", 0.25),
        ("half a turn", 0.5),
        ("1.5 revolutions", 1.5),
        ("turned to the marks", None),
        ("free all the way", None),
    ],
)
def test_turns_are_found_in_words(words: str, turns: float | None) -> None:
    assert turns_said(words) == turns

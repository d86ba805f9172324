"""What voids a hold. Each case is reasoned from one rule of the trade: a hold is void when what it
rests on was touched, and so is everything proved after it on top of it (COMMON PRACTICE).
"""

import pytest

from gudgeon.book.entries import Entry
from tests.unit.book.chains import Chain, begun


@pytest.fixture
def chain() -> Chain:
    """A small ladder: timing rests on the head bolts, cranking on timing; water rests on nothing."""
    chain = begun()
    chain.pull(1)
    chain.prove("bolts", "joint:head")
    chain.prove("timing", "hold:bolts")
    chain.prove("crank", "hold:timing", "hold:bolts")
    chain.prove("water")
    return chain


def standing(chain: Chain) -> set[str]:
    return {name for name, hold in chain.state.holds.items() if hold.status == "proved"}


ALL = {"bolts", "timing", "crank", "water"}


def test_a_hold_keeps_its_value_and_what_it_rests_on(chain: Chain) -> None:
    assert standing(chain) == ALL
    hold = chain.state.holds["crank"]
    assert (hold.value, hold.rests_on, hold.why_void) == (
        "2 turns by hand",
        ("hold:timing", "hold:bolts"),
        "",
    )


def test_disturbing_a_joint_voids_all_that_rests_on_it_along_every_path(chain: Chain) -> None:
    disturbed = chain.disturb(why="slackened")
    assert standing(chain) == {"water"}
    holds = chain.state.holds
    assert holds["bolts"].why_void == "its joint was disturbed: slackened"
    assert holds["timing"].why_void == "it rested on a hold that is void (its joint was disturbed: slackened)"
    assert holds["timing"].void_path == ("joint:head", "hold:bolts")
    assert {holds[name].void_by for name in ("bolts", "timing", "crank")} == {disturbed.id}


def test_disturbing_another_joint_voids_nothing(chain: Chain) -> None:
    chain.disturb("pulley")
    assert standing(chain) == ALL


def test_working_on_a_joint_voids_what_was_proved_on_it_before(chain: Chain) -> None:
    chain.pull(2)
    assert standing(chain) == {"water"}
    assert chain.state.holds["bolts"].why_void == "its joint was worked on since"


def test_proving_again_restores_that_hold_and_none_above_it(chain: Chain) -> None:
    chain.disturb()
    chain.pull(1)
    chain.prove("bolts", "joint:head")
    assert standing(chain) == {"bolts", "water"}
    chain.prove("timing", "hold:bolts")
    assert standing(chain) == {"bolts", "timing", "water"}


def test_a_proof_on_a_void_hold_is_void_at_once_and_stays_so(chain: Chain) -> None:
    chain.add("hold-voided", hold="bolts", why="a bolt looked short")
    chain.prove("timing", "hold:bolts")
    assert chain.state.holds["timing"].why_void == "what it rests on is void"
    chain.prove("bolts", "joint:head")
    assert standing(chain) == {"bolts", "water"}


def test_a_proof_on_a_hold_never_proved_is_void_at_once() -> None:
    chain = begun()
    chain.prove("timing", "hold:bolts")
    assert chain.state.holds["timing"].why_void == "what it rests on is not proved"
    chain.prove("bolts")
    assert standing(chain) == {"bolts"}


def test_a_proof_on_a_joint_in_doubt_is_void_at_once() -> None:
    chain = begun()
    chain.pull(1, outcome="doubtful", why="creaked")
    chain.prove("bolts", "joint:head")
    assert chain.state.holds["bolts"].why_void == "its joint is in doubt"
    chain.pull(1)
    assert standing(chain) == set()
    chain.prove("bolts", "joint:head")
    assert standing(chain) == {"bolts"}


def test_a_person_voids_a_hold_and_those_above_it(chain: Chain) -> None:
    chain.add("hold-voided", hold="timing", why="the belt was off")
    assert standing(chain) == {"bolts", "water"}
    assert chain.state.holds["timing"].why_void == "the belt was off"


def test_voiding_a_hold_never_proved_is_kept() -> None:
    chain = begun()
    chain.add("hold-voided", hold="timing", why="the belt was off")
    assert chain.state.holds["timing"].status == "void"


def test_proving_again_what_stands_disturbs_nothing_above(chain: Chain) -> None:
    chain.prove("bolts", "joint:head")
    assert standing(chain) == ALL


def test_a_struck_pull_voids_what_rests_on_its_joint(chain: Chain) -> None:
    chain.strike(chain.entries[1], "was the other bolt")
    assert standing(chain) == {"water"}
    assert chain.state.holds["bolts"].why_void == "an entry on its joint was struck: was the other bolt"


def test_striking_the_disturbance_restores_no_hold(chain: Chain) -> None:
    chain.strike(chain.disturb())
    assert standing(chain) == {"water"}


def test_striking_the_voiding_restores_no_hold(chain: Chain) -> None:
    chain.strike(chain.add("hold-voided", hold="timing", why="the belt was off"))
    assert standing(chain) == {"bolts", "water"}


def test_striking_the_pull_that_voided_restores_no_hold(chain: Chain) -> None:
    chain.strike(chain.pull(2))
    assert standing(chain) == {"water"}


def test_a_struck_proof_leaves_its_hold_void(chain: Chain) -> None:
    chain.strike(chain.entries[3], "turned once only")
    assert standing(chain) == {"bolts", "water"}
    assert chain.state.holds["timing"].why_void == "its proof was struck: turned once only"
    assert chain.state.holds["crank"].status == "void"


def test_a_struck_proof_does_not_fall_back_on_an_older_one(chain: Chain) -> None:
    chain.strike(chain.prove("water"))
    assert standing(chain) == {"bolts", "timing", "crank"}


def test_a_later_proof_outlives_the_strike_of_an_earlier_one(chain: Chain) -> None:
    first = chain.entries[2]
    chain.prove("bolts", "joint:head")
    chain.strike(first)
    # Timing and cranking went by the proof that is gone; the hold itself was proved again.
    assert standing(chain) == {"bolts", "water"}


def test_what_was_proved_on_the_later_proof_outlives_it_too(chain: Chain) -> None:
    first = chain.entries[2]
    chain.prove("bolts", "joint:head")
    chain.prove("timing", "hold:bolts")
    chain.strike(first)
    assert standing(chain) == {"bolts", "timing", "water"}


def test_a_hold_that_rests_on_itself_is_never_proved() -> None:
    chain = begun()
    chain.prove("odd", "hold:odd")
    assert standing(chain) == set()


def test_a_thousand_holds_on_top_of_each_other_fall_together() -> None:
    chain = begun()
    chain.prove("0", "joint:head")
    for number in range(1, 1000):
        chain.prove(str(number), f"hold:{number - 1}")
    assert len(standing(chain)) == 1000
    chain.disturb()
    assert standing(chain) == set()


LIMITS = {"characteristics.flat.wear_limit": "at most 0.05 mm", "head.least_height": "132.30 mm"}


def measure(
    chain: Chain, place: str, value: str = "0.02", condition: str = "as left", item: str = "flat"
) -> Entry:
    return chain.add(
        "reading",
        item=item,
        place=place,
        value=value,
        unit="mm",
        condition=condition,
        shown={},
        instrument="",
    )


@pytest.mark.parametrize("place", ["a", "b"])
def test_a_struck_reading_takes_the_proof_that_went_by_it_and_all_above(place: str) -> None:
    chain = begun()
    found = {name: measure(chain, name) for name in ("a", "b")}
    chain.prove("head", shown=LIMITS)
    chain.prove("locks", "hold:head")
    chain.prove("water")
    struck = chain.strike(found[place], why="the gauge was set wrong")
    assert standing(chain) == {"water"}
    head = chain.state.holds["head"]
    assert head.why_void == "a reading that it went by was struck: the gauge was set wrong"
    assert head.void_by == struck.id
    measure(chain, place)
    chain.prove("head", shown=LIMITS)
    assert standing(chain) == {"head", "water"}


def test_a_newer_reading_takes_no_proof_and_the_older_one_still_does_when_it_is_struck() -> None:
    chain = begun()
    first = measure(chain, "a")
    chain.prove("head", shown=LIMITS)
    second = measure(chain, "a", "0.03")
    assert standing(chain) == {"head"}
    chain.strike(second)
    assert standing(chain) == {"head"}
    chain.strike(first)
    assert standing(chain) == set()


def test_only_what_counted_of_what_it_was_held_against_is_its_ground() -> None:
    chain = begun()
    as_found = measure(chain, "a", "0.09", "as found")
    before = measure(chain, "a", "0.08")
    measure(chain, "a")
    other = measure(chain, "a", item="bore")
    chain.prove("head", shown=LIMITS)
    for one in (as_found, before, other):
        chain.strike(one)
    assert standing(chain) == {"head"}


def test_what_was_struck_before_the_proof_was_no_ground_and_what_counts_instead_is() -> None:
    chain = begun()
    first = measure(chain, "a")
    second = measure(chain, "a", "0.03")
    chain.strike(second)
    chain.prove("head", shown=LIMITS)
    assert standing(chain) == {"head"}
    chain.strike(first)
    assert standing(chain) == set()


def test_a_proof_whose_sender_had_not_seen_that_a_reading_was_struck_does_not_stand() -> None:
    chain = begun()
    first = measure(chain, "a")
    seen = chain.head
    chain.strike(first)
    chain.prove("head", shown=LIMITS, basis=seen, who="Ben")
    assert standing(chain) == set()


def test_a_scan_of_a_face_is_a_ground_as_a_reading_is() -> None:
    chain = begun()
    points = [["0", "0", "0.01"], ["300", "0", "0.02"], ["0", "150", "-0.01"]]
    scan = chain.add(
        "face-scanned", item="flat", unit="mm", points=points, condition="as left", file="f.csv", sha="a" * 64
    )
    chain.prove("head", shown=LIMITS)
    chain.strike(scan)
    assert standing(chain) == set()

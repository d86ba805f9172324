"""What the book says of a joint: the rules of the trade, worked out by hand for each case.

A bolt that was slackened starts again; a bolt turned by its angle twice is spoiled; a wrong entry is struck
and leaves in doubt what was built on it. COMMON PRACTICE of tightening in stages.
"""

import pytest

from tests.unit.book.chains import Chain, begun, reasons


@pytest.fixture
def chain() -> Chain:
    return begun()


def outcomes(chain: Chain) -> dict[tuple[int, int, str], str]:
    return {step: pull.outcome for step, pull in chain.state.joints["head"].pulls.items()}


def in_doubt(chain: Chain) -> bool:
    return chain.state.joints["head"].in_doubt


def test_a_pull_is_kept_with_what_was_read(chain: Chain) -> None:
    entry = chain.pull(2, "7", "stopped at", angle_deg="40", tool="half", setting="", why="phone rang")
    pull = chain.state.joints["head"].pulls[(2, 1, "7")]
    assert (pull.entry, pull.order, pull.outcome, pull.angle_deg) == (entry.id, 2, "stopped at", "40")
    assert (pull.tool, pull.why, pull.doubtful) == ("half", "phone rang", False)
    assert pull.time == entry.device_time
    assert chain.state.joints["head"].last_pull == pull


def test_the_latest_pull_of_a_step_counts_and_the_earlier_is_history(chain: Chain) -> None:
    first = chain.pull(2, "1", "stopped at", angle_deg="40")
    second = chain.pull(2, "1", "angle reached")
    joint = chain.state.joints["head"]
    assert joint.pulls[(2, 1, "1")].entry == second.id
    assert [pull.entry for pull in joint.history] == [first.id]


def test_disturbing_starts_a_new_series(chain: Chain) -> None:
    old = chain.pull(1)
    chain.add("joint-marked", joint="head", how="paint")
    chain.disturb()
    joint = chain.state.joints["head"]
    assert dict(joint.pulls) == {}
    assert (joint.marked, joint.disturbed_why) == (False, "gasket slipped")
    assert [pull.entry for pull in joint.history] == [old.id]
    new = chain.pull(1)
    joint = chain.state.joints["head"]
    assert [pull.entry for pull in joint.pulls.values()] == [new.id]
    assert joint.disturbed_why == ""


def test_another_joint_is_not_disturbed(chain: Chain) -> None:
    chain.pull(1)
    chain.add("joint-marked", joint="head", how="paint")
    chain.disturb("pulley")
    assert outcomes(chain) == {(1, 1, "1"): "clicked while turning"}
    assert chain.state.joints["head"].marked


def test_a_mark_ends_with_the_next_pull(chain: Chain) -> None:
    chain.pull(1)
    chain.add("joint-marked", joint="head", how="paint")
    assert chain.state.joints["head"].marked
    chain.pull(2)
    assert not chain.state.joints["head"].marked


def test_a_struck_pull_is_not_done_any_more(chain: Chain) -> None:
    wrong = chain.pull(1, "3")
    chain.pull(1, "2")
    chain.strike(wrong)
    assert outcomes(chain) == {(1, 1, "2"): "clicked while turning"}


def test_striking_gives_back_the_pull_before_it(chain: Chain) -> None:
    chain.pull(1, "3", "doubtful", why="creaked")
    chain.strike(chain.pull(1, "3"))
    pull = chain.state.joints["head"].pulls[(1, 1, "3")]
    assert (pull.outcome, pull.doubtful, pull.why) == ("doubtful", True, "creaked")


def test_later_stages_of_a_struck_bolt_are_in_doubt_and_nothing_else(chain: Chain) -> None:
    pulls = {(stage, bolt): chain.pull(stage, bolt) for stage in (1, 2, 3) for bolt in ("1", "2")}
    chain.strike(pulls[2, "1"])
    joint = chain.state.joints["head"]
    assert {step for step, pull in joint.pulls.items() if pull.doubtful} == {(3, 1, "1")}
    assert (2, 1, "1") not in joint.pulls
    assert list(reasons(chain.state)) == [pulls[3, "1"].id]
    assert joint.in_doubt


def test_a_later_round_of_the_same_stage_counts_as_later(chain: Chain) -> None:
    first = chain.pull(1, round=1)
    chain.pull(1, round=2)
    chain.strike(first)
    assert chain.state.joints["head"].pulls[(1, 2, "1")].doubtful


def test_a_step_recorded_again_before_the_next_stage_carries_it(chain: Chain) -> None:
    double = chain.pull(1)
    chain.pull(1)
    chain.pull(2)
    chain.strike(double, "tapped twice")
    assert not in_doubt(chain)


def test_a_step_recorded_again_after_the_next_stage_does_not_carry_it(chain: Chain) -> None:
    wrong = chain.pull(1)
    chain.pull(2)
    chain.pull(1)
    chain.strike(wrong)
    assert chain.state.joints["head"].pulls[(2, 1, "1")].doubtful


@pytest.mark.parametrize("way_out", ["recorded anew", "slackened"])
def test_a_doubtful_pull_leaves_its_joint_in_doubt_until(chain: Chain, way_out: str) -> None:
    chain.pull(1, "4", "doubtful", why="felt soft")
    chain.pull(1, "5")
    joint = chain.state.joints["head"]
    assert joint.in_doubt
    assert joint.pulls[(1, 1, "4")].why == "felt soft"
    if way_out == "recorded anew":
        chain.pull(1, "4")
    else:
        chain.disturb(why="slackened and begun again, as the sheet says")
    assert not in_doubt(chain)


def test_what_a_strike_put_in_doubt_is_settled_by_recording_it_anew(chain: Chain) -> None:
    first = chain.pull(1)
    chain.pull(2, outcome="angle reached")
    chain.strike(first)
    chain.pull(1)
    assert in_doubt(chain)
    chain.pull(2, outcome="angle reached")
    assert not in_doubt(chain)
    assert chain.state.doubtful == ()


def test_an_angle_recorded_twice_asks_whether_the_bolt_was_turned_twice(chain: Chain) -> None:
    chain.pull(3, outcome="angle reached")
    again = chain.pull(3, outcome="angle reached")
    assert reasons(chain.state) == {
        again.id: "the angle of this stage was recorded before: was the bolt turned twice?"
    }
    # A third record of it is no answer; striking the one that was not a turn is.
    third = chain.pull(3, outcome="angle reached")
    assert list(reasons(chain.state)) == [third.id]
    chain.strike(third)
    chain.strike(again)
    assert not in_doubt(chain)


@pytest.mark.parametrize("outcome", ["clicked at once", "done"])
def test_a_wrench_that_clicks_again_spoils_nothing(chain: Chain, outcome: str) -> None:
    chain.pull(3)
    chain.pull(3, outcome=outcome)
    assert not in_doubt(chain)


def test_an_angle_finished_after_a_stop_is_turned_once(chain: Chain) -> None:
    chain.pull(3, outcome="stopped at", angle_deg="40")
    chain.pull(3, outcome="angle reached")
    assert not in_doubt(chain)


def test_an_angle_turned_again_after_slackening_is_turned_once(chain: Chain) -> None:
    chain.pull(3, outcome="angle reached")
    chain.disturb()
    chain.pull(3, outcome="angle reached")
    assert not in_doubt(chain)


def test_striking_a_disturbance_gives_the_pulls_back_but_not_the_mark(chain: Chain) -> None:
    chain.pull(1, "1")
    chain.add("joint-marked", joint="head", how="paint")
    wrong = chain.disturb(why="meant the pulley")
    chain.pull(1, "2")
    chain.strike(wrong, "meant the pulley")
    assert set(outcomes(chain)) == {(1, 1, "1"), (1, 1, "2")}
    assert not chain.state.joints["head"].marked


def test_striking_a_pull_of_an_ended_series_leaves_the_new_one_alone(chain: Chain) -> None:
    old = chain.pull(1)
    chain.disturb()
    chain.pull(1)
    chain.pull(2)
    chain.add("joint-marked", joint="head", how="paint")
    chain.prove("bolts", "joint:head")
    chain.strike(old)
    joint = chain.state.joints["head"]
    assert set(joint.pulls) == {(1, 1, "1"), (2, 1, "1")}
    assert joint.marked
    assert not joint.in_doubt
    assert chain.state.holds["bolts"].status == "proved"


def test_a_struck_mark_is_none(chain: Chain) -> None:
    chain.strike(chain.add("joint-marked", joint="head", how="paint"))
    assert not chain.state.joints["head"].marked

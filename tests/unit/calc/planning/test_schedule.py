"""Works in hours, worked out by hand, and everything that is refused, in whole sentences."""

from collections.abc import Callable

import numpy as np
import pytest

from gudgeon.calc.errors import NotFinite
from gudgeon.calc.planning.driving import Cause, driving
from gudgeon.calc.planning.finishes import Setback, Spread, simulate
from gudgeon.calc.planning.hours import Hours
from gudgeon.calc.planning.schedule import schedule
from gudgeon.calc.planning.search import plan
from gudgeon.calc.planning.works import Work
from gudgeon.errors import InputError

EVENINGS = Hours(tuple((day * 1440 + 1140, day * 1440 + 1260) for day in range(5)), horizon=5 * 1440)
"""Five evenings from 19:00 to 21:00, in minutes from midnight of the first day."""


def test_what_is_begun_goes_on_next_evening_and_waits_run_by_themselves() -> None:
    """HAND: 150 min are 120 and 30; the glue then waits 10 h, over at 19:30 + 10 h; the next evening begins at 19:00."""
    works = (
        Work("strip", 150),
        Work("glue", 20, after=("strip",), wait=600),
        Work("fit", 30, after=("glue",)),
    )
    found = schedule(works, hours=EVENINGS, goal="fit")
    assert found.slots["strip"] == ((1140, 1260), (2580, 2610))
    assert found.slots["glue"] == ((2610, 2630),) and found.ends["glue"] == 3230
    assert found.slots["fit"] == ((4020, 4050),) and found.goal == 4050


def test_what_goes_in_one_go_waits_for_an_evening_that_holds_it() -> None:
    """HAND: 60 of 120 min are taken; 90 min in one go begin on the second evening."""
    works = (Work("clean", 60, begun=True), Work("torque", 90, in_one_go=True))
    assert schedule(works, hours=EVENINGS).slots["torque"] == ((2580, 2670),)


def test_two_people_and_late_hours() -> None:
    """HAND: the second person comes on the third evening; torque stays out of the last half hour."""
    early = tuple((start, end - 30) for start, end in EVENINGS.own)
    hours = Hours(EVENINGS.own, both=(EVENINGS.own[2],), early=early, horizon=EVENINGS.horizon)
    works = (
        Work("lift", 30, two_people=True),
        Work("clean", 60, begun=True),
        Work("torque", 45, not_late=True),
    )
    found = schedule(works, hours=hours, goal="lift")
    assert found.slots["lift"] == ((4020, 4050),)
    assert found.slots["torque"] == ((1200, 1230), (2580, 2595)) and found.late == ()
    (link, *_) = driving(found, works=works, hours=hours, goal="lift")
    assert (link.key, link.cause) == ("lift", Cause.SECOND_PERSON)


def test_torque_goes_into_late_hours_where_there_are_no_others_and_that_is_told() -> None:
    hours = Hours(EVENINGS.own, horizon=EVENINGS.horizon)
    found = schedule((Work("torque", 45, not_late=True),), hours=hours)
    assert found.late == ("torque",)
    assert found.flags == (
        "One work of torque or timing falls into late hours: no others are left before the plan ends.",
    )


def test_nothing_to_do_is_done() -> None:
    assert schedule((), hours=EVENINGS).finish == 0


def test_a_setback_that_surely_comes_is_one_more_work() -> None:
    """HAND: 30 min, then 45 of the setback, then 30: 19:00 + 105 min in every trial."""
    works = (Work("strip", 30), Work("build", 30, after=("strip",)))
    stud = Setback("stud", after=("strip",), before=("build",), chance=1.0, minutes=45)
    found = simulate(
        works, hours=EVENINGS, goal="build", priority=(0.0, 1.0), setbacks=(stud,), trials=50,
        generator=np.random.default_rng(1),
    )  # fmt: skip
    assert set(found.goal.tolist()) == {1245} and found.hits == {"stud": 50}
    assert found.by(0.1) == found.by(0.9) == 1245


def test_a_trial_that_does_not_finish_is_counted_and_has_no_date() -> None:
    """HAND: five evenings hold 600 min; a setback of 700 min never fits, in half of the trials."""
    works = (Work("strip", 30), Work("build", 30, after=("strip",)))
    stud = Setback("stud", after=("strip",), before=("build",), chance=0.5, minutes=700)
    found = simulate(
        works, hours=EVENINGS, goal="build", priority=(0.0, 1.0), setbacks=(stud,), trials=400,
        generator=np.random.default_rng(2),
    )  # fmt: skip
    assert found.beyond_horizon == found.hits["stud"] and 150 < found.beyond_horizon < 250
    assert found.by(0.2) == 1200 and found.by(0.95) is None


def test_a_trial_without_room_counts_after_one_whose_wait_ends_after_the_plan() -> None:
    """HAND: 60 min by 20:00 (1200) and a wait of 20,000 min end at 21,200, after the last evening; the runs without room
    stand behind these, never before."""
    works = (Work("strip", 30), Work("build", 30, after=("strip",), wait=20_000))
    stud = Setback("stud", after=("strip",), before=("build",), chance=0.5, minutes=700)
    found = simulate(
        works, hours=EVENINGS, goal="build", priority=(0.0, 1.0), setbacks=(stud,), trials=400,
        generator=np.random.default_rng(2),
    )  # fmt: skip
    assert EVENINGS.horizon < 21_200
    assert found.by(0.2) == 21_200 and found.by(0.95) is None
    assert set(found.goal.tolist()) == {21_200}


REFUSED: dict[str, tuple[Callable[[], object], str]] = {
    "a ring": (
        lambda: schedule((Work("a", 5, after=("b",)), Work("b", 5, after=("a",))), hours=EVENINGS),
        "No order can keep this: `a` waits for `b` and `b` waits for `a`. Take one of these out.",
    ),
    "an unknown name": (
        lambda: schedule((Work("a", 5, after=("strap",)),), hours=EVENINGS),
        "`a` is to come after `strap`, which is no task here. There are: `a`.",
    ),
    "twice": (
        lambda: schedule((Work("a", 5), Work("a", 6)), hours=EVENINGS),
        "`a` is given twice. Give each work a name of its own, or take one out.",
    ),
    "negative": (
        lambda: Work("a", -5),
        "Work of `a` is -5 min, and nothing takes less than 0 or comes before the plan starts. Check the figure and its "
        "sign.",
    ),
    "negative wait": (
        lambda: Work("a", 5, wait=-1),
        "Wait of `a` is -1 min, and nothing takes less than 0 or comes before the plan starts. Check the figure and its "
        "sign.",
    ),
    "no goal": (
        lambda: schedule((Work("a", 5),), hours=EVENINGS, goal="start"),
        "`start` is to be reached and is no work here. There are: `a`.",
    ),
    "hours short": (
        lambda: schedule((Work("a", 660),), hours=EVENINGS),
        "`a` cannot be finished: his own hours are 1 h short within the 5 days that are planned. Give more hours, plan "
        "further ahead, or drop works.",
    ),
    "nobody else": (
        lambda: schedule((Work("a", 30, two_people=True),), hours=EVENINGS),
        "`a` needs a second person, who is 30 min short within the 5 days that are planned. Find hours in which both are "
        "there.",
    ),
    "no window": (
        lambda: schedule((Work("a", 150, in_one_go=True),), hours=EVENINGS),
        "`a` takes 2 h 30 min in one go, and the longest hours of his own are 2 h. Keep one longer time free, or say "
        "where the work may be interrupted.",
    ),
    "too late": (
        lambda: schedule((Work("a", 5, not_before=9 * 1440),), hours=EVENINGS),
        "`a` cannot be done: `a` waits for a delivery or a promise on day 10, after his last hours within the 5 days that "
        "are planned. Plan further ahead, or find it sooner.",
    ),
    "hours overlap": (
        lambda: Hours(((0, 60), (50, 90)), horizon=100),
        "His hours from minute 50 to 90 cannot be: they overlap the hours before, or stand after later ones. Give hours "
        "in order, each ending after it begins and before the next one begins.",
    ),
    "not his hours": (
        lambda: Hours(((0, 60),), both=((30, 90),), horizon=100),
        "Hours of both from minute 30 to 90 lie outside his own hours, and nothing is done without him. Give only the "
        "part in which he works.",
    ),
    "a chance": (
        lambda: Setback("stud", (), (), chance=1.5, minutes=5),
        "Chance 1.5 of `stud` cannot be: it lies from 0 to 1. Write 20 % as 0.2.",
    ),
    "tries": (
        lambda: plan(
            (Work("a", 5),), hours=EVENINGS, goal="a", trials=-1, generator=np.random.default_rng(1)
        ),
        "-1 tries cannot be made. Give 0, for the rules alone, or more.",
    ),
    "priorities": (
        lambda: schedule((Work("a", 5),), hours=EVENINGS, priority=(1.0, 2.0)),
        "2 priorities cannot order 1 works. Give one number for each, the smallest for the first.",
    ),
}


@pytest.mark.parametrize("what", REFUSED)
def test_what_is_refused(what: str) -> None:
    act, words = REFUSED[what]
    with pytest.raises(InputError) as refused:
        act()
    assert str(refused.value) == words


def test_a_spread_out_of_order_is_refused() -> None:
    with pytest.raises(InputError):
        Spread(minutes=(30, 20, 40))
    with pytest.raises((InputError, NotFinite)):
        Spread(wait=(0, float("nan"), 5))

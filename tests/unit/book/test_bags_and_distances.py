"""Several of a kind in one bag, counts by hand, beads with their two clocks, and what an odometer shows."""

from typing import Any

import pytest

from gudgeon.book.errors import BodyRefused
from gudgeon.book.state import Count, Tally
from tests.unit.book.chains import Chain, begun, reasons


@pytest.fixture
def chain() -> Chain:
    return begun()


def off(chain: Chain, item: str = "cover", count: int = 7, **more: Any) -> Any:
    said = {"group": "bolt", "name": "Cover bolts", "bag": "B3", "place": None, "due_before": "crank"} | more
    return chain.add("taken-off", item=item, count=count, **said)


def back(chain: Chain, count: int | None, item: str = "cover") -> Any:
    return chain.add("refitted", item=item, place=None, count=count)


def test_a_bag_goes_back_piece_by_piece_and_stays_on_the_list_until_it_is_empty(chain: Chain) -> None:
    off(chain)
    back(chain, 5)
    there = chain.state.left_over["cover"]
    assert (there.off, there.of, there.bag) == (2, 7, "B3")  # HAND: 7 - 5
    assert chain.state.counts["bolt"] == Count(off=7, on=5, named=7, due="crank")
    back(chain, 2)
    assert "cover" not in chain.state.left_over
    assert chain.state.counts["bolt"] == Count(off=7, on=7, named=7, due="crank")
    assert chain.state.doubtful == ()


def test_without_a_number_all_that_were_still_off_go_back(chain: Chain) -> None:
    off(chain)
    back(chain, 3)
    back(chain, None)
    assert chain.state.left_over == {}
    assert chain.state.counts["bolt"].on == 7


def test_more_back_than_were_off_is_in_doubt(chain: Chain) -> None:
    off(chain)
    back(chain, 5)
    wrong = back(chain, 3)
    assert reasons(chain.state) == {
        wrong.id: "3 of Cover bolts went back, and only 2 were off: whose are the others?"
    }
    assert (chain.state.counts["bolt"].off, chain.state.counts["bolt"].on) == (7, 7)


def test_a_struck_part_of_a_bag_is_off_again(chain: Chain) -> None:
    off(chain)
    back(chain, 4)
    last = back(chain, 3)
    chain.strike(last)
    assert chain.state.left_over["cover"].off == 3


def test_two_entries_of_one_bag_count_as_the_one_that_says_more(chain: Chain) -> None:
    off(chain, count=7)
    off(chain, count=9)
    assert chain.state.left_over["cover"].off == 9
    assert chain.state.counts["bolt"] == Count(off=9, on=0, named=9, due="crank")


def test_what_comes_off_again_has_its_name_once(chain: Chain) -> None:
    off(chain, count=4)
    back(chain, None)
    off(chain, count=4, due_before="fire")
    # HAND: eight came off in two goes, four went back; the list knows four by name, due before the stricter one
    assert chain.state.counts["bolt"] == Count(off=8, on=4, named=4, due="crank")


def test_counts_by_hand_and_what_explains_them(chain: Chain) -> None:
    chain.add("counted", group="bolt", when="off", count=24)
    chain.add("counted", group="bolt", when="back", count=23)
    chain.add("explained", group="bolt", way="missing", what="M6 x 20", why="in the vise, bent")
    assert chain.state.tallies["bolt"] == Tally(off=24, back=23, missing=("M6 x 20: in the vise, bent",))
    chain.add("counted", group="bolt", when="back", count=24)
    assert chain.state.tallies["bolt"].back == 24
    chain.strike(chain.entries[-1])
    assert chain.state.tallies["bolt"].back == 23


def lay(chain: Chain, **more: Any) -> Any:
    said: dict[str, Any] = {
        "sealant": "paste", "timer": "paste", "name": "Paste", "joint": "head", "open_minutes": 10, "cure_minutes": 60,
        "task": "fill_oil", "due_before": "crank", "shown": {"cure": "60 min, tube"},
    } | more  # fmt: skip
    return chain.add("sealant-laid", **said)


def test_a_bead_starts_two_clocks_and_a_strike_takes_both(chain: Chain) -> None:
    bead = lay(chain)
    open_time, cure = chain.state.timers["paste_open"], chain.state.timers["paste_cure"]
    # The second entry is recorded at 10:02 (chains.py): 10 min on it is 10:12, an hour on 11:02.
    assert (open_time.kind, open_time.ends) == ("open time", "2026-03-07T10:12:00+00:00")
    assert (cure.kind, cure.ends, cure.stated) == ("cure", "2026-03-07T11:02:00+00:00", "60 min, tube")
    assert (cure.bead, cure.joint, cure.order) == ("paste", "head", bead.number)
    chain.strike(bead)
    assert chain.state.timers == {}


def test_a_bead_laid_before_it_was_written_down(chain: Chain) -> None:
    lay(chain, minutes_ago=6)
    assert (
        chain.state.timers["paste_open"].ends == "2026-03-07T10:06:00+00:00"
    )  # HAND: 10:02 - 6 min + 10 min


def test_a_clock_that_nobody_knows_has_no_end(chain: Chain) -> None:
    lay(chain, cure_minutes=None)
    assert (chain.state.timers["paste_cure"].ends, chain.state.timers["paste_cure"].minutes) == ("", None)


def test_a_new_bead_starts_anew_whatever_was_ended(chain: Chain) -> None:
    lay(chain)
    chain.add("timer-ended", timer="paste_open", how="together")
    lay(chain)
    assert not chain.state.timers["paste_open"].ended
    assert chain.state.timers["paste_open"].ends == "2026-03-07T10:14:00+00:00"


@pytest.mark.parametrize(
    ("first", "second", "back_again"),
    [
        (("84120", "km"), ("84121", "km"), False),
        (("84120", "km"), ("84119.9", "km"), True),
        # HAND: 100 mi are 160.9344 km exactly (1 mi = 1.609344 km)
        (("160.9344", "km"), ("100", "mi"), False),
        (("160.9345", "km"), ("100", "mi"), True),
        (("100", "mi"), ("160.9343", "km"), True),
    ],
)
def test_an_odometer_that_goes_back_is_in_doubt_and_the_most_is_kept(
    chain: Chain, first: tuple[str, str], second: tuple[str, str], *, back_again: bool
) -> None:
    chain.add("odometer-read", value=first[0], unit=first[1])
    last = chain.add("odometer-read", value=second[0], unit=second[1])
    if back_again:
        said = f"the odometer went back: {' '.join(second)}, after {' '.join(first)}"
        assert reasons(chain.state) == {last.id: said}
        assert chain.state.odometer == first
    else:
        assert chain.state.doubtful == ()
        assert chain.state.odometer == second


def test_a_later_reading_that_fits_settles_the_doubt(chain: Chain) -> None:
    for value in ("84120", "84020", "84130"):
        chain.add("odometer-read", value=value, unit="km")
    assert (chain.state.doubtful, chain.state.odometer) == ((), ("84130", "km"))


def test_no_odometer_shows_less_than_nothing(chain: Chain) -> None:
    with pytest.raises(BodyRefused, match="no odometer shows less than nothing"):
        chain.add("odometer-read", value="-1", unit="km")


def test_only_the_starter_runs_the_engine(chain: Chain) -> None:
    doing: dict[str, Any] = {"acts": [], "sets": None, "overruled": {}}
    chain.add("turned", by="hand", seen="two turns", doing=doing)
    assert chain.state.last_run == ""
    ran = chain.add("turned", by="starter", seen="ten seconds", doing=doing)
    assert chain.state.last_run == ran.device_time

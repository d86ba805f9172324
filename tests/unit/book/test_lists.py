"""The four open lists, the counts, waits, parts and pauses: what opens them, and the only things that close them."""

from typing import Any

import pytest

from tests.unit.book.chains import Chain, begun, reasons


@pytest.fixture
def chain() -> Chain:
    return begun()


LISTS = {
    "provisional": (
        ("provisional-made", {"item": "x", "name": "pulley bolt", "why": "to turn the crank", "due_task": "pulley", "due_before": "fire"}),
        ("provisional-cleared", {"item": "x", "how": "new bolt"}),
    ),
    "left_in": (
        ("left-in", {"item": "x", "name": "timing pin", "where": "flywheel end", "due_before": "crank"}),
        ("taken-out", {"item": "x"}),
    ),
    "plugged": (
        ("plugged", {"item": "x", "name": "oil return", "where": "block", "due_before": "crank"}),
        ("opened", {"item": "x"}),
    ),
    "left_over": (
        ("taken-off", {"item": "x", "group": "hose", "name": "heater hose", "place": "4", "due_before": "drive"}),
        ("refitted", {"item": "x", "place": "4"}),
    ),
}  # fmt: skip
EACH = pytest.mark.parametrize("name", LISTS)


def opens(chain: Chain, name: str, **more: Any) -> str:
    kind, body = LISTS[name][0]
    return chain.add(kind, **{**body, **more}).id


def closes(chain: Chain, name: str) -> str:
    kind, body = LISTS[name][1]
    return chain.add(kind, **body).id


def items(chain: Chain, name: str) -> dict[str, Any]:
    return dict(getattr(chain.state, name))


@EACH
def test_opened_then_closed(chain: Chain, name: str) -> None:
    entry = opens(chain, name)
    item = items(chain, name)["x"]
    assert (item.entry, item.item, item.since) == (entry, "x", chain.entries[-1].device_time)
    assert item.name == LISTS[name][0][1]["name"]
    assert item.due_before == LISTS[name][0][1]["due_before"]
    closes(chain, name)
    assert items(chain, name) == {}
    assert chain.state.doubtful == ()


@EACH
def test_closing_what_is_not_open_is_kept_in_doubt(chain: Chain, name: str) -> None:
    entry = closes(chain, name)
    assert reasons(chain.state) == {entry: "it closes x, which was not open"}


@EACH
def test_a_struck_closing_opens_it_again(chain: Chain, name: str) -> None:
    opens(chain, name)
    closes(chain, name)
    chain.strike(chain.entries[-1])
    assert set(items(chain, name)) == {"x"}


@EACH
def test_a_struck_opening_leaves_its_closing_in_doubt(chain: Chain, name: str) -> None:
    opens(chain, name)
    wrong = chain.entries[-1]
    closing = closes(chain, name)
    chain.strike(wrong)
    assert items(chain, name) == {}
    assert list(reasons(chain.state)) == [closing]


@EACH
def test_opened_twice_keeps_the_first_and_the_stricter_milestone(chain: Chain, name: str) -> None:
    first = opens(chain, name, due_before="handover")
    second = opens(chain, name, due_before="crank")
    assert (items(chain, name)["x"].entry, items(chain, name)["x"].due_before) == (first, "crank")
    assert list(reasons(chain.state)) == [second]
    chain.strike(chain.entries[1])
    assert items(chain, name)["x"].entry == second
    assert chain.state.doubtful == ()


def test_lists_do_not_share_their_items(chain: Chain) -> None:
    for name in LISTS:
        opens(chain, name)
    closes(chain, "plugged")
    assert [name for name in LISTS if items(chain, name)] == ["provisional", "left_in", "left_over"]


def test_counts_off_and_on_by_group(chain: Chain) -> None:
    for item, group in (("a", "hose"), ("b", "hose"), ("c", "connector")):
        chain.add("taken-off", item=item, group=group, name=item, place=None, due_before="crank")
    chain.add("refitted", item="b", place=None)
    counts = {group: (count.off, count.on) for group, count in chain.state.counts.items()}
    assert counts == {"hose": (2, 1), "connector": (1, 0)}


def test_refitted_in_another_place_is_kept_in_doubt_until_it_is_put_right(chain: Chain) -> None:
    opens(chain, "left_over")
    wrong = chain.add("refitted", item="x", place="5")
    assert items(chain, "left_over") == {}
    assert reasons(chain.state) == {wrong.id: "heater hose came from place 4, went to 5"}
    opens(chain, "left_over")
    closes(chain, "left_over")
    assert chain.state.doubtful == ()
    assert (chain.state.counts["hose"].off, chain.state.counts["hose"].on) == (2, 2)


@pytest.mark.parametrize(("taken", "put"), [(None, "5"), ("4", None), (None, None)])
def test_a_place_nobody_read_is_no_other_place(chain: Chain, taken: str | None, put: str | None) -> None:
    opens(chain, "left_over", place=taken)
    chain.add("refitted", item="x", place=put)
    assert chain.state.doubtful == ()


def wait(chain: Chain, minutes: int) -> None:
    chain.add("timer-started", timer="bead", name="sealant", minutes=minutes, task="oil", due_before="fire")


def test_a_wait_ends_its_minutes_after_it_was_started(chain: Chain) -> None:
    wait(chain, 90)
    timer = chain.state.timers["bead"]
    # The second entry is recorded at 10:02 (chains.py); 90 minutes on it is 11:32.
    assert (timer.started, timer.ends) == ("2026-03-07T10:02:00+00:00", "2026-03-07T11:32:00+00:00")
    assert not timer.ended


def test_a_wait_ended_before_its_time_says_how(chain: Chain) -> None:
    wait(chain, 90)
    chain.add("timer-ended", timer="bead", how="skinned and firm")
    assert (chain.state.timers["bead"].ended, chain.state.timers["bead"].how) == (True, "skinned and firm")
    again = chain.add("timer-ended", timer="bead", how="skinned")
    assert list(reasons(chain.state)) == [again.id]


def test_a_wait_started_again_while_it_runs_never_gets_shorter(chain: Chain) -> None:
    wait(chain, 90)
    wait(chain, 5)
    assert chain.state.timers["bead"].ends == "2026-03-07T11:32:00+00:00"
    wait(chain, 120)
    assert chain.state.timers["bead"].ends == "2026-03-07T12:04:00+00:00"


def test_ending_a_wait_that_does_not_run_is_kept_in_doubt(chain: Chain) -> None:
    entry = chain.add("timer-ended", timer="bead", how="skinned")
    assert list(reasons(chain.state)) == [entry.id]


def test_a_struck_ending_lets_the_wait_run_on(chain: Chain) -> None:
    wait(chain, 90)
    chain.strike(chain.add("timer-ended", timer="bead", how="skinned"))
    assert not chain.state.timers["bead"].ended


def test_a_part_away_and_back(chain: Chain) -> None:
    chain.add("shop-out", part="head", shop="Mill Lane", ordered="clean up", most_off="0.20 mm")
    shop = chain.state.shop["head"]
    assert (shop.shop, shop.ordered, shop.most_off, shop.back) == ("Mill Lane", "clean up", "0.20 mm", False)
    chain.add("shop-back", part="head", found="0.22 mm off")
    assert (chain.state.shop["head"].back, chain.state.shop["head"].found) == (True, "0.22 mm off")
    twice = chain.add("shop-back", part="head", found="0.22 mm off")
    assert list(reasons(chain.state)) == [twice.id]


def test_a_part_decided_received_and_compared(chain: Chain) -> None:
    chain.add("part-disposition", part="gasket", decision="renew", why="one-time")
    chain.add("part-received", part="gasket", compared=False)
    part = chain.state.parts["gasket"]
    assert (part.decision, part.received, part.compared) == ("renew", True, False)
    chain.add("part-received", part="gasket", compared=True)
    assert chain.state.parts["gasket"].compared


def test_a_pause_lasts_until_work_is_recorded(chain: Chain) -> None:
    chain.add("paused", hand="wrench at 40", next_action="bolt 5")
    chain.add("note", text="phone")
    chain.add("part-received", part="gasket", compared=True)
    paused = chain.state.paused
    assert paused is not None
    assert (paused.hand, paused.next_action) == ("wrench at 40", "bolt 5")
    chain.pull(1, "5")
    assert chain.state.paused is None
    chain.strike(chain.entries[-1])
    assert chain.state.paused is not None

"""What holds for the state of any sequence of entries, whoever recorded them and whatever they had seen."""

from collections.abc import Callable
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from gudgeon.book.entries import Entry
from gudgeon.book.fold import fold
from gudgeon.book.state import State
from tests.unit.book.chains import Chain, begun

JOINTS = st.sampled_from(["head", "pulley"])
HOLDS = st.sampled_from(["dry", "bolts", "timing", "crank"])
ITEMS = st.sampled_from(["a", "b"])
DUE = st.sampled_from(["crank", "fire", "drive", "handover"])
PLACE = st.sampled_from([None, "1", "2"])
RESTS = st.lists(
    st.sampled_from(["joint:head", "joint:pulley", "hold:dry", "hold:bolts", "hold:timing", "state:pins"]),
    max_size=2,
)
OUTCOMES = st.sampled_from(
    ["clicked while turning", "clicked at once", "angle reached", "stopped at", "done", "doubtful"]
)
OPENING = {
    "provisional-made": "provisional", "left-in": "left_in", "plugged": "plugged", "taken-off": "left_over",
}  # fmt: skip
CLOSING = {
    "provisional-cleared": "provisional", "taken-out": "left_in", "opened": "plugged", "refitted": "left_over",
}  # fmt: skip


def body(kind: str, **fields: st.SearchStrategy[Any]) -> st.SearchStrategy[tuple[str, dict[str, Any]]]:
    return st.tuples(st.just(kind), st.fixed_dictionaries(fields))


def said(text: str) -> st.SearchStrategy[str]:
    return st.just(text)


FACTS = st.one_of(
    body("pull", joint=JOINTS, stage=st.integers(1, 3), round=st.integers(1, 2), bolt=st.sampled_from(["1", "2"]),
         outcome=OUTCOMES, angle_deg=said("40"), why=said("seen")),
    body("bolt-loosened", joint=JOINTS, stage=st.integers(1, 2), round=st.just(1), bolt=st.sampled_from(["1", "2"]),
         outcome=st.sampled_from(["done", "stopped at", "doubtful"]), angle_deg=said("40"), why=said("seen")),
    body("joint-marked", joint=JOINTS, how=said("paint")),
    body("joint-disturbed", joint=JOINTS, why=said("slipped")),
    body("hold-proved", hold=HOLDS, value=said("2 turns"), rests_on=RESTS),
    body("hold-voided", hold=HOLDS, why=said("looked wrong")),
    body("provisional-made", item=ITEMS, name=said("bolt"), joint=st.one_of(st.none(), JOINTS), why=said("to turn it"),
         due_task=said("pulley"), due_before=DUE),
    body("provisional-cleared", item=ITEMS, how=said("new bolt")),
    body("left-in", item=ITEMS, name=said("pin"), where=said("flywheel"), due_before=DUE),
    body("taken-out", item=ITEMS),
    body("plugged", item=ITEMS, name=said("port"), where=said("head"), due_before=DUE),
    body("opened", item=ITEMS),
    body("taken-off", item=ITEMS, group=st.sampled_from(["hose", "bolt"]), name=said("hose"), place=PLACE, due_before=DUE),
    body("refitted", item=ITEMS, place=PLACE),
    body("reading", item=said("bore"), place=ITEMS, unit=said("mm"), value=st.sampled_from(["81.00", "81.02"]),
         condition=st.sampled_from(["as found", "as left"])),
    body("timer-started", timer=ITEMS, name=said("bead"), minutes=st.integers(1, 10_000_000), task=said("oil"), due_before=DUE),
    body("timer-ended", timer=ITEMS, how=said("firm")),
    body("sealant-laid", sealant=ITEMS, timer=ITEMS, name=said("bead"), joint=JOINTS, task=said("fill_oil"), due_before=DUE,
         open_minutes=st.one_of(st.none(), st.integers(1, 60)), cure_minutes=st.one_of(st.none(), st.integers(1, 3000))),
    body("odometer-read", value=st.sampled_from(["100", "160.9", "161"]), unit=st.sampled_from(["km", "mi"])),
    body("counted", group=st.sampled_from(["hose", "bolt"]), when=st.sampled_from(["off", "back"]), count=st.integers(0, 3)),
    body("explained", group=st.sampled_from(["hose", "bolt"]), way=st.sampled_from(["missing", "over"]), what=ITEMS,
         why=said("seen")),
    body("tightened-again", joint=JOINTS, seen=said("none moved")),
    body("task-started", task=ITEMS),
    body("task-paused", task=ITEMS, why=said("bolt missing")),
    body("task-done", task=ITEMS, minutes=st.one_of(st.none(), st.integers(0, 90)), note=said("")),
    body("part-disposition", part=ITEMS, decision=st.sampled_from(["reuse", "renew"]), why=said("worn")),
    body("part-received", part=ITEMS, compared=st.booleans()),
    body("shop-out", part=ITEMS, shop=said("Mill Lane"), ordered=said("clean up")),
    body("shop-back", part=ITEMS, found=said("flat")),
    body("accepted", what=ITEMS, by=said("Robin"), why=said("known")),
    body("identity-read", code=said("L1"), read_from=said("pad"), matches=st.booleans()),
    body("paused", hand=said("wrench"), next_action=said("bolt 5")),
    body("note", text=said("cold")),
    body("build-opened", name=said("x"), engine=said("y"), sheet_path=said("s"), kit_path=said("k")),
)  # fmt: skip


@st.composite
def chains(draw: st.DrawFn, most: int = 30) -> Chain:
    """A build of any facts, in any order, with strikes of anything and senders who had seen less than all."""
    chain = begun()
    for _ in range(draw(st.integers(0, most))):
        seen = draw(st.one_of(st.none(), st.none(), st.integers(0, len(chain.entries))))
        basis = None
        if seen is not None:
            basis = chain.entries[seen].hash if seen < len(chain.entries) else "a" * 64
        if draw(st.integers(0, 6)) == 0:
            target = draw(st.sampled_from(chain.entries))
            chain.add("strike", basis=basis, entry=target.id, why="wrong")
        else:
            kind, fields = draw(FACTS)
            chain.add(kind, basis=basis, who=draw(st.sampled_from(["Ada", "Bo"])), **fields)
    return chain


def struck(chain: Chain) -> set[str]:
    """Every entry that a later one strikes; a strike and the first entry cannot be."""
    kinds = {entry.id: entry.kind for entry in chain.entries}
    targets = {entry.body["entry"] for entry in chain.entries if entry.kind == "strike"}
    return {target for target in targets if kinds[target] not in ("strike", "build-opened")}


def last_strikable(chain: Chain, draw: Callable[[st.SearchStrategy[Entry]], Entry]) -> Entry | None:
    gone = struck(chain)
    live = [one for one in chain.entries if one.kind not in ("strike", "build-opened") and one.id not in gone]
    return draw(st.sampled_from(live)) if live else None


@given(chain=chains(), data=st.data())
def test_folding_never_fails_and_is_the_same_every_time(chain: Chain, data: st.DataObject) -> None:
    state = fold(chain.entries)
    assert fold(data.draw(st.permutations(chain.entries))) == state
    assert (state.count, state.head) == (len(chain.entries), chain.head)


@given(chain=chains())
def test_an_item_is_open_from_its_opening_to_its_closing_and_no_less(chain: Chain) -> None:
    expected: dict[str, dict[str, bool]] = {name: {} for name in OPENING.values()}
    gone = struck(chain)
    for entry in chain.entries:
        if entry.id in gone:
            continue
        if entry.kind in OPENING:
            expected[OPENING[entry.kind]][entry.body["item"]] = True
        elif entry.kind in CLOSING:
            expected[CLOSING[entry.kind]][entry.body["item"]] = False
    for name, items in expected.items():
        assert set(getattr(chain.state, name)) == {item for item, is_open in items.items() if is_open}


@given(chain=chains())
def test_counts_off_less_counts_on_are_what_is_left_over(chain: Chain) -> None:
    state = chain.state
    for group, count in state.counts.items():
        assert count.off - count.on == sum(item.group == group for item in state.left_over.values())


def proved(state: State) -> set[str]:
    return {name for name, hold in state.holds.items() if hold.status == "proved"}


@given(chain=chains())
def test_no_proved_hold_rests_on_one_that_does_not_stand(chain: Chain) -> None:
    state = chain.state
    standing = proved(state)
    for hold in standing:
        under = {name[5:] for name in state.holds[hold].rests_on if name.startswith("hold:")}
        assert under <= standing


@given(chain=chains())
def test_a_proved_hold_was_not_voided_since_its_proof(chain: Chain) -> None:
    """Reasoned from the entries alone: after its proof nothing touched a joint it rests on, struck or not."""
    state = chain.state
    number = {entry.id: entry.number for entry in chain.entries}
    for name in proved(state):
        hold = state.holds[name]
        after = [entry for entry in chain.entries if entry.number > number[hold.entry]]
        joints = {thing[6:] for thing in hold.rests_on if thing.startswith("joint:")}
        assert not [
            one for one in after if one.kind in ("pull", "joint-disturbed") and one.body["joint"] in joints
        ]
        assert not [one for one in after if one.kind == "hold-voided" and one.body["hold"] == name]


@given(chain=chains(), data=st.data())
def test_a_strike_never_restores_a_hold(chain: Chain, data: st.DataObject) -> None:
    before = chain.state
    target = last_strikable(chain, data.draw)
    if target is not None:
        chain.strike(target)
        assert proved(chain.state) <= proved(before)


def facts(state: State) -> set[tuple[Any, ...]]:
    """Every entry that says something about the engine as it stands, with what it says it of."""
    lists = ("provisional", "left_in", "plugged", "left_over")
    return {
        *(("reading", *key, one.entry) for key, one in state.readings.items()),
        *(("pull", joint, *step, one.entry) for joint, found in state.joints.items() for step, one in found.pulls.items()),
        *((name, key, one.entry) for name in lists for key, one in getattr(state, name).items()),
        *(("timer", key, one.entry) for key, one in state.timers.items()),
        *(("hold", key, one.entry) for key, one in state.holds.items()),
        *(("accepted", one.entry) for one in state.accepted),
        *((("identity", state.identity.entry),) if state.identity else ()),
    }  # fmt: skip


@given(chain=chains(), data=st.data())
def test_a_strike_never_loses_a_later_fact(chain: Chain, data: st.DataObject) -> None:
    before = chain.state
    target = last_strikable(chain, data.draw)
    if target is not None:
        chain.strike(target)
        number = {entry.id: entry.number for entry in chain.entries}
        later = {fact for fact in facts(before) if number[fact[-1]] > target.number}
        assert later <= facts(chain.state)


@given(chain=chains())
def test_every_doubt_can_be_settled(chain: Chain) -> None:
    """What blocks for ever would be worked around: striking the entries in doubt ends it."""
    for _ in range(len(chain.entries)):
        doubtful = chain.state.doubtful
        if not doubtful:
            return
        chain.add("strike", entry=doubtful[-1][0], why="looked, and it was not so")
    assert chain.state.doubtful == ()

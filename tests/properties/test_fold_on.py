"""A fold that is kept and goes on says what a fold of all entries says, and what it said before stays as it was."""

from itertools import pairwise
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.book.entries import Entry
from gudgeon.book.fold import Folding, fold
from tests.properties.test_book_fold import DUE, FACTS, ITEMS, JOINTS, body, said
from tests.unit.book.chains import Chain, begun


def acts(*said_so: str, **sets: str) -> dict[str, Any]:
    return {"acts": list(said_so), "overruled": {}, "sets": sets or None}


ABOUT = st.sampled_from(["gate:pins in", "hold:timing_proved", "item:left in:a", "joint:head"])
MORE = st.one_of(
    body("engine-state", seen=said("looked"), pins=st.sampled_from(["in", "out"])),
    body("engine-state", seen=said("looked"), cams=st.sampled_from(["in", "out"]), belt=st.sampled_from([None, "on", "off"])),
    body("turned", by=st.sampled_from(["hand", "starter"]), seen=said("half a turn"),
         doing=st.sampled_from([acts("turn by hand", crank="moved"), acts("turn by starter")])),
    body("left-in", item=ITEMS, name=said("tool"), where=said("flywheel"), due_before=DUE,
         holds=st.sampled_from(["nothing", "timing", "torque"])),
    body("override", about=ABOUT, by=said("Sam"), why=said("it is a trial"), shown=said("what was shown")),
    body("inspected", entry=st.integers(1, 20).map(lambda number: f"{number:032x}"), gate=said("pins in"), by=said("Sam"),
         found=said("no mark")),
    body("joint-witnessed", joint=JOINTS, by=said("Bo"), seen=said("4 lines")),
    body("signed-off", milestone=DUE, by=said("Sam"), words=said("it is good")),
    body("money", what=said("gasket"), amount=said("30"), currency=said("EUR")),
    body("part-disposition", part=ITEMS, decision=said("renew"), why=said("worn"), joint=JOINTS, bolt=st.sampled_from("12")),
)  # fmt: skip


@st.composite
def chains(draw: st.DrawFn) -> Chain:
    """Facts of two devices, each of which has seen a head of its own, with strikes and looks at any entry."""
    chain = begun()
    seen = {"Ada": 1, "Bo": 1}
    for _ in range(draw(st.integers(0, 25))):
        who = draw(st.sampled_from(["Ada", "Bo"]))
        if draw(st.booleans()):
            seen[who] = len(chain.entries)
        basis = "a" * 64 if draw(st.integers(0, 15)) == 0 else chain.entries[seen[who] - 1].hash
        what = draw(st.integers(0, 8))
        if what == 0:
            chain.add("strike", basis=basis, who=who, entry=_any(draw, chain), why="wrong")
        elif what == 1:
            as_recorded = draw(st.booleans())
            chain.add(
                "looked", basis=basis, who=who, entry=_any(draw, chain), seen="marks", as_recorded=as_recorded
            )
        else:
            kind, fields = draw(st.one_of(FACTS, MORE))
            chain.add(kind, basis=basis, who=who, **fields)
    return chain


def _any(draw: st.DrawFn, chain: Chain) -> str:
    """An entry of the chain, or one that is still to come."""
    return f"{draw(st.integers(1, len(chain.entries) + 3)):032x}"


def pieces(entries: list[Entry], cuts: list[int]) -> list[list[Entry]]:
    places = sorted({0, len(entries), *(cut % (len(entries) + 1) for cut in cuts)})
    return [entries[one:other] for one, other in pairwise(places)]


@settings(max_examples=25, deadline=None)
@given(chain=chains(), cuts=st.lists(st.integers(0, 200), max_size=8))
def test_going_on_is_folding_all(chain: Chain, cuts: list[int]) -> None:
    work, taken = Folding(()), 0
    said: list[tuple[int, Any]] = []
    for piece in pieces(chain.entries, cuts):
        taken += len(piece)
        if not work.goes_on(piece):
            work = Folding(chain.entries[:taken])
        said.append((taken, work.state()))
        assert said[-1][1] == fold(chain.entries[:taken])
    for upto, state in said:  # nothing of an earlier state has changed meanwhile
        assert state == fold(chain.entries[:upto])


@settings(max_examples=25, deadline=None)
@given(chain=chains(), at=st.integers(0, 200))
def test_what_reaches_back_is_taken_by_none(chain: Chain, at: int) -> None:
    """Whether it goes on is reasoned from the entries alone: a first strike of an entry from before, that can be struck."""
    at %= len(chain.entries) + 1
    before, after = chain.entries[:at], chain.entries[at:]
    kinds = {one.id: one.kind for one in before}
    gone = {one.body["entry"] for one in before if one.kind == "strike"}
    struck_already = {one for one in gone if _was_there(before, one)}
    reaches = any(
        one.kind == "strike"
        and kinds.get(one.body["entry"], "strike") not in ("strike", "build-opened")
        and one.body["entry"] not in struck_already
        for one in after
    )
    work = Folding(before)
    assert work.goes_on(after) is not reaches
    assert work.state() == fold(before if reaches else chain.entries)


def _was_there(entries: list[Entry], target: str) -> bool:
    """Whether an entry stood in the book when one of its strikes was written."""
    number = next((one.number for one in entries if one.id == target), None)
    strikes = [one for one in entries if one.kind == "strike" and one.body["entry"] == target]
    return number is not None and any(number < one.number for one in strikes)


@settings(max_examples=10, deadline=None)
@given(chain=chains())
def test_entries_out_of_order_are_not_taken(chain: Chain) -> None:
    work = Folding(chain.entries)
    assert not work.goes_on(chain.entries[-1:])
    assert work.state() == fold(chain.entries)

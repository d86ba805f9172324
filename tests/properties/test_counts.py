"""Whatever comes off, goes back and is struck, in whatever order: the list never says that nothing is off while it is."""

from hypothesis import given
from hypothesis import strategies as st

from gudgeon.bench.counted import differences
from gudgeon.book.state import Count, Tally
from tests.unit.book.chains import Chain, begun

ITEM = st.sampled_from(["a", "b"])
ACT = st.one_of(
    st.tuples(st.just("off"), ITEM, st.integers(1, 5)),
    st.tuples(st.just("back"), ITEM, st.one_of(st.none(), st.integers(1, 6))),
    st.tuples(st.just("strike"), st.integers(0, 30), st.none()),
)


@st.composite
def bags(draw: st.DrawFn) -> Chain:
    chain = begun()
    for act, what, count in draw(st.lists(ACT, max_size=20)):
        if act == "strike":
            facts = [one for one in chain.entries if one.kind in ("taken-off", "refitted")]
            if facts:
                chain.strike(facts[int(what) % len(facts)])
        elif act == "off":
            chain.add(
                "taken-off",
                item=what,
                group="bolt",
                name=what,
                place=None,
                count=count,
                bag=None,
                due_before="fire",
            )
        else:
            chain.add("refitted", item=what, place=None, count=count)
    return chain


def still_off(chain: Chain) -> dict[str, int]:
    """Reckoned one entry after the other, as somebody with a pencil would: two words of one bag are the larger."""
    gone = {entry.body["entry"] for entry in chain.entries if entry.kind == "strike"}
    off: dict[str, int] = {}
    for entry in chain.entries:
        if entry.id in gone:
            continue
        if entry.kind == "taken-off":
            off[entry.body["item"]] = max(off.get(entry.body["item"], 0), entry.body["count"])
        elif entry.kind == "refitted":
            there = off.get(entry.body["item"], 0)
            back = there if entry.body["count"] is None else entry.body["count"]
            off[entry.body["item"]] = max(0, there - back)
    return {item: count for item, count in off.items() if count}


@given(chain=bags())
def test_the_list_holds_exactly_what_is_still_off(chain: Chain) -> None:
    state = chain.state
    assert {item: one.off for item, one in state.left_over.items()} == still_off(chain)
    count = state.counts.get("bolt", Count(0, 0))
    assert count.off - count.on == sum(still_off(chain).values())


@given(
    named=st.integers(0, 6), off=st.one_of(st.none(), st.integers(0, 6)), back=st.one_of(st.none(), st.integers(0, 6)),
    missing=st.integers(0, 3), over=st.integers(0, 3),
)  # fmt: skip
def test_counts_are_silent_only_where_they_agree_or_every_piece_is_explained(
    named: int, off: int | None, back: int | None, missing: int, over: int
) -> None:
    tally = Tally(off, back, ("piece: why",) * missing, ("piece: why",) * over)
    found = differences("bolt", Count(named, 0, named), tally)
    if found:
        return
    assert off is None or off == named
    assert off is None or back is not None
    if back is not None:
        assert -over <= named - back <= missing

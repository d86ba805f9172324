"""The steps of a choice of shims, replayed on a model of places, stock, bought shims and cards."""

import random
from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.calc.engine.shim_choice import choose
from gudgeon.calc.engine.shim_moves import Run, runs
from gudgeon.calc.engine.shim_valves import Shim, Supply, Valve
from tests.unit.calc.engine_shims import some_supply, some_valves


class Bench:
    """Where every shim lies. Nothing can be taken from where it is not, nor put where one lies already."""

    def __init__(self, valves: list[Valve], supply: Supply) -> None:
        self.places = {at: valve.shim_nm for at, valve in enumerate(valves)}
        self.stock = Counter({row: count for row, (_, count) in enumerate(supply.stock)})
        self.sizes = [size for size, _ in supply.stock]
        self.to_buy = [size for size, _ in supply.to_buy]
        self.freed: list[int] = []
        self.cards: dict[int, int] = {}
        self.bought: list[int] = []

    def follow(self, run: Run) -> None:
        for step in run.steps:
            self.put(self.take(step.frm, step.from_at), step.to, step.to_at, step.shim.thickness_nm)
        assert not self.cards, "a card is still on the bench"

    def take(self, frm: str, at: int) -> int:
        if frm == "place":
            return self.places.pop(at)
        if frm == "card":
            return self.cards.pop(at)
        if frm == "stock":
            assert self.stock[at] > 0
            self.stock[at] -= 1
            return self.sizes[at]
        self.bought.append(self.to_buy[at])
        return self.to_buy[at]

    def put(self, shim: int, to: str, at: int, said: int) -> None:
        assert shim == said, "the step says another thickness than lies there"
        if to == "stock":
            self.freed.append(shim)
            return
        spots = self.places if to == "place" else self.cards
        assert at not in spots, "two shims in one place"
        spots[at] = shim


def _follow(valves: list[Valve], supply: Supply, wanted: list[Shim]) -> Bench:
    bench = Bench(valves, supply)
    for run in runs(wanted, old_nm=[valve.shim_nm for valve in valves]):
        bench.follow(run)
    return bench


@settings(max_examples=60)
@given(st.integers(0, 10**6), st.integers(1, 9), st.integers(0, 4), st.integers(0, 8))
def test_the_steps_lead_to_the_choice(seed: int, count: int, stock: int, sizes: int) -> None:
    chance = random.Random(seed)
    valves, supply = some_valves(chance, count), some_supply(chance, stock=stock, sizes=sizes)
    found = choose(valves, supply=supply)
    wanted = [one.shim for one in found.fitted]
    bench = _follow(valves, supply, wanted)
    assert bench.places == {at: shim.thickness_nm for at, shim in enumerate(wanted)}
    assert len(bench.bought) == found.bought
    before = Counter([valve.shim_nm for valve in valves]) + Counter(
        {size: sum(n for s, n in supply.stock if s == size) for size, _ in supply.stock}
    )
    left = Counter(size for row, size in enumerate(bench.sizes) for _ in range(bench.stock[row]))
    after = Counter(bench.places.values()) + left + Counter(bench.freed)
    assert after == before + Counter(bench.bought), "a shim was lost, or made"


@given(st.permutations(range(6)))
def test_any_exchange_among_the_places(order: list[int]) -> None:
    valves = [Valve(f"valve {at}", 2_000_000 + 1000 * at, 0, 0, 0, 0) for at in range(6)]
    wanted = [Shim(valves[frm].shim_nm, "place", frm) for frm in order]
    found = runs(wanted, old_nm=[valve.shim_nm for valve in valves])
    bench = _follow(valves, Supply(), wanted)
    assert bench.places == {at: valves[frm].shim_nm for at, frm in enumerate(order)}
    assert all(run.ring for run in found)
    touched = sum(frm != at for at, frm in enumerate(order))
    assert sum(len(run.steps) for run in found) == touched + len(found), (
        "one step each, and one card for a ring"
    )

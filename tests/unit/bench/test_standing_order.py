"""Whatever is taken up first of what may be begun, the job comes to its end, and never without its proofs."""

import random
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from typing import Any, cast

import pytest

from gudgeon.bench.context import Bench, Papers
from gudgeon.bench.doing import of_task
from gudgeon.bench.holds import IDENTITY, all_holds
from gudgeon.bench.network import Task, job
from gudgeon.bench.standing import Network
from gudgeon.book.fold import fold
from gudgeon.book.state import EngineState, HoldState, IdentityState, ShopState, State, TaskState
from gudgeon.kit.load import parse_kit
from gudgeon.sheet.model import DataSheet
from tests.unit.bench.benches import KIT, START
from tests.unit.bench.test_network import ENGINES, before

EMPTY = fold(())
OWNED = parse_kit(KIT, file="kit.yaml").kit


@dataclass
class Work:
    """A job worked through in memory: what is finished, with which proofs, at what hour."""

    sheet: DataSheet
    proving: bool = True
    now: datetime = START
    identity: IdentityState | None = None
    tasks: dict[str, TaskState] = field(default_factory=dict)
    holds: dict[str, HoldState] = field(default_factory=dict)
    shop: dict[str, ShopState] = field(default_factory=dict)
    engine: EngineState = field(default_factory=EngineState)

    @property
    def state(self) -> State:
        fields: dict[str, Any] = {name: getattr(EMPTY, name) for name in State.__slots__}
        fields |= {"identity": self.identity, "tasks": self.tasks, "holds": self.holds, "shop": self.shop}
        fields |= {"engine": self.engine}
        return State(**fields)

    def network(self) -> Network:
        papers = Papers(self.sheet, "", "", OWNED, "", "", ())
        bench = Bench(Path("book"), cast(Any, None), "mine", papers, self.state, self.now)
        return Network(bench, job().for_engine(self.sheet))

    def finish(self, task: Task) -> None:
        """The hands are done, and what is to be proved was seen."""
        at = self.now.isoformat()
        if task.shop_when == "sent":
            self.shop["head"] = ShopState("Miller", "resurface", None, at, False, "")
        self.tasks[task.key] = TaskState(task.key, "done", at, len(self.tasks) + 1)
        for hold in task.proves:
            if hold == IDENTITY:
                self.identity = IdentityState("id", "L1-A", "pad", True, None)
            elif self.proving:
                self.holds[hold] = HoldState(hold, "proved", "seen", "", (), time=at)
                self.engine = replace(self.engine, **all_holds()[hold].makes)
        self.engine = replace(self.engine, **(of_task(self.sheet, task.key).makes or {}))

    def wait(self, network: Network) -> bool:
        """Let the next thing that runs by itself come to its end; false when nothing runs."""
        ends = [found.ends for key in network.tasks if (found := network.own_wait(key)) is not None]
        away = [name for name, one in self.shop.items() if not one.back]
        if ends:
            self.now = min(ends)
        elif away:
            self.shop[away[0]] = ShopState(
                "Miller", "resurface", None, self.now.isoformat(), True, "0.10 mm off"
            )
        return bool(ends or away)


def work_through(work: Work, chance: random.Random) -> Mapping[str, str]:
    """Do one after another of what may be begun, by chance, until nothing is left to do or to wait for."""
    tasks = {task.key: task for task in job().for_engine(work.sheet)}
    behind = before(tasks)
    while True:
        network = work.network()
        stands = {key: network.stand(key) for key in tasks}
        ready = [key for key, one in stands.items() if one.where == "ready"]
        if ready:
            key = chance.choice(ready)
            unfinished = [name for name in behind[key] if stands[name].where != "done"]
            assert unfinished == [], f"{key} may be begun before {unfinished}"
            assert network.before[key] == frozenset()
            work.finish(tasks[key])
        elif not work.wait(network):
            return {key: one.where for key, one in stands.items()}


@pytest.mark.parametrize(("number", "name"), list(enumerate(ENGINES)), ids=ENGINES.keys())
def test_one_after_another_of_what_may_be_begun_ends_with_all_done(number: int, name: str) -> None:
    work = Work(ENGINES[name])
    left = {key: one for key, one in work_through(work, random.Random(number)).items() if one != "done"}
    assert left == {}
    assert not any(work.network().stand(key).taken for key in work.tasks), "nothing had to be guessed"


@pytest.mark.parametrize("name", ["four, belt, shims", "one, air, pushrods, gears, screws"])
def test_with_the_code_read_and_no_proof_nobody_comes_as_far_as_the_starter(name: str) -> None:
    work = Work(ENGINES[name], proving=False)
    found = work_through(work, random.Random(0))
    for key in ("tighten_head", "two_turns", "fill_oil", "crank_for_oil", "first_start", "hand_over"):
        assert found[key] == "blocked", key
    assert found["secure_it"] == "done"


def test_each_missing_proof_alone_holds_back_the_first_fire() -> None:
    """Everything is done and proved up to the first start; then one proof after another is void."""
    work = Work(ENGINES["four, belt, shims"])
    tasks = {task.key: task for task in job().for_engine(work.sheet)}
    earlier = before(tasks)["first_start"]
    for key in tasks:
        if key in earlier:
            work.finish(tasks[key])
    work.shop.clear()
    work.now = START.replace(year=START.year + 1)
    assert work.network().stand("first_start").where == "ready"
    proved = [hold for hold in work.holds if hold != IDENTITY]
    assert len(proved) > 20
    for hold in proved:
        kept = work.holds.pop(hold)
        assert work.network().stand("first_start").where == "blocked", hold
        work.holds[hold] = kept
    assert work.network().stand("first_start").where == "ready"

"""The search for a yes that comes too early sees a program that is wrong, within the budget of every run."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import Phase

from gudgeon.bench import against_gates, provisional, ready
from gudgeon.bench.context import Bench
from gudgeon.bench.reason import Reason
from gudgeon.book.fold_doubts import Doubts, Outdated
from gudgeon.book.fold_engine import Engine
from gudgeon.book.fold_holds import Holds
from gudgeon.book.fold_joints import Joints
from gudgeon.book.fold_lists import OpenLists
from gudgeon.book.fold_overrides import Overrides
from gudgeon.book.fold_timers import Timers
from gudgeon.book.gates import broken
from tests.properties.test_book_machine import AFTER, search


def nothing(*_: Any, **__: Any) -> None:
    """It does nothing."""


def silent(bench: Bench, *_: Any) -> Iterator[Reason]:
    """It gives no reason."""
    yield from ()


def _only_above(self: Any, thing: str, *, why: str, by: str, path: tuple[str, ...] = ()) -> None:
    for hold in sorted(self._resting.get(thing, ())):
        self._void(hold, why, by=by, path=(*path, thing))


def _truth_of_today(self: Any, act: Any) -> set[Any]:
    return set(broken(act, self._now.state, timing_proved=self._holds.proved("timing_proved")))


def _taken_whole(self: Any, entry: Any, there: Any) -> None:
    self._lists["left over"].pop(there.item)
    self._on[there.group] += there.off


def _always_inspected(self: Any, entry: Any) -> bool:
    self._breaches = [replace(one, found=entry.body["found"]) for one in self._breaches]
    return True


def _at_the_earlier(self: Any, entry: Any) -> None:
    there = self._timers.get(entry.body["timer"])
    if there is None or there.ended:
        STARTED(self, entry)


STARTED = Timers.started


def _plain(bench: Bench, found: Any) -> tuple[list[Reason], tuple[str, ...]]:
    left, _ = LET_PASS(bench, found)
    return left, ()


LET_PASS = against_gates.let_pass


def _spoken_for(bench: Bench) -> dict[str, Any]:
    spoken = {item.joint for item in bench.state.provisional.values()}
    return {
        key: one
        for key, one in PROVISIONAL(bench).items()
        if key in bench.state.provisional or one.joint not in spoken
    }


PROVISIONAL = provisional.provisional


MUTATIONS: dict[str, Callable[[pytest.MonkeyPatch], None]] = {
    "a void hold takes only those right above it along": lambda m: m.setattr(Holds, "void_on", _only_above),
    "a struck proof voids nothing": lambda m: m.setattr(Holds, "strike", nothing),
    "working on a joint voids nothing": lambda m: m.setattr(Holds, "void_on", nothing),
    "an act is asked of the engine as it is known today": lambda m: m.setattr(Engine, "_against", _truth_of_today),
    "a strike tells the engine nothing": lambda m: m.setattr(Engine, "strike", nothing),
    "an act against a gate leaves no breach": lambda m: m.setattr(Engine, "_breach", nothing),
    "one inspection clears every act": lambda m: m.setattr(Engine, "inspected", _always_inspected),
    "breaches are no reason": lambda m: m.setattr(ready, "breach_reasons", silent),
    "a lock that is in is no reason": lambda m: m.setattr(against_gates, "_shut", silent),
    "parts away are no reason": lambda m: m.setattr(ready, "_away", silent),
    "waits are no reason": lambda m: m.setattr(ready, "wait_reasons", silent),
    "counts are no reason": lambda m: m.setattr(ready, "count_reasons", silent),
    "joints are no reason": lambda m: m.setattr(ready, "_joints", silent),
    "holds are no reason": lambda m: m.setattr(ready, "_holds", silent),
    "a wait begun anew ends when the first would": lambda m: m.setattr(Timers, "started", _at_the_earlier),
    "one of a bag that goes back takes the others along": lambda m: m.setattr(OpenLists, "_went_back", _taken_whole),
    "nothing is outdated": lambda m: m.setattr(Outdated, "why", lambda *_: ""),
    "nothing is in doubt": lambda m: m.setattr(Doubts, "listed", lambda _: []),
    "a struck pull leaves the stages after it": lambda m: m.setattr(Joints, "strike", nothing),
    "an override never ends": lambda m: m.setattr(Overrides, "touched", nothing),
    "what somebody let pass is a plain yes": lambda m: m.setattr(ready, "let_pass", _plain),
    "a note on a joint left half-way puts it off": lambda m: m.setattr(ready, "provisional", _spoken_for),
}  # fmt: skip
"""Programs that are wrong, each in one way."""


@pytest.mark.long
@pytest.mark.parametrize("name", MUTATIONS)
def test_a_program_that_is_wrong_is_seen(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    MUTATIONS[name](monkeypatch)
    with pytest.raises(AssertionError):
        search(AFTER, phases=(Phase.generate,))

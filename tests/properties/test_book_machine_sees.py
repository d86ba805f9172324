"""The search for a yes that comes too early sees a program that is wrong, within the budget of every run.

What takes a rarer sequence to show is tried by itself in `test_strikes_and_engine.py` and `test_never_yes.py`.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import Phase

from gudgeon.bench import against_gates, ready
from gudgeon.bench.context import Bench
from gudgeon.bench.reason import Reason
from gudgeon.book.fold_doubts import Doubts, Outdated
from gudgeon.book.fold_engine import Engine
from gudgeon.book.fold_holds import Holds
from gudgeon.book.fold_overrides import Overrides
from tests.properties.test_book_machine import AFTER, search


def nothing(*_: Any, **__: Any) -> None:
    """It does nothing."""


def silent(bench: Bench, *_: Any) -> Iterator[Reason]:
    """It gives no reason."""
    yield from ()


def _only_above(self: Any, thing: str, *, why: str, by: str, path: tuple[str, ...] = ()) -> None:
    for hold in sorted(self._resting.get(thing, ())):
        self._void(hold, why, by=by, path=(*path, thing))


def _plain(bench: Bench, found: Any) -> against_gates.Passed:
    return replace(LET_PASS(bench, found), standing=())


LET_PASS = against_gates.let_pass


MUTATIONS: dict[str, Callable[[pytest.MonkeyPatch], None]] = {
    "a void hold takes only those right above it along": lambda m: m.setattr(Holds, "void_on", _only_above),
    "a struck proof voids nothing": lambda m: m.setattr(Holds, "strike", nothing),
    "working on a joint voids nothing": lambda m: m.setattr(Holds, "void_on", nothing),
    "an act against a gate leaves no breach": lambda m: m.setattr(Engine, "_breach", nothing),
    "breaches are no reason": lambda m: m.setattr(ready, "breach_reasons", silent),
    "a lock that is in is no reason": lambda m: m.setattr(against_gates, "_shut", silent),
    "parts away are no reason": lambda m: m.setattr(ready, "_away", silent),
    "waits are no reason": lambda m: m.setattr(ready, "wait_reasons", silent),
    "counts are no reason": lambda m: m.setattr(ready, "count_reasons", silent),
    "joints are no reason": lambda m: m.setattr(ready, "_joints", silent),
    "holds are no reason": lambda m: m.setattr(ready, "_holds", silent),
    "nothing is outdated": lambda m: m.setattr(Outdated, "why", lambda *_: ""),
    "nothing is in doubt": lambda m: m.setattr(Doubts, "listed", lambda _: []),
    "an override never ends": lambda m: m.setattr(Overrides, "touched", nothing),
    "what somebody let pass is a plain yes": lambda m: m.setattr(ready, "let_pass", _plain),
}  # fmt: skip
"""Programs that are wrong, each in one way."""


@pytest.mark.long
@pytest.mark.parametrize("name", MUTATIONS)
def test_a_program_that_is_wrong_is_seen(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    MUTATIONS[name](monkeypatch)
    with pytest.raises(AssertionError):
        search(AFTER, phases=(Phase.generate,))

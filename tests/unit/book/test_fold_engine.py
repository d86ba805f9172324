"""The engine as a whole: what entries make of it, acts against a gate, inspections, overrides, second looks."""

from typing import Any

import pytest

from gudgeon.book.entries import Entry
from gudgeon.book.fold import fold
from gudgeon.book.state import EngineState
from tests.unit.book.chains import Chain, begun, reasons


@pytest.fixture
def chain() -> Chain:
    return begun()


def doing(*acts: str, overruled: dict[str, str] | None = None, **sets: str) -> dict[str, Any]:
    return {"acts": list(acts), "sets": sets or None, "overruled": overruled or {}}


def turn(chain: Chain, by: str = "hand", **more: Any) -> Entry:
    return chain.add("turned", by=by, seen="half a turn", doing=doing(f"turn by {by}", crank="moved", **more))


def pin(chain: Chain, item: str = "pin", *, holds: str = "timing") -> Entry:
    return chain.add("left-in", item=item, name=item, where="cam", due_before="crank", holds=holds)


def still_open(chain: Chain) -> list[str]:
    return [one.gate for one in chain.state.breaches if one.open]


def test_what_was_said_of_the_engine_stays_until_it_is_said_otherwise(chain: Chain) -> None:
    chain.add("engine-state", seen="looked", crank="half-way", cams="out")
    chain.add("engine-state", seen="looked", cams="in")
    assert chain.state.engine == EngineState(crank="half-way", cams="in")
    wrong = chain.add("engine-state", seen="looked", belt="on")
    chain.strike(wrong)
    assert chain.state.engine == EngineState(crank="half-way", cams="in")


def test_a_timing_pin_is_in_as_long_as_the_list_or_a_word_says_so(chain: Chain) -> None:
    pin(chain)
    chain.add("engine-state", seen="looked in from above", pins="out")
    assert chain.state.engine.pins == "in"
    pin(chain, "second")
    chain.add("taken-out", item="pin")
    assert chain.state.engine.pins == "in"
    chain.add("taken-out", item="second")
    assert chain.state.engine.pins == "out"


def test_a_rag_holds_nothing_and_a_flywheel_lock_takes_torque(chain: Chain) -> None:
    pin(chain, "rag", holds="nothing")
    pin(chain, "lock", holds="torque")
    assert chain.state.engine == EngineState(holder="fitted")
    chain.add("taken-out", item="lock")
    assert chain.state.engine == EngineState(holder="off")


def test_turning_against_a_pin_is_kept_and_blocks_until_somebody_has_looked(chain: Chain) -> None:
    chain.prove("timing_proved", "state:timing")
    chain.prove("clearances", "hold:timing_proved")
    pin(chain)
    act = turn(chain)
    state = chain.state
    assert [(one.entry, one.gate, one.act, one.open) for one in state.breaches] == [
        (act.id, "pins in", "turn by hand", True)
    ]
    assert {name: hold.status for name, hold in state.holds.items()} == {
        "timing_proved": "void",
        "clearances": "void",
    }
    assert state.holds["clearances"].void_path == ("state:timing", "hold:timing_proved")
    chain.strike(act, why="typed in the wrong book")
    assert still_open(chain) == ["pins in"]
    assert chain.state.holds["timing_proved"].status == "void"
    look = chain.add("inspected", entry=act.id, gate="pins in", found="pin straight, slot sharp", by="Bo")
    assert still_open(chain) == []
    assert chain.state.breaches[0].inspected_by == "Bo"
    assert chain.state.holds["timing_proved"].status == "void"
    chain.strike(look, why="it was another pin")
    assert still_open(chain) == ["pins in"]


def test_an_inspection_of_nothing_is_in_doubt(chain: Chain) -> None:
    note = chain.add("note", text="cold")
    look = chain.add("inspected", entry=note.id, gate="pins in", found="nothing bent", by="Bo")
    assert reasons(chain.state) == {
        look.id: "it inspects an act against a gate that is not there, or was inspected before"
    }


def test_what_the_sheet_overrules_is_no_breach(chain: Chain) -> None:
    pin(chain)
    allowed = {"pins in": "the bar takes it (manual p. 9)"}
    chain.add(
        "turned", by="hand", seen="to the stop", doing=doing("turn by hand", overruled=allowed, crank="moved")
    )
    assert chain.state.breaches == ()


def test_an_override_of_a_gate_serves_one_act(chain: Chain) -> None:
    pin(chain)
    chain.add("override", about="gate:pins in", by="Ada", why="the pin is soft wood")
    turn(chain)
    turn(chain)
    first, second = chain.state.breaches
    assert (first.passed_by, first.open) == ("Ada: the pin is soft wood", False)
    assert (second.passed_by, second.open) == ("", True)


def test_an_override_that_was_struck_never_let_anything_pass(chain: Chain) -> None:
    pin(chain)
    over = chain.add("override", about="gate:pins in", by="Ada", why="the pin is soft wood")
    turn(chain)
    chain.strike(over, why="I never said so")
    assert chain.state.breaches[0].open
    assert [(one.entry, one.stands) for one in chain.state.overrides] == [(over.id, False)]


@pytest.mark.parametrize(
    ("about", "kind", "body"),
    [
        ("joint:head", "joint-disturbed", {"joint": "head", "why": "slipped"}),
        ("hold:dry", "hold-proved", {"hold": "dry", "value": "10 of 10"}),
        ("item:left in:pin", "taken-out", {"item": "pin"}),
        ("reading:bore 1 top", "reading",
         {"item": "bore", "place": "1 top", "value": "81.5", "unit": "mm", "condition": "as left"}),
        ("task:oil", "task-done", {"task": "oil"}),
    ],
)  # fmt: skip
def test_an_override_lapses_when_something_happens_to_what_it_is_about(
    chain: Chain, about: str, kind: str, body: dict[str, Any]
) -> None:
    pin(chain)
    chain.add("override", about=about, by="Ada", why="known")
    chain.add("note", text="something else")
    assert chain.state.overrides[0].stands
    chain.add(kind, **body)
    assert not chain.state.overrides[0].stands


def test_a_hold_that_falls_takes_its_override_along(chain: Chain) -> None:
    chain.prove("dry")
    chain.prove("gasket", "hold:dry")
    chain.add("override", about="hold:gasket", by="Ada", why="known")
    chain.add("hold-voided", hold="dry", why="wet again")
    assert not chain.state.overrides[0].stands


def test_a_changed_state_voids_what_rests_on_it(chain: Chain) -> None:
    chain.add("engine-state", seen="on", belt="on")
    chain.prove("tension", "state:belt")
    chain.add("engine-state", seen="on its wheels still", belt="on")
    assert chain.state.holds["tension"].status == "proved"
    chain.add("engine-state", seen="off for the seal", belt="off")
    assert (chain.state.holds["tension"].status, chain.state.holds["tension"].why_void) == (
        "void",
        "the belt: off",
    )


def test_a_second_look_ends_with_the_mark(chain: Chain) -> None:
    early = chain.add("joint-witnessed", joint="head", by="Bo", seen="10 marks in line")
    assert reasons(chain.state) == {early.id: "a second look at a joint that is not marked"}
    chain.pull(1)
    chain.add("joint-marked", joint="head", how="paint")
    chain.add("joint-witnessed", joint="head", by="Bo", seen="10 marks in line")
    assert chain.state.joints["head"].witnessed == "Bo: 10 marks in line"
    chain.pull(2)
    assert chain.state.joints["head"].witnessed == ""


@pytest.mark.parametrize("undo", ["joint-marked", "joint-witnessed"])
def test_a_second_look_goes_with_its_strike(chain: Chain, undo: str) -> None:
    chain.pull(1)
    entries = {
        "joint-marked": chain.add("joint-marked", joint="head", how="paint"),
        "joint-witnessed": chain.add("joint-witnessed", joint="head", by="Bo", seen="marks in line"),
    }
    chain.strike(entries[undo])
    assert chain.state.joints["head"].witnessed == ""


def test_the_fold_of_a_breach_does_not_depend_on_the_order_of_reading(chain: Chain) -> None:
    pin(chain)
    turn(chain)
    assert fold(reversed(chain.entries)) == chain.state

"""A strike of what was said of the engine: no breach goes away by it, and no proof stands again."""

from gudgeon.book.state import State
from tests.unit.book.chains import begun

NONE: dict[str, str] = {}


def standing(state: State) -> set[str]:
    return {name for name, hold in state.holds.items() if hold.status == "proved"}


def fitting(gate: str = "") -> dict[str, object]:
    return {"acts": ["fit the head"], "sets": None, "overruled": {gate: "manual p. 3"} if gate else NONE}


def test_striking_what_made_an_act_wrong_takes_back_neither_the_breach_nor_what_it_voided() -> None:
    chain = begun()
    chain.prove("valves", "state:valves")
    said = chain.add("engine-state", crank="near the top", seen="0 mm below the deck")
    chain.add("task-started", task="lower_head", doing=fitting())
    chain.strike(said)
    (breach,) = chain.state.breaches
    assert (breach.gate, breach.open) == ("piston near the top", True)
    assert standing(chain.state) == set()


def test_striking_what_made_an_act_right_makes_it_a_breach() -> None:
    chain = begun()
    chain.add("engine-state", crank="near the top", seen="0 mm below the deck")
    said = chain.add("engine-state", crank="half-way", seen="40 mm below the deck")
    chain.add("task-started", task="lower_head", doing=fitting())
    assert list(chain.state.breaches) == []
    chain.strike(said)
    assert [one.gate for one in chain.state.breaches] == ["piston near the top"]


def test_pins_said_in_again_void_a_proof_also_when_it_is_struck_that_they_were_out() -> None:
    chain = begun()
    chain.add("engine-state", pins="in", seen="two pins")
    out = chain.add("engine-state", pins="out", seen="none in the holes")
    chain.prove("pins", "state:pins")
    chain.add("engine-state", pins="in", seen="two pins")
    chain.strike(out)
    assert standing(chain.state) == set()


def test_a_proof_that_rested_on_what_is_struck_of_the_engine_is_void() -> None:
    chain = begun()
    said = chain.add("engine-state", cams="in", seen="both lie in the head")
    chain.prove("caps", "state:cams")
    assert standing(chain.state) == {"caps"}
    chain.strike(said, why="only one")
    hold = chain.state.holds["caps"]
    assert (hold.status, hold.why_void) == ("void", "what was said of the camshafts was struck: only one")
    assert chain.state.engine.cams is None


def test_a_thing_taken_out_whose_taking_out_is_struck_is_in_again() -> None:
    chain = begun()
    chain.add("left-in", item="a", name="cam lock", where="head", due_before="crank", holds="timing")
    out = chain.add("taken-out", item="a")
    assert chain.state.engine.pins == "out"
    chain.prove("pins", "state:pins")
    chain.strike(out)
    assert (chain.state.engine.pins, standing(chain.state)) == ("in", set())


def test_two_things_under_one_name_hold_both_the_timing_and_the_torque_until_they_are_out() -> None:
    chain = begun()
    for name, holds in (("cam lock", "timing"), ("flywheel lock", "torque")):
        chain.add("left-in", item="lock", name=name, where="engine", due_before="crank", holds=holds)
    engine = chain.state.engine
    assert (engine.pins, engine.holder) == ("in", "fitted")
    chain.add("taken-out", item="lock")
    engine = chain.state.engine
    assert (engine.pins, engine.holder) == ("out", "off")


def test_an_override_of_a_gate_is_used_up_by_the_next_act_the_gate_asks_about_though_it_was_not_broken() -> (
    None
):
    chain = begun()
    chain.add("override", about="gate:piston near the top", by="Sam", why="seen through the plug hole")
    chain.add("task-started", task="lower_head", doing=fitting())
    assert list(chain.state.breaches) == []
    assert [one.stands for one in chain.state.overrides] == [False]


def test_an_override_is_not_used_by_an_act_for_which_the_sheet_overrules_the_gate() -> None:
    chain = begun()
    chain.add("override", about="gate:piston near the top", by="Sam", why="seen")
    chain.add("task-started", task="lower_head", doing=fitting("piston near the top"))
    assert [one.stands for one in chain.state.overrides] == [True]


def test_striking_one_of_two_things_of_one_name_ends_the_override_of_it() -> None:
    chain = begun()
    rag = chain.add("left-in", item="a", name="rag", where="head", due_before="crank")
    chain.add("left-in", item="a", name="magnet", where="head", due_before="crank")
    chain.add("override", about="item:left in:a", by="Sam", why="it is outside")
    assert [one.stands for one in chain.state.overrides] == [True]
    chain.strike(rag)
    assert [one.stands for one in chain.state.overrides] == [False]
    assert chain.state.left_in["a"].name == "magnet"


def test_a_look_that_found_something_voids_what_rests_on_the_joint_and_its_strike_gives_nothing_back() -> (
    None
):
    chain = begun()
    pull = chain.pull(1)
    chain.prove("bolts", "joint:head")
    look = chain.add("looked", entry=pull.id, seen="no dot", as_recorded=False)
    assert (
        chain.state.holds["bolts"].why_void == "looked at after a stop, its joint is not as recorded: no dot"
    )
    chain.prove("bolts", "joint:head")
    assert chain.state.holds["bolts"].why_void == "its joint is in doubt"
    chain.strike(look, why="the other bolt")
    assert chain.state.holds["bolts"].why_void == "a look at its joint was struck: the other bolt"


def test_the_doubt_of_a_look_at_another_entry_ends_when_that_entry_is_struck() -> None:
    chain = begun()
    off = chain.add("plugged", item="a", name="port 1", where="head", due_before="crank")
    chain.add("looked", entry=off.id, seen="open", as_recorded=False)
    assert list(chain.state.doubtful) == [(off.id, "looked at after a stop, it is not as recorded: open")]
    chain.strike(off)
    assert list(chain.state.doubtful) == []
    assert "a" not in chain.state.plugged


def test_a_look_at_what_comes_later_is_in_doubt_until_it_is_struck() -> None:
    chain = begun()
    look = chain.add("looked", entry="f" * 32, seen="dot", as_recorded=False)
    assert list(chain.state.doubtful) == [(look.id, "it looks at an entry that is not before it")]
    chain.strike(look)
    assert list(chain.state.doubtful) == []


def test_a_struck_proof_that_was_void_at_once_leaves_no_earlier_one_standing_in_between() -> None:
    """So an act against the gate that it would have opened stays one."""
    chain = begun()
    chain.add("engine-state", belt="on", seen="marks in line")
    chain.prove("timing_proved")
    chain.prove("oil", "state:timing")
    again = chain.prove("timing_proved", "hold:caps")
    starter = {"acts": ["turn by starter"], "sets": {"crank": "moved"}, "overruled": NONE}
    chain.add("turned", by="starter", seen="5 seconds", doing=starter)
    assert [one.gate for one in chain.state.breaches] == ["starter before hand turns"]
    chain.strike(again)
    assert [one.gate for one in chain.state.breaches] == ["starter before hand turns"]
    assert standing(chain.state) == set()


def test_turning_against_a_pin_shakes_no_valve_while_the_camshafts_are_out_and_fitting_them_does() -> None:
    for act, standing_after in (("turn by hand", {"valves"}), ("fit camshafts", {"timing"})):
        chain = begun()
        chain.add("engine-state", pins="in", cams="out", crank="near the top", seen="pin in the flywheel")
        chain.prove("valves", "state:valves")
        chain.prove("timing", "state:timing")
        doing = {"acts": [act], "sets": None, "overruled": NONE}
        chain.add("task-started", task="camshafts_in", doing=doing)
        assert standing(chain.state) == standing_after, act

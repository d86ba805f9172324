"""How the tasks of a job stand by the book: ready, running, waiting, blocked, done – and reopened."""

from datetime import timedelta
from pathlib import Path

from gudgeon.bench.network import job
from gudgeon.bench.reason import when
from gudgeon.bench.standing import Network, Stand, meant
from tests.unit.bench.benches import START, Job, make_job

HEAD = "Tighten the head bolts, stage by stage, each bolt ticked and marked"


def network(garage: Job) -> Network:
    bench = garage.bench()
    return Network(bench, job().for_engine(bench.sheet))


def stand(garage: Job, key: str) -> Stand:
    return network(garage).stand(key)


def where(garage: Job) -> dict[str, str]:
    found = network(garage)
    return {key: found.stand(key).where for key in found.tasks}


def figures_known(garage: Job) -> None:
    """The code is read, and the figures are compared with the page."""
    garage.read_code()
    garage.record("hold-proved", hold="right_engine", value="L1-A, pad")
    garage.record("hold-proved", hold="figures_checked", value="pp. 4 to 9")


def done(garage: Job, *keys: str) -> None:
    for key in keys:
        garage.record("task-done", task=key)


def in_state(garage: Job, state: str) -> list[str]:
    return [key for key, one in where(garage).items() if one == state]


def test_in_a_new_book_the_code_is_read_first_and_everything_else_waits_for_it(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    assert in_state(garage, "ready") == ["read_code"]
    assert set(where(garage).values()) == {"ready", "blocked"}
    assert stand(garage, "agree_scope").why == f"“{job().tasks['read_code'].title}”"


def test_the_code_read_off_the_engine_is_the_work_itself(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    assert stand(garage, "read_code").where == "done"
    assert in_state(garage, "ready") == ["agree_scope", "save_fault_codes"]


def test_a_task_is_started_left_standing_taken_up_again_and_finished(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record("task-started", task="agree_scope")
    first = stand(garage, "agree_scope")
    assert (first.where, first.why, first.since) == ("running", "", garage.now)
    assert stand(garage, "run_and_listen").why == f"“{job().tasks['agree_scope'].title}” (running)"
    garage.record("task-paused", task="agree_scope", why="the telephone")
    assert (stand(garage, "agree_scope").where, stand(garage, "agree_scope").why) == (
        "running", "left standing: the telephone",
    )  # fmt: skip
    assert stand(garage, "run_and_listen").why == f"“{job().tasks['agree_scope'].title}” (left standing)"
    garage.record("task-started", task="agree_scope")
    assert stand(garage, "agree_scope").why == ""
    garage.record("task-done", task="agree_scope", minutes=25, note="top end only")
    last = stand(garage, "agree_scope")
    assert (last.where, last.why, last.taken) == ("done", "top end only", False)
    assert in_state(garage, "ready") == ["save_fault_codes", "run_and_listen"]


def test_what_runs_by_itself_is_waited_for_until_its_hour(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    done(garage, "let_it_cool")
    ends = garage.now + timedelta(hours=8)
    expected = f"the engine cooling down, until {when(ends)} (8 h 00 min to go)"
    for key in ("measure_cold", "part_fuel", "drain_oil"):
        assert (stand(garage, key).where, stand(garage, key).why) == ("waiting", expected)
    assert stand(garage, "let_it_cool").why == expected
    garage.now = ends - timedelta(minutes=1)
    assert stand(garage, "measure_cold").why.endswith("(1 min to go)")
    garage.now = ends
    assert stand(garage, "measure_cold").where == "ready"
    assert stand(garage, "let_it_cool").why == ""


def test_an_estimate_is_expected_and_a_blocked_task_tells_its_wait_too(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    done(garage, "order_sure_parts")
    ends = garage.now + timedelta(hours=48)
    found = stand(garage, "compare_parts")
    assert found.where == "blocked"
    assert found.why.startswith(f"“{job().tasks['order_rest'].title}”; and ")
    assert found.why.endswith(f"the first parts, expected {when(ends)} (48 h 00 min to go)")


def test_a_timer_of_the_book_holds_the_task_it_names_and_every_task_that_wants_none(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record(
        "timer-started", timer="paste", name="paste on the cover", minutes=90, task="hear what happened",
        due_before="crank", why="the can says so",
    )  # fmt: skip
    ends = garage.now + timedelta(minutes=90)
    expected = f"paste on the cover, until {when(ends)} (1 h 30 min to go)"
    assert (stand(garage, "agree_scope").where, stand(garage, "agree_scope").why) == ("waiting", expected)
    done(garage, "valve_cover_on")
    garage.now += timedelta(minutes=61)  # the valve cover's own hour is over, the paste's is not
    assert "paste on the cover, until" in stand(garage, "check_cures").why
    assert "paste on the cover" not in stand(garage, "fill_oil").why
    garage.record("timer-ended", timer="paste", how="hard to the nail")
    assert "paste on the cover" not in stand(garage, "check_cures").why
    assert stand(garage, "agree_scope").taken


def test_a_blocked_task_names_what_comes_first_and_counts_the_rest(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    done(garage, "agree_scope", "run_and_listen", "look_at_old_oil")
    found = stand(garage, "choose_depth")
    tasks = network(garage).tasks
    assert found.where == "blocked"
    assert found.why == f"“{tasks['find_the_leak'].title}”; and 1 more before it"
    assert found.far == 2, "measure compression, find the leak"


def test_pulls_are_the_work_begun_and_the_last_of_them_ends_it(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    for bolt in ("1", "3", "2", "4"):
        garage.pull(1, bolt)
    found = stand(garage, "tighten_head")
    assert (found.where, found.joint) == ("running", "head")
    assert found.why == "Head nuts: 4 of 16 pulls done"  # HAND: four stages on four nuts
    assert stand(garage, "run_bolts_in").taken, "whoever tightens has run the bolts in"
    garage.record("task-done", task="tighten_head")
    assert stand(garage, "tighten_head").where == "running", "the pulls speak before what was said"
    assert stand(garage, "tighten_head").why.endswith("; it was recorded as finished all the same")
    garage.tighten_all()
    assert stand(garage, "tighten_head").where == "done"


def test_a_joint_disturbed_reopens_its_task_and_shakes_what_was_done_after(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    figures_known(garage)
    garage.tighten_all()
    done(garage, "small_head_bolts", "rockers_on")
    assert stand(garage, "rockers_on").where == "done"
    garage.record("joint-disturbed", joint="head", why="nut 3 turned back")
    found = stand(garage, "tighten_head")
    assert found.where == "ready"
    assert found.why == "again, its joint was disturbed: nut 3 turned back"
    shaken = stand(garage, "rockers_on")
    assert shaken.where == "blocked"
    assert shaken.why == (
        f"was done, in doubt now: it rests on “{HEAD}” (its joint was disturbed: nut 3 turned back)"
    )
    garage.tighten_all()
    assert stand(garage, "tighten_head").where == "done"
    assert stand(garage, "rockers_on").where == "done"


def test_a_proof_ends_its_task_and_a_void_one_opens_it_again(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record("hold-proved", hold="cold_before_loosening", value="19 °C")
    assert stand(garage, "measure_cold").where == "done"
    assert stand(garage, "let_it_cool").taken
    done(garage, "intake_off")
    garage.record("hold-voided", hold="cold_before_loosening", why="it was run again")
    found = stand(garage, "measure_cold")
    assert (found.where, found.why) == ("ready", "again, its proof is void: it was run again")
    assert stand(garage, "intake_off").where == "blocked"
    assert "was done, in doubt now" in stand(garage, "intake_off").why
    garage.record("hold-proved", hold="cold_before_loosening", value="20 °C")
    assert (stand(garage, "measure_cold").where, stand(garage, "intake_off").where) == ("done", "done")


def test_a_task_finished_without_its_proof_holds_what_comes_after(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    done(garage, "two_turns")
    found = stand(garage, "two_turns")
    assert found.where == "done"
    assert found.unproved == ("Valve timing proved by hand over two turns",)
    missing = "Valve timing proved by hand over two turns (not proved yet)"
    assert found.why == f"its proof is missing: {missing}"
    assert stand(garage, "clearances_in_place").where == "blocked"
    assert stand(garage, "clearances_in_place").why.startswith(f"proof: {missing}")


def test_a_struck_entry_takes_what_it_said_with_it(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record("task-started", task="agree_scope")
    entry = garage.record("task-done", task="agree_scope").entry
    assert stand(garage, "run_and_listen").where == "ready"
    garage.record("strike", entry=entry, why="he has not called back")
    assert stand(garage, "agree_scope").where == "running", "what was said before it counts again"
    assert stand(garage, "run_and_listen").where == "blocked"
    figures_known(garage)
    proof = garage.record("hold-proved", hold="figures_checked", value="pp. 4 to 9").entry
    assert stand(garage, "copy_figures").where == "done"
    garage.record("strike", entry=proof, why="page 7 was another engine's")
    assert stand(garage, "copy_figures").where != "done"


def test_a_struck_proof_reopens_what_rested_on_its_task(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    proof = garage.record("hold-proved", hold="cold_before_loosening", value="19 °C").entry
    done(garage, "intake_off")
    garage.record("strike", entry=proof, why="that was the other engine")
    assert stand(garage, "measure_cold").where == "ready"
    assert stand(garage, "intake_off").where == "blocked"


def test_the_machine_shop_is_waited_for_until_the_part_is_back(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record("shop-out", part="head", shop="Miller", ordered="resurface")
    out = garage.now
    assert stand(garage, "head_to_shop").where == "done"
    assert stand(garage, "shop_works").where == "waiting"
    assert stand(garage, "shop_works").why == f"at Miller since {when(out)}"
    assert stand(garage, "check_head").where == "blocked"
    garage.record("shop-back", part="head", found="0.10 mm off")
    assert [stand(garage, key).where for key in ("shop_tests", "shop_works", "check_head")] == [
        "done",
        "done",
        "ready",
    ]


def test_what_lies_before_a_task_that_was_begun_is_taken_as_done_and_may_be_corrected(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record("task-started", task="exhaust_off")
    taken = stand(garage, "soak_exhaust")
    assert (taken.where, taken.taken) == ("done", True)
    title = job().tasks["exhaust_off"].title
    assert taken.why == f"taken as done, because “{title}” was begun"
    assert not stand(garage, "drain_oil").taken, "it does not come before the exhaust"
    done(garage, "exhaust_off")
    assert stand(garage, "soak_exhaust").why == f"taken as done, because “{title}” is done"
    garage.record("task-started", task="soak_exhaust")
    assert (stand(garage, "soak_exhaust").where, stand(garage, "soak_exhaust").taken) == ("running", False)
    assert stand(garage, "exhaust_off").where == "done", "what happened happened"
    garage.record("task-done", task="soak_exhaust")
    assert (stand(garage, "soak_exhaust").where, stand(garage, "soak_exhaust").taken) == ("done", False)


def test_what_is_taken_as_done_needs_nothing_of_the_wait_it_would_have_begun(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    garage.record("task-started", task="measure_cold")
    assert stand(garage, "part_fuel").where == "ready", (
        "nobody knows when it was left to cool, so no clock runs"
    )


def test_cranking_asks_for_everything_that_is_due_before_it(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    done(garage, "pulley_final", "walk_round")
    for hold in ("walk_round", "crank_pulley_final", "locking_tools_out"):
        garage.record("hold-proved", hold=hold, value="seen")
    found = stand(garage, "crank_for_oil")
    assert found.where == "blocked"
    assert " things open before you may turn it with the starter, first: " in found.why


def test_first_fire_waits_for_oil_pressure_seen(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.read_code()
    done(garage, "crank_for_oil", "plugs_in")
    found = stand(garage, "first_start")
    assert found.where == "blocked"
    assert found.why == "proof: Oil pressure seen while cranking (not proved yet)"


def test_a_task_is_meant_by_its_key_its_title_or_words_that_fit_only_one() -> None:
    tasks = job().tasks
    assert meant("charge_battery", tasks) == ["charge_battery"]
    assert meant(" Charge battery ", tasks) == ["charge_battery"]
    assert meant(HEAD.upper(), tasks) == ["tighten_head"]
    assert meant("on its charger", tasks) == ["charge_battery"]
    assert len(meant("gasket", tasks)) > 1
    assert meant("", tasks) == []


def test_the_longest_chain_comes_first(tmp_path: Path) -> None:
    garage = make_job(tmp_path)
    garage.now = START
    found = network(garage)
    ahead = {key: found.stand(key).ahead for key in found.tasks}
    for key, task in found.tasks.items():
        own = task.minutes + (task.wait.minutes if task.wait else 0)
        after = [ahead[name] for name, other in found.tasks.items() if key in other.after]
        assert ahead[key] == own + max(after, default=0)
    assert max(ahead.values()) == ahead["read_code"]


def test_nothing_is_taken_as_done_behind_a_joint_that_is_half_pulled(tmp_path: Path) -> None:
    """A later task was begun beside it, out of order; what lies between cannot have been done."""
    garage = make_job(tmp_path)
    figures_known(garage)
    garage.record(
        "hold-proved", hold="walk_round", value="both of us"
    )  # after the head by the order of the work
    assert stand(garage, "rockers_on").taken
    for bolt in ("1", "3", "2", "4"):
        garage.pull(1, bolt)
    found = stand(garage, "rockers_on")
    assert (found.where, found.taken) == ("blocked", False)
    assert stand(garage, "small_head_bolts").why.startswith(f"“{HEAD}” (running)")
    assert stand(garage, "lift_head").taken, "what comes before the pulls was done"
    garage.tighten_all()
    assert stand(garage, "rockers_on").taken

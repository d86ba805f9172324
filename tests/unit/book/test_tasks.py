"""Tasks of a job: what was said last counts, a strike gives back what was said before."""

from gudgeon.book.state import TaskState
from tests.unit.book.chains import Chain, begun, reasons


def test_a_task_is_begun_left_and_finished() -> None:
    chain = begun()
    started = chain.add("task-started", task="lift_head")
    assert chain.state.tasks == {
        "lift_head": TaskState(started.id, "running", started.device_time, started.number)
    }
    left = chain.add("task-paused", task="lift_head", why="nobody to help")
    assert chain.state.tasks["lift_head"] == TaskState(
        left.id, "paused", left.device_time, left.number, None, "nobody to help"
    )
    done = chain.add("task-done", task="lift_head", minutes=25, note="two dowels stayed in the block")
    assert chain.state.tasks["lift_head"] == TaskState(
        done.id, "done", done.device_time, done.number, 25, "two dowels stayed in the block"
    )


def test_a_task_taken_up_again_is_running() -> None:
    chain = begun()
    chain.add("task-done", task="lift_head")
    again = chain.add("task-started", task="lift_head")
    assert chain.state.tasks["lift_head"].status == "running"
    assert chain.state.tasks["lift_head"].entry == again.id


def test_a_struck_finish_leaves_the_task_as_it_was_before() -> None:
    chain = begun()
    started = chain.add("task-started", task="lift_head")
    done = chain.add("task-done", task="lift_head")
    chain.strike(done)
    assert chain.state.tasks["lift_head"].entry == started.id
    chain.strike(started)
    assert "lift_head" not in chain.state.tasks


def test_two_who_did_not_see_each_other_leave_the_task_in_doubt() -> None:
    chain = begun()
    seen = chain.head
    chain.add("task-started", task="lift_head", who="Ada")
    done = chain.add("task-done", task="lift_head", who="Ben", basis=seen)
    assert chain.state.tasks["lift_head"].status == "done"
    assert reasons(chain.state)[done.id] == (
        "recorded on an older state: Ada had recorded “task started” on the same in the meantime"
    )
    chain.add("task-done", task="lift_head")
    assert reasons(chain.state) == {}


def test_other_tasks_are_no_concern() -> None:
    chain = begun()
    seen = chain.head
    chain.add("task-started", task="lift_head", who="Ada")
    chain.add("task-done", task="drain_oil", who="Ben", basis=seen)
    assert reasons(chain.state) == {}


def test_work_taken_up_ends_a_pause_and_leaving_a_task_does_not() -> None:
    chain = begun()
    chain.add("paused", hand="wrench", next_action="bolt 4")
    chain.add("task-paused", task="lift_head", why="nobody to help")
    paused = [chain.state.paused is not None]
    chain.add("task-started", task="lift_head")
    paused.append(chain.state.paused is not None)
    chain.add("paused", hand="wrench", next_action="bolt 4")
    chain.add("task-done", task="lift_head")
    assert [*paused, chain.state.paused is not None] == [True, False, False]


def test_a_disturbance_keeps_its_place_in_the_chain_even_after_new_pulls() -> None:
    chain = begun()
    chain.pull(1)
    assert chain.state.joints["head"].disturbed_order == 0
    disturbed = chain.disturb()
    chain.pull(1)
    assert chain.state.joints["head"].disturbed_order == disturbed.number
    chain.strike(disturbed)
    assert chain.state.joints["head"].disturbed_order == 0


def test_a_hold_says_when_it_was_proved() -> None:
    chain = begun()
    proved = chain.prove("timing", "joint:head")
    assert chain.state.holds["timing"].time == proved.device_time
    chain.disturb()
    assert chain.state.holds["timing"].status == "void"
    assert chain.state.holds["timing"].time == proved.device_time


def stopped(chain: Chain) -> bool:
    return chain.state.paused is not None


def test_a_stop_at_a_joint_outlasts_everything_but_that_joint() -> None:
    chain = begun()
    chain.add("task-started", task="tighten_head")
    chain.pull(3, "4")
    chain.add("paused", hand="wrench at 25 N·m", next_action="bolt 9")
    chain.add("task-started", task="fill_oil")
    assert stopped(chain), "another task does not go on with the bolt in hand"
    chain.add("left-in", item="rag", name="rag", where="intake", due_before="crank")
    chain.add("task-done", task="fill_oil")
    chain.pull(1, "1", joint="cover")
    assert stopped(chain)
    chain.pull(3, "9")
    assert not stopped(chain)


def test_a_stop_ends_when_its_task_is_taken_up_again_or_with_a_new_stop() -> None:
    chain = begun()
    chain.add("task-started", task="tighten_head")
    chain.pull(3, "4")
    chain.add("paused", hand="wrench at 25 N·m", next_action="bolt 9")
    chain.add("paused", hand="nothing", next_action="look")
    assert chain.state.paused is not None
    assert chain.state.paused.hand == "nothing"
    chain.add("task-started", task="tighten_head")
    assert not stopped(chain)


def test_a_stop_during_a_task_outlasts_the_start_of_another() -> None:
    chain = begun()
    chain.add("task-started", task="drain_oil")
    chain.add("paused", hand="drain plug", next_action="new ring")
    chain.add("task-started", task="lift_head")
    assert stopped(chain)
    chain.add("left-in", item="rag", name="rag", where="intake", due_before="crank")
    assert not stopped(chain)


def test_after_the_mark_the_joint_is_no_longer_in_hand() -> None:
    chain = begun()
    chain.pull(3, "4")
    chain.add("joint-marked", joint="head", how="paint")
    chain.add("paused", hand="nothing", next_action="camshafts")
    chain.pull(1, "1", joint="caps")
    assert not stopped(chain)

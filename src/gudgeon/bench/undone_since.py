"""What was taken apart by the book and not put together since: by no entry at all, or before it was taken apart again.

A task that takes apart is written down in words alone, and says nothing of the joint, the fluid or the connectors that
another task puts back. So the order of both tells: what takes apart comes first, and when its word is the later one,
either it was done once more, or it was only written down late. Nobody knows which, until somebody says so.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime

from gudgeon.bench.context import Bench
from gudgeon.bench.evidence import is_shop_part, joints_of
from gudgeon.bench.network import Task, tasks_of
from gudgeon.bench.reason import Reason, when

PUT_BACK: Mapping[str, str] = {
    "part_fuel": "fuel_on",
    "drain_coolant": "fill_coolant",
    "drain_oil": "fill_oil",
    "unplug_connectors": "connectors_on",
    "hoses_off": "hoses_on",
    "auxiliary_drive_off": "auxiliary_drive_on",
    "exhaust_off": "exhaust_on",
    "intake_off": "intake_on",
    "valve_cover_off": "valve_cover_on",
    "slacken_pulley_bolt": "pulley_final",
    "timing_cover_off": "pulley_on",
    "belt_off": "belt_on",
    "chain_off": "chain_on",
    "gears_off": "gears_on",
    "rollers_off": "rollers_on",
    "water_pump_off": "water_pump_on",
    "sprockets_off": "sprockets_on",
    "slacken_sprockets": "sprockets_final",
    "camshafts_out": "camshafts_in",
    "rockers_off": "rockers_on",
    "slacken_head_bolts": "tighten_head",
    "lift_head": "tighten_head",
    "flywheel_off": "flywheel_on",
    "oil_pan_off": "close_oil_pan",
    "pistons_out": "pistons_in",
    "oil_pump_out": "oil_pump_in",
}
"""Each task of a job that takes apart, and the one that puts the same together again."""


LEFT_FOR_THE_SHOP: Mapping[str, str] = {
    "head_to_shop": "tighten_head",
    "block_to_shop": "tighten_head",
    "crank_to_shop": "pistons_in",
}
"""Each task that takes a part to the machine shop, and the one without whose undoing the part cannot leave."""


def reasons(bench: Bench) -> Iterator[Reason]:
    """Every task that puts together again what was taken apart by the book, and was not done since."""
    tasks = {task.key: task for task in tasks_of(bench.sheet, bench.state)}
    for apart, back in PUT_BACK.items():
        said = bench.state.tasks.get(apart)
        if said is None or said.status != "done" or apart not in tasks or back not in tasks:
            continue
        put_back = last_of(tasks[back], bench)[0]
        if not put_back:
            why = (
                f"“{tasks[apart].title}” was written down as done ({_said(said.since)}), "
                "and nothing says that this was"
            )
            yield _reason(tasks[back], bench, why=why, late="", about=f"entry:{said.entry}")
        elif put_back < said.order:
            why = f"after it “{tasks[apart].title}” was written down as done ({_said(said.since)})"
            late = f", or written late: gudgeon strike {said.order} --why …"
            yield _reason(tasks[back], bench, why=why, late=late, about=f"entry:{said.entry}")
    for sent, back in LEFT_FOR_THE_SHOP.items():
        if sent not in tasks or back not in tasks:
            continue
        done = last_of(tasks[back], bench)[1]
        for part, one in bench.state.shop.items():
            there = is_shop_part(tasks[sent], part) and one.back
            if there and done and datetime.fromisoformat(done) < datetime.fromisoformat(one.out):
                why = f"after it {part} left for {one.shop} ({_said(one.out)})"
                yield _reason(tasks[back], bench, why=why, late="", about=f"part:{part}")


def _said(moment: str) -> str:
    return when(datetime.fromisoformat(moment))


def _reason(task: Task, bench: Bench, *, why: str, late: str, about: str) -> Reason:
    joint = next(iter(joints_of(task, bench.sheet)), "")
    again = f"gudgeon record disturbed {joint} --why …" if joint else f"gudgeon record task-done {task.key}"
    return Reason(
        "made fast",
        task.title,
        why,
        task.due_before,
        f"{again}{late}",
        "Look whether it is still as it was done. If it was taken apart again, do it again; if that was only "
        "written down late, strike it.",
        "what you see",
        about=about,
    )


def last_of(task: Task, bench: Bench) -> tuple[int, str]:
    """The last entry by which a task is done, its pulls, its proofs or its word: number and hour; 0 where none is.

    Of several joints that it tightens the one counts that was pulled the longest ago.
    """
    state = bench.state
    joints = [state.joints[key].last_pull for key in joints_of(task, bench.sheet) if key in state.joints]
    pulled = min(
        ((last.order, last.time) if last is not None else (0, "") for last in joints), default=(0, "")
    )
    proofs = [
        (state.holds[hold].order, state.holds[hold].time) for hold in task.proves if hold in state.holds
    ]
    word = state.tasks.get(task.key)
    said = (word.order, word.since) if word is not None and word.status == "done" else (0, "")
    return max([pulled, *proofs, said])

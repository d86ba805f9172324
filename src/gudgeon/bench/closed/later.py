"""Running in and recall: what is tightened again after the first heat, looked at again, and runs until when."""

from gudgeon.bench.closed.model import Row, Section
from gudgeon.bench.closed.told import Told, table
from gudgeon.bench.ready import Readiness
from gudgeon.bench.running.gathered import Gathered
from gudgeon.bench.running.later import again
from gudgeon.bench.running.later import later as after_the_start
from gudgeon.bench.timers import waits

HEADS = ("What", "When", "How it stands", "By")
DUE = ("recall", "handover")


def later(told: Told, before: Readiness) -> Section:
    """Everything that comes after the first heat and after the hand-over, and what of it is done."""
    lines = (*again(told.bench), *after_the_start(told.bench, Gathered(told.bench)))
    rows = [Row((one.what, one.when, one.state, one.basis)) for one in lines]
    known = {one.cells[0] for one in rows}
    rows += [
        Row((one.name, one.words, "runs" if one.open else "over", "the book"))
        for one in waits(told.bench)
        if one.due_before in DUE and one.name not in known
    ]
    due = (Row((one.what, one.why, one.due_before)) for one in before.later)
    missing = []
    if not rows:
        missing.append(
            "Nothing that comes after the start is in the sheet or the book: no recall, no second look."
        )
    elif not any(one.kind == "recall" for one in told.bench.state.timers.values()):
        missing.append("No recall is written down: nobody will be reminded.")
    return Section(
        "later",
        "Running in and recall",
        tables=(
            *table("After the first heat, and later", HEADS, rows),
            *table("Due at the recall", ("What", "Why", "Due"), due),
            *told.listed("Tightened again, as it was written down", told.of("tightened-again")),
        ),
        missing=tuple(missing),
    )

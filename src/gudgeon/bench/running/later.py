"""What comes due after the start: joints tightened again, recalls, second looks."""

from gudgeon.bench import after_heat
from gudgeon.bench.context import Bench
from gudgeon.bench.progress import progress
from gudgeon.bench.reason import WORDS
from gudgeon.bench.running.answers import LaterLine
from gudgeon.bench.running.gathered import Gathered, after_start
from gudgeon.bench.timers import waits

AFTER = ("recall", "cold morning")


def again(bench: Bench) -> tuple[LaterLine, ...]:
    """Joints that their sheet wants tightened again, and how each of them stands."""
    return tuple(
        LaterLine(
            joint.name,
            f"after {joint.again_after.after}, before you {WORDS.get(joint.again_after.due_before, 'go on')}",
            _state(bench, key),
            str(joint.source or "the data sheet"),
            "" if after_heat.counts(bench, key) else f"gudgeon record tightened-again {key} SEEN",
        )
        for key, joint in bench.sheet.joints.items()
        if joint.again_after is not None
    )


def _state(bench: Bench, key: str) -> str:
    done = after_heat.counts(bench, key)
    if done is not None:
        return "done"
    finished = progress(bench.sheet.joints[key], bench.state.joints.get(key)).complete
    return "not done yet" if finished else "not done yet; the joint itself is not finished"


def later(bench: Bench, wanted: Gathered) -> tuple[LaterLine, ...]:
    """Second looks of the sheet, and the recalls that run in the book."""
    stated = after_start(bench).look_again
    running = [one for one in waits(bench) if one.kind in AFTER]
    if not stated:
        wanted.lacks(
            "what is looked at again after the start",
            therefore="nothing reminds you of it",
            path="after_start.look_again",
        )
    begun = (
        f"recalls in the book: {len(running)}"
        if running
        else "no recall runs: gudgeon record timer KEY --name … --task … --kind recall"
    )
    looks = [LaterLine(one.what, one.when, "by the sheet", one.basis, begun) for one in stated]
    timers = [
        LaterLine(
            one.name, one.words, "due" if one.mark == "due" else one.mark, "the book",
            f"gudgeon record timer-ended {one.key} --how …",
        )
        for one in running
    ]  # fmt: skip
    return (*timers, *looks)

"""Bolts that the manual has renewed every time: that new ones are in is written down, or there is no yes.

Nothing of a tightening shows whether the bolts were new, and it is given up for good when the engine runs.
"""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.job_choice import untouched
from gudgeon.bench.part_keys import fasteners_of, key_of
from gudgeon.bench.progress import GOOD
from gudgeon.bench.reason import Reason
from gudgeon.sheet.joints import Joint


def reasons(bench: Bench) -> Iterator[Reason]:
    """Every joint of the job that was pulled with bolts of which the book does not say that they are new."""
    left = untouched(bench)
    for key, joint in bench.sheet.joints.items():
        found = bench.state.joints.get(key)
        if key in left or found is None or not found.pulls or not always_new(joint):
            continue
        old = [bolt for bolt in joint.bolt_names if not _new(bench, key, bolt)]
        if old:
            every = len(old) == len(joint.bolt_names)
            which = "ones" if every else f"{joint.called} for {', '.join(old)}"
            yield Reason(
                "right thing",
                joint.name,
                f"the manual has them renewed every time, and the book knows of no new {which}",
                joint.due_before,
                f"gudgeon record new-bolt {key} {'all' if every else old[0]} --why …",
                "Write down that a new one is in. Where an old one is, take it out and begin the joint again.",
                "what it is, like the number on its bag",
                about=f"part:new {joint.called}s of {key}",
            )


def always_new(joint: Joint) -> bool:
    """Whether the manual has the bolts of a joint renewed every time."""
    return joint.reuse is not None and any(one.rule == "always new" for one in joint.reuse.rules)


def _new(bench: Bench, key: str, bolt: str) -> bool:
    """Whether a new one was in hand since the one before was tightened to the last stage, and with that used up."""
    found = bench.state.joints[key]
    last = max((number for number, _ in bench.sheet.joints[key].stages()), default=0)
    used = (
        one.order
        for one in found.history
        if one.order < found.disturbed_order
        and one.stage == last
        and one.bolt in (bolt, "all")
        and one.outcome in GOOD
    )
    return max(found.new_in_hand(bolt), _as_part(bench, key)) > max(used, default=0)


def _as_part(bench: Bench, key: str) -> int:
    """The same of the part that these bolts are on the list, once it came: when it was decided to renew it."""
    part = fasteners_of(bench.sheet, key)
    return max(
        (
            max(1, one.renewed)
            for name, one in bench.state.parts.items()
            if one.received and key_of(bench.sheet, name) == part
        ),
        default=0,
    )

"""What is provisional: what he left loose and wrote down, and joints that their own program leaves so."""

from collections.abc import Mapping
from types import MappingProxyType

from gudgeon.bench.context import Bench
from gudgeon.bench.progress import Progress, progress
from gudgeon.bench.reason import MILESTONES
from gudgeon.book.state import OpenItem
from gudgeon.sheet.joints import Joint


def until(joint: Joint, stage: int) -> str:
    """Until when a stage leaves the joint as it is, as the sheet says."""
    said = joint.program[stage - 1].provisional or ""
    return said if said.startswith("until ") else f"until {said}"


def condition(joint: Joint, stage: int) -> str:
    """What has to be so before the joint goes on after a stage: `the timing belt is on`."""
    return until(joint, stage).removeprefix("until ").rstrip(".")


def provisional(bench: Bench) -> Mapping[str, OpenItem]:
    """The list “provisional”: what is written in the book, then what follows from programs and pulls."""
    kept = dict(bench.state.provisional)
    for key, joint in bench.sheet.joints.items():
        found = progress(joint, bench.state.joints.get(key))
        # What is written of a joint speaks for it, but not for later than the joint itself is due.
        due = MILESTONES.index(joint.due_before)
        spoken_for = any(
            item.joint == key and MILESTONES.index(item.due_before) <= due
            for item in bench.state.provisional.values()
        )
        if found.stop and not spoken_for:
            kept[f"joint {key}"] = _item(key, joint, found)
    return MappingProxyType(kept)


def finished_by_pulling(item: OpenItem) -> bool:
    """Whether an item follows from the pulls of its joint: the next stages take it off the list, no word does."""
    return item.joint is not None and item.item == f"joint {item.joint}"


def _item(key: str, joint: Joint, found: Progress) -> OpenItem:
    pulls = [step.pull for step in found.steps if step.pull is not None and step.stage <= found.stop]
    last = max(pulls, key=lambda pull: pull.order)
    figure = joint.program[found.stop - 1].figure
    why = f"left at stage {found.stop} of {len(joint.program)}" + (f", {figure.text}" if figure else "")
    return OpenItem(
        entry=last.entry,
        item=f"joint {key}",
        name=joint.name,
        where="",
        why=why,
        due_before=joint.due_before,
        due_task=until(joint, found.stop),
        since=last.time,
        group="",
        joint=key,
    )

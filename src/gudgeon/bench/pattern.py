"""The pattern of a joint's bolts as the sheet places them, for orientation only."""

from dataclasses import dataclass

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.progress import loosening as loosened
from gudgeon.bench.progress import progress
from gudgeon.bench.stops import look_due


@dataclass(frozen=True, slots=True)
class Spot:
    """One bolt: where it stands [mm, y upward], and how far it is."""

    bolt: str
    x_mm: float
    y_mm: float
    state: str


@dataclass(frozen=True, slots=True)
class Pattern:
    """Every bolt of a joint whose positions the sheet states; no spots where it states none."""

    viewed_from: str
    spots: tuple[Spot, ...]


def pattern(
    bench: Bench, key: str, *, bolts_are: str = "", loosening: bool = False, go_on: bool = False
) -> Pattern:
    """The bolts where they stand: next, done in the stage at hand, or still open in it.

    None is next where the joint is left provisional, unless it is to `go_on`.
    """
    bench.unlock()
    joint, book = joint_of(bench.sheet, key), bench.state.joints.get(key)
    found = loosened(joint, book) if loosening else progress(joint, book, bolts_are=bolts_are)
    following = found.next
    done = {
        step.bolt
        for step in found.steps
        if following is None or (step.stage, step.round) == (following.stage, following.round)
        if step.done
    }
    look = None if loosening else look_due(bench, key, found=found)
    offered = not found.doubts and (go_on or not found.halted) and look is None
    spots = []
    for name in joint.bolt_names:
        bolt = joint.bolt(name)
        if bolt.x is None or bolt.y is None:
            return Pattern(joint.viewed_from or "", ())
        state = "done" if name in done else "open"
        if following is not None and offered and name == following.bolt:
            state = "next"
        spots.append(Spot(name, bolt.x.middle_in("mm"), bolt.y.middle_in("mm"), state))
    return Pattern(joint.viewed_from or "", tuple(spots))

"""The pattern of a joint's bolts as the sheet places them, for orientation only."""

from collections.abc import Collection
from dataclasses import dataclass

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.progress import Progress, progress
from gudgeon.bench.progress import loosening as loosened
from gudgeon.bench.stops import look_due
from gudgeon.sheet.joints import Joint


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
    called: str = "bolt"


def pattern(
    bench: Bench, key: str, *, bolts_are: str = "", loosening: bool = False, go_on: bool = False
) -> Pattern:
    """The bolts where they stand: next, in doubt, done in the stage at hand, or still open in it.

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
    awaited = following.bolt if following is not None and offered else ""
    spots = spots_of(joint, done=done, following=awaited, doubtful=doubtful_bolts(joint, found))
    return Pattern(joint.viewed_from or "", spots, joint.called)


def doubtful_bolts(joint: Joint, found: Progress) -> frozenset[str]:
    """The bolts that a doubt names."""
    return frozenset(
        bolt
        for bolt in joint.bolt_names
        if any(said.startswith((f"bolt {bolt}:", f"bolt {bolt},")) for said in found.doubts)
    )


def spots_of(
    joint: Joint, *, done: Collection[str], following: str, doubtful: Collection[str] = ()
) -> tuple[Spot, ...]:
    """Every bolt where it stands, with the doubtful ones, the done ones and the next one told.

    None where the sheet leaves a place out.
    """
    spots = []
    for name in joint.bolt_names:
        bolt = joint.bolt(name)
        if bolt.x is None or bolt.y is None:
            return ()
        told = ((following, "next"), *((one, "doubt") for one in doubtful), *((one, "done") for one in done))
        state = next((words for one, words in told if one == name), "open")
        spots.append(Spot(name, bolt.x.middle_in("mm"), bolt.y.middle_in("mm"), state))
    return tuple(spots)

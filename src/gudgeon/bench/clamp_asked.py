"""The question what limits a clamp, with all that its answer depends on: two that are alike have the same answer."""

from dataclasses import dataclass
from datetime import date

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.progress import progress

TRIALS, SEED = 10_000, 1


@dataclass(frozen=True, slots=True)
class ClampAsked:
    """Of which joint, how often it is tightened, what is done otherwise; and the papers, bolts and day it stands on.

    Nothing else of the book counts: it is not asked anew because something else was recorded.
    """

    build: str
    joint: str
    what_if: tuple[str, ...]
    trials: int
    seed: int
    bolts_are: str
    sheet: str
    kit: str
    day: date


def clamp_asked(
    bench: Bench,
    key: str,
    *,
    what_if: tuple[str, ...] = (),
    trials: int = TRIALS,
    seed: int = SEED,
    bolts_are: str = "",
) -> ClampAsked:
    """The question as it stands; refused where figures are locked, or there is no such joint."""
    bench.unlock()
    are = bolts_are or progress(joint_of(bench.sheet, key), bench.state.joints.get(key)).bolts_are
    day = bench.now.astimezone().date()  # on another day a wrench may be due for its check
    papers = bench.papers
    return ClampAsked(bench.build, key, what_if, trials, seed, are, papers.sheet_sha, papers.kit_sha, day)

"""What the sheet and the book know of a cut, gathered once; what they do not know is named."""

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.contradictions import contradictions
from gudgeon.bench.cut.given import Inputs
from gudgeon.bench.cut.inputs_cylinder import cylinder
from gudgeon.bench.cut.inputs_gear import bolts, lifters, valves
from gudgeon.bench.cut.inputs_head import head
from gudgeon.bench.cut.looked_for import LookedFor


def gather(bench: Bench) -> Inputs:
    """Every figure that goes into the cut."""
    wanted = LookedFor(bench.papers.written)
    top = head(bench, wanted)
    below = cylinder(bench, wanted)
    screws = bolts(bench, wanted)
    gear = valves(bench, wanted)
    followers = lifters(bench, wanted)
    found = contradictions(bench, head=top, cylinder=below, bolts=screws, valves=gear)
    return Inputs(top, below, screws, gear, followers, tuple(wanted.missing), found, tuple(wanted.notes))

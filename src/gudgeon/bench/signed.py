"""Who signed before which milestone, and what that says today: what is open now, and what was written since."""

from collections.abc import Sequence
from datetime import datetime

from gudgeon.bench.context import Bench
from gudgeon.bench.reason import MILESTONES, WORDS, Reason, when


def signatures(bench: Bench, reasons: Sequence[Reason], *, milestone: str) -> tuple[str, ...]:
    """Every signature before a milestone or an earlier one. It opens and closes nothing."""
    last = MILESTONES.index(milestone)
    lines = []
    for one in bench.state.signed:
        place = MILESTONES.index(one.milestone)
        if place > last:
            continue
        still = sum(reason.due_before in MILESTONES[: place + 1] for reason in reasons)
        since = bench.state.count - one.order
        said = [
            f"{one.by}, before you {WORDS[one.milestone]}, {when(datetime.fromisoformat(one.time))}: “{one.words}”"
        ]
        if still:
            said.append(
                f"{still} {'thing' if still == 1 else 'things'} due before it {'is' if still == 1 else 'are'} open now"
            )
        if since:
            said.append(f"{since} {'entry' if since == 1 else 'entries'} since")
        lines.append("; ".join(said))
    return tuple(lines)

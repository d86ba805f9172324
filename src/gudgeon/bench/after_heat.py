"""Finished joints that their sheet wants tightened again, as after the first heat."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.progress import progress
from gudgeon.bench.reason import Reason
from gudgeon.book.state import TightenedAgain


def reasons(bench: Bench) -> Iterator[Reason]:
    """A joint that is to be tightened again and was not, since it was pulled last."""
    for key, joint in bench.sheet.joints.items():
        again = joint.again_after
        if again is None or counts(bench, key) is not None:
            continue
        why = f"to be tightened again after: {again.after}" + (f" ({again.note})" if again.note else "")
        if not progress(joint, bench.state.joints.get(key)).complete:
            why += "; it is not finished yet"
        yield Reason(
            "made fast",
            f"{joint.name}, again",
            why,
            again.due_before,
            f"gudgeon record tightened-again {key} SEEN",
            f"Tighten it again after: {again.after}, as the sheet says.",
            "what was seen, and with which wrench",
            about=f"joint:{key}",
        )


def counts(bench: Bench, key: str) -> TightenedAgain | None:
    """The tightening again that says how the joint is now: nothing was pulled or slackened since."""
    found, state = bench.state.tightened_again.get(key), bench.state.joints.get(key)
    if found is None or state is None or not state.pulls:
        return None
    last = max(max(pull.order for pull in state.pulls.values()), state.disturbed_order)
    return found if found.order > last else None

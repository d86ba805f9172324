"""The hold points on paper: what is to be proved, with its proof or room for one."""

from dataclasses import asdict
from typing import Any

from gudgeon.bench.on_paper.hold_points import HoldPoints
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words


def holds_pdf(answer: HoldPoints, *, size: str) -> bytes:
    """The hold points of the job on paper."""
    return press("holds.typ", holds_data(answer), size=size, dated_as=dated(answer.heading))


def holds_data(answer: HoldPoints) -> dict[str, Any]:
    """Everything that stands on the list, milestone by milestone."""
    points = [point for one in answer.milestones for point in one.points]
    proved = sum(point.stands for point in points)
    return {
        "page": page_words(answer.heading, about="Hold points"),
        "state": f"{answer.job}: {proved} of {len(points)} proved",
        "milestones": [
            {
                "before": one.before,
                "cautions": list(one.cautions),
                "open": sum(not point.stands for point in one.points),
                "points": [asdict(point) for point in one.points],
            }
            for one in answer.milestones
        ],
    }

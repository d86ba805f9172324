"""How far apart the points of a scan lie, and whether they cover the face: what lies between them nobody has seen."""

from collections.abc import Sequence
from typing import Any

from gudgeon.sheet.faces import Face

NEIGHBORS = 32
"""So many neighbors of each point are looked at, on all sides."""
COVERED = 0.9
"""A scan covers a face when its points reach over this share of its outline, lengthwise and crosswise."""
HANDFUL = 5

Points = Sequence[tuple[float, float, float]]


def largest_step(points: Points) -> float:
    """The largest step from a point to the next one beside it, and to the next one above or below it [mm].

    Of two neighbors on either side the nearer one counts: beside an opening there is none on one side.
    """
    import numpy as np
    from scipy.spatial import KDTree

    places = np.asarray(points, dtype=float)[:, :2]
    count = min(len(places), NEIGHBORS + 1)
    near = np.asarray(KDTree(places).query(places, k=count)[1])
    steps = np.abs(places[near[:, 1:]] - places[:, None, :])
    across, up = steps[..., 0], steps[..., 1]
    reach = np.ptp(places, axis=0)
    return max(
        _step(np.where((across >= up) & (across > 0), across, np.inf), float(reach[0])),
        _step(np.where((up >= across) & (up > 0), up, np.inf), float(reach[1])),
    )


def _step(steps: Any, reach: float) -> float:
    import numpy as np

    nearest = steps.min(axis=1)
    known = nearest[np.isfinite(nearest)]
    return float(known.max()) if len(known) else reach


def not_covered(points: Points, face: Face | None) -> str:
    """What a scan leaves out of its face, in words; empty where it covers it, or nothing says how large it is."""
    if len(points) < HANDFUL:
        return f"{len(points)} points are too few to say anything of what lies between them"
    if face is None or len(face.outline) < 3:
        return ""
    said = []
    outline = [(one.x.middle_in("mm"), one.y.middle_in("mm")) for one in face.outline]
    for axis, way in enumerate("xy"):
        wide = _reach([one[axis] for one in outline])
        reach = _reach([one[axis] for one in points])
        if reach < COVERED * wide:
            said.append(f"{reach:.0f} of {wide:.0f} mm along {way}")
    return (
        f"the points reach over only {' and '.join(said)}: the rest of the face is not scanned"
        if said
        else ""
    )


def _reach(places: Sequence[float]) -> float:
    return max(places) - min(places)

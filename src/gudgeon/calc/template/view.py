"""Whether a camera can have taken a photo in which four points of known places are seen so."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.calc.errors import positive
from gudgeon.calc.template.homography import Known, map_by

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

    Floats = NDArray[float64]

FOCAL_LENGTHS = (0.5, 6.0)
"""Of a photo's longer side, from a phone's widest lens to a long one: common practice, no source."""
_TRIED = 40


@dataclass(frozen=True, slots=True)
class View:
    """How the part lies in the photo.

    `stretch` is by what share the part would have to be longer one way than the other, or its corners off the square,
    for any camera to see it so; 0 where one does. `turn_deg` is how far its rightward side runs upward in the photo.
    """

    stretch: float
    turn_deg: float


def view(known: Sequence[Known], *, width_px: float, height_px: float) -> View:
    """How known points lie in a photo, and whether any camera with usual focal length sees a flat part so.

    Equation:
        K⁻¹ G = (a, b, c), G the map from the part to the photo, K with the focal length f and the middle of the photo;
        |a| = |b| and a · b = 0 for the right f; stretch = min over f of max(|ln(|a| / |b|)|, |a · b| / (|a| |b|))

    Parameters:
        known: points with their places in the photo and on the part, at least four, no three in a line [px, mm]
        width_px: of the photo [px]
        height_px: of the photo [px]

    Returns:
        the stretch [1] and the turn [°]

    Valid for:
        a photo that is not cropped far from its middle; focal lengths from 0.5 to 6 times its longer side

    Source:
        Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd edition 2004, 8.6 (a camera from the map
        of a plane)

    Example:
        >>> photo = ((100, 400), (500, 400), (500, 100), (100, 100))
        >>> of = [[Known(str(p), p, t) for p, t in zip(photo, ((0, 0), (w, 0), (w, h), (0, h)), strict=True)]
        ...     for w, h in ((400, 300), (300, 400))]
        >>> [round(view(one, width_px=600, height_px=500).stretch, 3) for one in of]  # HAND: 2 ln(4 / 3) = 0.575
        [0.0, 0.575]

    Not covered:
        sides exchanged on a part that is nearly square; a lens that bends lines
    """
    import numpy as np

    positive(width_px, "Width of the photo", unit="px")
    positive(height_px, "Height of the photo", unit="px")
    true = np.array([one.true_mm for one in known], dtype=float)
    photo = np.array([one.photo_px for one in known], dtype=float)
    seen = np.asarray(np.linalg.inv(map_by(photo, true=true)), dtype=float)
    longer = max(width_px, height_px)
    focal = longer * np.geomspace(*FOCAL_LENGTHS, _TRIED)
    middle = np.array([width_px / 2, height_px / 2])
    stretch = min(_stretch(seen, float(one), middle) for one in focal)
    at = np.append(true.mean(axis=0), 1.0)
    step = seen[:2, 0] * (seen[2] @ at) - (seen[:2] @ at) * seen[2, 0]
    return View(stretch, float(np.degrees(np.arctan2(-step[1], step[0]))))


def _stretch(seen: "Floats", focal: float, middle: "Floats") -> float:
    """By how much both directions of the part differ for this focal length, or stand off the square."""
    import numpy as np

    a, b = (np.append((one[:2] - middle * one[2]) / focal, one[2]) for one in (seen[:, 0], seen[:, 1]))
    long, high = np.linalg.norm(a), np.linalg.norm(b)
    return float(max(abs(np.log(long / high)), abs(a @ b) / (long * high)))

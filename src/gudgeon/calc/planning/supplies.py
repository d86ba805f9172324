"""What is used up: sealant in a bead, oil or lube in a film."""

import math
from collections.abc import Sequence

from gudgeon.calc.errors import not_negative, positive
from gudgeon.calc.planning.supplies_errors import PathTooShort


def bead_cm3(length_mm: float, *, diameter_mm: float, reserve: float = 0.0) -> float:
    """The sealant in a round bead, with a reserve for what stays in the nozzle and at its ends.

    Equation:
        V = length · π / 4 · diameter² · (1 + reserve)

    Parameters:
        length_mm: of the bead [mm]
        diameter_mm: of the bead as it is laid, before the faces press it flat [mm]
        reserve: share more [1]

    Returns:
        volume [cm³]

    Valid for:
        a bead of one width

    Source:
        HAND: the volume of a cylinder; 1 cm³ = 1000 mm³.

    Example:
        >>> round(bead_cm3(560.0, diameter_mm=2.0, reserve=0.3), 2)
        2.29

    Not covered:
        dabs at corners, and what is laid twice.
    """
    length = positive(length_mm, "Length of the bead", unit="mm")
    diameter = positive(diameter_mm, "Width of the bead", unit="mm")
    return length * math.pi / 4 * diameter**2 * (1 + not_negative(reserve, "Reserve", unit="")) / 1000


def bead_from_tube_mm(volume_cm3: float, *, diameter_mm: float, reserve: float = 0.0) -> float:
    """How long a bead a tube is enough for.

    Equation:
        length = V / (π / 4 · diameter² · (1 + reserve))

    Parameters:
        volume_cm3: in the tube [cm³]
        diameter_mm: of the bead as it is laid [mm]
        reserve: share more [1]

    Returns:
        length [mm]

    Valid for:
        a bead of one width

    Source:
        HAND: bead_cm3, solved for the length.

    Example:
        >>> round(bead_from_tube_mm(70.0, diameter_mm=2.0, reserve=0.3) / 1000, 1)
        17.1

    Not covered:
        see bead_cm3; an opened tube does not keep.
    """
    volume = positive(volume_cm3, "Volume of the tube", unit="cm³")
    return volume / bead_cm3(1.0, diameter_mm=diameter_mm, reserve=reserve)


def closed_path_mm(points: Sequence[tuple[float, float]]) -> float:
    """The length of a way that goes around its middle through all points and back to the first.

    Equation:
        Σ distance of neighbors, in the order of their angle around the mean point

    Parameters:
        points: x and y of each [mm]

    Returns:
        length [mm]

    Valid for:
        points around an open middle, as the bolts of a cover; three or more

    Source:
        HAND: Pythagoras.

    Example:
        >>> closed_path_mm([(0.0, 0.0), (30.0, 40.0), (0.0, 40.0), (30.0, 0.0)])
        140.0

    Not covered:
        a bead that winds between inner and outer bolts, or bolts in the middle of a face.
    """
    if len(set(points)) < 3:
        raise PathTooShort(len(set(points)))
    middle_x = math.fsum(x for x, _ in points) / len(points)
    middle_y = math.fsum(y for _, y in points) / len(points)
    around = sorted(points, key=lambda one: (math.atan2(one[1] - middle_y, one[0] - middle_x), one))
    return math.fsum(
        math.dist(one, other) for one, other in zip(around, (*around[1:], around[0]), strict=True)
    )


def journal_film_cm3(diameter_mm: float, *, width_mm: float, film_mm: float) -> float:
    """The lube on a journal that is smeared all around.

    Equation:
        V = π · diameter · width · film

    Parameters:
        diameter_mm: of the journal [mm]
        width_mm: of the journal [mm]
        film_mm: thickness of what is smeared on [mm]

    Returns:
        volume [cm³]

    Valid for:
        films that are thin against the diameter

    Source:
        HAND: the skin of a cylinder; 1 cm³ = 1000 mm³.

    Example:
        >>> round(journal_film_cm3(26.0, width_mm=18.0, film_mm=0.3), 2)
        0.44

    Not covered:
        what is wiped off and what runs out.
    """
    diameter = positive(diameter_mm, "Diameter of the journal", unit="mm")
    width = positive(width_mm, "Width of the journal", unit="mm")
    return math.pi * diameter * width * not_negative(film_mm, "Film", unit="mm") / 1000

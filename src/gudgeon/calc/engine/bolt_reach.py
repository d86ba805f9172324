"""How far a head bolt reaches into its hole, and what stays free below it."""

from gudgeon.calc.engine.gear_errors import NotThroughTheHead
from gudgeon.calc.errors import finite, not_negative, positive


def free_below_bolt(
    hole_depth_mm: float,
    *,
    length_mm: float,
    grip_mm: float,
    lowering_mm: float = 0.0,
    stretch_mm: float = 0.0,
) -> float:
    """What stays free below the end of a bolt in a blind hole, after the head has come down.

    Equation:
        free = hole depth − (length + stretch − (grip − lowering))

    Parameters:
        hole_depth_mm: depth of the hole below the face of the block [mm]
        length_mm: bolt, from under its head to its end [mm]
        grip_mm: what lies between bolt head and block before: washer, head, gasket [mm]
        lowering_mm: how far the head comes down; minus is up, as by a thicker gasket [mm]
        stretch_mm: by how much the tightened bolt is longer [mm]

    Returns:
        free length below the bolt [mm]; minus means that it would stand on the bottom

    Valid for:
        a bolt longer than what it holds

    Source:
        HAND: lengths along the bolt, added from the face of the block.

    Example:
        >>> round(free_below_bolt(36.0, length_mm=133.0, grip_mm=101.9, lowering_mm=0.14), 2)
        4.76

    Not covered:
        oil or dirt in the hole, a thread that ends above its bottom.
    """
    depth = positive(hole_depth_mm, "Depth of the hole", unit="mm")
    length = positive(length_mm, "Length of the bolt", unit="mm")
    held = positive(grip_mm, "Grip", unit="mm") - finite(lowering_mm, "Lowering of the head")
    if length <= held:
        raise NotThroughTheHead(length, held)
    return depth - (length + not_negative(stretch_mm, "Stretch of the bolt", unit="mm") - held)

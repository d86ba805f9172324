"""What a head that comes down on its pushrods does to hydraulic lifters and to valve clearances."""

from gudgeon.calc.errors import finite, positive


def preload_after(
    preload_mm: float, *, lowering_mm: float, tip_rise_mm: float = 0.0, rocker_ratio: float = 1.0
) -> float:
    """How far a hydraulic lifter is pressed in after the head has come down; its camshaft stays in the block.

    Equation:
        after = preload + lowering + tip rise / rocker ratio

    Parameters:
        preload_mm: how far the plunger is pressed in before [mm]
        lowering_mm: how far the head comes down; minus is up, as by a thicker gasket [mm]
        tip_rise_mm: by how much the valve stands higher in its head, as after its seat was cut [mm]
        rocker_ratio: way of the valve to way of the pushrod [1]

    Returns:
        preload after [mm]

    Valid for:
        pushrods about along the cylinder, rockers that sit on the head and are not set again

    Source:
        HAND: rocker and valve come down with the head, the pushrod does not; levers of the rocker.

    Example:
        >>> round(preload_after(1.0, lowering_mm=0.2, tip_rise_mm=0.16, rocker_ratio=1.6), 3)
        1.3

    Not covered:
        rockers with a screw, which are set again; lifters in the head, which come down with it.
    """
    ratio = positive(rocker_ratio, "Rocker ratio")
    lowered = finite(lowering_mm, "Lowering of the head")
    return finite(preload_mm, "Preload") + lowered + finite(tip_rise_mm, "Rise of the valve tip") / ratio


def clearance_lost(lowering_mm: float, *, rocker_ratio: float) -> float:
    """The valve clearance that goes when the head comes down on solid pushrods.

    Equation:
        lost = lowering · rocker ratio

    Parameters:
        lowering_mm: how far the head comes down; minus is up, as by a thicker gasket [mm]
        rocker_ratio: way of the valve to way of the pushrod [1]

    Returns:
        clearance lost at the valve [mm]

    Valid for:
        a camshaft in the block, rockers that sit on the head

    Source:
        HAND: levers of the rocker.

    Example:
        >>> round(clearance_lost(0.2, rocker_ratio=1.5), 3)
        0.3

    Not covered:
        clearances that are set again, as they have to be.
    """
    return finite(lowering_mm, "Lowering of the head") * positive(rocker_ratio, "Rocker ratio")

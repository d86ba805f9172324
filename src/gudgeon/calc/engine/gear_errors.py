"""Why a figure of valves, bolts or lifters under a cut head is refused; one class per cause."""

from gudgeon.errors import InputError


class NotAValveAngle(InputError):
    """A valve that lies on its side."""

    def __init__(self, angle_deg: float) -> None:
        super().__init__(
            f"Valve angle {angle_deg:g}° cannot be: it is from 0° to below 90°. "
            "Give the angle between valve stem and cylinder axis."
        )


class NeverOpens(InputError):
    """A valve that closes before it opens."""

    def __init__(self, opens_deg: float, closes_deg: float) -> None:
        super().__init__(
            f"A valve that opens at {opens_deg:g}° and closes at {closes_deg:g}° is never open. "
            "Count both from one top dead center, after it plus."
        )


class NotThroughTheHead(InputError):
    """A bolt that ends above the face of the block."""

    def __init__(self, length_mm: float, grip_mm: float) -> None:
        super().__init__(
            f"A bolt of {length_mm:g} mm cannot hold {grip_mm:g} mm: it ends before its thread begins. "
            "Check its length and what lies between its head and the block."
        )


class EventsAboveLift(InputError):
    """Events at a lift that the valve never reaches."""

    def __init__(self, at_lift_mm: float, lift_mm: float) -> None:
        super().__init__(
            f"Events at {at_lift_mm:g} mm of lift cannot be: the valve lifts {lift_mm:g} mm. "
            "Check both lifts and their units."
        )

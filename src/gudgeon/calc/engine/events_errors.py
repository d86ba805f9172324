"""Valve events and dead centers that cannot be; one class per cause."""

from collections.abc import Sequence

from gudgeon.errors import InputError


class TooFewEvents(InputError):
    """One figure alone does not tell when a valve opens and closes."""

    def __init__(self, valve: str, given: Sequence[str]) -> None:
        had = f"only {given[0]} is given" if given else "nothing is given"
        super().__init__(
            f"Of the {valve} valve {had}: two figures are needed. "
            "Give two of opening, closing, duration and centerline."
        )


class EventsContradict(InputError):
    """Opening, closing and duration that do not add up."""

    def __init__(self, valve: str, opens_deg: float, closes_deg: float, duration_deg: float) -> None:
        sign, size = ("+", closes_deg) if closes_deg >= 0 else ("−", -closes_deg)
        super().__init__(
            f"The {valve} events contradict each other: opening {opens_deg:g}° + 180° {sign} {size:g}° to closing is "
            f"{opens_deg + 180 + closes_deg:g}°, and the duration given is {duration_deg:g}°. "
            "Check the three, and the sign of an event on the other side of its dead center."
        )


class DurationImpossible(InputError):
    """A valve that closes before it opens, or never."""

    def __init__(self, valve: str, duration_deg: float) -> None:
        super().__init__(
            f"A duration of {duration_deg:g}° for the {valve} valve cannot be: it lies above 0° and below 720°, "
            "one round of the camshaft. Check the events and their signs."
        )


class OverlapContradicts(InputError):
    """An overlap beside events of both valves that make another."""

    def __init__(self, given_deg: float, made_deg: float) -> None:
        super().__init__(
            f"An overlap of {given_deg:g}° is given, and the events of both valves make {made_deg:g}° "
            "(intake opening + exhaust closing). Give either the overlap or the events of both."
        )


class ReadingsOpposite(InputError):
    """Two angles half a turn apart have two middles."""

    def __init__(self, first_deg: float, second_deg: float) -> None:
        super().__init__(
            f"Readings {first_deg:g}° and {second_deg:g}° lie half a turn apart, so two places are in the middle "
            "between them. Take the stop nearer to the top, and read both again."
        )


class ReadingsSame(InputError):
    """One angle twice: the crankshaft was not turned the other way."""

    def __init__(self, reading_deg: float) -> None:
        super().__init__(
            f"Both readings are {reading_deg:g}°: one is read turning one way, the other turning the other way, and "
            "the stop keeps them apart. Read the second one turning the other way."
        )


class StopTooDeep(InputError):
    """A stop that the piston never comes down to."""

    def __init__(self, depth_mm: float, stroke_mm: float) -> None:
        super().__init__(
            f"A stop {depth_mm:g} mm below the highest place of the piston cannot be: it lies above 0 mm and below the "
            f"stroke ({stroke_mm:.4g} mm). Give the depth at which the piston touches it."
        )

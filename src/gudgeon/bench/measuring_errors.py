"""What is refused of a reading, one class per cause."""

from collections.abc import Sequence

from gudgeon.errors import InputError


class UnitsDiffer(InputError):
    """One reading in several units."""

    def __init__(self, of: str, units: Sequence[str]) -> None:
        super().__init__(
            f"Of {of} figures in {' and '.join(units)} were given. Give all of them in one unit."
        )


class RepeatsApart(InputError):
    """Readings of one place that cannot be readings of one place."""

    def __init__(self, of: str, least: str, most: str) -> None:
        super().__init__(
            f"Of {of} {least} and {most} were read at one place: nine-fold apart or more. Is a digit or a unit wrong? "
            "If it is what the gauge says, add --sure."
        )


class TemperatureOut(InputError):
    """A temperature at which nobody measures."""

    def __init__(self, of: str, said: str, least: float, most: float) -> None:
        super().__init__(
            f"The temperature of the {of} cannot be {said}: what is measured by hand is between {least:.0f} and "
            f"{most:.0f} °C. Read it again."
        )


class TemperatureSlip(InputError):
    """A temperature that is likelier one of the other scale."""

    def __init__(self, of: str, said: str, otherwise: str, unit: str) -> None:
        super().__init__(
            f"The temperature of the {of} was given as {said}. Read in {unit} it would be {otherwise}. Was it read in "
            f"{unit}? If the {of} is that warm or cold, add --sure."
        )


class NoPartTemperature(InputError):
    """A gauge as warm as a part of which nobody says how warm it is."""

    def __init__(self) -> None:
        super().__init__(
            "The gauge is said to be as warm as the part, and how warm the part is was not said. Give it as well: "
            "--part-temp `24 °C`."
        )


class TemperatureOfWhat(InputError):
    """A gauge that is as warm as the part and has a temperature of its own."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"The gauge is said to be as warm as the part, and to be at {said}. Say one of both."
        )

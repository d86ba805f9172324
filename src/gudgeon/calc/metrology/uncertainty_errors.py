"""What can be wrong with an uncertainty, a probability, repeats or a temperature; one class per cause."""

from collections.abc import Iterable

from gudgeon.errors import InputError

COMPONENT_EXAMPLE = "scale: 3 µm rectangular; repeats: 1.2 µm dof=9"


class ProbabilityOutOfRange(InputError):
    """A probability that nothing can have, or that only what is certain has."""

    def __init__(self, value: float) -> None:
        super().__init__(
            f"Probability {value:g} cannot be used: it lies above 0 and below 1 (JCGM 100:2008, annex G). "
            "0.95 is usual."
        )


class DofTooFew(InputError):
    """Fewer degrees of freedom than a scatter can have."""

    def __init__(self, dof: float) -> None:
        super().__init__(
            f"Degrees of freedom {dof:g} cannot be: there is at least 1, readings less one (JCGM 100:2008, 4.2.6). "
            "Take more readings, or leave it out where the figure is well known."
        )


class DistributionUnknown(InputError):
    """A word that names no distribution."""

    def __init__(self, name: str, known: Iterable[str]) -> None:
        super().__init__(f"`{name}` is no distribution known here. Write one of: {', '.join(known)}.")


class NoComponents(InputError):
    """An uncertainty of nothing."""

    def __init__(self) -> None:
        super().__init__(
            "No component is given, so there is nothing to add up. "
            f"Write at least one, like `{COMPONENT_EXAMPLE}`."
        )


class ComponentUnknown(InputError):
    """A correlation names a component that is not there."""

    def __init__(self, name: str, known: Iterable[str]) -> None:
        super().__init__(
            f"Correlation: there is no component `{name}`. Write a name or a number of: {', '.join(known)}."
        )


class ComponentTwice(InputError):
    """Two components of one name, or one correlated with itself."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"Component `{name}` stands twice where two different ones are meant. Give each its own name."
        )


class CorrelationOutOfRange(InputError):
    """More than the same, or less than the opposite."""

    def __init__(self, first: str, second: str, value: float) -> None:
        super().__init__(
            f"Correlation {value:g} of {first} and {second} cannot be: it lies from -1 to 1 "
            "(JCGM 100:2008, 5.2.2). 1 is the same error twice, 0 nothing in common."
        )


class CorrelationGivenTwice(InputError):
    """Two correlations of one pair; a common tag is one too."""

    def __init__(self, first: str, second: str) -> None:
        super().__init__(
            f"The correlation of {first} and {second} is given twice; a common tag counts as 1. Give it once."
        )


class CorrelationsContradict(InputError):
    """Correlations that no errors can have together."""

    def __init__(self) -> None:
        super().__init__(
            "These correlations cannot hold together: the variance of some sum would be below 0 "
            "(JCGM 100:2008, 5.2.2). Check their signs: what is like two others is not unlike between them."
        )


class CorrelationUnreadable(InputError):
    """A correlation that is not two components and a number."""

    def __init__(self, written: str) -> None:
        super().__init__(
            f"`{written}` is no correlation that can be read. Write two names or numbers of components and the "
            "figure, like `1, 2 = 0.5; 1, 3 = -0.2`."
        )


class ComponentUnreadable(InputError):
    """A component with a word or a figure that has no place in it."""

    def __init__(self, written: str, trouble: str) -> None:
        super().__init__(
            f"Component `{written}`: {trouble}. Write figure, distribution and what else is known, "
            f"items apart by semicolons, like `{COMPONENT_EXAMPLE}`."
        )


class ComponentUnitsMixed(InputError):
    """One component has a unit, another has none, or one of another kind."""

    def __init__(self, written: str, kind: str) -> None:
        super().__init__(
            f"Component `{written}` does not come out as {kind}, as the first one does. Write the same kind of unit, "
            "or a sensitivity with its units, like `1 K rectangular sensitivity=1.8 µm/K`."
        )


class CoverageUnclear(InputError):
    """Neither a coverage factor nor a probability."""

    def __init__(self, written: str) -> None:
        super().__init__(
            f"coverage: `{written}` is neither a factor nor a probability. "
            "Write a factor from 1 to 10, like `2`, or a probability, like `95 %` or `0.95`."
        )


class TooFewReadings(InputError):
    """Fewer readings than a scatter needs."""

    def __init__(self, readings: int) -> None:
        super().__init__(
            f"{readings} reading{'' if readings == 1 else 's'} cannot show how far readings scatter: "
            "it takes at least 2. Measure again."
        )


class TooManyReadings(InputError):
    """A mean wanted so close that nobody could take the readings."""

    def __init__(self, half_width_over_s: float, most: int) -> None:
        super().__init__(
            f"A half-width of {half_width_over_s:g} times the scatter takes more than {most:,} readings "
            "(t / √n, JCGM 100:2008, G.3.2). Take a gauge that scatters less."
        )


class RangeOfSoMany(InputError):
    """More readings than the range still tells something of."""

    def __init__(self, readings: int, most: int) -> None:
        super().__init__(
            f"The range of {readings} readings tells little of their scatter: the factors go up to {most} "
            "(ISO 7870-2:2013). Work it out from all readings."
        )


class TemperatureUnusual(InputError):
    """No temperature at which a part is measured."""

    def __init__(self, what: str, celsius: float, least: float, most: float) -> None:
        super().__init__(
            f"{what} {celsius:g} °C ({celsius * 1.8 + 32:g} °F) cannot be: a part is measured between {least:g} and "
            f"{most:g} °C (order of size, by hand). Write the unit with it, like `68 °F`."
        )


class ExpansionUnusual(InputError):
    """An expansion that no metal has."""

    def __init__(self, what: str, per_kelvin: float, most: float) -> None:
        super().__init__(
            f"{what} {per_kelvin:g} 1/K cannot be: metals and plastics lie from 0 to {most:g} 1/K "
            "(order of size, by hand). Write it with its unit, like `21.5 µm/(m·K)`, or as 21.5e-6."
        )

"""Parts and passes that cannot be; one class per cause."""

from gudgeon.errors import InputError


class MatrixNotSquare(InputError):
    """Rows and columns do not belong to the same bolts."""

    def __init__(self, rows: int, row: int, entries: int) -> None:
        super().__init__(
            f"The compliance matrix has {rows} rows, but {entries} figures in row {row}. "
            "Give one row and one column for each bolt."
        )


class MatrixOneSided(InputError):
    """Bolt 1 moves bolt 2 otherwise than bolt 2 moves bolt 1."""

    def __init__(self, row: int, column: int, one: float, other: float) -> None:
        super().__init__(
            f"The compliance matrix has {one:g} mm/N in row {row}, column {column}, but {other:g} mm/N the other "
            "way round. The two are equal (Maxwell's reciprocity): mend the figure."
        )


class MatrixGivesEnergy(InputError):
    """Parts that would push a bolt outward when it is tightened."""

    def __init__(self, least: float) -> None:
        super().__init__(
            f"The compliance matrix has an eigenvalue of {least:g} mm/N: under some loads the parts would move "
            "against the bolts. Check signs, and that no figure beside the diagonal outweighs it."
        )


class NoBolts(InputError):
    """Nothing that could see each other."""

    def __init__(self) -> None:
        super().__init__("No bolt is given. Give the place of each bolt.")


class BoltBesidePart(InputError):
    """A bolt where the part is not."""

    def __init__(self, bolt: int, axis: str, place_mm: float, length_mm: float) -> None:
        super().__init__(
            f"Bolt {bolt} at {place_mm:g} mm does not stand on the part, whose {axis} runs from 0 to {length_mm:g} mm. "
            "Measure all bolts from the same end."
        )


class BoltOnEdge(InputError):
    """A hole that would break out of the plate."""

    def __init__(self, bolt: int, axis: str, place_mm: float, least_mm: float, most_mm: float) -> None:
        super().__init__(
            f"Bolt {bolt} at {place_mm:g} mm of the {axis} stands on the edge of the plate; centers lie between "
            f"{least_mm:g} and {most_mm:g} mm. Measure to the center of the hole."
        )


class PlateTooNarrow(InputError):
    """A plate that is a beam."""

    def __init__(self, narrow_mm: float, least_mm: float) -> None:
        super().__init__(
            f"Plate {narrow_mm:g} mm wide is a beam: as a plate of that length it is computed from {least_mm:g} mm on. "
            "Use the beam, with EI = D · (1 − ν²) · width."
        )


class PoissonImpossible(InputError):
    """No solid behaves so."""

    def __init__(self, value: float) -> None:
        super().__init__(
            f"Poisson's ratio {value:g} cannot be: it lies from 0 to 0.5. 0.3 is usual for steel, 0.33 for aluminum."
        )


class OrderUnknownBolt(InputError):
    """The order names a bolt that the joint has not got."""

    def __init__(self, bolt: int, bolts: int) -> None:
        super().__init__(
            f"Bolt {bolt} of the order does not exist: the joint has bolts 0 to {bolts - 1}, counted from 0."
        )


class OrderTwice(InputError):
    """The order names a bolt twice in one pass."""

    def __init__(self, bolt: int) -> None:
        super().__init__(
            f"Bolt {bolt} stands twice in the order of one pass. Take it out, or make two passes."
        )


class CountOff(InputError):
    """Figures by bolt, but not one for each."""

    def __init__(self, what: str, found: int, bolts: int) -> None:
        super().__init__(
            f"{what}: {found} figures for {bolts} bolts. Give one figure for all, or one for each."
        )


class NothingGives(InputError):
    """Neither the bolts nor the parts are springs."""

    def __init__(self) -> None:
        super().__init__(
            "Bolts without compliance on parts that some loads do not move at all: the preloads cannot be found. "
            "Give the compliance of the bolts."
        )

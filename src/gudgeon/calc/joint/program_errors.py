"""Joints and programs that cannot be simulated; one class per cause."""

from gudgeon.errors import InputError


class PartsMatrixMisshapen(InputError):
    """The matrix of the parts does not have a row and a column for each bolt."""

    def __init__(self, shape: tuple[int, ...], bolts: int) -> None:
        found = " × ".join(str(one) for one in shape)
        super().__init__(
            f"Compliance matrix of {found} cannot serve {bolts} bolts. Give {bolts} × {bolts} figures in mm/N."
        )


class PartsMatrixImpossible(InputError):
    """A matrix that no elastic body can have."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"Compliance matrix is {why}, which no elastic part can be. "
            "Check figures and signs: row i, column j is the give at bolt i for each newton at bolt j."
        )


class ActOnUnknownBolt(InputError):
    """An act on a bolt that the joint does not have."""

    def __init__(self, bolt: int, bolts: int) -> None:
        super().__init__(f"Bolt {bolt} is not one of this joint's {bolts}. Count them from 0 to {bolts - 1}.")


class ActAmountImpossible(InputError):
    """An act by less than nothing, or by an amount without end where only loosening has none."""

    def __init__(self, kind: str, amount: float) -> None:
        super().__init__(
            f"{kind.capitalize()} by {amount:g} cannot be: it is finite, and 0 or more. Check the stage."
        )


class StagesOutOfOrder(InputError):
    """An act of an earlier stage after one of a later."""

    def __init__(self, stage: int, after: int) -> None:
        super().__init__(
            f"Stage {stage} stands after stage {after}. Give the acts in the order in which they are done."
        )


class DrawsMisshapen(InputError):
    """Draws that do not fit the joint or the acts."""

    def __init__(self, name: str, shape: tuple[int, ...], wanted: tuple[int, ...]) -> None:
        found, needed = (" × ".join(str(one) for one in size) for size in (shape, wanted))
        super().__init__(
            f"Draws of {name} are {found}, not {needed} (trials × bolts or acts). Draw them anew."
        )


class DrawsImpossible(InputError):
    """Draws among which one cannot be."""

    def __init__(self, name: str, limits: str) -> None:
        super().__init__(
            f"Draws of {name} hold a value that cannot be: all are {limits}. Check their spread."
        )

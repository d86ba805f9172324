"""What the random tightenings refuse."""

from gudgeon.errors import InputError


class BandImpossible(InputError):
    """Ends of a friction that no bolt has."""

    def __init__(self, low: float, high: float) -> None:
        super().__init__(
            f"A friction from {low:g} to {high:g} was given. Its ends lie above 0 and below 1, the lower one first."
        )


class ShareImpossible(InputError):
    """A part of the whole that is none."""

    def __init__(self, share: float) -> None:
        super().__init__(
            f"The part of the friction that all bolts share was {share:g}. It is between 0 and 1."
        )


class TooFewTrials(InputError):
    """So few trials that their ends say nothing."""

    def __init__(self, trials: int, least: int) -> None:
        super().__init__(f"{trials} trials were asked for. At least {least} are needed for a band.")

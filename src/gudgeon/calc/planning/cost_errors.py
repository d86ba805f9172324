"""What is refused of costs that are uncertain, one class per cause."""

from gudgeon.errors import InputError


class ChanceOutOfRange(InputError):
    """A chance that no cost can have."""

    def __init__(self, chance: float) -> None:
        super().__init__(
            f"A chance of {chance:g} cannot be: it lies above 0 and is at most 1. Leave out what never comes; what is "
            "certain has the chance 1."
        )


class TogetherOutOfRange(InputError):
    """A correlation that estimates cannot have here."""

    def __init__(self, together: float) -> None:
        super().__init__(
            f"Estimates that err together by {together:g} cannot be: 0 is each by itself, 1 all the same way. "
            "Give a share between them."
        )

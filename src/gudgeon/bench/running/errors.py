"""What can be wrong with a question about an engine that runs; one class per cause."""

from gudgeon.errors import InputError


class LeftInMissing(InputError):
    """A share of glycol, and nothing that it is a share of."""

    def __init__(self, glycol: str) -> None:
        super().__init__(
            f"Glycol `{glycol}` is that of the coolant still in the system, and how much that is was not said. Say it "
            "too, like --left-in '2 L', or leave both out for an empty system."
        )

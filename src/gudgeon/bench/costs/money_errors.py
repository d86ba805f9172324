"""What is refused of amounts of money that are said, one class per cause."""

from gudgeon.errors import InputError, short


class NoCurrency(InputError):
    """A currency that is none."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"`{short(said)}` is no currency. A book takes its three letters by ISO 4217, like `USD` or `EUR`: write "
            "those, without the sign and apart from the amount."
        )


class NotMoreThanNothing(InputError):
    """An amount of nothing where there has to be one."""

    def __init__(self, what: str, said: str) -> None:
        super().__init__(
            f"`{short(said)}` is no amount for “{what}”: it is more than 0 in a book. Write how much it is; what "
            "came back is said as got back, not below 0."
        )


class RangeInOrder(InputError):
    """A range told to the owner whose amounts are out of order."""

    def __init__(self, low: str, middle: str, high: str) -> None:
        super().__init__(
            f"A range from {low} to {high} with {middle} in the middle cannot be: the first is at most the middle, and "
            "that at most the last. Look which of them is wrong."
        )

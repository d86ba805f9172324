"""What is refused of the pins of a photo, one class per cause."""

from gudgeon.errors import InputError, short

_NOTHING = "Nothing was written."


class PinWithoutWords(InputError):
    """A place on a photo with nothing said of it."""

    def __init__(self, number: str) -> None:
        super().__init__(
            f"Pin {short(number)} has no words: say what is there and where it goes, like “ground strap, goes to 3 on "
            f"the block”, or take the pin away. {_NOTHING}"
        )


class PinNumberUnread(InputError):
    """A number that cannot stand on a tag."""

    def __init__(self, said: str, most: int) -> None:
        super().__init__(
            f"A pin has the number `{short(said)}`; whole numbers from 1 to {most} are taken, as they stand on a tag. "
            f"Write it anew. {_NOTHING}"
        )


class PinNumberTwice(InputError):
    """Two places under one number."""

    def __init__(self, number: int, first: str, second: str) -> None:
        super().__init__(
            f"Number {number} is set twice on this photo: “{short(first)}” and “{short(second)}”. Each place has a "
            f"number of its own: change one of them. {_NOTHING}"
        )


class PinOffThePhoto(InputError):
    """A place that lies beside the picture, or is no number."""

    def __init__(self, number: str, said: str, side: str) -> None:
        super().__init__(
            f"Pin {short(number)} lies at `{short(said)}` {side}; percent of the picture from 0 to 100 are taken. Tap "
            f"the picture, or write the percent. {_NOTHING}"
        )


class TooManyPins(InputError):
    """More pins than can be told apart."""

    def __init__(self, count: int, most: int) -> None:
        super().__init__(
            f"{count} pins are set on one photo; at most {most} can be told apart on it. Take a second photo for the "
            f"others. {_NOTHING}"
        )


class PinStillOff(InputError):
    """A pin taken away although its piece is still off the engine."""

    def __init__(self, number: int, name: str) -> None:
        super().__init__(
            f"Pin {number}, “{short(name)}”, cannot be taken away: that piece is on the list of what came off and is "
            f"not back yet. Put it back in the book first, or leave the pin. {_NOTHING}"
        )


class NoSuchPin(InputError):
    """A pin that the photo does not have."""

    def __init__(self, said: str, photo: str, known: str) -> None:
        super().__init__(
            f"{photo} has no pin {short(said)} that could have come off; there are: {known}. Look at the photo, then "
            f"choose again. {_NOTHING}"
        )


class NoSuchPhoto(InputError):
    """A photo that the book does not hold, or whose entry was struck."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"The book holds no photo `{short(said)}` that stands: none was written under that name, or its entry was "
            f"struck. All of them stand under Photos. {_NOTHING}"
        )


class CountedByHand(InputError):
    """A count of one photo cannot be added to one of another kind."""

    def __init__(self, count: int, group: str, way: str) -> None:
        super().__init__(
            f"{count} {group}{'' if count == 1 else 's'} {'was' if count == 1 else 'were'} counted {way} without a "
            f"photo, so what one photo shows cannot be added to it: nobody knows whether it is in that count. Write "
            f"the whole count down under “Write down a count”. {_NOTHING}"
        )


class NotCounted(InputError):
    """A count that is no whole number."""

    def __init__(self, said: str, most: int) -> None:
        super().__init__(
            f"`{short(said)}` was counted in the photo; a whole number from 0 to {most} is taken. Count them once "
            f"more. {_NOTHING}"
        )

"""What is refused where a wait begins, one class per cause."""

from gudgeon.errors import InputError


class MinutesMissing(InputError):
    """A wait whose length nothing says."""

    def __init__(self, kind: str) -> None:
        super().__init__(
            f"How long it waits is not said. A wait of the kind `{kind}` takes its minutes: "
            "gudgeon record timer KEY MINUTES …"
        )


class TemperatureMissing(InputError):
    """A wait that goes by the temperature, which nobody gave."""

    def __init__(self) -> None:
        super().__init__(
            "How long lifters bleed down goes by the temperature, and none was given. Add --temperature `12 °C`."
        )


class NoWaitStated(InputError):
    """The sheet says nothing of how long lifters bleed down."""

    def __init__(self) -> None:
        super().__init__(
            "The sheet states no time in which lifters bleed down, and none is filled in. Write it under `waits:` as "
            "`bleed_down:` with its page, or give the minutes by hand and the reason with --why."
        )


class ColderThanStated(InputError):
    """It is colder than where the first wait of the sheet begins."""

    def __init__(self, temperature: str, *, least: str, source: str) -> None:
        super().__init__(
            f"At {temperature} the sheet states no time in which lifters bleed down: its coldest holds from {least} "
            f"({source}), and none is filled in. Warm the engine up to that, find the time in the manual, or give the "
            "minutes by hand and the reason with --why."
        )


class ReasonMissing(InputError):
    """A time that is given by hand stands on somebody's word."""

    def __init__(self, what: str, *, said: str) -> None:
        super().__init__(
            f"{what} of {said} is given by hand and no reason with it. Say what it rests on with --why, like "
            "`printed on the tube`."
        )


class DistanceMissing(InputError):
    """A recall without a distance and without a time."""

    def __init__(self) -> None:
        super().__init__(
            "How far it is to the recall is not said. Add --distance `1000 km`, or the minutes for a recall by time."
        )


class OdometerMissing(InputError):
    """A wait by distance that does not know where it begins."""

    def __init__(self) -> None:
        super().__init__(
            "What the odometer shows now is not known: the book holds no reading of it. Add --odometer `84120 km`."
        )


class SealantTaskMissing(InputError):
    """The job of this engine has no task that waits for sealants by itself."""

    def __init__(self) -> None:
        super().__init__(
            "The work that waits for the sealant is not said. Add --task with words of its title."
        )

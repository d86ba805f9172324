"""What-ifs about the clamp that cannot be asked."""

from collections.abc import Iterable

from gudgeon.errors import InputError


class WhatIfUnknown(InputError):
    """A what-if that makes no sense for this joint and this kit."""

    def __init__(self, said: str, known: Iterable[str]) -> None:
        super().__init__(f"`{said}` is no what-if of this joint. Ask one of: {', '.join(known) or 'none'}.")


class WrenchDoesNot(InputError):
    """Another wrench, which does not reach a torque of the program."""

    def __init__(self, wrench: str, stage: int, torque: str) -> None:
        super().__init__(
            f"The {wrench} does not reach stage {stage} ({torque}) in the usable part of its scale. "
            "Ask for a wrench that does all torques of the program."
        )

"""Points and levels of which no picture of a surface can be made."""

from collections.abc import Sequence

from gudgeon.errors import InputError


class NotASurface(InputError):
    """Too few points, or points on one line."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"{count} points do not span a surface: three or more are needed that are not on one line. "
            "Read further points beside them."
        )


class LevelsUnordered(InputError):
    """Levels that do not rise."""

    def __init__(self, levels: Sequence[float]) -> None:
        super().__init__(
            f"Levels {', '.join(f'{one:g}' for one in levels)} do not rise. Give each once, the lowest first."
        )

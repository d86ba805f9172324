"""What the trade says of cutting a head, where the sheet says nothing."""

from functools import lru_cache

from gudgeon.sources.figures import Figure
from gudgeon.sources.tables import read


def below_bolt() -> Figure:
    """What stays free below a bolt in a blind hole, in mm."""
    return _figure("below_bolt")


def first_pass() -> Figure:
    """What a shop takes in a first pass at least, in mm."""
    return _figure("first_pass")


def furthest() -> Figure:
    """So much nobody takes off a head, in mm: a limit that is not met up to there never is."""
    return _figure("furthest")


@lru_cache(maxsize=3)
def _figure(name: str) -> Figure:
    data, found = read("cut")
    return Figure(data[name]["mm"], "mm", found[data[name]["source"]])

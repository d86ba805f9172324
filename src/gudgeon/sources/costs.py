"""How estimates of cost go wrong together."""

from functools import lru_cache

from gudgeon.sources.figures import Figure
from gudgeon.sources.tables import read


@lru_cache(maxsize=1)
def erring_together() -> Figure:
    """The correlation between two estimates of one job: what makes one dearer often makes the other dearer too."""
    data, found = read("costs")
    row = data["together"]
    return Figure(row["correlation"], "1", found[row["source"]])

"""How much is used up where nobody states it: habits of the trade, each said to be one."""

from functools import lru_cache
from typing import Any

from gudgeon.sources.figures import Figure, Source
from gudgeon.sources.tables import read


@lru_cache(maxsize=1)
def _supplies() -> tuple[dict[str, Any], dict[str, Source]]:
    return read("supplies")


def supply_figure(name: str) -> Figure:
    """One figure by its name."""
    data, found = _supplies()
    row = data["figure"][name]
    return Figure(row["value"], row["unit"], found[row["source"]])

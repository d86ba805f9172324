"""What is taken for a person's pull where neither sheet nor kit says more."""

from functools import lru_cache
from typing import Any

from gudgeon.sources.figures import Figure, Source
from gudgeon.sources.tables import read


@lru_cache(maxsize=1)
def _tightening() -> tuple[dict[str, Any], dict[str, Source]]:
    return read("tightening")


def usual(name: str) -> Figure:
    """One figure: by_eye, paint_marks, breakaway, shared_friction."""
    data, found = _tightening()
    row = data["figure"][name]
    return Figure(row["value"], row["unit"], found[row["source"]])

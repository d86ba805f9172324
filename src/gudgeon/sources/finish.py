"""What the trade says of the finish of a gasket face and of straightening a head; its sources do not agree."""

from dataclasses import dataclass
from functools import lru_cache

from gudgeon.sources.figures import Figure, Source
from gudgeon.sources.tables import read

MICROINCH_UM = 0.0254
"""Micrometers in a microinch: 25.4 mm to the inch."""


@dataclass(frozen=True, slots=True)
class AskedFinish:
    """The roughness Ra that one source asks for, in µm; an end that it leaves open is None.

    `gasket` is the kind of head gasket, `metal` what the face is made of where the source says so, `usually` what it
    adds in words.
    """

    gasket: str
    metal: str
    least_um: float | None
    most_um: float | None
    usually: str
    source: Source

    def clashes(self, other: "AskedFinish") -> bool:
        """Whether no finish satisfies both."""
        low, high = _latest(self.least_um, other.least_um), _earliest(self.most_um, other.most_um)
        return low > high


def _latest(*ends: float | None) -> float:
    return max((end for end in ends if end is not None), default=0.0)


def _earliest(*ends: float | None) -> float:
    return min((end for end in ends if end is not None), default=float("inf"))


@lru_cache(maxsize=1)
def asked_finishes() -> tuple[AskedFinish, ...]:
    """What each source asks for, by kind of gasket and metal."""
    data, found = read("finish")
    return tuple(
        AskedFinish(
            row["gasket"], row.get("metal", ""), _um(row.get("least_uin")), _um(row.get("most_uin")),
            row.get("usually", ""), found[row["source"]],
        )
        for row in data["finish"]
    )  # fmt: skip


def _um(microinches: float | None) -> float | None:
    return None if microinches is None else microinches * MICROINCH_UM


@lru_cache(maxsize=1)
def straighten_above() -> Figure:
    """The distortion above which a head with its camshafts in it is straightened before it is cut, in mm."""
    data, found = read("finish")
    row = data["straighten"]
    return Figure(row["above_mm"], "mm", found[row["source"]])

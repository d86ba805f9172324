"""The gasket face as it is now: what was read before its last cut, or its last shop, says nothing of it any more."""

from dataclasses import dataclass, replace

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.inputs_head import made
from gudgeon.bench.cut.words import SAME_MM, mm
from gudgeon.bench.judging.decision import Value, value_of
from gudgeon.bench.judging.scans import Surface
from gudgeon.bench.measured import Measured, measured, measured_in
from gudgeon.bench.shop.found import FoundLine, PartKind, face_scan
from gudgeon.bench.shop.ordered import order_of
from gudgeon.sheet.inspections import place_names

AS_LEFT = "as left"


@dataclass(frozen=True, slots=True)
class FaceNow:
    """What speaks of the face as it is: readings or points, the places unread since, and what came between.

    `after` is empty where nothing was done to the face; then what was read as found counts.
    """

    read: dict[str, Measured]
    surface: Surface | None
    unread: tuple[str, ...]
    after: str

    @property
    def values(self) -> list[Value]:
        """How far it is off flat: of the whole face, else of each line."""
        if self.surface is not None:
            return [self.surface.zone()]
        return [value_of(one) for one in self.read.values()]

    @property
    def whole(self) -> bool:
        """Whether all of it was read."""
        return bool(self.values) and not self.unread


def came_between(bench: Bench, *, part: PartKind) -> str:
    """What was done to the face in this job, in words: a cut, or a visit to a shop; nothing where nothing was."""
    cut = made(bench) if part == "head" else None
    if cut is not None and cut.value > SAME_MM:
        return f"the cut of {mm(cut.value)}"
    order = order_of(bench, part=part)
    if order is not None and order.back and cut is None:
        return f"it came back from {order.shop}"
    return ""


def face_now(bench: Bench, key: str, *, part: PartKind) -> FaceNow:
    """The face by what was read after the last thing that was done to it."""
    after, surface = came_between(bench, part=part), face_scan(bench, key)
    if after and surface is not None and surface.condition != AS_LEFT:
        surface = None
    read = measured_in(bench, key, condition=AS_LEFT) if after else measured(bench, key)
    places = place_names(bench.sheet.characteristics[key])
    unread = () if surface is not None else tuple(one for one in places if one not in read)
    return FaceNow(read, surface, unread, after)


def told_when(lines: tuple[FoundLine, ...], now: FaceNow) -> tuple[FoundLine, ...]:
    """What was found, and which of it was read before the face was cut."""
    if not now.after:
        return lines
    words = f"before {now.after.partition(' of ')[0]}"
    return tuple(
        replace(one, condition=f"{one.condition}, {words}") if one.condition not in ("", AS_LEFT) else one
        for one in lines
    )

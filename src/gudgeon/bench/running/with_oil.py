"""Which pressure with oil belongs to which one without: that of the same condition, read after it."""

from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.measured import Measured, measured, measured_in


@dataclass(frozen=True, slots=True)
class WithOil:
    """A pressure read with oil in the cylinder; `stale` says why it is not compared with the dry one, else empty."""

    reading: Measured
    stale: str


def with_oil(bench: Bench, key: str, *, dry: Measured) -> WithOil | None:
    """The pressure with oil of the cylinder of a dry one; where it tells of another state, that is said."""
    item, place = bench.sheet.characteristics[key], dry.place
    if item.computed:
        found = measured(bench, key).get(place)
        return WithOil(found, "") if found is not None else None
    same = measured_in(bench, key, condition=dry.condition).get(place)
    if same is not None:
        older = _number(bench, same) < _number(bench, dry)
        return WithOil(same, "wet not read since: the dry one is newer" if older else "")
    other = measured(bench, key).get(place)
    if other is None:
        return None
    return WithOil(other, f"wet not read since: it is {other.condition}, the dry one {dry.condition}")


def _number(bench: Bench, one: Measured) -> int:
    """The number of the latest entry that a pressure rests on."""
    return max((it.order for it in bench.state.readings.values() if it.entry in one.entries), default=0)

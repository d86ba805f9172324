"""Faces that were scanned: their points in millimeters, and how uncertain the height of one is."""

from dataclasses import dataclass
from functools import lru_cache

from gudgeon.bench.context import Bench
from gudgeon.bench.gauge_error import standard_uncertainty
from gudgeon.book.state import ScanState
from gudgeon.quantity.units import convert


@dataclass(frozen=True, slots=True)
class Scan:
    """The points of a face [mm] as they count now: as left where there are such, else as found."""

    points: tuple[tuple[float, float, float], ...]
    u: float
    u_known: bool
    condition: str
    instrument: str
    entry: str
    file: str
    notes: tuple[str, ...] = ()


def scanned(bench: Bench, key: str) -> Scan | None:
    """The scan of a characteristic that counts; nothing where its face was not scanned."""
    scans = bench.state.scans
    found = scans.get((key, "as left")) or scans.get((key, "as found"))
    return _scan(bench, found) if found is not None else None


def scanned_in(bench: Bench, key: str, *, condition: str) -> Scan | None:
    """The scan of a characteristic in one condition."""
    found = bench.state.scans.get((key, condition))
    return _scan(bench, found) if found is not None else None


def _scan(bench: Bench, state: ScanState) -> Scan:
    points = _in_mm(state.points, unit=state.unit)
    heights = [z for _, _, z in points]
    travel = max(heights) - min(heights)
    gauge = bench.kit.gauges.get(state.instrument)
    u, known = standard_uncertainty(gauge, "length_difference", size_mm=travel)
    notes = () if gauge is not None else ("the gauge that scanned it is not named, or no longer in the kit",)
    return Scan(points, u, known, state.condition, state.instrument, state.entry, state.file, notes)


@lru_cache(
    maxsize=8
)  # every limit of a face asks for its points again, and a request for those of the one before
def _in_mm(points: tuple[tuple[str, str, str], ...], *, unit: str) -> tuple[tuple[float, float, float], ...]:
    def mm(text: str) -> float:
        return convert(float(text), frm=unit, to="mm", kind="length")

    return tuple((mm(x), mm(y), mm(z)) for x, y, z in points)

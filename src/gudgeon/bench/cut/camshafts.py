"""How far a head that comes down turns the camshafts: from the drive of the sheet, where it is known."""

from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.known import Known
from gudgeon.bench.timing.drive import DriveModel, DriveShift, Lowered, cam_shift, drive_model

PROBE_MM = 0.1
"""Over cuts of tenths of a millimeter the camshafts turn in proportion; by this cut the proportion is taken."""


@dataclass(frozen=True, slots=True)
class Camshafts:
    """The drive, and how far each camshaft falls back per millimeter of lowering [° of the crank / mm]."""

    model: DriveModel | None
    rates: tuple[tuple[str, float], ...]

    def late_per_mm(self, which: str) -> tuple[float, ...]:
        """Of every camshaft that these valves may have: those that are named so, else all; none where none is known."""
        own = tuple(rate for name, rate in self.rates if which in name.lower())
        return own or tuple(rate for _, rate in self.rates)

    def shift(self, lowering: Known) -> DriveShift | None:
        """What a lowering does to the whole drive; every head of it is taken as lowered alike."""
        return _shift(self.model, Lowered(lowering.value, lowering.u)) if self.model is not None else None


def camshafts(bench: Bench) -> Camshafts:
    """The camshafts of the sheet's drive."""
    model = drive_model(bench)
    if model is None:
        return Camshafts(None, ())
    probe = _shift(model, Lowered(PROBE_MM))
    rates = tuple((f"{one.wheel} {one.name}", one.crank_deg / PROBE_MM) for one in probe.camshafts)
    return Camshafts(model, rates)


def _shift(model: DriveModel, low: Lowered) -> DriveShift:
    heads = {*model.heads, *(one.on for one in model.wheels.values() if one.on)}
    return cam_shift(model, dict.fromkeys(heads, low))

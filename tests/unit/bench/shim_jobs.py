"""An engine with four valves on shims, its kit and its readings, for tests. All figures invented."""

from pathlib import Path

from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.sheet.sheets import SMALL

GEAR = """
valve_gear:
  source: manual p. 30
  adjustment: shims
  set_at: cold
  intake: {clearance: intake_gap, shim: intake_shim}
  exhaust: {clearance: exhaust_gap, shim: exhaust_shim}
  shim_thickness: 2.00–2.80 mm
  shim_step: 0.05 mm
"""
VALVES = "".join(
    f"""\
  {side}_gap:
    name: {side} clearance
    part: Valve train
    method: gap
    places: [front, rear]
    required: {wanted}
    source: manual p. 30
  {side}_shim:
    name: {side} shim
    part: Valve train
    places: [front, rear]
    required: 2.00–2.80 mm
    source: manual p. 31
"""
    for side, wanted in (("intake", "0.15–0.25 mm"), ("exhaust", "0.25–0.35 mm"))
)
SHEET = SMALL.replace("shims, hydraulic lifters, ", "").replace("joints:\n", f"{VALVES}joints:\n") + GEAR
STOCK = """
shims_in_stock: {2.30 mm: 1}
shim_price: 4.80 EUR
"""
MICROMETER = "  micro_25: {name: micrometer 0–25, kind: outside micrometer, range: 0–25 mm, step: 0.01 mm, error: 0.004 mm}\n"
SHIM_KIT = KIT.replace("turning:", f"{MICROMETER}turning:") + STOCK

Found = dict[str, tuple[str, str, str]]
"""By side and place: both ends of the clearance, and the shim, in mm."""

GOOD: Found = {
    "intake front": ("0.19", "0.21", "2.40"),
    "intake rear": ("0.19", "0.21", "2.35"),
    "exhaust front": ("0.29", "0.31", "2.30"),
    "exhaust rear": ("0.29", "0.31", "2.45"),
}


def shim_job(folder: Path, found: Found | None = None, *, sheet: str = SHEET, kit: str = SHIM_KIT) -> Job:
    """A build with every reading that is given."""
    job = make_job(folder, sheet=sheet, kit=kit)
    job.read_code()
    for name, (low, high, shim) in (GOOD if found is None else found).items():
        side, place = name.split()
        if low or high:
            clearance(job, side, place, low, high)
        if shim:
            thickness(job, side, place, shim)
    return job


def clearance(
    job: Job,
    side: str,
    place: str,
    low: str,
    high: str,
    *,
    condition: str = "as found",
    gauge: str = "feelers",
) -> None:
    """A clearance between two blades; one of them may be left out."""
    ends = {name: f"{end} mm" for name, end in (("low", low), ("high", high)) if end}
    job.record(
        "reading", item=f"{side}_gap", place=place, instrument=gauge, condition=condition, sure=True, **ends
    )


def thickness(job: Job, side: str, place: str, shim: str, *, condition: str = "as found") -> None:
    """A shim by micrometer."""
    job.record(
        "reading",
        item=f"{side}_shim",
        place=place,
        value=f"{shim} mm",
        instrument="micro_25",
        condition=condition,
    )

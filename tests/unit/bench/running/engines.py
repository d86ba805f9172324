"""A four-cylinder engine for the proofs after the start: figures invented, the band of its cranking pressure by hand.

86 × 86 mm, rod 143 mm, ratio 9, intake closing 60° after bottom dead center: 7.459 from there, and by exponents 1.20
and 1.30 at 101.325 kPa 10.283 to 12.797 bar (HAND: slider-crank, p0 (r^n − 1)).
"""

from pathlib import Path

from tests.unit.bench.benches import Job, make_job

ENGINE = """\
gudgeon: data sheet 1
invented: yes
engine:
  name: Runner
  codes: [L1-A]
  code_is_read: pad
  layout: inline
  cylinders: 4
  numbered_from: timing end
  firing_order: [1, 3, 4, 2]
sources:
  manual: {title: Invented manual, edition: 1st}
cylinder:
  bore: 86.0 mm
  stroke: 86.0 mm
  rod_length: 143.0 mm
  compression_ratio: "9.0"
  source: manual p. 3
valve_gear:
  adjustment: shims
  intake: {closes: 60°}
  source: manual p. 4
characteristics:
  cranking:
    name: Cranking pressure
    part: cylinder block
    quantity: pressure_gauge
    places: {cylinder: [1, 2, 3, 4]}
    new_range: 11.0–12.5 bar
    wear_limit: min 9.0 bar
    limits:
      - {shape: difference between cylinders, percent_of_highest: min 75 %}
    source: manual p. 5
  cranking_wet:
    name: Cranking pressure with oil
    part: cylinder block
    quantity: pressure_gauge
    places: {cylinder: [1, 2, 3, 4]}
    source: manual p. 5
  leak:
    name: Leak-down
    part: cylinder block
    quantity: pressure_gauge
    places: {cylinder: [1, 2, 3, 4]}
    source: manual p. 6
  oil_idle:
    name: Oil pressure at idle
    part: oil pump
    quantity: pressure_gauge
    source: manual p. 7
after_start:
  source: manual p. 8
  cranking_pressure: cranking
  wet: cranking_wet
  cranking_speed: 250 r/min
  leak_down: leak
  leak_down_supply: 80 psi
  orifice: 0.040 in
  oil_pressure:
    - {at: 850 r/min, least: min 1.0 bar, temperature: 90 °C, measured_as: oil_idle}
  coolant: {glycol: ethylene, guards_to: -30 °C, cap: 1.1 bar, bleed: [heater on hot, screw open]}
  look_again:
    - {what: valve clearances, when: after 1000 km, basis: manual p. 4}
fluids:
  coolant: {name: Coolant, capacity: 8.5 L, source: manual p. 9}
"""
LIMIT_BETWEEN = """\
    limits:
      - {shape: difference between cylinders, percent_of_highest: min 75 %}
"""

KIT = """\
gudgeon: kit 1
altitude: ALTITUDE
gauges:
  gauge: {name: compression gauge, kind: compression gauge, range: 0–20 bar, step: 0.1 bar, error: 0.1 bar}
  oil: {name: oil gauge, kind: oil pressure gauge, range: 0–10 bar, step: 0.1 bar, error: 0.1 bar}
"""


def engine(folder: Path, *, sheet: str = ENGINE, altitude: str | None = "0 m") -> Job:
    """The engine with its code read; no altitude in the kit where there is none."""
    kit = KIT.replace("altitude: ALTITUDE\n", "") if altitude is None else KIT.replace("ALTITUDE", altitude)
    job = make_job(folder, sheet=sheet, kit=kit)
    job.read_code()
    return job


def read(job: Job, key: str, *values: str, unit: str = "bar", gauge: str = "gauge") -> None:
    """One reading for each cylinder in turn, after the work; a plain place where there is one alone."""
    for number, value in enumerate(values, start=1):
        place = f"cylinder {number}" if len(values) > 1 else ""
        job.record(
            "reading", item=key, place=place, value=f"{value} {unit}", instrument=gauge, condition="as left",
            sure=True,
        )  # fmt: skip

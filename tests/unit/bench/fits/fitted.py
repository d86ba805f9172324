"""A small engine whose parts are chosen to fit: three bearings, three rings, three pistons. All figures invented."""

from gudgeon.bench.context import Bench
from tests.unit.bench.judging.judged import Read, Said, bench_with

FITS = """\
fits:
  source: manual p. 71
  bearings:
    main:
      name: Main bearings
      bore: main_bore
      journal: main_journal
      clearance: 0.020–0.050 mm
      worn_clearance: max 0.080 mm
      grades:
        "1": {thickness: 1.490 mm, mark: red}
        "2": {thickness: 1.500 mm, mark: blue}
        "3": {thickness: 1.510 mm, mark: yellow}
      codes: {A 1: "1", A 2: "2", B 1: "2", B 2: "3"}
      source: manual p. 60
  ring_gaps: [top_gap]
  ring_bore: bore
  weights: {pistons: piston_mass, rods: rod_mass, most_difference: max 3 g, source: manual p. 70}
"""
CHARACTERISTICS = """\
  main_bore: {name: Main bore, part: block, places: {bearing: [1, 2, 3]}, source: manual p. 60}
  main_journal: {name: Main journal, part: crankshaft, places: {journal: [1, 2, 3]}, source: manual p. 60}
  top_gap:
    name: Gap of the top ring
    part: rings
    method: gap
    places: {cylinder: [1, 2, 3]}
    new_range: 0.25–0.40 mm
    wear_limit: max 0.80 mm
    source: manual p. 61
  bore: {name: Bore, part: block, places: {cylinder: [1, 2, 3], height: [top, bottom]}, source: manual p. 61}
  piston: {name: Piston, part: pistons, places: {cylinder: [1, 2, 3]}, source: manual p. 61}
  clearance:
    name: Piston clearance
    part: pistons
    method: difference
    of: [bore, piston]
    source: manual p. 61
    limits: [{shape: matched pairs, clearance: 0.03–0.06 mm}]
  piston_mass: {name: Piston weighed, part: pistons, quantity: mass, places: {cylinder: [1, 2, 3]}, source: manual p. 61}
  rod_mass: {name: Rod weighed, part: rods, quantity: mass, places: {cylinder: [1, 2, 3]}, source: manual p. 61}
"""
KIT = """\
gudgeon: kit 1
gauges:
  micrometer: {name: micrometer, kind: other, range: 0–150 mm, error: 0.002 mm}
  blades: {name: good blades, kind: other, range: 0–2 mm, error: 0.01 mm}
  scale: {name: kitchen scale, kind: scale, range: 0–2000 g, error: 0.2 g}
"""
GAUGES = {
    "main_bore": "micrometer", "main_journal": "micrometer", "bore": "micrometer", "piston": "micrometer",
    "top_gap": "blades", "piston_mass": "scale", "rod_mass": "scale",
}  # fmt: skip


def placed(item: str, division: str, *values: str) -> Read:
    """Readings of one characteristic, place by place; an empty one was not read."""
    return {(item, f"{division} {at}"): one for at, one in enumerate(values, start=1) if one}


def bores(*values: str) -> Read:
    """Bores that are alike at both heights."""
    found: dict[tuple[str, str], Said] = {}
    for at, one in enumerate(values, start=1):
        found |= {("bore", f"cylinder {at}, {height}"): one for height in ("top", "bottom")}
    return found


def engine(
    read: Read, *, sheet: str = FITS, characteristics: str = CHARACTERISTICS, unit: str = "mm"
) -> Bench:
    """A bench of that engine, with what was read."""
    return bench_with(characteristics, read, faces=sheet, kit=KIT, gauge=GAUGES, unit=unit)

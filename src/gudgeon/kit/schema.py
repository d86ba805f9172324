"""The published JSON Schema of a kit, and a blank one."""

from typing import Any

from gudgeon.kit.model import Kit


def kit_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) that editors use to complete and check a kit."""
    schema = Kit.model_json_schema(mode="validation")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Gudgeon kit"} | schema


def blank_kit() -> str:
    """A commented kit to fill in."""
    return BLANK


BLANK = """\
# yaml-language-server: $schema=kit.schema.json
#
# Your kit: what you own. Take the `#` away where you have something to write.
# Units as they stand on the tool. A torque wrench is used from the larger of its scale's
# start and a fifth of its maximum; below that it is not offered.
gudgeon: kit 1
units: metric            # which system comes first on screen: metric or inch

wrenches:
#  half_inch:
#    name: ½-inch click wrench
#    kind: click              # click, beam, dial, electronic
#    range: 40–200 N·m
#    step: 1 N·m
#    deviation: 4 %           # as its maker or its last check says; else ISO 6789 is taken
#    checked: 2026-01-31      # the day of its last check; it is good for 12 months
#    clicks_since: 300        # and for 5,000 clicks
#    direction: clockwise     # clockwise, counterclockwise, both
#    length: 400 mm           # center of the grip to center of the drive, for adapters
#    second_scale: {range: 30–150 lbf·ft, step: 1 lbf·ft}

adapters:
#  crow_foot:
#    name: 17 mm crow-foot
#    length: 50 mm            # center of the drive to center of the bolt
#    angle: 0°                # 0° straight out, 90° square to the wrench

spring_scales:
#  fish_scale:
#    name: spring scale 0–250 N
#    range: 0–250 N
#    step: 2 N

gauges:
#  feelers:
#    name: feeler blades
#    kind: feeler blades
#    blades: [0.05 mm, 0.06 mm, 0.08 mm, 0.10 mm]   # all of them, from thin to thick
#    error: 0.005 mm          # how far off it may be; else what is usual for its kind is taken
#  straightedge:
#    name: straightedge 500 mm
#    kind: straightedge       # or knife straightedge, shop straightedge
#    length: 500 mm
#  caliper:
#    name: caliper 0–150 mm
#    kind: digital caliper
#    range: 0–150 mm
#    step: 0.01 mm
#    checked: 2026-01-31      # good for 12 months, or as good_for says: 2 years
#  micrometer_100:
#    name: micrometer 75–100
#    kind: outside micrometer
#    range: 75–100 mm
#    step: 0.01 mm
#    error: 0.003 mm
#    stated_as: U (k = 2)     # where a certificate says so; else permitted error
#  bore_gauge:
#    name: bore gauge 50–160
#    kind: bore gauge
#    range: 50–160 mm
#    step: 0.01 mm
#    zeroed_in: micrometer_100   # what the micrometer errs cancels in a clearance read with both
#  strip:
#    name: plastic gauging strip
#    kind: plastic gauging strip
#    range: 0.025–0.175 mm
#  compression:
#    name: compression gauge
#    kind: compression gauge
#    range: 0–20 bar
#    step: 0.2 bar
#    error: 5 %               # of the reading
#  thermometer:
#    name: thermometer with a probe
#    kind: thermometer        # also: inside micrometer, depth micrometer, dial gauge, lever indicator,
#    range: -20 to 110 °C     # telescoping gauge, small-hole gauge, height gauge, surface plate, V-blocks,
#    step: 0.1 °C             # square, plug gauge, thread gauge, spring tester, scale, burette,
#    error: 1 °C              # oil pressure gauge, pressure tester, other

turning:
#  angle_gauge:
#    name: angle gauge
#    kind: angle gauge        # angle gauge, paint marks, bar, ratchet
#    error: 3°
#  bar:
#    name: breaker bar
#    kind: bar

# altitude: 500 m             # how high above the sea you work: cranking pressure falls with it

shims_in_stock:
#  2.30 mm: 1                 # thickness as you measured it, and how many; not the number etched on them
#  2.35 mm: 2

# shim_price: 4.80 EUR         # what any shim costs
shim_prices:
#  2.60 mm: 6.20 EUR          # those that cost something else

hours:
#  evenings: Tuesday and Thursday, 2 h
#  weekend: Saturday, 6 h
"""

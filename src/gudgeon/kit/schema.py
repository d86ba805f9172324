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
#    kind: feeler blades      # caliper, outside micrometer, bore gauge, dial gauge, straightedge …
#    error: 0.005 mm          # how far off it may be
#  caliper:
#    name: caliper 0–150 mm
#    kind: caliper
#    range: 0–150 mm
#    step: 0.01 mm
#    error: 0.03 mm

turning:
#  angle_gauge:
#    name: angle gauge
#    kind: angle gauge        # angle gauge, paint marks, bar, ratchet
#    error: 3°
#  bar:
#    name: breaker bar
#    kind: bar

hours:
#  evenings: Tuesday and Thursday, 2 h
#  weekend: Saturday, 6 h
"""

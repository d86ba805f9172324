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
#paper: a4               # the paper in your printer: a4 or letter

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

other_tools:                 # what else you have for such a job; what is not here is listed as lacking
#  - valve spring compressor
#  - leak-down tester

# altitude: 500 m             # how high above the sea you work: cranking pressure falls with it

shims_in_stock:
#  2.30 mm: 1                 # thickness as you measured it, and how many; not the number etched on them
#  2.35 mm: 2

# shim_price: 4.80 EUR         # what any shim costs
shim_prices:
#  2.60 mm: 6.20 EUR          # those that cost something else

suppliers:                   # who sells what: `gudgeon buy` finds out from whom it costs least
#  north:
#    name: North Parts
#    shipping: 6.90 EUR       # for one order; 0 EUR where you fetch it
#    free_from: 150 EUR       # goods of this value are sent free
#    least_order: 20 EUR
#    lead: 2-4 days           # from the order until it is there; also: 1 week, same day
#    sells:                   # by the key of the part in your data sheet
#      head_gasket: 38.50 EUR
#      exhaust_nuts: {price: 12.40 EUR, pack: 10, article: copper, lead: 5 days}

hours:                       # when you are at the engine; by these `gudgeon plan` plans
#  week:
#    Tuesday: 19:00-21:00
#    Saturday: [10:00-12:00, 13:00-17:00]
#  second_person:            # when somebody else can be there too, to lift the head or watch the first start
#    week:
#      Saturday: 14:00-17:00
#  days_off: [2026-12-24, 2026-12-26 to 2027-01-02]
#  late: 21:00               # after it no torque and no timing work
#  pace: 1.0                 # 1.3: what is planned with 60 min takes you 78 min

rates:
#  own_hour: 20 EUR           # what an hour of yours is worth to you; it is told apart from the money
#  machine_shop_hour: 60 EUR  # what the shop takes for an hour: a cost may then be written as `2 h`
"""

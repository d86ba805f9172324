"""A commented blank sheet for a given layout: what must be written stands open, the rest behind `#`."""

from typing import get_args

from gudgeon.sheet.engine import Feature

_HEAD = """\
# yaml-language-server: $schema=data-sheet.schema.json
#
# Your data sheet: your own transcription of what the manual says of this engine.
# - Write figures as the manual prints them, alone or as a pair: `40 N·m (29.5 lbf·ft)`.
# - Every figure needs a source: its own (`{{value: 82.00 mm, source: manual p. 12}}`) or the one
#   of the part it stands in (`source: manual p. 12`).
# - What you do not know stays out: it is a gap, it is listed, and it is never filled.
# - What the engine does not have is said once, in `does_not_have`; nothing then asks for it.
# - A line that begins with `#` is an example and not read. Take the `#` away and write your own figure.
# - `gudgeon sheet check FILE` tells what is wrong and what is missing.
gudgeon: data sheet 1

engine:
  name:                     # as you call it
  codes: []                 # as stamped on it, like [AB12-C]
  code_is_read:             # where on the engine, like: pad below the distributor
  # years: 1998–2003
  # variant: with oil cooler
  # check_with_engine: [casting number on the block, number of head bolts]
  layout: {layout}
  cylinders: {cylinders}
  numbered_from: {numbered_from}
{firing}  # It may lack: {features}.
  does_not_have: [{lacks}]

sources:
  manual:
    title:                  # title of the manual
    edition:                # edition, year, number
"""

_CYLINDER = """
# Bore, stroke and the volumes that make the compression ratio.
cylinder:
#   bore: 82.00 mm
#   stroke: 80.00 mm
#   rod_length: 130.0 mm
#   displacement: 1690 cm³
#   compression_ratio: 9.5:1
#   chamber_volume: 42.0 cm³          # poured from a burette
#   chamber_mouth_area: 50.0 cm²      # opening of the chamber in the head face, not the bore
#   crown_volume: 3.0 cm³             # of the piston: a dish is +, a dome −
#   piston_height: -0.10 mm           # at top dead center: − below the deck, + proud
#   gasket_bore: 83.0 mm
#   gasket_thickness: 1.20 mm         # crushed
#   squish_pad_recess: 0.00 mm        # squish pad above the head face; 0 is flush
#   least_squish: min 0.80 mm
#   most_ratio: max 10.0:1
#   measured_as: {bore: cylinder_bore}  # also chamber_volume, crown_volume, piston_height: readings come first
#   gaskets:                          # those that can be had: thickness tightened, mark, cuts they are meant for
#     standard: {thickness: 1.20 mm, mark: one hole, for_cut: max 0.10 mm}
#     repair: {thickness: 1.40 mm, mark: two holes, for_cut: 0.10–0.30 mm}
#   source: manual p. 12

head:
#   measured_as: head_height          # the characteristic below that holds its height
#   height: 120.00 mm ± 0.05 mm
#   least_height: min 119.70 mm
#   most_off: max 0.30 mm             # in all, over its life
#   taken_off_before: 0.00 mm         # else worked out from the height as found
#   face: head_gasket                 # its gasket face, below: flatness as found says what cleans it up
#   straighten_above: 0.10 mm
#   finish: max 1.6 µm
#   source: manual p. 14
"""

_CHARACTERISTICS = """
# What is measured and judged. `new_range` is what a new part has, `wear_limit` where a part is used up,
# `required` what must be so as assembled. They are three different things.
# method: size | gap | straightedge lines | heights | scanned face | run-out | difference | out-of-round | taper
# Where one figure does not say it, `limits` takes shapes. `stands_for` is wear limit unless told: new range, required.
characteristics:
#   cylinder_bore:
#     name: Cylinder bore
#     part: block
#     method: size
#     places: {{cylinder: [{numbers}], height: [top, middle, bottom], direction: [across, along]}}
#     material: gray iron             # for its size at 20 °C
#     at_heights: {{top: 10 mm, middle: 60 mm, bottom: 110 mm}}
#     new_range: 82.00–82.02 mm
#     wear_limit: max 82.10 mm
#     source: manual p. 20
#   bore_taper:
#     name: Bore taper
#     part: block
#     method: taper
#     of: [cylinder_bore]
#     limits:
#       - {{shape: per unit of span, limit: max 0.05 mm, per: 100 mm}}
#     source: manual p. 20
#   head_face:
#     name: Head gasket face, flatness
#     part: cylinder head
#     method: straightedge lines
#     places: [along one side, along the other side, across one end, across the other end, diagonal 1, diagonal 2]
#     wear_limit: max 0.05 mm (0.002 in)
#     source: manual p. 15
#   head_height:
#     name: Height of the head
#     part: cylinder head
#     places: [timing end, flywheel end]
#     new_range: 119.95–120.05 mm
#     wear_limit: min 119.70 mm
#     source: manual p. 14
#   deck_face:
#     name: Deck, flatness
#     part: block
#     method: straightedge lines
#     face: deck                      # its lines are the places
#     limits:
#       - {{shape: whole face and per length, total: max 0.10 mm, limit: max 0.05 mm, over: 150 mm}}
#       - {{shape: by direction, lengthwise: max 0.05 mm, crosswise: max 0.03 mm, overall: max 0.10 mm}}
#       - {{shape: two faces together, with: head_face, limit: max 0.08 mm}}
#     source: manual p. 20
#   piston_skirt:
#     name: Piston skirt
#     part: pistons
#     places: {{cylinder: [{numbers}]}}
#     new_range: 81.94–81.97 mm
#     source: manual p. 21
#   piston_clearance:
#     name: Piston-to-bore clearance
#     part: pistons
#     method: difference
#     of: [cylinder_bore, piston_skirt]
#     limits:
#       - {{shape: matched pairs, clearance: 0.04–0.06 mm}}
#     source: manual p. 21
#   piston_mass:
#     name: Mass of piston and pin
#     part: pistons
#     quantity: mass
#     places: {{cylinder: [{numbers}]}}
#     limits:
#       - {{shape: difference between places, limit: max 4 g}}   # within: cylinder compares inside each
#     source: manual p. 21
#   main_bore: {{name: Main bore without shells, part: block, places: {{bearing: [1, 2, 3]}}, source: manual p. 23}}
#   main_journal: {{name: Main journal, part: crankshaft, places: {{bearing: [1, 2, 3]}}, source: manual p. 23}}
#   rod_mass: {{name: Rod, part: rods, quantity: mass, places: {{cylinder: [{numbers}]}}, source: manual p. 21}}
#   top_ring_gap:
#     name: End gap of the top ring
#     part: piston rings
#     method: gap
#     places: {{cylinder: [{numbers}]}}
#     new_range: 0.25–0.40 mm
#     source: manual p. 21
#   compression:
#     name: Compression
#     part: cylinders
#     quantity: pressure_gauge
#     places: {{cylinder: [{numbers}]}}
#     wear_limit: min 9.0 bar (131 psi)
#     limits:
#       - {{shape: difference between cylinders, percent_of_highest: min 75 %}}   # or limit, percent_below_mean
#     source: manual p. 22
#   compression_wet:
#     name: Compression with oil
#     part: cylinders
#     quantity: pressure_gauge
#     places: {{cylinder: [{numbers}]}}
#     source: manual p. 22
#   leak_down:
#     name: Leak-down
#     part: cylinders
#     quantity: pressure_gauge
#     places: {{cylinder: [{numbers}]}}
#     source: manual p. 22
#   oil_pressure_idle: {{name: Oil pressure at idle, part: oil pump, quantity: pressure_gauge, source: manual p. 24}}
{valves}"""

_VALVES = """\
#   valve_clearance_intake:
#     name: Valve clearance, intake, cold
#     part: valve gear
#     method: gap
#     places: {{valve: [{numbers}]}}
#     required: 0.15–0.25 mm
#     source: manual p. 30
"""

_SHIMS = """\
#   shim_intake:
#     name: Shim, intake
#     part: shims
#     places: {{valve: [{numbers}]}}
#     how: micrometer, in the middle
#     source: manual p. 31
"""

_FACES = """
# Faces that must be flat: from the same zero as the bolts, seen from the same side.
faces:
#   deck:
#     name: Head gasket face of the block
#     viewed_from: above
#     outline: [{x: -50 mm, y: -60 mm}, {x: 400 mm, y: -60 mm}, {x: 400 mm, y: 60 mm}, {x: -50 mm, y: 60 mm}]
#     openings: [{x: 0 mm, y: 0 mm, diameter: 83.0 mm}]
#     bolts_of: head
#     lines:                          # along: lengthwise, crosswise, diagonal; both ends, or the length
#       along one side: {along: lengthwise, from: {x: -40 mm, y: 50 mm}, to: {x: 390 mm, y: 50 mm}}
#       across one end: {along: crosswise, length: 100 mm}
#     points:                         # for heights over a plate
#       a: {x: -40 mm, y: 50 mm}
#     source: manual p. 20
#   head_gasket: {name: Head gasket face of the head, viewed_from: above, bolts_of: head, source: manual p. 20}
"""

_JOINTS = """
# Bolted joints. Stages, one a line: hand-run, draw down, torque, turn, loosen, verify, stretch, wait.
# Below a stage, where it needs it: only, order (normal, reversed, free), family, repeat, for_bolts (new, used), note.
# Fasteners may be bolts, studs or nuts; `bolts` numbers their places.
# role: cylinder head, camshaft caps, camshaft sprockets, belt tensioner, crank pulley, valve cover, intake manifold,
#       exhaust manifold, water pump, thermostat housing, seal carrier, timing cover, engine mount, spark plugs,
#       oil drain plug, oil pan, flywheel, rod caps, main caps
joints:
#   head:
#     name: Cylinder head bolts
#     role: cylinder head
#     fastener:
#       thread: M10x1.25
#       strength_class: "10.9"
#       hole_kind: blind
#       free_length: 100.0 mm         # from under the head to the end
#       grip: 72.0 mm                 # washer, head and gasket: from under its head to the block
#       hole_depth: 34.0 mm           # below the face of the block
#       least_below: 2.0 mm           # what stays free below its end
#     bolts: 4                        # how many; or each with its place: {1: {x: 0 mm, y: 0 mm, where: rear left}}
#     numbered_from: flywheel end
#     viewed_from: above
#     order: [1, 3, 2, 4]             # or free
#     thread_state: engine oil on threads and under the heads
#     program:
#       - hand-run
#       - torque: 20 N·m
#       - torque: 40 N·m (29.5 lbf·ft)
#       - turn: 90° ± 5°
#     reuse: {rule: always new}       # always new, free length, least diameter, as found good, not stated
#     doubts:                         # by the kind of doubt: go on, slacken and start again, renew
#       noise: slacken and start again
#       soft: renew
#       angle lost: {rule: renew, from_stage: 4, note: and the gasket}
#       interrupted: go on            # also: slipped, other
#     doubt: what the manual says of any other bolt in doubt, in its words
#     due_before: crank               # crank, fire, drive, handover
#     source: manual p. 16
"""

_DRIVES = {
    "belt": """
# Centers from the crankshaft, x to the right and y upward as seen from `viewed_from`; measured ones do. 0° is up, 90°
# to the right. A wheel `on` a head comes nearer when that head is cut; `back` runs on the back of the belt.
drive:
#   kind: timing belt
#   source: manual p. 40
#   viewed_from: timing end
#   turns: clockwise                  # or counterclockwise, as it is seen
#   pitch: 9.525 mm
#   belt_teeth: 115
#   wheels:
#     crank: {name: crankshaft sprocket, teeth: 20, turns: crankshaft, x: 0 mm, y: 0 mm, mark: notch, mark_at: 180°}
#     roller: {name: tensioner roller, diameter: 60 mm, back: yes, x: -34.0 mm, y: 200 mm}
#     cam: {name: camshaft sprocket, teeth: 40, turns: camshaft, on: head, x: 0 mm, y: 398.9 mm, mark: dot, mark_at: 0°}
#   heads: {head: 0°}                 # where each head lies from the crankshaft
#   path: [crank, roller, cam]        # as the belt runs, begun at the crankshaft
#   rise: 1.5 mm                      # from the back of the belt to its pitch line
#   tensioner: roller
#   tensioner_pin: pin through the tensioner plate
#   tensioner_takes_up: 3 mm
#   teeth_between_marks:              # from mark to mark, as the belt runs
#     - {from: cam, to: crank, teeth: 57}
#     - {from: crank, to: cam, teeth: 58}
""",
    "chain": """
# Centers from the crankshaft, x to the right and y upward as seen from `viewed_from`; measured ones do. 0° is up, 90°
# to the right. A sprocket `on` a head comes nearer when that head is cut.
drive:
#   kind: timing chain
#   source: manual p. 40
#   viewed_from: timing end
#   turns: clockwise                  # or counterclockwise, as it is seen
#   pitch: 9.525 mm
#   belt_teeth: 112                   # links of the chain
#   wheels:
#     crank: {name: crankshaft sprocket, teeth: 21, turns: crankshaft, x: 0 mm, y: 0 mm, mark: dot, mark_at: 180°}
#     cam: {name: camshaft sprocket, teeth: 42, turns: camshaft, on: head, x: 0 mm, y: 382.1 mm, mark: dot, mark_at: 0°}
#   heads: {head: 0°}                 # where each head lies from the crankshaft
#   path: [crank, cam]                # as the chain runs, begun at the crankshaft
#   teeth_between_marks:              # from mark to mark, as the chain runs
#     - {from: cam, to: crank, teeth: 56}
#     - {from: crank, to: cam, teeth: 56}
""",
    "gears": """
drive:
#   kind: timing gears
#   wheels:
#     crank: {name: crankshaft gear, teeth: 24, turns: crankshaft, mark: dot}
#     camshaft: {name: camshaft gear, teeth: 48, turns: camshaft, mark: dot against dot}
#   source: manual p. 40
""",
}

_GEAR = """
# `camshaft: in the head` or `in the block` says what a cut does to lifters; `lifter_preload`, `rocker_ratio` how much.
valve_gear:
#   adjustment: {adjustment}
#   exhaust:                          # intake in the same way; `piston_margin` is square to the face of the valve
#     opens: 46°
#     closes: 10°
#     lift: 8.60 mm
#     angle: 20°                      # between stem and cylinder
#     piston_margin: 2.20 mm
#     least_piston_margin: min 1.60 mm
#   source: manual p. 30
"""

_SET_BY = {
    "shims": """\
#   set_at: cold
#   intake: {clearance: valve_clearance_intake, shim: shim_intake}
#   shim_thickness: 2.00–2.80 mm      # from the thinnest to the thickest that is made
#   shim_step: 0.05 mm
""",
    "screws": """\
#   set_at: cold
#   intake: {clearance: valve_clearance_intake}
""",
    "hydraulic": "",
}

_FITS = """
# Parts that are chosen to fit: bores and journals are characteristics, place by place in the same order.
fits:
#   bearings:
#     main:
#       name: Main bearings
#       bore: main_bore               # measured without shells, caps tightened
#       journal: main_journal
#       clearance: 0.020–0.050 mm
#       worn_clearance: max 0.080 mm
#       grades: {red: {thickness: 1.490 mm}, blue: {thickness: 1.500 mm, mark: "2"}}
#       codes: {A 1: red, A 2: blue}  # stamped on the engine: bore first, then journal
#       mixed_halves: no              # yes where the maker lets two grades share a place
#       source: manual p. 23
#   ring_gaps: [top_ring_gap]         # characteristics; ring_bore is that of the bores
#   ring_bore: cylinder_bore
#   weights: {pistons: piston_mass, rods: rod_mass, most_difference: max 4 g, source: manual p. 21}
"""

_AFTER = """
after_start:
#   cranking_pressure: compression    # characteristics that hold what was read
#   wet: compression_wet              # the same with oil in the cylinder
#   cranking_speed: 250 r/min
#   leak_down: leak_down              # what the tester shows behind its orifice
#   leak_down_supply: 5.5 bar (80 psi)
#   orifice: 1.0 mm (0.040 in)        # the hole in your tester
#   oil_pressure:
#     - {{at: 850 r/min, least: min 1.0 bar, temperature: 90 °C, measured_as: oil_pressure_idle}}
{mix}#   look_again:
#     - {{what: valve clearances, when: after 1000 km, basis: manual p. 20}}
#   source: manual p. 24
"""

_MIX = """\
#   coolant:
#     glycol: ethylene
#     guards_to: -30 °C
#     cap: 1.1 bar
#     bleed: [heater on, bleed screw open until no bubbles come]
"""

_REST = """
fluids:
#   engine_oil: {{name: SAE 10W-40, capacity: 4.0 L, source: manual p. 3}}
{coolant}
sealants:
#   rear_cover: {{name: silicone sealant, where: rear cover, open_time: 10 min, cure: 24 h, source: manual p. 31}}

waits:
#   bleed_down:
#     - {{from: 15 °C, time: 10 min, source: manual p. 33}}

parts:
#   head_gasket: {{name: head gasket, one_time: yes, source: manual p. 16}}

cautions:
#   - {{text: Hot coolant is under pressure. Let it cool before the cap is opened., at: [coolant], basis: manual p. 2}}
"""

_ADJUSTERS = {"shims": "shims", "screws": "screw adjusters", "hydraulic": "hydraulic lifters"}
_DRIVE_FEATURES = {"belt": "timing belt", "chain": "timing chain", "gears": "timing gears"}


def blank_sheet(*, layout: str, cylinders: int, drive: str, valves: str, cooling: str) -> str:
    """The text of a blank sheet; what the layout does not have is already said in it."""
    lacks = [feature for name, feature in _DRIVE_FEATURES.items() if name != drive]
    lacks += [feature for name, feature in _ADJUSTERS.items() if name != valves]
    lacks += ["liquid cooling"] if cooling == "air" else []
    numbers = ", ".join(str(number) for number in range(1, cylinders + 1))
    head = _HEAD.format(
        layout=layout,
        cylinders=cylinders,
        numbered_from="timing end" if cylinders > 1 else "only one cylinder",
        firing="  # firing_order: [" + numbers + "]   # as the manual prints it\n" if cylinders > 1 else "",
        lacks=", ".join(lacks),
        features=", ".join(get_args(Feature)),
    )
    valve_lines = "" if valves == "hydraulic" else _VALVES.format(numbers=numbers)
    valve_lines += _SHIMS.format(numbers=numbers) if valves == "shims" else ""
    coolant = (
        ""
        if cooling == "air"
        else "#   coolant: {name: ethylene glycol half and half, capacity: 6.0 L, source: manual p. 3}\n"
    )
    parts = (
        head,
        _CYLINDER,
        _CHARACTERISTICS.format(numbers=numbers, valves=valve_lines),
        _FACES,
        _JOINTS,
        _DRIVES[drive],
        _GEAR.format(adjustment=_ADJUSTERS[valves]) + _SET_BY[valves],
        _FITS,
        _AFTER.format(mix="" if cooling == "air" else _MIX),
        _REST.format(coolant=coolant),
    )
    return "".join(parts)

"""A small sheet for tests: one cylinder, four head nuts, gears, screws. All figures invented."""

SMALL = """\
gudgeon: data sheet 1
invented: yes
engine:
  name: Little one
  codes: [L1-A]
  code_is_read: pad beside the filler
  layout: single
  cylinders: 1
  numbered_from: only one cylinder
  does_not_have: [timing belt, timing chain, shims, hydraulic lifters, liquid cooling, camshaft caps, overhead cam]
sources:
  manual: {title: Invented manual, edition: 1st}
cylinder:
  # the bore as printed
  bore: 70.00 mm
  stroke: {value: 66.0 mm, source: manual p. 2}
  source: manual p. 3
characteristics:
  head_face:
    name: Head face, flatness
    part: cylinder head
    method: straightedge lines
    places: [along, across]
    wear_limit: max 0.05 mm (0.002 in)
    source: manual p. 4
  journal:
    name: Crank journal
    part: crankshaft
    places: [A, B]
    new_range: 29.980–29.993 mm
    source: manual p. 5
joints:
  head:
    name: Head nuts
    role: cylinder head
    fastener: {thread: M8x1.25, strength_class: "8.8"}
    bolts: 4
    order: [1, 3, 2, 4]
    thread_state: engine oil on the threads
    program:
      - hand-run
      - torque: 10 N·m
      - torque: 24 N·m (17.7 lbf·ft)
      - turn: 90°
    total_turn: 90°
    source: manual p. 9
"""

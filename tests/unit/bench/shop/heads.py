"""A small invented engine of two cylinders whose head went to the shop, or goes there; figures easy to work by hand."""

from pathlib import Path

from tests.unit.bench.benches import Job, make_job

# The bore area is 5 000 mm² (bore 79.7885 mm), stroke 90 mm: 450 cm³ swept. Chamber 45 cm³, gasket 1.0 mm on the same
# bore: 5 cm³, flat crown, piston flush: clearance 50 cm³, ratio 10. The mouth of a chamber is 5 000 mm² too.
SHEET = """\
gudgeon: data sheet 1
invented: yes
engine:
  name: Two-up (invented)
  codes: [L1-A]
  code_is_read: pad beside the filler
  layout: inline
  cylinders: 2
  numbered_from: timing end
  does_not_have: [timing belt, timing gears, screw adjusters, hydraulic lifters]
sources:
  manual: {title: Invented manual, edition: 1st}
cylinder:
  source: manual p. 3
  bore: 79.7885 mm
  stroke: 90.000 mm
  chamber_volume: 45.000 cm³
  chamber_mouth_area: 50.000 cm²
  crown_volume: 0.000 cm³
  piston_height: 0.000 mm
  gasket_bore: 79.7885 mm
  gasket_thickness: 1.000 mm
  squish_pad_recess: 0.500 mm
  least_squish: min 0.90 mm
head:
  source: manual p. 8
  measured_as: head_height
  face: gasket_face
  cam_tunnel: cam_clearance
  height: 100.00 mm ± 0.02 mm
  least_height: min 99.60 mm
  material: aluminum
  datum: cover face
  finish: max 0.8 µm
  stays: [guides and seats as they are]
valve_gear: {adjustment: shims, camshaft: in the head, source: manual p. 9}
faces:
  gasket_face:
    name: Gasket face of the head
    bolts_of: head
    source: manual p. 8
    lines:
      along: {along: lengthwise, length: 300 mm}
      across: {along: crosswise, length: 120 mm}
  deck:
    name: Top of the block
    bolts_of: head
    source: manual p. 10
    lines:
      along: {along: lengthwise, length: 300 mm}
characteristics:
  flatness:
    name: Flatness of the head
    part: Cylinder head
    method: straightedge lines
    face: gasket_face
    wear_limit: max 0.05 mm (0.002 in)
    source: manual p. 8
  head_height:
    name: Head height
    part: Cylinder head
    places: [timing end intake, timing end exhaust, flywheel end intake, flywheel end exhaust]
    wear_limit: min 99.60 mm
    source: manual p. 8
  cam_clearance:
    name: Camshaft oil clearance
    part: Camshafts
    method: gap
    places: [journal 1, journal 2, journal 3]
    wear_limit: max 0.10 mm (0.004 in)
    source: manual p. 9
  deck_flatness:
    name: Flatness of the block
    part: Cylinder block
    method: straightedge lines
    face: deck
    wear_limit: max 0.05 mm (0.002 in)
    source: manual p. 10
joints:
  head:
    name: Head bolts
    role: cylinder head
    fastener: {thread: M8x1.25, strength_class: "8.8"}
    bolts: 4
    order: [1, 3, 2, 4]
    thread_state: engine oil on the threads
    program:
      - torque: 24 N·m (17.7 lbf·ft)
    source: manual p. 9
"""

KIT = """\
gudgeon: kit 1
gauges:
  feelers: {name: feeler blades, kind: feeler blades, error: 0.005 mm}
  straightedge: {name: straightedge 500 mm, kind: straightedge, length: 500 mm, error: 0.004 mm}
  micrometer: {name: micrometer 75–100, kind: outside micrometer, range: 75–100 mm, step: 0.001 mm, error: 0.004 mm}
  rough: {name: roughness gauge of the shop, kind: other, error: 0.05 µm}
  strip: {name: plastic strip, kind: plastic gauging strip, error: 0.010 mm}
"""

CORNERS = ("timing end intake", "timing end exhaust", "flywheel end intake", "flywheel end exhaust")


def head_job(folder: Path, *, sheet: str = SHEET, kit: str = KIT) -> Job:
    """A job with the code read."""
    job = make_job(folder, sheet=sheet, kit=kit)
    job.read_code()
    return job


def blades(
    job: Job, place: str, low: str, high: str, *, condition: str = "as found", item: str = "flatness"
) -> None:
    """A gap between the thickest blade that enters and the thinnest that does not."""
    job.record(
        "reading",
        item=item,
        place=place,
        low=f"{low} mm",
        high=f"{high} mm",
        instrument="feelers",
        condition=condition,
    )


def heights(job: Job, *read: str, condition: str = "as found") -> None:
    """The height at the four corners, or at as many as are given."""
    for place, height in zip(CORNERS, read, strict=False):
        job.record(
            "reading", item="head_height", place=place, value=f"{height} mm", instrument="micrometer",
            condition=condition,
        )  # fmt: skip

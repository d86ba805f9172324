"""What a reading is uncertain of: gauge, step, repeats, temperature, blades; and what cancels in a difference.

Every figure is worked out by hand (HAND) from permitted errors that the kit of the test states: u = a/√3 of a permitted
error ± a, d/√12 of a step d (JCGM 100:2008, 4.3.7 and F.2.2.1); sizes by L·(1 + αg·Δg)/(1 + αp·Δp).
"""

import math
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.budget import signed, standard_uncertainty_of
from gudgeon.bench.gauge_error import stacked
from gudgeon.bench.measured import Measured, measured, odd
from gudgeon.bench.scans import scanned
from gudgeon.kit.load import parse_kit
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.sheet.sheets import SMALL

GAUGES = """\
gauges:
  feelers: {name: feeler blades, kind: feeler blades, error: 0.005 mm, blades: [0.03 mm, 0.04 mm, 0.05 mm, 0.10 mm]}
  edge: {name: straightedge, kind: straightedge, length: 500 mm, error: 0.01 mm}
  micrometer: {name: micrometer, kind: outside micrometer, range: 50–75 mm, step: 0.01 mm, error: 0.004 mm}
  bore_gauge: {name: bore gauge, kind: bore gauge, range: 50–160 mm, step: 0.002 mm, error: 0.003 mm, zeroed_in: micrometer}
  ring_gauge: {name: gauge set in a ring, kind: bore gauge, range: 50–160 mm, step: 0.002 mm, error: 0.003 mm}
  bare: {name: bare bore gauge, kind: bore gauge, range: 50–160 mm, step: 0.002 mm}
  certified: {name: micrometer with a paper, kind: outside micrometer, range: 50–75 mm, error: 0.002 mm, stated_as: U (k = 2)}
  compression: {name: compression gauge, kind: compression gauge, range: 0–2000 kPa, step: 20 kPa, error: 5 %}
  clock: {name: dial gauge, kind: dial gauge, range: 0–10 mm, step: 0.01 mm, error: 0.012 mm}
  thermometer: {name: thermometer, kind: thermometer, error: 1 K}
"""
SHEET = SMALL.replace(
    "joints:\n",
    """\
  bore:
    name: Cylinder bore
    part: block
    material: gray iron
    places: {cylinder: ["1", "2"], height: [top, bottom], direction: [across, along]}
    new_range: 70.00–70.02 mm
    source: manual p. 3
  piston:
    name: Piston
    part: piston
    places: {cylinder: ["1", "2"]}
    new_range: 69.94–69.96 mm
    source: manual p. 3
  liner:
    name: Liner
    part: liner
    material: aluminum 356
    places: [top, bottom]
    new_range: 70.00–70.02 mm
    source: manual p. 3
  clearance: {name: Clearance, part: piston, method: difference, of: [bore, piston], required: 0.03–0.07 mm, source: manual p. 3}
  round: {name: Out of round, part: block, method: out-of-round, of: [bore], required: max 0.02 mm, source: manual p. 3}
  pressure: {name: Compression, part: block, quantity: pressure_gauge, places: ["1"], required: min 900 kPa, source: manual p. 4}
  deck: {name: Deck, part: block, method: straightedge lines, places: [along, across], wear_limit: max 0.10 mm, source: manual p. 4}
  end_float: {name: End float, part: crankshaft, method: gap, wear_limit: max 0.30 mm, source: manual p. 4}
joints:
""",
)
A = math.sqrt(3)
STEP = 0.01 / math.sqrt(12)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    kit = KIT[: KIT.index("gauges:")] + GAUGES + KIT[KIT.index("turning:") :]
    made = make_job(tmp_path, sheet=SHEET, kit=kit)
    made.read_code()
    return made


def read(job: Job, item: str, place: str, value: str, **more: Any) -> None:
    job.record("reading", item=item, place=place, value=value, **more)


def found(job: Job, item: str) -> dict[str, Measured]:
    return measured(job.bench(), item)


def test_one_reading_has_the_error_of_its_gauge_and_its_step(job: Job) -> None:
    read(job, "piston", "1", "69.95 mm", instrument="micrometer")
    one = found(job, "piston")["cylinder 1"]
    assert one.u == pytest.approx(math.hypot(0.004 / A, STEP), rel=1e-12)
    assert (one.low, one.high, one.u_known, one.scatter, one.at_20) == (69.95, 69.95, True, None, "")


def test_the_uncertainty_of_a_certificate_is_twice_the_standard_one(job: Job) -> None:
    read(job, "piston", "1", "69.95 mm", instrument="certified")
    assert found(job, "piston")["cylinder 1"].u == pytest.approx(0.001, rel=1e-12)


def test_repeats_have_a_mean_a_scatter_and_its_degrees_of_freedom(job: Job) -> None:
    job.record(
        "reading",
        item="piston",
        place="1",
        repeats=["69.95 mm", "69.96 mm", "69.94 mm"],
        instrument="micrometer",
    )
    one = found(job, "piston")["cylinder 1"]
    assert (one.low, one.high) == (69.95, 69.95)
    assert one.scatter is not None
    assert one.scatter[0] == pytest.approx(0.01, rel=1e-9)  # HAND: √((0 + 0.01² + 0.01²) / 2)
    assert one.scatter[1] == 3
    assert one.u == pytest.approx(math.sqrt(0.004**2 / 3 + STEP**2 + 0.01**2 / 3), rel=1e-9)
    assert [part.dof for part in one.components if "repeats" in part.name] == [2]


def test_the_micrometer_that_zeroes_the_bore_gauge_cancels_in_the_clearance(job: Job) -> None:
    """What is left: error and step of the bore gauge, step of the micrometer."""
    for place in ("1 top across", "1 top along"):
        read(
            job,
            "bore",
            place,
            "70.00 mm",
            instrument="bore_gauge",
            part_temperature="20 °C",
            gauge_as_part=True,
        )
    read(job, "piston", "1", "69.95 mm", instrument="micrometer")
    temperature = 70.0 * 0.1e-6 / A  # gray iron 11.4 less steel 11.5, ± 1 K of the thermometer
    own = math.sqrt(0.003**2 / 3 + 0.002**2 / 12 + STEP**2 + temperature**2)
    assert found(job, "clearance")["cylinder 1"].u == pytest.approx(own, rel=1e-6)
    alone = found(job, "bore")["cylinder 1, top, across"].u
    assert alone == pytest.approx(
        math.sqrt(0.003**2 / 3 + 0.004**2 / 3 + 0.002**2 / 12 + temperature**2), rel=1e-6
    )


def test_a_bore_gauge_set_in_something_else_leaves_the_micrometer_in(job: Job) -> None:
    read(
        job, "liner", "top", "70.00 mm", instrument="ring_gauge", part_temperature="20 °C", gauge_as_part=True
    )
    read(
        job,
        "bore",
        "1 top across",
        "70.00 mm",
        instrument="ring_gauge",
        part_temperature="20 °C",
        gauge_as_part=True,
    )
    read(job, "piston", "1", "69.95 mm", instrument="micrometer")
    temperature = 70.0 * 0.1e-6 / A
    expected = math.sqrt(0.003**2 / 3 + 0.002**2 / 12 + 0.004**2 / 3 + STEP**2 + temperature**2)
    assert found(job, "clearance")["cylinder 1"].u == pytest.approx(expected, rel=1e-6)


def test_a_gauge_that_compares_leaves_only_its_step_in_out_of_round(job: Job) -> None:
    """One day, one temperature, one bore: what the temperature makes of both is the same."""
    read(
        job,
        "bore",
        "1 top across",
        "70.010 mm",
        instrument="bore_gauge",
        part_temperature="24 °C",
        gauge_as_part=True,
    )
    read(
        job,
        "bore",
        "1 top along",
        "70.000 mm",
        instrument="bore_gauge",
        part_temperature="24 °C",
        gauge_as_part=True,
    )
    one = found(job, "round")["cylinder 1, top"]
    assert one.u == pytest.approx(math.sqrt(2) * 0.002 / math.sqrt(12), rel=1e-4)
    assert one.high == pytest.approx(0.01, abs=1e-6)


def test_of_two_readings_of_one_micrometer_half_of_its_variance_cancels(job: Job) -> None:
    read(
        job,
        "bore",
        "1 top across",
        "70.01 mm",
        instrument="micrometer",
        part_temperature="20 °C",
        gauge_as_part=True,
    )
    read(
        job,
        "bore",
        "1 top along",
        "70.00 mm",
        instrument="micrometer",
        part_temperature="20 °C",
        gauge_as_part=True,
    )
    expected = math.sqrt(0.004**2 / 3 + 2 * STEP**2)
    assert found(job, "round")["cylinder 1, top"].u == pytest.approx(expected, rel=1e-5)


@pytest.mark.parametrize(
    ("said", "size"),
    [
        ({"part_temperature": "30 °C", "gauge_temperature": "20 °C"}, 70.0 / (1 + 21.5e-6 * 10)),
        (
            {"part_temperature": "30 °C", "gauge_as_part": True},
            70.0 * (1 + 11.5e-6 * 10) / (1 + 21.5e-6 * 10),
        ),
        (
            {"part_temperature": "86 °F", "gauge_as_part": True},
            70.0 * (1 + 11.5e-6 * 10) / (1 + 21.5e-6 * 10),
        ),
        ({"part_temperature": "5 °C", "gauge_temperature": "20 °C"}, 70.0 / (1 - 21.5e-6 * 15)),
    ],
)
def test_a_size_is_brought_to_20_degrees(job: Job, said: dict[str, Any], size: float) -> None:
    read(job, "liner", "top", "70.00 mm", instrument="micrometer", **said)
    one = found(job, "liner")["top"]
    assert one.low == pytest.approx(size, abs=1e-9)
    assert one.text == "70.00 mm (2.7559 in)"
    assert one.at_20.startswith(f"{size:.3f} mm (")


def test_what_the_temperature_leaves_uncertain_is_in_the_budget(job: Job) -> None:
    """Part and gauge alike at 30 °C ± 1 K: only the difference of the expansions counts, and their own errors."""
    read(
        job, "liner", "top", "70.00 mm", instrument="micrometer", part_temperature="30 °C", gauge_as_part=True
    )
    warm = math.sqrt((70 * 10.0e-6 * 1) ** 2 + (70 * 10 * 0.5e-6) ** 2 + (70 * 10 * 1.0e-6) ** 2) / A
    expected = math.sqrt(0.004**2 / 3 + STEP**2 + warm**2)
    assert found(job, "liner")["top"].u == pytest.approx(expected, rel=1e-3)


def test_where_no_temperature_was_noted_a_garage_is_counted_with(job: Job) -> None:
    read(job, "liner", "top", "70.00 mm", instrument="micrometer")
    one = found(job, "liner")["top"]
    assert (one.low, one.at_20) == (70.0, "")
    assert one.u == pytest.approx(math.sqrt(0.004**2 / 3 + STEP**2 + (70 * 10e-6 * 10) ** 2 / 3), rel=1e-3)
    assert one.notes == ("temperature not noted: 10 to 30 °C is counted with (common practice, no source)",)


def test_a_warm_part_of_unknown_metal_is_not_corrected_and_not_trusted_either(job: Job) -> None:
    read(
        job,
        "piston",
        "1",
        "69.95 mm",
        instrument="micrometer",
        part_temperature="60 °C",
        gauge_as_part=True,
        sure=True,
    )
    one = found(job, "piston")["cylinder 1"]
    assert one.low == 69.95
    most = 69.95 * (27e-6 - 11.5e-6) * 41  # 40 K above, and 1 K of the thermometer
    assert one.u == pytest.approx(math.sqrt(0.004**2 / 3 + STEP**2 + most**2 / 3), rel=1e-9)
    assert one.notes == (
        "the sheet does not say what it is made of, so it is not corrected to 20 °C; what any metal of an engine could "
        "make of the temperature is counted",
    )


def test_a_bore_gauge_that_nobody_says_what_zeroes_it_is_not_known(job: Job) -> None:
    read(job, "bore", "1 top across", "70.00 mm", instrument="bare")
    one = found(job, "bore")["cylinder 1, top, across"]
    assert not one.u_known
    assert one.notes[0] == "the kit does not say what bare bore gauge is zeroed in, nor how far it is off"


def test_a_pressure_is_off_by_a_share_of_the_reading(job: Job) -> None:
    read(job, "pressure", "1", "1000 kPa", instrument="compression")
    assert found(job, "pressure")["1"].u == pytest.approx(math.hypot(50 / A, 20 / math.sqrt(12)), rel=1e-9)


def test_blades_under_a_straightedge_have_the_errors_of_both(job: Job) -> None:
    job.record("reading", item="deck", place="along", low="0.04 mm", high="0.05 mm", instrument="feelers")
    one = found(job, "deck")["along"]
    assert (one.low, one.high) == (0.04, 0.05)
    assert one.u == pytest.approx(math.hypot(0.005, 0.01) / A, rel=1e-9)


def test_blades_that_are_stacked_add_their_errors(job: Job) -> None:
    job.record("reading", item="end_float", low="0.15 mm", high="0.19 mm", instrument="feelers", sure=True)
    one = found(job, "end_float")[""]
    # 0.19 = 0.05 + 0.10 + 0.04: three blades, each off by itself.
    assert one.u == pytest.approx(math.sqrt(3) * 0.005 / A, rel=1e-9)
    assert one.notes == ()


def test_what_no_blades_make_is_said() -> None:
    kit = parse_kit(KIT[: KIT.index("gauges:")] + GAUGES, file="kit.yaml").kit
    feelers = kit.gauges["feelers"]
    assert stacked(feelers, 0.07) == pytest.approx((0.03, 0.04))
    assert stacked(feelers, 0.05) == (0.05,)
    assert stacked(feelers, 0.035) == ()


def test_a_reading_of_a_gauge_that_is_gone_is_not_known(job: Job) -> None:
    read(job, "piston", "1", "69.95 mm")
    one = found(job, "piston")["cylinder 1"]
    assert (one.u, one.u_known) == (0.0, False)
    assert odd(job.bench(), "piston") == {}


def test_a_scanned_face_is_in_millimeters_with_the_uncertainty_of_one_point(job: Job) -> None:
    assert scanned(job.bench(), "deck") is None
    job.record(
        "face-scanned", item="deck", unit="in", points=[["0", "0", "0"], ["10", "0", "0.001"], ["0", "5", "0"]],
        instrument="clock", file="deck.csv", sha="a" * 64,
    )  # fmt: skip
    scan = scanned(job.bench(), "deck")
    assert scan is not None
    assert [one[:2] for one in scan.points] == [(0.0, 0.0), (254.0, 0.0), (0.0, 127.0)]
    assert [one[2] for one in scan.points] == pytest.approx([0.0, 0.0254, 0.0])
    assert scan.u == pytest.approx(math.hypot(0.012 / A, STEP), rel=1e-9)
    assert (scan.u_known, scan.condition, scan.instrument) == (True, "as found", "clock")


def blades_read(folder: Path, low: str, high: str) -> Measured:
    job = make_job(folder, sheet=SHEET, kit=f"{KIT[: KIT.index('gauges:')]}{GAUGES}")
    job.read_code()
    job.record("reading", item="end_float", low=low, high=high, instrument="feelers")
    return measured(job.bench(), "end_float")[""]


def test_each_end_has_the_errors_of_the_blades_that_made_it(tmp_path: Path) -> None:
    """HAND: one blade of 0.10 enters, u = 0.005/√3 = 0.00289; 0.10 and 0.05 together do not, u = √2 · 0.00289 = 0.00408."""
    one = blades_read(tmp_path, "0.10 mm", "0.15 mm")
    assert one.at_low.u == pytest.approx(0.002887, abs=1e-6)
    assert one.at_high.u == pytest.approx(0.004082, abs=1e-6)
    assert one.u == one.at_high.u, "what is printed is the less certain end"


def test_an_end_that_no_blade_made_has_no_error(tmp_path: Path) -> None:
    one = blades_read(tmp_path, "0 mm", "0.05 mm")
    assert one.at_low.u == 0
    assert one.at_high.u == pytest.approx(0.002887, abs=1e-6)


def test_a_bore_gauge_grows_with_the_scale_of_the_gauge_that_set_it(job: Job) -> None:
    """HAND: each reading has 70 mm · 10 K · 1 µm/(m·K)/√3 = 0.404 µm of its gauge's expansion; the difference has none."""
    warm = {"part_temperature": "30 °C", "gauge_as_part": True}
    read(job, "liner", "top", "70.01 mm", instrument="bore_gauge", **warm)
    read(job, "liner", "bottom", "70.01 mm", instrument="micrometer", **warm)
    both = found(job, "liner")
    made = signed([(1.0, both["top"].at_high), (-1.0, both["bottom"].at_high)])
    grown = [one for one in made if one.name.startswith("gauge expansion")]
    assert [abs(one.share) for one in grown] == [pytest.approx(0.000404, abs=1e-6)] * 2
    assert standard_uncertainty_of(grown) == pytest.approx(0, abs=1e-12)

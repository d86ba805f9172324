"""Calculators: inputs as a person writes them, results in both systems, and refusals with what is right."""

import subprocess
import sys

import pytest

from gudgeon.calc import input_errors
from gudgeon.calc.calculator import Parameter, Result, calculator, names, run
from gudgeon.errors import InputError
from gudgeon.quantity.errors import KindAmbiguous
from gudgeon.quantity.kinds import KINDS
from gudgeon.quantity.units import unit

PRELOAD = {"thread": "M10", "strength_class": "8.8", "mu_thread": "0.12", "mu_head": "0.12"}
CUT = {"bore": "86 mm", "stroke": "86 mm", "ratio": "9.0", "cut": "0.1 mm"}


def test_the_names() -> None:
    assert names() == (
        "joint.thread",
        "joint.assembly-preload",
        "joint.preload-from-torque",
        "joint.torque-from-preload",
        "joint.bolt-compliance",
        "joint.member-compliance",
        "joint.turn",
        "joint.wrench-adapter",
        "joint.scatter",
        "joint.clamp-needed",
        "engine.displacement",
        "engine.compression-ratio",
        "engine.cut",
        "engine.piston-position",
        "engine.cam-shift",
        "engine.belt-length",
        "engine.marks-realign",
        "engine.valve-events",
        "engine.tdc",
        "engine.lobe-center",
        "engine.rocker-ratio",
        "engine.oil-clearance",
        "engine.ring-gap",
        "engine.pin-for-hole",
        "engine.atmosphere",
        "engine.cranking-pressure",
        "engine.compression-spread",
        "engine.leak-down",
        "engine.coolant",
        "engine.shim",
        "metrology.conformity",
        "metrology.flatness",
        "metrology.roundness",
        "metrology.v-block",
        "metrology.ring-gap-in-bore",
        "metrology.run-out",
        "metrology.guide-clearance",
        "metrology.size-at-20",
        "metrology.expanded-uncertainty",
        "metrology.repeats-needed",
        "planning.three-point",
        "planning.critical-path",
        "planning.wear-out",
        "planning.replacement-age",
        "planning.sealant-bead",
        "quantity.convert",
    )


def test_listing_them_loads_no_array_library() -> None:
    code = "import sys; from gudgeon.calc.calculator import names; names(); print('numpy' in sys.modules)"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "False"


@pytest.mark.parametrize("name", names())
def test_every_registration_is_whole(name: str) -> None:
    found = calculator(name)
    assert found.title
    assert found.source
    assert found.method
    shown: tuple[Parameter | Result, ...] = (*found.parameters, *found.results)
    for one in shown:
        assert one.text
        if one.kind is not None:
            assert one.unit is not None
            assert unit(one.unit, kind=KINDS[one.kind]).symbol == one.unit
    for parameter in found.parameters:
        assert parameter.default is not None or parameter.example, parameter.name


def test_a_bare_number_is_in_the_unit_of_the_parameter_and_any_unit_is_taken() -> None:
    bare = run("joint.wrench-adapter", {"torque": "95", "wrench_length": "400", "adapter_length": "50"})
    written = run(
        "joint.wrench-adapter",
        {"torque": "9.5 daN·m", "wrench_length": "40 cm", "adapter_length": "0.05 m", "adapter_angle": "0"},
    )
    assert bare["setting_nm"] == pytest.approx(written["setting_nm"])
    assert bare.results[0].shown == "84.4 N·m (62.3 lbf·ft)"
    assert dict(bare.inputs) == {
        "torque": "95 N·m (70.1 lbf·ft)",
        "wrench_length": "400 mm (15.748 in)",
        "adapter_length": "50 mm (1.969 in)",
        "adapter_angle": "0° (default)",
    }


def test_head_and_hole_stand_for_the_bearing_diameter() -> None:
    given = run("joint.assembly-preload", {**PRELOAD, "bearing_diameter": "12.5"})
    found = run("joint.assembly-preload", {**PRELOAD, "head_diameter": "16 mm", "hole": "9 mm"})
    assert found["torque_nm"] == given["torque_nm"]


def test_a_yield_strength_stands_for_a_class() -> None:
    by_class = run("joint.assembly-preload", {**PRELOAD, "bearing_diameter": "12.5"})
    inputs = {key: value for key, value in PRELOAD.items() if key != "strength_class"}
    by_yield = run("joint.assembly-preload", {**inputs, "bearing_diameter": "12.5", "yield_mpa": "640"})
    assert by_yield["preload_n"] == by_class["preload_n"]


def test_volumes_stand_for_ratio_bore_and_stroke() -> None:
    by_ratio = run("engine.cut", {**CUT, "mouth_area": "48 cm²"})
    swept = 86**3 * 3.141592653589793 / 4000
    inputs = {"cut": "0.1", "swept_volume": f"{swept!r}", "clearance_volume": f"{swept / 8!r}"}
    by_volume = run("engine.cut", {**inputs, "mouth_area": "4800 mm²"})
    assert by_volume["new_ratio"] == pytest.approx(by_ratio["new_ratio"])


def test_an_assumed_mouth_area_or_gasket_bore_is_flagged() -> None:
    assert run("engine.cut", CUT).flags == (
        "No mouth area is given: the bore area was taken, "
        "which overstates the rise where the chamber is smaller.",
    )
    found = run(
        "engine.compression-ratio",
        {"bore": "86", "stroke": "86", "chamber_volume": "50", "gasket_thickness": "1.2"},
    )
    assert found.flags == (
        "No gasket bore is given: the cylinder bore was taken, which is less than most gaskets have.",
    )


def test_conformity_of_another_kind_and_of_a_temperature() -> None:
    found = run("metrology.conformity", {"value": "5.0 V", "u": "20 mV", "lower": "4.9", "kind": "voltage"})
    assert (found["verdict"], found.results[2].shown) == ("inside", "0.0329 V")
    warm = run(
        "metrology.conformity", {"value": "194 °F", "u": "1 K", "upper": "95 °C", "kind": "temperature"}
    )
    assert warm["guard_band"] == pytest.approx(1.645, abs=1e-3)
    assert warm.results[2].unit == "K"


def test_an_uncertainty_that_proves_nothing_says_so() -> None:
    found = run("metrology.conformity", {"value": "0.085", "u": "0.01", "lower": "0.07", "upper": "0.10"})
    assert found["guard_band"] is None
    assert found.results[2].shown == "none is wide enough"
    assert found.flags == ("With this uncertainty no reading could prove it: use a better gauge.",)


@pytest.mark.parametrize(
    ("inputs", "value", "shown", "kind"),
    [
        ({"value": "70 lbf·ft", "to": "N·m"}, 94.90725638, "94.90726 N·m", "torque"),
        ({"value": "70 ft-lb", "to": "N·m"}, 94.90725638, "94.90726 N·m", "torque"),
        ({"value": "212 °F", "to": "°C", "kind": "temperature"}, 100.0, "100 °C", "temperature"),
        (
            {"value": "18 °F", "to": "K", "kind": "temperature_difference"},
            10.0,
            "10 K",
            "temperature difference",
        ),
        (
            {"value": "100 psi", "to": "kPa"},
            689.4757293,
            "689.4757 kPa",
            "gauge pressure or absolute pressure",
        ),
    ],
)
def test_convert(inputs: dict[str, str], value: float, shown: str, kind: str) -> None:
    found = run("quantity.convert", inputs)
    assert found["value"] == pytest.approx(value, rel=1e-9)
    assert [one.shown for one in found.results] == [shown, kind]


REFUSED: list[tuple[str, dict[str, str], type[InputError], str]] = [
    ("joint.wrench-adaptor", {}, input_errors.UnknownCalculator,
     "`joint.wrench-adaptor` is no calculator. Did you mean `joint.wrench-adapter`? There are: "
     + ", ".join(names()) + "."),
    ("joint.wrench-adapter", {"torqe": "40 N·m"}, input_errors.UnknownInput,
     "`torqe` is no input of joint.wrench-adapter. Did you mean `torque`? "
     "It takes: torque, wrench_length, adapter_length, adapter_angle."),
    ("joint.wrench-adapter", {"torque": "40 N·m"}, input_errors.InputNeeded,
     "joint.wrench-adapter needs wrench_length, which is not given. Add it, like wrench_length='400 mm'."),
    ("joint.wrench-adapter", {"torque": "40 J"}, input_errors.InputRefused,
     "torque: `J` is a unit of energy, not of torque. Write one of: N·m, lbf·ft, lbf·in, kgf·m."),
    ("joint.assembly-preload", {**PRELOAD, "torsion": "half", "bearing_diameter": "12"},
     input_errors.ChoiceUnknown, "torsion: `half` cannot be chosen. Write one of: plastic, elastic."),
    ("joint.assembly-preload", {**PRELOAD, "yield_mpa": "640", "bearing_diameter": "12"},
     input_errors.GivenBoth,
     "strength_class and yield_mpa are both given, and each decides alone. Give one of them."),
    ("joint.assembly-preload", {**PRELOAD, "hole": "9", "bearing_diameter": "12"}, input_errors.GivenBoth,
     "bearing_diameter and hole are both given, and each decides alone. Give one of them."),
    ("joint.assembly-preload", PRELOAD, input_errors.InputNeeded,
     "joint.assembly-preload needs bearing_diameter, or head_diameter and hole, which is not given. "
     "Add it, like bearing_diameter='12.8 mm'."),
    ("joint.assembly-preload", {**PRELOAD, "hole": "9"}, input_errors.InputNeeded,
     "joint.assembly-preload needs head_diameter, which is not given. Add it, like head_diameter='16.6 mm'."),
    ("joint.thread", {"designation": " "}, input_errors.InputNeeded,
     "The calculator needs designation, which is not given. Add it, like designation='M12'."),
    ("engine.displacement", {"bore": "86", "stroke": "86", "cylinders": "4.5"}, input_errors.NotWhole,
     "cylinders: 4.5 is no count. Write a whole number of at least 1."),
    ("engine.cut", {"cut": "0.1", "ratio": "9"}, input_errors.InputNeeded,
     "engine.cut needs bore and stroke, or swept_volume, which is not given. "
     "Add it, like bore='86 mm' stroke='86 mm'."),
    ("engine.cut", {"cut": "0.1", "swept_volume": "500", "ratio": "9"}, input_errors.InputNeeded,
     "engine.cut needs mouth_area, or bore, which is not given. Add it, like mouth_area='48 cm²'."),
    ("engine.cut", {**CUT, "clearance_volume": "60"}, input_errors.GivenBoth,
     "ratio and clearance_volume are both given, and each decides alone. Give one of them."),
    ("engine.cut", {"cut": "0.1", "bore": "86", "stroke": "86"}, input_errors.InputNeeded,
     "engine.cut needs ratio or clearance_volume, which is not given. Add it, like ratio=9.0."),
    ("quantity.convert", {"value": "70 N·m", "to": "J"}, input_errors.KindsDiffer,
     "`N·m` is a unit of torque, `J` of energy: one never becomes the other. Write a unit of the same kind."),
    ("quantity.convert", {"value": "70 bananas", "to": "N·m"}, input_errors.UnitNowhereKnown,
     "`bananas` is no known unit. Write it like mm, lbf·ft or kPa."),
    ("quantity.convert", {"value": "70", "to": "N·m"}, input_errors.InputRefused,
     "value: `70` has no unit. Write it with one of: mm, in, N·m, lbf·ft, kPa, psi, °C, cm³ (number)."),
    ("quantity.convert", {"value": "100 °C", "to": "°F"}, KindAmbiguous,
     "`°C` serves several kinds of quantity: temperature, temperature_difference. Say which with kind=…"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("name", "inputs", "cause", "text"), REFUSED, ids=[f"{row[0]} {' '.join(row[1])}" for row in REFUSED]
)
def test_refusals(name: str, inputs: dict[str, str], cause: type[InputError], text: str) -> None:
    with pytest.raises(cause) as caught:
        run(name, inputs)
    assert str(caught.value) == text


@pytest.mark.parametrize(
    ("name", "inputs", "result", "value"),
    [
        # HAND: lcm(111, 18) = 666 teeth, 37 turns of the crankshaft, 74 with the camshaft's mark
        (
            "engine.marks-realign",
            {"belt_teeth": "111", "crank_teeth": "18", "with_cam": "true"},
            "crank_turns",
            74,
        ),
        (
            "engine.marks-realign",
            {"belt-teeth": "111", "crank-teeth": "18", "with-cam": "No"},
            "crank_turns",
            37,
        ),
        # OTHER TOOL: CoolProp 6, AEG and APG at 0.5
        ("engine.coolant", {"glycol": "EG", "fraction": "50 %"}, "freeze_c", -37.11),
        ("engine.coolant", {"kind": "Propylene glycol", "fraction": "50 %"}, "freeze_c", -33.66),
        # HAND: 12 − 9 bar
        (
            "engine.compression-spread",
            {"readings": "12, 9.0, 11 bar", "rule": "ratio", "limit": "75 %"},
            "spread",
            300,
        ),
        (
            "engine.compression-spread",
            {"readings": "12; 9 bar", "rule": "difference", "limit": "3 bar"},
            "spread",
            300,
        ),
        # HAND: 53 − 2 · 1.49 − 50
        (
            "engine.oil-clearance",
            {"bore": "53", "shells": "1.49", "journal": "50"},
            "clearance_middle_mm",
            0.02,
        ),
        # HAND: 15/64 in
        ("engine.pin-for-hole", {"hole_diameter": "6 mm"}, "inch_series_mm", 5.953125),
    ],
)
def test_inputs_may_be_written_otherwise(
    name: str, inputs: dict[str, str], result: str, value: float
) -> None:
    assert run(name, inputs)[result] == pytest.approx(value, abs=1e-9)


def test_an_input_written_under_two_names_is_refused() -> None:
    with pytest.raises(input_errors.GivenBoth) as refused:
        run("engine.pin-for-hole", {"hole": "6 mm", "diameter": "7 mm"})
    assert str(refused.value) == "hole and diameter are both given, and each decides alone. Give one of them."


def test_a_mouth_area_that_no_chamber_has_is_flagged() -> None:
    # HAND: 48 mm² of π/4 · 86² = 5,808.8 mm² are 0.00826; 48 cm² are 0.826
    assert run("engine.cut", {**CUT, "mouth_area": "48"}).flags == (
        "The mouth area, 48 mm², is 0.00826 of the bore area, and 0.2 to 1.3 of it are usual (by hand, from chambers "
        "with squish pads): check its unit.",
    )
    assert run("engine.cut", {**CUT, "mouth_area": "48 cm²"}).flags == ()


TURN = {
    "thread": "M10x1.25",
    "strength_class": "10.9",
    "snug_torque": "25",
    "mu_thread": "0.12",
    "mu_head": "0.12",
    "bearing_diameter": "14",
    "angle": "90",
}


def test_a_bare_compliance_that_no_bolt_has_is_refused() -> None:
    """7.5 is meant in µm/kN, and would be 7.5 mm/N; 7.5e-6 can only be mm/N."""
    with pytest.raises(input_errors.BareNumber) as refused:
        run("joint.turn", {**TURN, "bolt_compliance": "7.5", "member_compliance": "2e-6"})
    assert str(refused.value) == (
        "bolt_compliance: `7.5` has no unit, and 7.5 mm/N is far from 1e-08 to 0.001 mm/N (order of size, "
        "by hand). Write it with its unit, like `6.0 µm/kN`."
    )
    bare = run("joint.turn", {**TURN, "bolt_compliance": "7.5e-6", "member_compliance": "2e-6"})
    written = run("joint.turn", {**TURN, "bolt_compliance": "7.5 µm/kN", "member_compliance": "2 µm/kN"})
    assert bare["preload_n"] == pytest.approx(written["preload_n"])


def test_a_bare_force_is_in_newtons() -> None:
    given = {"thread": "M10", "mu_thread": "0.12", "mu_head": "0.12", "bearing_diameter": "13"}
    bare = run("joint.torque-from-preload", {**given, "preload": "30000"})
    assert bare["torque_nm"] == pytest.approx(
        run("joint.torque-from-preload", {**given, "preload": "30 kN"})["torque_nm"]
    )

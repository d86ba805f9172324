"""Published figures as data: what was printed, how closely it must be met, and what we find.

The rows stand in data/*.csv. An empty tolerance is half of the last printed digit. A row with a
reason is known to be missed at its printed rounding; it must then really be missed, and stay within
the tolerance that the reason gives.
"""

import csv
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from pathlib import Path

from gudgeon.calc.calculator import calculator, run
from gudgeon.calc.engine.cylinder import piston_position, ratio_of_volumes
from gudgeon.calc.joint.preload import strength_class
from gudgeon.calc.joint.stiffness import frustum_stiffness
from gudgeon.calc.joint.thread import read_thread
from gudgeon.calc.metrology.lobes import three_point
from gudgeon.calc.metrology.repeats import half_width_of_mean, range_factor
from gudgeon.calc.metrology.student import coverage_factor
from gudgeon.calc.metrology.uncertainty import from_resolution
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import parse_amount
from gudgeon.sources.figures import PROVENANCES
from gudgeon.sources.tables import friction_classes, nut_factors, permitted_error
from tests.published.face_ways import FACE_WAYS
from tests.published.fit_ways import FIT_WAYS
from tests.published.planning_ways import PLANNING_WAYS

DATA = Path(__file__).parent / "data"
POINTS = Path(__file__).parent / "points"


@dataclass(frozen=True, slots=True)
class Case:
    """One published figure."""

    subject: str
    id: str
    way: str
    inputs: Mapping[str, str]
    result: str
    printed: str
    unit: str
    tolerance: str
    reason: str
    source: str
    provenance: str

    @property
    def value(self) -> float:
        """The printed figure."""
        return float(self.printed)

    @property
    def half_digit(self) -> float:
        """Half of its last printed digit."""
        exponent = Decimal(self.printed).as_tuple().exponent
        assert isinstance(exponent, int)
        return 0.5 * 10.0**exponent

    @property
    def allowed(self) -> float:
        """How far from the printed figure we may be."""
        if not self.tolerance:
            return self.half_digit
        if self.tolerance.endswith("%"):
            return abs(self.value) * float(self.tolerance[:-1]) / 100
        return float(self.tolerance)

    @property
    def ours(self) -> float:
        """What we find, in the unit of the printed figure."""
        if "." in self.way:
            return _from_calculator(self)
        return WAYS[self.way](self.inputs)

    @property
    def miss(self) -> float:
        """Ours less the printed figure."""
        return self.ours - self.value


def _from_calculator(case: Case) -> float:
    answer = run(case.way, case.inputs)
    outcome = next(one for one in answer.results if one.name == case.result)
    assert isinstance(outcome.value, float)
    kind = next(one.kind for one in calculator(case.way).results if one.name == case.result)
    if not case.unit or kind is None or outcome.unit is None:
        return outcome.value
    return convert(outcome.value, frm=outcome.unit, to=case.unit, kind=kind)


def _numbers(inputs: Mapping[str, str]) -> dict[str, float]:
    return {name: float(text) for name, text in inputs.items()}


def _load(inputs: Mapping[str, str], *, breaking: bool, share: float, per: float) -> float:
    thread = read_thread(inputs["designation"])
    strength = strength_class(inputs["strength_class"], nominal_mm=thread.nominal_mm)
    stress = strength.tensile_mpa if breaking else strength.proof_mpa
    assert stress is not None
    return thread.stress_area_mm2 * stress * share / per


def _three_quarters(inputs: Mapping[str, str]) -> float:
    per = 4448.2216152605 if "UN" in inputs["designation"] else 1000.0  # kip, kN
    return _load(inputs, breaking=False, share=0.75, per=per)


def _three_quarters_torque(inputs: Mapping[str, str]) -> float:
    """Torque in lbf·ft for 75 % of the proof load, by a nut factor."""
    given = {"designation": inputs["thread"], "strength_class": inputs["strength_class"]}
    answer = run(
        "joint.torque-from-preload",
        {
            "thread": inputs["thread"],
            "nut_factor": inputs["nut_factor"],
            "preload": f"{_load(given, breaking=False, share=0.75, per=1.0)} N",
        },
    )
    torque = answer["torque_nm"]
    assert isinstance(torque, float)
    return convert(torque, frm="N·m", to="lbf·ft", kind="torque")


def _preload_stress(inputs: Mapping[str, str]) -> float:
    preload = parse_amount(inputs["preload"], kind="force").to("N")
    stress = preload / read_thread(inputs["thread"]).stress_area_mm2
    return convert(stress, frm="MPa", to="ksi", kind="stress")


def _frustum(inputs: Mapping[str, str]) -> float:
    """Stiffness of one frustum, in MN/m; in Mlbf/in where its modulus is in Mpsi."""
    lengths = {
        key: parse_amount(inputs[key], kind="length").to("mm") for key in ("thickness", "bearing", "hole")
    }
    found = frustum_stiffness(
        lengths["thickness"],
        modulus_mpa=parse_amount(inputs["modulus"], kind="stress").to("MPa"),
        bearing_mm=lengths["bearing"],
        hole_mm=lengths["hole"],
    )
    unit = "Mlbf/in" if "Mpsi" in inputs["modulus"] else "MN/m"
    return convert(found, frm="N/mm", to=unit, kind="stiffness")


def _joint_constant(inputs: Mapping[str, str]) -> float:
    """The bolt's share of a load on the joint: kb / (kb + km)."""

    def stiffness(name: str, part: str) -> float:
        given = {key.removeprefix(part): text for key, text in inputs.items() if key.startswith(part)}
        found = run(name, {**given, "method": "textbook"})["stiffness_n_per_mm"]
        assert isinstance(found, float)
        return found

    bolt = stiffness("joint.bolt-compliance", "bolt.")
    return bolt / (bolt + stiffness("joint.member-compliance", "parts."))


def _friction_class(inputs: Mapping[str, str]) -> float:
    found = next(one for one in friction_classes() if one.name == inputs["name"])
    end = found.low if inputs["end"] == "low" else found.high
    assert end is not None
    return end


def _fastest(inputs: Mapping[str, str]) -> tuple[float, float]:
    """Crank angle and ratio of the greatest piston speed, by closing in on it (golden section)."""
    given = _numbers(inputs)

    def speed(angle: float) -> float:
        place = piston_position(
            given["stroke_mm"], rod_length_mm=given["rod_length_mm"], crank_angle_deg=angle
        )
        return place.speed_ratio

    low, high, part = 45.0, 90.0, (5**0.5 - 1) / 2
    for _ in range(80):
        left, right = high - part * (high - low), low + part * (high - low)
        low, high = (low, right) if speed(left) > speed(right) else (left, high)
    return (low + high) / 2, speed((low + high) / 2)


def _permitted(inputs: Mapping[str, str]) -> float:
    """The permitted error of an instrument, in µm."""
    found = permitted_error(inputs["instrument"], length_mm=float(inputs["length_mm"]))
    assert found is not None
    return found.value * 1000


def _circle(inputs: Mapping[str, str]) -> float:
    """Diameter, deviation, or center of a circle through points that stand beside the cases."""
    from gudgeon.calc.metrology import roundness

    with (POINTS / f"{inputs['points']}.csv").open(encoding="utf-8", newline="") as file:
        points = [(float(row["x"]), float(row["y"])) for row in csv.DictReader(file)]
    ways = {"least-squares": roundness.least_squares, "minimum-zone": roundness.minimum_zone}
    found = ways[inputs["method"]](points)
    return {
        "diameter": 2 * found.radius_mm,
        "deviation": found.deviation_mm,
        "center x": found.center_x_mm,
        "center y": found.center_y_mm,
    }[inputs["of"]]


WAYS: Mapping[str, Callable[[Mapping[str, str]], float]] = {
    "waist_diameter": lambda given: 0.9 * read_thread(given["designation"]).root_diameter_mm,
    "waist_area": lambda given: 0.81 * read_thread(given["designation"]).root_area_mm2,
    "proof_load": lambda given: _load(given, breaking=False, share=1.0, per=1.0),
    "least_breaking_load": lambda given: _load(given, breaking=True, share=1.0, per=1.0),
    "three_quarters_of_proof_load": _three_quarters,
    "three_quarters_of_proof_torque": _three_quarters_torque,
    "preload_stress": _preload_stress,
    "nut_factor": lambda given: nut_factors()[given["state"]].value,
    "friction_class": _friction_class,
    "frustum": _frustum,
    "joint_constant": _joint_constant,
    "ratio_of_volumes": lambda given: ratio_of_volumes(
        float(given["swept_cm3"]), clearance_cm3=float(given["clearance_cm3"])
    ),
    "fastest_angle": lambda given: _fastest(given)[0],
    "fastest_ratio": lambda given: _fastest(given)[1],
    "t_factor": lambda given: coverage_factor(float(given["percent"]) / 100, dof=float(given["dof"])),
    "half_width_of_mean": lambda given: half_width_of_mean(int(given["count"]), scatter=1.0),
    "circle": _circle,
    "three_point": lambda given: three_point(float(given["lobes"])),
    "range_factor": lambda given: range_factor(int(given["count"])),
    "permitted_error": _permitted,
    "resolution_uncertainty": lambda given: from_resolution(float(given["step"])),
    **FACE_WAYS,
    **FIT_WAYS,
    **PLANNING_WAYS,
}


@cache
def cases(subject: str) -> tuple[Case, ...]:
    """The cases of one file."""
    with (DATA / f"{subject}.csv").open(encoding="utf-8", newline="") as file:
        return tuple(_case(subject, row) for row in csv.DictReader(file))


def _case(subject: str, row: Mapping[str, str]) -> Case:
    inputs = dict(pair.split("=", 1) for pair in row["inputs"].split("; "))
    found = Case(subject=subject, **{**row, "inputs": inputs})  # type: ignore[arg-type]
    if found.provenance not in PROVENANCES or not found.source:
        raise ValueError(f"{subject}.csv, {found.id}: no source or provenance")
    return found


def subjects() -> tuple[str, ...]:
    """The files of cases, by name."""
    return tuple(sorted(path.stem for path in DATA.glob("*.csv")))


def check(case: Case) -> None:
    """The published figure is met; or it is missed as its reason says, and not by more."""
    miss = abs(case.miss)
    slack = 1e-9 * max(1.0, abs(case.value)) + sys.float_info.epsilon
    told = f"{case.id}: ours {case.ours:.6g}, printed {case.printed} {case.unit}"
    assert miss <= case.allowed + slack, told
    if case.reason:
        assert miss > case.half_digit, f"{case.id} meets its printed digits: take its reason out"

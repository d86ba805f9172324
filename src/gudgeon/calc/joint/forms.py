"""The calculators of the joint: from inputs to kernels and back to results."""

from collections.abc import Mapping
from typing import Literal, cast

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.input_errors import GivenBoth, InputNeeded
from gudgeon.calc.joint.preload import BoltJoint, assembly_preload, bearing_diameter, strength_class
from gudgeon.calc.joint.thread import Thread, read_thread
from gudgeon.calc.joint.turn import BoltSpec, SnugBolt, turn
from gudgeon.calc.joint.wrench import adapter_setting
from gudgeon.calc.reading import figure, maybe, needed, text

PRELOAD = "joint.assembly-preload"
TURN = "joint.turn"


def thread(values: Mapping[str, Value]) -> Worked:
    """Works out joint.thread."""
    found = read_thread(text(values, "designation"))
    return Worked(
        {
            "nominal_mm": found.nominal_mm,
            "pitch_mm": found.pitch_mm,
            "pitch_diameter_mm": found.pitch_diameter_mm,
            "root_diameter_mm": found.root_diameter_mm,
            "stress_area_mm2": found.stress_area_mm2,
            "root_area_mm2": found.root_area_mm2,
        },
        found.flags,
    )


def preload(values: Mapping[str, Value]) -> Worked:
    """Works out joint.assembly-preload."""
    bolt = read_thread(text(values, "thread"))
    joint = BoltJoint(
        thread=bolt,
        yield_mpa=_yield(values, bolt, calculator=PRELOAD),
        mu_thread=figure(values, "mu_thread"),
        mu_head=figure(values, "mu_head"),
        bearing_diameter_mm=_bearing(values, calculator=PRELOAD),
        utilisation=figure(values, "utilisation"),
        torsion=cast(Literal["plastic", "elastic"], text(values, "torsion")),
    )
    found = assembly_preload(joint)
    return Worked(
        {
            "preload_n": found.preload_n,
            "torque_nm": found.torque_nm,
            "stress_ratio": found.stress_ratio,
            "thread_torque_nm": found.thread_torque_nm,
            "head_torque_nm": found.head_torque_nm,
        },
        found.flags,
    )


def turned(values: Mapping[str, Value]) -> Worked:
    """Works out joint.turn."""
    bolt = read_thread(text(values, "thread"))
    spring = BoltSpec(
        thread=bolt,
        yield_mpa=_yield(values, bolt, calculator=TURN),
        bearing_diameter_mm=_bearing(values, calculator=TURN),
        compliance_mm_per_n=figure(values, "bolt_compliance"),
        hardening_n_per_mm=figure(values, "hardening"),
    )
    joint = SnugBolt(
        bolt=spring,
        member_compliance_mm_per_n=figure(values, "member_compliance"),
        mu_thread=figure(values, "mu_thread"),
        mu_head=figure(values, "mu_head"),
        snug_torque_nm=figure(values, "snug_torque"),
    )
    found = turn(joint, angle_deg=figure(values, "angle"))
    return Worked(
        {
            "preload_n": found.preload_n,
            "yielded": "yes" if found.yielded else "no",
            "permanent_stretch_mm": found.permanent_stretch_mm,
            "snug_preload_n": found.snug_preload_n,
            "yield_preload_n": found.yield_preload_n,
        },
        found.flags,
    )


def _yield(values: Mapping[str, Value], bolt: Thread, *, calculator: str) -> float:
    given = maybe(values, "yield_mpa")
    if values["strength_class"] is None:
        if given is None:
            raise InputNeeded("strength_class or yield_mpa", calculator, "strength_class=8.8")
        return given
    if given is not None:
        raise GivenBoth("strength_class", "yield_mpa")
    return strength_class(text(values, "strength_class"), nominal_mm=bolt.nominal_mm).yield_mpa


def _bearing(values: Mapping[str, Value], *, calculator: str) -> float:
    given, head, hole = (maybe(values, key) for key in ("bearing_diameter", "head_diameter", "hole"))
    if given is not None:
        if head is not None or hole is not None:
            raise GivenBoth("bearing_diameter", "head_diameter" if head is not None else "hole")
        return given
    if head is None and hole is None:
        missing = "bearing_diameter, or head_diameter and hole"
        raise InputNeeded(missing, calculator, "bearing_diameter='12.8 mm'")
    return bearing_diameter(
        needed(values, "head_diameter", calculator=calculator, example="head_diameter='16.6 mm'"),
        hole_mm=needed(values, "hole", calculator=calculator, example="hole='9 mm'"),
    )


def adapter(values: Mapping[str, Value]) -> Worked:
    """Works out joint.wrench-adapter."""
    setting = adapter_setting(
        figure(values, "torque"),
        wrench_length_mm=figure(values, "wrench_length"),
        adapter_length_mm=figure(values, "adapter_length"),
        adapter_angle_deg=figure(values, "adapter_angle"),
    )
    return Worked({"setting_nm": setting})

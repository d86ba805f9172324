"""A torque against the thread and the strength class of the bolt."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.proof.findings import Finding, finding
from gudgeon.calc.joint.preload import BoltJoint, assembly_preload, bearing_diameter, strength_class
from gudgeon.calc.joint.thread import read_thread
from gudgeon.errors import InputError
from gudgeon.quantity.format import both
from gudgeon.sheet.fasteners import Fastener
from gudgeon.sheet.joints import Joint, Stage
from gudgeon.sheet.model import DataSheet

FRICTION = (0.08, 0.20)
"""From a well oiled thread to a dry, rough one; classes A to D of VDI 2230 hold them."""
OVER = 1.3
"""A torque this many times the greatest one: more friction or less spread of strength does not explain it."""
UNDER = 8
"""A cover, a plug or a soft gasket takes a small part of what its bolt could bear; less than this is a slip."""
UNDER_CLAMPING = 4
"""Joints that hold the engine together use their bolts: no final torque is so small."""
CLAMPING = ("cylinder head", "rod caps", "main caps", "flywheel", "crank pulley")
BEARING = 1.3
"""Mean bearing diameter in thread diameters, where the sheet gives none: hexagon heads have 1.27 to 1.33."""


@dataclass(frozen=True, slots=True)
class Bearable:
    """What a bolt takes up to 90 % of its yield strength, in N·m, with little and with much friction."""

    least: float
    most: float


def check_torques(sheet: DataSheet) -> Iterator[Finding]:
    """Every torque stage whose thread and class are known."""
    for key, joint in sheet.joints.items():
        for index, stage in enumerate(joint.program):
            if stage.torque is not None:
                for fastener in _fasteners(joint, stage):
                    yield from _stage(f"joints.{key}.program.{index + 1}.torque", joint, index, fastener)


def _fasteners(joint: Joint, stage: Stage) -> list[Fastener]:
    found = [joint.fastener_of(name) for name in joint.stage_bolts(stage)]
    kinds: list[Fastener] = []
    for one in found:
        if one is not None and one not in kinds:
            kinds.append(one)
    return kinds


def bearable(fastener: Fastener) -> Bearable | None:
    """What the bolt bears; None where its thread or class is not stated or not known."""
    if fastener.strength_class is None:
        return None
    try:
        thread = read_thread(fastener.thread)
        material = strength_class(fastener.strength_class, nominal_mm=thread.nominal_mm)
        bearing = _bearing(fastener) or BEARING * thread.nominal_mm
        least, most = (
            assembly_preload(
                BoltJoint(thread, material.yield_mpa, mu_thread=mu, mu_head=mu, bearing_diameter_mm=bearing)
            ).torque_nm
            for mu in FRICTION
        )
    except InputError:
        return None
    return Bearable(least, most)


def _bearing(fastener: Fastener) -> float | None:
    if fastener.bearing_diameter is None or fastener.hole is None:
        return None
    head, hole = fastener.bearing_diameter.high_in("mm"), fastener.hole.high_in("mm")
    return None if head is None or hole is None else bearing_diameter(head, hole_mm=hole)


def _stage(path: str, joint: Joint, index: int, fastener: Fastener) -> Iterator[Finding]:
    bears, torque = bearable(fastener), joint.program[index].torque
    assert torque is not None
    low, high = torque.low_in("N·m"), torque.high_in("N·m")
    if bears is None or low is None or high is None:
        return
    floor = bears.least / (UNDER_CLAMPING if joint.role in CLAMPING else UNDER)
    last = not any(one.torque is not None or one.turn is not None for one in joint.program[index + 1 :])
    if low > OVER * bears.most:
        why = "far more than the bolt bears"
    elif last and high < floor:
        why = "so little that it hardly clamps"
    else:
        return
    said = f"{fastener.thread} {fastener.strength_class}"
    ends = [both(value, kind="torque", decimals=0) for value in (bears.least, bears.most)]
    yield finding(
        "torque",
        grade="doubt",
        path=path,
        name=f"{joint.name}, stage {index + 1}",
        printed=f"{torque.text}; {said}",
        agrees=f"{said} reaches 90 % of its yield strength at {ends[0]} with friction {FRICTION[0]:.2f}, "
        f"at {ends[1]} with friction {FRICTION[1]:.2f}",
        digit=_tenfold(low, high, floor, bears),
        why=f"For this thread and strength class the torque is {why}: look at the torque, its unit, the thread and "
        "the class again.",
        source=str(joint.source or ""),
    )


def _tenfold(low: float, high: float, floor: float, bears: Bearable) -> str:
    for factor, side in ((0.1, "right"), (10.0, "left")):
        if floor <= high * factor and low * factor <= bears.most:
            return f"perhaps a ten-fold slip, the point stands one place too far {side}"
    return ""

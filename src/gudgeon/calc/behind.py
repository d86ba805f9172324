"""What stands behind a calculator: the subject under which it is sought, and what its kernels say of themselves.

A kernel says in its docstring what it holds for, where it comes from and what it leaves out; nothing of that is
written a second time. Nothing but the module of a kernel is imported, and only when it is asked about.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import import_module

SUBJECTS: Mapping[str, tuple[str, ...]] = {
    "Bolts and clamp": (
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
    ),
    "Cylinder, ratio, and cut": (
        "engine.displacement",
        "engine.compression-ratio",
        "engine.cut",
        "engine.piston-position",
    ),
    "Camshafts, belt, and valves": (
        "engine.cam-shift",
        "engine.belt-length",
        "engine.marks-realign",
        "engine.valve-events",
        "engine.tdc",
        "engine.lobe-center",
        "engine.rocker-ratio",
        "engine.shim",
    ),
    "Fits and gaps": (
        "engine.oil-clearance",
        "engine.ring-gap",
        "engine.pin-for-hole",
        "metrology.ring-gap-in-bore",
        "metrology.guide-clearance",
    ),
    "Does it run: pressure and coolant": (
        "engine.atmosphere",
        "engine.cranking-pressure",
        "engine.compression-spread",
        "engine.leak-down",
        "engine.coolant",
    ),
    "Weeks, wear, and money": (
        "planning.three-point",
        "planning.critical-path",
        "planning.wear-out",
        "planning.replacement-age",
        "planning.sealant-bead",
    ),
    "Measuring": (
        "metrology.conformity",
        "metrology.flatness",
        "metrology.roundness",
        "metrology.v-block",
        "metrology.run-out",
        "metrology.size-at-20",
        "metrology.expanded-uncertainty",
        "metrology.repeats-needed",
        "quantity.convert",
    ),
}
"""The calculators as a person seeks them, in plain words."""

_KERNELS: Mapping[str, tuple[str, ...]] = {
    "joint.thread": ("joint.thread:read_thread",),
    "joint.assembly-preload": ("joint.preload:assembly_preload",),
    "joint.preload-from-torque": ("joint.torque:preload_from_torque", "joint.torque:nut_factor_preload"),
    "joint.torque-from-preload": ("joint.torque:torque_from_preload", "joint.torque:nut_factor_torque"),
    "joint.bolt-compliance": ("joint.stiffness:bolt_compliance",),
    "joint.member-compliance": (
        "joint.stiffness:member_compliance",
        "joint.stiffness:vdi_member_compliance",
        "joint.stiffness:fitted_member_compliance",
    ),
    "joint.turn": ("joint.turn:turn",),
    "joint.wrench-adapter": ("joint.wrench:adapter_setting",),
    "joint.scatter": (
        "joint.bands:band_of_factor",
        "joint.bands:combined_band",
        "joint.bands:tightening_factor",
        "joint.bands:least_preload",
    ),
    "joint.clamp-needed": ("joint.clamp:clamp_needed",),
    "engine.displacement": ("engine.cylinder:swept_volume_cm3",),
    "engine.compression-ratio": ("engine.cylinder:compression_ratio",),
    "engine.cut": ("engine.cut:after_cut",),
    "engine.piston-position": ("engine.cylinder:piston_position",),
    "engine.cam-shift": ("engine.cam_shift:turned", "engine.cam_shift:slack_made"),
    "engine.belt-length": ("engine.drive_path:drive_path", "engine.drive_wheels:center_distance"),
    "engine.marks-realign": ("engine.drive_wheels:marks_realign",),
    "engine.valve-events": ("engine.events:valve_events", "engine.events:overlap_deg"),
    "engine.tdc": ("engine.tdc:middle_of", "engine.tdc:stop_angles"),
    "engine.lobe-center": ("engine.tdc:middle_of",),
    "engine.rocker-ratio": ("engine.events:rocker_ratio",),
    "engine.oil-clearance": ("engine.fits:clearance_of_parts",),
    "engine.ring-gap": ("engine.ring_gap:gap_per_bore", "engine.ring_gap:hot_ring_gap"),
    "engine.pin-for-hole": ("engine.drill_shanks:shanks_below",),
    "engine.atmosphere": ("engine.atmosphere:standard_air", "engine.atmosphere:air_density_kg_per_m3"),
    "engine.cranking-pressure": ("engine.cranking:gauge_pressure_kpa", "engine.cranking:dynamic_ratio"),
    "engine.compression-spread": ("engine.spread:spread_of",),
    "engine.leak-down": ("engine.leak_down:leak_down",),
    "engine.coolant": ("engine.coolant:freeze_point_c", "engine.coolant:mixing"),
    "engine.shim": ("engine.lash:lash",),
    "metrology.conformity": ("metrology.verdict:judge",),
    "metrology.flatness": ("metrology.flatness:flatness",),
    "metrology.roundness": (
        "metrology.roundness:minimum_zone",
        "metrology.roundness:least_squares",
        "metrology.roundness:circumscribed",
        "metrology.roundness:inscribed",
    ),
    "metrology.v-block": ("metrology.lobes:v_block",),
    "metrology.ring-gap-in-bore": ("metrology.small_parts:ring_gap_in_bore",),
    "metrology.run-out": ("metrology.run_out:run_out",),
    "metrology.guide-clearance": ("metrology.small_parts:guide_clearance",),
    "metrology.size-at-20": ("metrology.temperature:size_at_20",),
    "metrology.expanded-uncertainty": ("metrology.propagation:combine", "metrology.propagation:expanded"),
    "metrology.repeats-needed": ("metrology.repeats:repeats_needed",),
    "planning.three-point": ("planning.estimate:moments", "planning.estimate_exact:chance_within"),
    "planning.critical-path": (
        "planning.network:critical_path",
        "planning.estimate:classical_finish",
        "planning.estimate:simulated_finish",
    ),
    "planning.sealant-bead": ("planning.supplies:bead_cm3", "planning.supplies:closed_path_mm"),
    "planning.wear-out": ("planning.wear_out:while_open", "planning.life:chance_of_failing"),
    "planning.replacement-age": ("planning.wear_out:best_age", "planning.wear_out:cost_rate"),
    "quantity.convert": (),
}
"""The kernels whose answer a calculator gives, without those that only read its inputs."""

_KERNEL_NAME = re.compile(r"\b[a-z]{3,}(?:_[a-z]{2,})+\b")
_HEADING = re.compile(r"^([A-Z][a-z ]+):$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Behind:
    """What one kernel says of itself."""

    does: str
    equation: str
    valid_for: str
    source: str
    not_covered: str


def behind(name: str) -> tuple[Behind, ...]:
    """What stands behind the calculator of that name; a conversion is exact and has nothing to say."""
    return tuple(_said(kernel) for kernel in _KERNELS[name])


def subject_of(name: str) -> str:
    """Under which subject a calculator is listed."""
    return next(subject for subject, names in SUBJECTS.items() if name in names)


def _said(kernel: str) -> Behind:
    module, _, function = kernel.partition(":")
    told = getattr(import_module(f"gudgeon.calc.{module}"), function).__doc__ or ""
    first, *rest = _HEADING.split("\n".join(line.removeprefix("    ") for line in told.split("\n")))
    parts = {heading: _flowing(text) for heading, text in zip(rest[::2], rest[1::2], strict=True)}
    return Behind(
        _flowing(first),
        parts.get("Equation", ""),
        _in_words(parts.get("Valid for", "")),
        _in_words(parts.get("Source", "")),
        _in_words(parts.get("Not covered", "")),
    )


def _flowing(text: str) -> str:
    """A paragraph on one line; those with an empty line between them stay apart."""
    return "\n".join(" ".join(one.split()) for one in text.strip().split("\n\n"))


def _in_words(text: str) -> str:
    """A text with the names of other kernels as words."""
    return _KERNEL_NAME.sub(lambda name: name[0].replace("_", " "), text)

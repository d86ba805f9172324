"""The calculators of the joint: from inputs to kernels and back to results."""

import re
from collections.abc import Mapping
from typing import Literal, cast

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.input_errors import GivenBoth, InputNeeded, ItemUnreadable, NameUnknown
from gudgeon.calc.joint.bands import (
    Spreads,
    band_of_factor,
    combined_band,
    least_preload,
    tightening_factor,
)
from gudgeon.calc.joint.clamp import clamp_needed
from gudgeon.calc.joint.preload import BoltJoint, assembly_preload, bearing_diameter, strength_class
from gudgeon.calc.joint.stiffness import (
    BoltMethod,
    Compliance,
    Layer,
    Segment,
    bolt_compliance,
    fitted_member_compliance,
    member_compliance,
    vdi_member_compliance,
)
from gudgeon.calc.joint.thread import Thread, read_thread
from gudgeon.calc.joint.torque import (
    NutFactorTorque,
    TorqueSplit,
    nut_factor_preload,
    nut_factor_torque,
    preload_from_torque,
    torque_from_preload,
)
from gudgeon.calc.joint.turn import BoltSpec, SnugBolt, turn
from gudgeon.calc.joint.wrench import adapter_setting
from gudgeon.calc.lists import Item, items
from gudgeon.calc.reading import count, figure, maybe, needed, text
from gudgeon.quantity.format import number
from gudgeon.sources.tables import general_fit, materials, nut_factors, tightening_ways

PRELOAD = "joint.assembly-preload"
TURN = "joint.turn"
FROM_TORQUE = "joint.preload-from-torque"
FROM_PRELOAD = "joint.torque-from-preload"
MEMBERS = "joint.member-compliance"
SCATTER = "joint.scatter"


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


def from_torque(values: Mapping[str, Value]) -> Worked:
    """Works out joint.preload-from-torque."""
    bolt, torque = read_thread(text(values, "thread")), figure(values, "torque")
    factor = _nut_factor(values)
    if factor is not None:
        return _by_nut_factor(nut_factor_preload(torque, thread=bolt, nut_factor=factor), bolt)
    found = preload_from_torque(
        torque,
        thread=bolt,
        **_frictions(values, calculator=FROM_TORQUE),
    )
    return _by_friction(found, bolt)


def from_preload(values: Mapping[str, Value]) -> Worked:
    """Works out joint.torque-from-preload."""
    bolt, preload_n = read_thread(text(values, "thread")), figure(values, "preload")
    factor = _nut_factor(values)
    if factor is not None:
        return _by_nut_factor(nut_factor_torque(preload_n, thread=bolt, nut_factor=factor), bolt)
    found = torque_from_preload(
        preload_n,
        thread=bolt,
        **_frictions(values, calculator=FROM_PRELOAD),
    )
    return _by_friction(found, bolt)


def _frictions(values: Mapping[str, Value], *, calculator: str) -> dict[str, float]:
    """The frictions and where they act, as the kernels name them; asked for where no nut factor stands for them."""
    return {
        "mu_thread": needed(values, "mu_thread", calculator=calculator, example="mu_thread=0.12"),
        "mu_head": needed(values, "mu_head", calculator=calculator, example="mu_head=0.12"),
        "bearing_diameter_mm": _bearing(values, calculator=calculator),
    }


def _nut_factor(values: Mapping[str, Value]) -> float | None:
    """The nut factor, as a number or by the state of the surfaces on file."""
    if values["nut_factor"] is None:
        return None
    for key in ("mu_thread", "mu_head", "bearing_diameter", "head_diameter", "hole"):
        if values[key] is not None:
            raise GivenBoth("nut_factor", key)
    given = text(values, "nut_factor")
    known = nut_factors()
    found = {_plain(name): one for name, one in known.items()}.get(_plain(given))
    if found is not None:
        return found.value
    try:
        return float(given)
    except ValueError:
        raise NameUnknown("nut factor", given, known) from None


def _plain(name: str) -> str:
    """A name on file however its words are joined: anti-seize, anti_seize, Anti seize."""
    return " ".join(re.split(r"[\s_,-]+", name.strip().lower()))


def _by_friction(found: TorqueSplit, bolt: Thread) -> Worked:
    return Worked(
        {
            "preload_n": found.preload_n,
            "torque_nm": found.torque_nm,
            "share_pitch": found.share_pitch,
            "share_thread": found.share_thread,
            "share_head": found.share_head,
        },
        bolt.flags,
    )


def _by_nut_factor(found: NutFactorTorque, bolt: Thread) -> Worked:
    lumped = "A nut factor does not say how friction is shared between thread and head."
    return Worked(
        {
            "preload_n": found.preload_n,
            "torque_nm": found.torque_nm,
            "share_pitch": found.share_pitch,
            "share_thread": None,
            "share_head": None,
        },
        (*bolt.flags, lumped),
    )


def bolt_spring(values: Mapping[str, Value]) -> Worked:
    """Works out joint.bolt-compliance."""
    bolt = read_thread(text(values, "thread"))
    found = bolt_compliance(
        [_segment(one) for one in items(text(values, "segments"), kinds=("length", "area"))],
        thread=bolt,
        head=text(values, "head"),
        engagement_mm=_engagement(text(values, "engagement"), bolt),
        modulus_mpa=figure(values, "modulus"),
        engaged_modulus_mpa=maybe(values, "engaged_modulus"),
        method=cast(BoltMethod, text(values, "method")),
    )
    return _spring(found, bolt.flags)


def _segment(item: Item) -> Segment:
    """A length, and a diameter, an area or the word thread."""
    lengths = (*item.all_of("length"), *item.bare)
    if not 1 <= len(lengths) <= 2:
        raise ItemUnreadable(item.text, ("a length", "a diameter or an area, or the word thread"))
    return Segment(
        lengths[0],
        diameter_mm=lengths[1] if len(lengths) == 2 else None,
        area_mm2=item.of("area"),
        threaded="thread" in item.words and "unthread" not in item.words,
    )


def _engagement(written: str, bolt: Thread) -> float | None:
    """The thread engaged in a tapped part, or None for a nut; tapped alone means deep enough."""
    if written == "nut":
        return None
    if written == "tapped":
        return bolt.nominal_mm
    found = list(items(written, kinds=("length",)))
    lengths = [value for item in found for value in (*item.all_of("length"), *item.bare)]
    if len(lengths) != 1:
        raise ItemUnreadable(written, ("nut", "tapped", "or the length of thread engaged"))
    return lengths[0]


def member_spring(values: Mapping[str, Value]) -> Worked:
    """Works out joint.member-compliance."""
    layers, names = _layers(text(values, "layers"))
    below = None if values["tapped"] is None else _layers(text(values, "tapped"))[0]
    hole, method = figure(values, "hole"), text(values, "method")
    if method == "fitted":
        nominal = maybe(values, "nominal_diameter") or hole
        left_out = ("The fitted curve knows no tapped part: it is left out.",) if below else ()
        return _spring(fitted_member_compliance(layers, nominal_mm=nominal, fit=_fit(names)), left_out)
    head = needed(values, "head_diameter", calculator=MEMBERS, example="head_diameter='18 mm'")
    outside = maybe(values, "outside_diameter")
    if method == "vdi":
        return _spring(
            vdi_member_compliance(
                layers,
                head_diameter_mm=head,
                hole_mm=hole,
                tapped=below is not None,
                outside_diameter_mm=outside,
            )
        )
    if below is not None and len(below) != 1:
        raise ItemUnreadable(text(values, "tapped"), ("the modulus and thickness of one part",))
    return _spring(
        member_compliance(
            layers,
            head_diameter_mm=head,
            hole_mm=hole,
            tapped=None if below is None else below[0],
            nominal_mm=maybe(values, "nominal_diameter"),
            half_angle_deg=figure(values, "half_angle"),
            outside_diameter_mm=outside,
        )
    )


def _layers(written: str) -> tuple[list[Layer], list[str]]:
    """Layers, each a material or a modulus and a thickness, and the names of the materials."""
    moduli = {one.name: one.modulus_mpa for one in materials()}
    layers, names = [], []
    for item in items(written, kinds=("stress", "length")):
        modulus, lengths, bare = item.of("stress"), list(item.all_of("length")), list(item.bare)
        if modulus is None and item.words:
            if item.words not in moduli:
                raise NameUnknown("material", item.words, moduli)
            modulus = moduli[item.words]
        elif modulus is None and bare:
            modulus = bare.pop(0)
        thicknesses = lengths + bare
        if modulus is None or len(thicknesses) != 1:
            raise ItemUnreadable(item.text, ("a material or a modulus", "a thickness"))
        layers.append(Layer(modulus, thicknesses[0]))
        names.append(item.words)
    return layers, names


def _fit(names: list[str]) -> tuple[float, float]:
    """The constants of the material, where all layers name one that has them."""
    fits = {one.name: one.fit for one in materials()}
    found = fits.get(names[0]) if len(set(names)) == 1 else None
    return found or general_fit()


def _spring(found: Compliance, flags: tuple[str, ...] = ()) -> Worked:
    parts = "; ".join(f"{name}: {value * 1e6:.3f} µm/kN" for name, value in found.parts)
    return Worked(
        {
            "compliance_mm_per_n": found.compliance_mm_per_n,
            "stiffness_n_per_mm": found.stiffness_n_per_mm,
            "parts": parts,
        },
        (*flags, *found.flags),
    )


def scatter(values: Mapping[str, Value]) -> Worked:
    """Works out joint.scatter."""
    low, high, words = _band(values)
    factor = tightening_factor(high)
    worked: dict[str, float | str | None] = {
        "relative_band": high,
        "tightening_factor": factor,
        "relative_band_low": low,
        "tightening_factor_low": tightening_factor(low),
        "from": words,
    }
    greatest = maybe(values, "greatest_preload")
    if greatest is not None:
        worked["least_preload_n"] = least_preload(greatest, factor=factor)
    return Worked(worked)


def _band(values: Mapping[str, Value]) -> tuple[float, float, str]:
    """Least and greatest band, and where they come from."""
    spreads = [maybe(values, key) for key in ("friction", "tool", "angle")]
    given = {
        "method": values["method"] is not None,
        "tightening_factor": values["tightening_factor"] is not None,
        "friction, tool, angle": any(one is not None for one in spreads),
    }
    chosen = [name for name, is_given in given.items() if is_given]
    if not chosen:
        raise InputNeeded("method, or friction, tool and angle", SCATTER, "method='torque wrench'")
    if len(chosen) > 1:
        raise GivenBoth(chosen[0], chosen[1])
    if given["method"]:
        return _band_of_way(text(values, "method"))
    if given["tightening_factor"]:
        band = band_of_factor(figure(values, "tightening_factor"))
        return band, band, "the tightening factor"
    friction, tool, angle = (one or 0.0 for one in spreads)
    band = combined_band(Spreads(friction, tool, angle), snug_share=maybe(values, "snug_share"))
    return band, band, "the spreads, as root of the sum of squares"


def _band_of_way(name: str) -> tuple[float, float, str]:
    ways = tightening_ways()
    found = next((one for one in ways if _plain(one.name) == _plain(name)), None)
    if found is None:
        raise NameUnknown("way of tightening", name, [one.name for one in ways])
    band = f"±{number(100 * found.high, decimals=0)} %"
    if found.low < found.high:
        band = f"±{number(100 * found.low, decimals=0)} to {number(100 * found.high, decimals=0)} %"
    return found.low, found.high, f"{found.name}: {band} ({found.source})"


def clamp(values: Mapping[str, Value]) -> Worked:
    """Works out joint.clamp-needed."""
    found = clamp_needed(
        figure(values, "bore"),
        peak_pressure_mpa=figure(values, "peak_pressure"),
        cylinders=count(values, "cylinders"),
        bolts=count(values, "bolts"),
        factor=figure(values, "factor"),
    )
    return Worked(
        {
            "gas_force_n": found.gas_force_n,
            "clamp_per_bolt_n": found.clamp_per_bolt_n,
            "clamp_n": found.clamp_n,
        }
    )

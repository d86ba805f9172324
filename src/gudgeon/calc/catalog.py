"""The calculators: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result


def _length(name: str, text: str, example: str, *, optional: bool = False) -> Parameter:
    return Parameter(name, "length", "mm", text, optional=optional, example=example)


def _volume(name: str, text: str, example: str, *, optional: bool = False) -> Parameter:
    return Parameter(name, "volume", "cm³", text, optional=optional, example=example)


def _text(name: str, text: str, example: str, *, optional: bool = False) -> Parameter:
    return Parameter(name, None, None, text, optional=optional, example=example)


_BORE = _length("bore", "cylinder diameter", "86 mm")
_STROKE = _length("stroke", "travel of the piston", "86 mm")
_BOLT = _text("thread", "designation: M10x1.25, M12, 1/2-13 UNC, #10-32 UNF", "M10x1.25")

_THREAD = Calculator(
    name="joint.thread",
    title="The thread of a bolt: diameters and areas",
    module="gudgeon.calc.joint.forms:thread",
    parameters=(_text("designation", "M10x1.25, M12, 1/2-13 UNC, 3/8-24 UNF, #10-32 UNF", "M12"),),
    results=(
        Result("nominal_mm", "length", "mm", "nominal diameter", 3),
        Result("pitch_mm", "length", "mm", "pitch", 3),
        Result("pitch_diameter_mm", "length", "mm", "pitch diameter d2", 3),
        Result("root_diameter_mm", "length", "mm", "root diameter of the bolt d3", 3),
        Result("stress_area_mm2", "area", "mm²", "stress area As", 1),
        Result("root_area_mm2", "area", "mm²", "root area A3", 1),
    ),
    source="ISO 68-1:1998, ISO 261:1998, ISO 898-1:2013; ASME B1.1:2003",
    method="d2 = d − 0.6495 P; d3 = d − 1.2269 P (unified: d − 1.2990 P); As = π/4 · ((d2 + d3)/2)² "
    "(unified: π/4 · (d − 0.9743/n)²)",
)

_PRELOAD = Calculator(
    name="joint.assembly-preload",
    title="The preload a bolt can carry when tightened, and the torque for it",
    module="gudgeon.calc.joint.forms:preload",
    parameters=(
        _BOLT,
        _text("strength_class", "marked on the head: 8.8, 10.9, A2-70, SAE 5 …", "8.8", optional=True),
        Parameter("yield_mpa", "stress", "MPa", "yield strength, not a class", optional=True, example="640"),
        Parameter("mu_thread", "ratio", "1", "friction in the thread", example="0.12"),
        Parameter("mu_head", "ratio", "1", "friction under the head", example="0.12"),
        _length("bearing_diameter", "where the friction under the head acts", "12.8 mm", optional=True),
        _length("head_diameter", "bearing face of the head, outside", "16.6 mm", optional=True),
        _length("hole", "clearance hole", "9 mm", optional=True),
        Parameter("utilisation", "ratio", "1", "share of the yield strength", "0.9"),
        Parameter("torsion", None, None, "plastic since VDI 2230:2001, elastic before", "plastic",
                  ("plastic", "elastic")),
    ),
    results=(
        Result("preload_n", "force", "N", "preload", 0),
        Result("torque_nm", "torque", "N·m", "torque at the head", 1),
        Result("stress_ratio", "ratio", "1", "equivalent stress against yield", 3),
        Result("thread_torque_nm", "torque", "N·m", "torque that the thread takes", 1),
        Result("head_torque_nm", "torque", "N·m", "torque lost under the head", 1),
    ),
    source="VDI 2230:2003; strengths from ISO 898-1:2013, ISO 3506-1:2009, SAE J429",
    method="F = ν · Rp / √(1/As² + 3 · (M/F / W)²), W = π d0³/12 (plastic) or π d0³/16 (elastic); "
    "T = F · (d2/2 · tan(φ + ρ') + DKm/2 · µ)",
)  # fmt: skip

_ADAPTER = Calculator(
    name="joint.wrench-adapter",
    title="What to set on a torque wrench with an adapter at its head",
    module="gudgeon.calc.joint.forms:adapter",
    parameters=(
        Parameter("torque", "torque", "N·m", "torque wanted at the bolt", example="95 N·m"),
        _length("wrench_length", "center of the grip to center of the drive", "400 mm"),
        _length("adapter_length", "center of the drive to center of the bolt", "50 mm"),
        Parameter("adapter_angle", "angle", "°", "0 straight out, 90 square, 180 folded back", "0"),
    ),
    results=(Result("setting_nm", "torque", "N·m", "setting of the wrench", 1),),
    source="TM 9-2350-261-20-1, page 2-29; cosine by hand",
    method="setting = T · L / (L + E · cos a)",
)

_DISPLACEMENT = Calculator(
    name="engine.displacement",
    title="Displacement",
    module="gudgeon.calc.engine.forms:displacement",
    parameters=(_BORE, _STROKE, Parameter("cylinders", "number", "1", "how many", example="4")),
    results=(
        Result("displacement_cm3", "volume", "cm³", "displacement of the engine", 1),
        Result("swept_per_cylinder_cm3", "volume", "cm³", "swept volume of one cylinder", 2),
    ),
    source="HAND: volume of a cylinder; terms of ISO 7967-1",
    method="π/4 · bore² · stroke · cylinders",
)

_RATIO = Calculator(
    name="engine.compression-ratio",
    title="Compression ratio from the parts around the gas",
    module="gudgeon.calc.engine.forms:ratio",
    parameters=(
        _BORE,
        _STROKE,
        _volume("chamber_volume", "chamber in the head, by burette", "45 cm³"),
        _length("gasket_bore", "opening of the gasket; the bore where not given", "87 mm", optional=True),
        _length("gasket_thickness", "gasket, tightened", "1.2 mm"),
        Parameter("crown_volume", "volume", "cm³", "piston crown: + dish, − dome", "0"),
        Parameter("piston_height", "length_difference", "mm", "piston at the top: + proud of the deck", "0"),
    ),
    results=(
        Result("ratio", "ratio", "1", "compression ratio", 2),
        Result("clearance_volume_cm3", "volume", "cm³", "volume above the piston at the top", 2),
        Result("swept_per_cylinder_cm3", "volume", "cm³", "swept volume of one cylinder", 2),
        Result("gasket_volume_cm3", "volume", "cm³", "volume inside the gasket", 2),
        Result("deck_volume_cm3", "volume", "cm³", "volume between piston and deck; − where proud", 2),
    ),
    source="Ganesan, Internal Combustion Engines, worked example 1.1; volumes by hand",
    method="ratio = (swept + clearance) / clearance; "
    "clearance = chamber + gasket + crown − bore area · height",
)

_CUT = Calculator(
    name="engine.cut",
    title="What a cut from the head face does to the ratio",
    module="gudgeon.calc.engine.forms:cut",
    parameters=(
        _length("cut", "taken off the head face", "0.2 mm"),
        Parameter("ratio", "ratio", "1", "ratio before the cut", optional=True, example="9.0"),
        _volume("clearance_volume", "instead of the ratio", "62.4 cm³", optional=True),
        _length("bore", "cylinder diameter", "86 mm", optional=True),
        _length("stroke", "travel of the piston", "86 mm", optional=True),
        _volume("swept_volume", "instead of bore and stroke", "500 cm³", optional=True),
        Parameter(
            "mouth_area", "area", "mm²", "opening of the chamber in the face; the bore area where not given",
            optional=True, example="48 cm²",
        ),
    ),
    results=(
        Result("new_ratio", "ratio", "1", "ratio after the cut", 2),
        Result("volume_removed_cm3", "volume", "cm³", "volume taken from each chamber", 2),
        Result("old_ratio", "ratio", "1", "ratio before the cut", 2),
        Result("clearance_volume_cm3", "volume", "cm³", "clearance volume after the cut", 2),
    ),
    source="HAND: dV = A · d; ratio after Ganesan, Internal Combustion Engines, worked example 1.1",
    method="new ratio = 1 + swept / (clearance − mouth area · cut)",
)  # fmt: skip

_POSITION = Calculator(
    name="engine.piston-position",
    title="Where the piston stands at an angle of the crank",
    module="gudgeon.calc.engine.forms:position",
    parameters=(
        _STROKE,
        _length("rod_length", "connecting rod, center to center", "143 mm"),
        Parameter("crank_angle", "angle", "°", "from the throw pointing along the cylinder", example="90°"),
        Parameter("pin_offset", "length_difference", "mm",
                  "pin axis beside the crank axis; + where the throw goes down", "0"),
    ),
    results=(
        Result("drop_mm", "length", "mm", "below the highest place", 3),
        Result("speed_ratio", "ratio", "1", "speed against the mean piston speed; + is downward", 3),
        Result("top_center_deg", "angle", "°", "crank angle of the highest place", 2),
        Result("stroke_mm", "length", "mm", "true stroke", 3),
    ),
    source="HAND: slider-crank",
    method="drop = √((l + r)² − e²) − r · cos φ − √(l² − (r · sin φ − e)²)",
)  # fmt: skip

_CONVERT = Calculator(
    name="quantity.convert",
    title="A figure in another unit of its kind",
    module="gudgeon.calc.conversion:convert_figure",
    parameters=(
        _text("value", "number with its unit", "70 lbf·ft"),
        _text("to", "unit wanted", "N·m"),
        _text("kind", "kind of quantity, where the units leave it open", "torque", optional=True),
    ),
    results=(
        Result("value", None, None, "the figure in the unit wanted"),
        Result("kind", None, None, "kind of quantity"),
    ),
    source="NIST SP 811:2008, appendix B; Weights and Measures Act 1985; ISO 80000-4:2019",
    method="exact factors of the definitions",
)  # fmt: skip

_CONFORMITY = Calculator(
    name="metrology.conformity",
    title="What a reading with its uncertainty proves about its limits",
    module="gudgeon.calc.metrology.forms:conformity",
    parameters=(
        _text("value", "reading; a bare number is in the base unit of its kind", "0.07 mm"),
        _text("u", "standard uncertainty of the reading", "0.01 mm"),
        _text("lower", "lower limit", "0.03 mm", optional=True),
        _text("upper", "upper limit", "0.10 mm", optional=True),
        Parameter("rule", None, None, "guard-band, or simple: the reading alone decides", "guard-band",
                  ("guard-band", "simple")),
        Parameter("risk", "ratio", "1", "risk of a wrong verdict", "0.05"),
        Parameter("kind", None, None, "kind of quantity of reading and limits", "length"),
    ),
    results=(
        Result("verdict", None, None, "inside, outside or in doubt"),
        Result("probability_inside", "ratio", "1", "probability of lying inside", 4),
        Result("guard_band", None, None, "how far inside a reading must lie to prove it"),
    ),
    source="ISO 14253-1:2017; JCGM 106:2012, 7.3 and 8.3",
    method="p = Φ((upper − value)/u) − Φ((lower − value)/u); inside when p ≥ 1 − risk, outside when p ≤ risk",
)  # fmt: skip

CALCULATORS: tuple[Calculator, ...] = (
    _THREAD,
    _PRELOAD,
    _ADAPTER,
    _DISPLACEMENT,
    _RATIO,
    _CUT,
    _POSITION,
    _CONFORMITY,
    _CONVERT,
)

"""The calculators of the joint: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length, text

_BOLT = text("thread", words="designation: M10x1.25, M12, 1/2-13 UNC, #10-32 UNF", example="M10x1.25")

_THREAD = Calculator(
    name="joint.thread",
    title="The thread of a bolt: diameters and areas",
    module="gudgeon.calc.joint.forms:thread",
    parameters=(
        text("designation", words="M10x1.25, M12, 1/2-13 UNC, 3/8-24 UNF, #10-32 UNF", example="M12"),
    ),
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
        text("strength_class", words="marked on the head: 8.8, 10.9, A2-70, SAE 5 …", example="8.8", optional=True),
        Parameter("yield_mpa", "stress", "MPa", "yield strength, not a class", optional=True, example="640"),
        Parameter("mu_thread", "ratio", "1", "friction in the thread", example="0.12"),
        Parameter("mu_head", "ratio", "1", "friction under the head", example="0.12"),
        length("bearing_diameter", words="where the friction under the head acts", example="12.8 mm", optional=True),
        length("head_diameter", words="bearing face of the head, outside", example="16.6 mm", optional=True),
        length("hole", words="clearance hole", example="9 mm", optional=True),
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
        length("wrench_length", words="center of the grip to center of the drive", example="400 mm"),
        length("adapter_length", words="center of the drive to center of the bolt", example="50 mm"),
        Parameter("adapter_angle", "angle", "°", "0 straight out, 90 square, 180 folded back", "0"),
    ),
    results=(Result("setting_nm", "torque", "N·m", "setting of the wrench", 1),),
    source="TM 9-2350-261-20-1, page 2-29; cosine by hand",
    method="setting = T · L / (L + E · cos a)",
)

SPRINGS = (1e-8, 1e-3)
"""Between a stud as thick as a wrist and a wire: what a bare compliance in mm/N may be."""
HARDENINGS = (10.0, 1e6)
"""What a bare hardening in N/mm may be."""

_TURN = Calculator(
    name="joint.turn",
    title="The preload of a bolt turned by an angle, and the stretch that stays in it",
    module="gudgeon.calc.joint.forms:turned",
    parameters=(
        _BOLT,
        text("strength_class", words="marked on the head: 8.8, 10.9, A2-70, SAE 5 …", example="10.9", optional=True),
        Parameter("yield_mpa", "stress", "MPa", "yield strength, not a class", optional=True, example="940"),
        Parameter("bolt_compliance", "compliance", "mm/N", "stretch of the bolt per force", example="6.0 µm/kN",
                  bare=SPRINGS),
        Parameter("member_compliance", "compliance", "mm/N", "give of the parts per force", example="2.0 µm/kN",
                  bare=SPRINGS),
        Parameter("snug_torque", "torque", "N·m", "torque before the turn", example="30 N·m"),
        Parameter("mu_thread", "ratio", "1", "friction in the thread", example="0.12"),
        Parameter("mu_head", "ratio", "1", "friction under the head", example="0.12"),
        length("bearing_diameter", words="where the friction under the head acts", example="12.8 mm", optional=True),
        length("head_diameter", words="bearing face of the head, outside", example="16.6 mm", optional=True),
        length("hole", words="clearance hole", example="9 mm", optional=True),
        Parameter("angle", "angle", "°", "turn from the snug torque", example="90°"),
        Parameter("hardening", "stiffness", "N/mm", "rise of force per permanent stretch, beyond yield", "0",
                  example="4000 N/mm", bare=HARDENINGS),
    ),
    results=(
        Result("preload_n", "force", "N", "preload", 0),
        Result("yielded", None, None, "whether the bolt yielded"),
        Result("permanent_stretch_mm", "length", "mm", "stretch that stays", 3),
        Result("snug_preload_n", "force", "N", "preload at the snug torque", 0),
        Result("yield_preload_n", "force", "N", "preload at which the bolt begins to yield", 0),
    ),
    source="HAND: travel of the head = stretch + give of the parts; yield after VDI 2230:2003, R8/1 and R13",
    method="F = Fs + angle · P / 360 / (dS + dP) up to Fy = Rp / √(1/As² + 3 · (M/F / W)²), beyond it "
    "F = Fy + H · p with p = (Fs + angle · P / 360 / (dS + dP) − Fy) / (1/(dS + dP) + H)",
)  # fmt: skip

_FRICTION = (
    Parameter("mu_thread", "ratio", "1", "friction in the thread", optional=True, example="0.12"),
    Parameter("mu_head", "ratio", "1", "friction under the head", optional=True, example="0.12"),
    length("bearing_diameter", words="where the friction under the head acts", example="12.8 mm", optional=True),
    length("head_diameter", words="bearing face of the head, outside", example="16.6 mm", optional=True),
    length("hole", words="clearance hole", example="9 mm", optional=True),
    text(
        "nut_factor", words="K of T = K · d · F instead of the frictions: a number, or black, zinc plated, "
        "lubricated, cadmium plated, anti-seize, grip nuts", example="0.2", optional=True,
    ),
)  # fmt: skip
_PRELOAD_N = Result("preload_n", "force", "N", "preload", 0)
_TORQUE_NM = Result("torque_nm", "torque", "N·m", "torque at the head", 1)
_SHARES = (
    Result("share_pitch", "ratio", "1", "share of the torque that stretches the bolt", 3),
    Result("share_thread", "ratio", "1", "share that rubs in the thread", 3),
    Result("share_head", "ratio", "1", "share that rubs under the head", 3),
)
_TORQUE_SOURCE = "VDI 2230:2003, R13, exact tangent; Shigley, 9th edition, equation 8-27 and table 8-15"
_TORQUE_METHOD = (
    "T = F · (d2/2 · tan(φ + ρ') + DKm/2 · µ); shares P/2π, d2/2 · tan(φ + ρ') − P/2π and DKm/2 · µ; "
    "or T = K · d · F"
)

_FROM_TORQUE = Calculator(
    name="joint.preload-from-torque",
    title="The preload that a torque makes, and where the torque goes",
    module="gudgeon.calc.joint.forms:from_torque",
    parameters=(
        _BOLT,
        Parameter("torque", "torque", "N·m", "torque at the head", example="48 N·m"),
        *_FRICTION,
    ),
    results=(_PRELOAD_N, *_SHARES, _TORQUE_NM),
    source=_TORQUE_SOURCE,
    method=_TORQUE_METHOD,
)

_FROM_PRELOAD = Calculator(
    name="joint.torque-from-preload",
    title="The torque that a preload needs, and where the torque goes",
    module="gudgeon.calc.joint.forms:from_preload",
    parameters=(
        _BOLT,
        Parameter("preload", "force", "N", "preload wanted", example="29.6 kN"),
        *_FRICTION,
    ),
    results=(_TORQUE_NM, *_SHARES, _PRELOAD_N),
    source=_TORQUE_SOURCE,
    method=_TORQUE_METHOD,
)

_SPRING = (
    Result("compliance_mm_per_n", "compliance", "mm/N", "stretch or give per force"),
    Result("stiffness_n_per_mm", "stiffness", "N/mm", "force per stretch or give", 0),
    Result("parts", None, None, "what the compliance is made of"),
)

_BOLT_COMPLIANCE = Calculator(
    name="joint.bolt-compliance",
    title="How much a bolt stretches under its force",
    module="gudgeon.calc.joint.forms:bolt_spring",
    parameters=(
        _BOLT,
        text(
            "segments", words="lengths within the grip, each with a diameter, an area or the word thread, apart by "
            "semicolons; a length alone has the nominal diameter", example="30 mm x 10 mm; 15 mm thread",
        ),
        Parameter("engagement", None, None, "nut, tapped (one diameter or more), or the length of thread engaged",
                  "nut", example="15 mm"),
        Parameter("head", None, None, "kind of head", "hexagon",
                  ("hexagon", "flange hexagon", "twelve-point", "hexagon socket", "six-lobe socket", "slotted",
                   "stud nut")),
        Parameter("modulus", "stress", "MPa", "modulus of elasticity of the bolt", "205 GPa"),
        Parameter("engaged_modulus", "stress", "MPa", "of nut or tapped part; that of the bolt where not given",
                  optional=True, example="75 GPa"),
        Parameter("method", None, None, "vdi counts head, engaged thread and nut; textbook the grip alone", "vdi",
                  ("vdi", "textbook")),
    ),
    results=_SPRING,
    source="VDI 2230:2003, 5.1.1 (from memory); Shigley, 9th edition, equation 8-17 and figure 8-21",
    method="vdi: dS = (k d/AN + Σ l/A + 0.5 d/A3)/E + m d/(AN E'), k 0.5 or 0.4 by the head, m 0.4 in a nut or "
    "0.33 tapped; textbook: dS = Σ l/(A E), with As for thread and d/2 more of it when tapped",
)  # fmt: skip

_MEMBER_COMPLIANCE = Calculator(
    name="joint.member-compliance",
    title="How much the clamped parts give under the force of a bolt",
    module="gudgeon.calc.joint.forms:member_spring",
    parameters=(
        text(
            "layers", words="from under the head downward, each a modulus or a material (steel, cast iron, aluminum, "
            "copper, magnesium) and a thickness, apart by semicolons", example="207 GPa x 20 mm; cast iron x 25 mm",
        ),
        length("head_diameter", words="bearing face of head or washer", example="18 mm", optional=True),
        length("hole", words="hole through the parts; textbooks take the nominal diameter", example="12 mm"),
        Parameter("half_angle", "angle", "°", "half the angle of the cones, method textbook", "30"),
        text("tapped", words="the part that the bolt is screwed into, like a layer; none with a nut",
             example="cast iron x 40 mm", optional=True),
        length("nominal_diameter", words="of the bolt; the hole where not given", example="12 mm", optional=True),
        length("outside_diameter", words="width of the parts around the bolt; wide where not given", example="40 mm",
               optional=True),
        Parameter("method", None, None, "textbook: cones of the half angle; vdi: cone of VDI 2230; fitted: curve for "
                  "one material", "textbook", ("textbook", "vdi", "fitted")),
    ),
    results=_SPRING,
    source="Shigley, 9th edition, equations 8-20 and 8-23, figure 8-21; VDI 2230:2003, 5.1.2 (from memory)",
    method="dP = Σ ln(((2 t tan α + D − d)(D + d))/((2 t tan α + D + d)(D − d)))/(π E d tan α); vdi: tan φ = 0.362 + "
    "0.032 ln(β/2) + 0.153 ln y, tapped 0.348 + 0.013 ln β + 0.193 ln y; fitted: k = E d a exp(b d/l)",
)  # fmt: skip

_SCATTER = Calculator(
    name="joint.scatter",
    title="How far the preload may lie from the wanted one",
    module="gudgeon.calc.joint.forms:scatter",
    parameters=(
        text(
            "method", words="way of tightening: by feel, torque wrench, turn of nut, indicating washer, torque "
            "(unlubricated, cadmium plated, lubricated, found by test, estimated friction, after a comma), ultrasonic, "
            "bolt elongation, yield controlled, angle controlled, hydraulic, power screwdriver, impact wrench",
            example="torque wrench", optional=True,
        ),
        Parameter("friction", "ratio", "1", "± spread from friction, instead of a method", optional=True,
                  example="24 %"),
        Parameter("tool", "ratio", "1", "± spread from the wrench", optional=True, example="4 %"),
        Parameter("angle", "ratio", "1", "± spread from the angle", optional=True, example="5 %"),
        Parameter("snug_share", "ratio", "1", "share of the preload from the snug torque, where an angle follows",
                  optional=True, example="30 %"),
        Parameter("tightening_factor", "ratio", "1", "instead of the spreads", optional=True, example="1.6"),
        Parameter("greatest_preload", "force", "N", "for the least preload to count with", optional=True,
                  example="41.9 kN"),
    ),
    results=(
        Result("relative_band", "ratio", "1", "± about the middle preload", 3),
        Result("tightening_factor", "ratio", "1", "greatest against least preload", 2),
        Result("relative_band_low", "ratio", "1", "± in the best case of the method", 3),
        Result("tightening_factor_low", "ratio", "1", "in the best case of the method", 2),
        Result("least_preload_n", "force", "N", "least preload to count with", 0),
        Result("from", None, None, "where the band comes from"),
    ),
    source="Machinery's Handbook, 31st edition, page 1658; NASA values of preload uncertainty; VDI 2230:1986; "
    "JCGM 100:2008 for independent spreads",
    method="b = √(friction² + tool² + angle²), with a snug share s √(s² (friction² + tool²) + (1 − s)² angle²); "
    "αA = (1 + b)/(1 − b); Fmin = Fmax/αA",
)  # fmt: skip

_CLAMP = Calculator(
    name="joint.clamp-needed",
    title="The clamp that a head needs against the gas",
    module="gudgeon.calc.joint.forms:clamp",
    parameters=(
        length("bore", words="diameter that the pressure acts on", example="86 mm"),
        Parameter(
            "peak_pressure", "pressure_gauge", "MPa", "highest pressure in the cylinder", example="7.5 MPa"
        ),
        Parameter("cylinders", "number", "1", "cylinders under the head", example="4"),
        Parameter("bolts", "number", "1", "bolts that hold the head, all of them", example="10"),
        Parameter("factor", "ratio", "1", "clamp against gas force", "3"),
    ),
    results=(
        Result("gas_force_n", "force", "N", "gas force on one cylinder", 0),
        Result("clamp_per_bolt_n", "force", "N", "clamp of one bolt", 0),
        Result("clamp_n", "force", "N", "clamp of the whole head", 0),
    ),
    source="HAND: pressure times area; a factor of 3 after a trade article on head gaskets",
    method="F = π/4 · bore² · p; per bolt = factor · F · cylinders / bolts",
)

CALCULATORS = (
    _THREAD,
    _PRELOAD,
    _FROM_TORQUE,
    _FROM_PRELOAD,
    _BOLT_COMPLIANCE,
    _MEMBER_COMPLIANCE,
    _TURN,
    _ADAPTER,
    _SCATTER,
    _CLAMP,
)

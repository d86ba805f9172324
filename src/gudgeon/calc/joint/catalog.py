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

_TURN = Calculator(
    name="joint.turn",
    title="The preload of a bolt turned by an angle, and the stretch that stays in it",
    module="gudgeon.calc.joint.forms:turned",
    parameters=(
        _BOLT,
        text("strength_class", words="marked on the head: 8.8, 10.9, A2-70, SAE 5 …", example="10.9", optional=True),
        Parameter("yield_mpa", "stress", "MPa", "yield strength, not a class", optional=True, example="940"),
        Parameter("bolt_compliance", "compliance", "mm/N", "stretch of the bolt per force", example="6e-6 mm/N"),
        Parameter("member_compliance", "compliance", "mm/N", "give of the parts per force", example="2e-6 mm/N"),
        Parameter("snug_torque", "torque", "N·m", "torque before the turn", example="30 N·m"),
        Parameter("mu_thread", "ratio", "1", "friction in the thread", example="0.12"),
        Parameter("mu_head", "ratio", "1", "friction under the head", example="0.12"),
        length("bearing_diameter", words="where the friction under the head acts", example="12.8 mm", optional=True),
        length("head_diameter", words="bearing face of the head, outside", example="16.6 mm", optional=True),
        length("hole", words="clearance hole", example="9 mm", optional=True),
        Parameter("angle", "angle", "°", "turn from the snug torque", example="90°"),
        Parameter("hardening", "stiffness", "N/mm", "rise of force per permanent stretch, beyond yield", "0"),
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

CALCULATORS = (_THREAD, _PRELOAD, _ADAPTER, _TURN)

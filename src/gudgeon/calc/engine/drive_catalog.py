"""The calculators of the drive: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length, text

_KIND = Parameter("drive", None, None, "toothed belt or chain", "belt", choices=("belt", "chain"))
_RISE = length(
    "rise", words="from a smooth roller to the pitch line of the belt", example="1.5 mm", optional=True
)

_SHIFT = Calculator(
    name="engine.cam-shift",
    title="How far a lowered head turns its camshaft",
    module="gudgeon.calc.engine.drive_forms:shift",
    parameters=(
        Parameter("lowering", "length_difference", "mm",
                  "how much nearer the head comes to the crankshaft; − is higher", example="0.2 mm"),
        length("pitch", words="from tooth to tooth of belt or chain", example="9.525 mm", optional=True),
        Parameter("crank_teeth", "number", "1", "teeth of the crankshaft's wheel", optional=True, example="20",
                  also=("crank_sprocket_teeth",)),
        Parameter("cam_teeth", "number", "1", "teeth of the camshaft's wheel", optional=True, example="40",
                  also=("cam_sprocket_teeth",)),
        length("crank_radius", words="its pitch radius, instead of teeth", example="30.32 mm", optional=True),
        length("cam_radius", words="its pitch radius, instead of teeth", example="60.64 mm", optional=True),
        length("center_distance", words="from crankshaft to camshaft, straight", example="400 mm"),
        Parameter("cam_beside", "length_difference", "mm",
                  "camshaft beside the line along which the head is lowered; + toward the tight side", "0"),
        text("idlers", words="wheels on the tight side, from the crankshaft to the camshaft: x to the right from the "
             "crankshaft, y toward the head, seen with the tight side on the right; `back` runs on the back of the "
             "belt, `head` is lowered too", example="x=70 y=180 teeth=22; x=30 y=90 diameter=60 back", optional=True),
        _RISE,
        Parameter("bank_angle", "angle", "°", "between the banks of a vee; the near bank is the first one from the "
                  "crankshaft along the tight side", optional=True, example="60°"),
        Parameter("far_lowering", "length_difference", "mm", "of the far bank's head; as the near one where not given",
                  optional=True, example="0.2 mm"),
        _KIND,
    ),
    results=(
        Result("cam_deg", "angle", "°", "camshaft (near bank): + later (retarded), − earlier (advanced)", 4),
        Result("crank_deg", "angle", "°", "the same in degrees of the crankshaft", 4),
        Result("teeth", "number", "1", "the same in teeth", 4),
        Result("tensioner_takeup_mm", "length_difference", "mm", "belt that the tensioner must take up", 3),
        Result("direction", None, None, "which way"),
        Result("far_cam_deg", "angle", "°", "camshaft of the far bank", 4),
        Result("far_crank_deg", "angle", "°", "the same in degrees of the crankshaft", 4),
        Result("far_teeth", "number", "1", "the same in teeth", 4),
    ),
    source="HAND: constant pitch length of the tight side, from a tooth at the camshaft to one at the crankshaft",
    method="spans and arcs between two teeth add up to the same length before and after; the slack side is taken "
    "straight from crankshaft to camshaft, so over a tensioner the take-up differs a little",
)  # fmt: skip

_LENGTH = Calculator(
    name="engine.belt-length",
    title="Length of a belt or chain over its wheels",
    module="gudgeon.calc.engine.drive_forms:length",
    parameters=(
        length("pitch", words="from tooth to tooth of belt or chain", example="9.525 mm"),
        text("teeth", words="of the wheels, in the order of the path", example="20; 40", optional=True),
        length("center_distance", words="of two wheels", example="150 mm", optional=True),
        text("centers", words="x and y of each wheel in mm, in the same order; of two how far they lie apart",
             example="0 0; 0 150", optional=True),
        Parameter("belt_teeth", "number", "1", "of two wheels: asks for their center distance", optional=True,
                  example="114"),
        text("wheels", words="instead of teeth and centers: all wheels in the order of the path, with rollers",
             example="x=0 y=0 teeth=20; x=0 y=150 teeth=40; x=40 y=70 diameter=30 back", optional=True),
        _RISE,
        _KIND,
    ),
    results=(
        Result("length_mm", "length", "mm", "along the pitch line", 3),
        Result("teeth", "number", "1", "teeth or links", 3),
        Result("center_distance_mm", "length", "mm", "of two wheels", 3),
        Result("wraps_deg", None, None, "how far each wheel is wrapped, in degrees", several=True),
        Result("spans_mm", None, None, "each span from its wheel to the next, in mm", several=True),
    ),
    source="HAND: tangents and arcs of the pitch circles; ISO 606 for the pitch circle of a sprocket",
    method="Σ spans + Σ wraps; the wheels may be listed in either direction",
)  # fmt: skip

_REALIGN = Calculator(
    name="engine.marks-realign",
    title="After how many turns marks on the belt line up again",
    module="gudgeon.calc.engine.drive_forms:realign",
    parameters=(
        Parameter("belt_teeth", "number", "1", "teeth of the belt, or links of the chain", example="111"),
        Parameter("crank_teeth", "number", "1", "teeth of the crankshaft's wheel", example="18"),
        Parameter("with_cam", None, None, "until the camshaft's mark stands right too", "no", choices=("no", "yes"),
                  spelled=(("false", "no"), ("0", "no"), ("true", "yes"), ("1", "yes"))),
    ),
    results=(Result("crank_turns", "number", "1", "turns of the crankshaft", 0),),
    source="HAND: least common multiple",
    method="lcm(belt, wheel) / wheel; with the camshaft the next even multiple",
)  # fmt: skip

CALCULATORS = (_SHIFT, _LENGTH, _REALIGN)

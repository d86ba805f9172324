"""The calculators of valve events and dead centers: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length


def _angle(name: str, words: str, example: str, default: str | None = None) -> Parameter:
    return Parameter(name, "angle", "°", words, default, optional=default is None, example=example)


def _read(name: str, words: str, example: str) -> Parameter:
    return Parameter(name, "angle", "°", words, example=example)


def _found(name: str, words: str, decimals: int = 2) -> Result:
    return Result(name, "angle", "°", words, decimals)


_OF_ONE_READING = _angle("uncertainty", "standard uncertainty of one reading", "0.5°", "0")

_EVENTS = Calculator(
    name="engine.valve-events",
    title="When the valves open and close",
    module="gudgeon.calc.engine.events_forms:events",
    parameters=(
        _angle("opening", "intake opens before top dead center; minus is after", "12°"),
        _angle("closing", "intake closes after bottom dead center; minus is before", "48°"),
        _angle("duration", "how long the intake is open", "240°"),
        _angle("centerline", "full lift of the intake, after top dead center", "108°"),
        _angle("exhaust_opening", "exhaust opens before bottom dead center; minus is after", "46°"),
        _angle("exhaust_closing", "exhaust closes after top dead center; minus is before", "10°"),
        _angle("exhaust_duration", "how long the exhaust is open", "236°"),
        _angle("exhaust_centerline", "full lift of the exhaust, before top dead center", "108°"),
        _angle("overlap", "how long both are open together, where the exhaust is not given", "22°"),
        _angle("advance", "camshafts set earlier, in crank degrees; minus is later", "5°", "0"),
    ),
    results=(
        _found("duration_deg", "duration of the intake"),
        _found("centerline_deg", "full lift of the intake, after top dead center"),
        _found("opening_deg", "intake opens before top dead center"),
        _found("closing_deg", "intake closes after bottom dead center"),
        _found("exhaust_duration_deg", "duration of the exhaust"),
        _found("exhaust_centerline_deg", "full lift of the exhaust, before top dead center"),
        _found("exhaust_opening_deg", "exhaust opens before bottom dead center"),
        _found("exhaust_closing_deg", "exhaust closes after top dead center"),
        _found("overlap_deg", "both open together; minus is a pause"),
        _found("lobe_separation_deg", "between the lobes, at the camshaft"),
    ),
    source="HAND: 180° of the crankshaft lie between the dead centers",
    method="duration = opening + 180° + closing; centerline = duration / 2 − event at top dead center; "
    "overlap = intake opening + exhaust closing; separation = mean of both centerlines",
)

_TDC = Calculator(
    name="engine.tdc",
    title="Top dead center from a piston stop, or from equal dial readings",
    module="gudgeon.calc.engine.events_forms:tdc",
    parameters=(
        _read("first", "reading of the disk at the stop, turning one way", "30°"),
        _read("second", "reading at the stop, turning the other way", "310°"),
        Parameter("pin_offset", "length_difference", "mm",
                  "pin axis beside the crank axis; + where the throw goes down", "0"),
        length("stop_depth", words="piston below its highest place at the stop", example="10 mm", optional=True),
        length("stroke", words="travel of the piston", example="86 mm", optional=True),
        length("rod_length", words="connecting rod, center to center", example="143 mm", optional=True),
        Parameter("disk_counts", None, None, "which way the numbers of the disk grow past the pointer",
                  "with the turning", choices=("with the turning", "against the turning")),
        _OF_ONE_READING,
    ),
    results=(
        _found("tdc_deg", "reading at top dead center: the middle of both"),
        _found("expected_error_deg", "what an offset pin leaves between the middle and the true one; "
               "+ is too late", 4),
        _found("true_tdc_deg", "reading at top dead center, the offset pin allowed for"),
        _found("half_angle_deg", "from the middle to either reading"),
        _found("expected_half_angle_deg", "the same by stroke, rod and depth"),
        _found("uncertainty_deg", "standard uncertainty of the middle"),
    ),
    source="HAND: circular mean of two angles; slider-crank",
    method="middle on the shorter way between both readings; error = atan(e / h) − asin(e / (l + r)), "
    "h = √((l + r)² − e²) − depth",
)  # fmt: skip

_LOBE_CENTER = Calculator(
    name="engine.lobe-center",
    title="Center of a lobe from equal lift on both flanks",
    module="gudgeon.calc.engine.events_forms:lobe_center",
    parameters=(
        _read("first", "reading of the disk at a lift, opening", "60°"),
        _read("second", "reading at the same lift, closing", "145.5°"),
        _OF_ONE_READING,
    ),
    results=(
        _found("center_deg", "reading at the center of the lobe"),
        _found("half_angle_deg", "from the center to either reading"),
        _found("uncertainty_deg", "standard uncertainty of the center"),
    ),
    source="HAND: circular mean of two angles",
    method="middle on the shorter way between both readings",
)

_ROCKER = Calculator(
    name="engine.rocker-ratio",
    title="Ratio of a rocker arm from two lifts",
    module="gudgeon.calc.engine.events_forms:rocker_ratio",
    parameters=(
        length("valve_lift", words="lift of the valve, lash taken up", example="0.5236 in"),
        Parameter("lash", "length_difference", "mm", "clearance at the valve", "0", example="0.020 in"),
        length("cam_lift", words="lift of the lobe", example="0.360 in"),
    ),
    results=(Result("ratio", "ratio", "1", "rocker ratio", 3),),
    source="TM 5-6115-400-35 (lifts and lash); ratio by hand",
    method="ratio = (valve lift + lash) / cam lift",
)

CALCULATORS = (_EVENTS, _TDC, _LOBE_CENTER, _ROCKER)

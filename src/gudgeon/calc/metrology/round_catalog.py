"""The calculators of round forms: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length, text

_ROUNDNESS = Calculator(
    name="metrology.roundness",
    title="Roundness of points around a section",
    module="gudgeon.calc.metrology.round_forms:roundness",
    parameters=(
        Parameter("file", None, None, "file of points, one line each: x and y in columns", example="bore-1.csv",
                  file=True),
        text("unit", words="unit of the figures; mm where neither this nor the file says one", example="mm",
             optional=True),
        Parameter("method", None, None, "circle that the deviation is taken from", "minimum-zone",
                  ("minimum-zone", "least-squares", "circumscribed", "inscribed")),
    ),
    results=(
        Result("deviation_mm", "length_difference", "mm", "farthest less nearest point, from the center", 5),
        Result("center_x_mm", "length_difference", "mm", "center, as x of the points", 5),
        Result("center_y_mm", "length_difference", "mm", "center, as y of the points", 5),
        Result("radius_mm", "length", "mm", "radius of the circle; of the minimum zone the mean of its two", 5),
        Result("farthest", None, None, "lines of the file whose points are farthest from the center"),
        Result("nearest", None, None, "lines of the file whose points are nearest to the center"),
        Result("gap_deg", "angle", "°", "largest angle about the center without a point", 1),
    ),
    source="ISO 12181-1:2011 (reference circles)",
    method="deviation = max |p − c| − min |p − c|; minimum-zone: the least of all centers, by trying the bisectors of "
    "the points that touch; least-squares: distances square to the circle; circumscribed: smallest circle around; "
    "inscribed: largest circle within",
)  # fmt: skip

_V_BLOCK = Calculator(
    name="metrology.v-block",
    title="What an indicator over a V-block shows of lobes",
    module="gudgeon.calc.metrology.round_forms:over_a_v_block",
    parameters=(
        Parameter("lobes", "number", "1", "high places in one turn", example="3"),
        Parameter("angle", "angle", "°", "between the faces of the V; 180° is a flat face, or two contacts",
                  example="90°"),
    ),
    results=(
        Result("magnification", "ratio", "1", "swing of the indicator over the difference of greatest and least "
               "radius", 3),
        Result("blind", None, None, "what this V hardly shows"),
    ),
    source="JSPE 43 (514), 1977, page 1167, abstract",
    method="f = |1 + cos(n · (90° + θ/2)) / sin(θ/2)|",
)  # fmt: skip

_RING_GAP = Calculator(
    name="metrology.ring-gap-in-bore",
    title="The gap of a ring in another bore",
    module="gudgeon.calc.metrology.round_forms:gap_of_ring",
    parameters=(
        length("gap", words="gap in the bore where it was measured", example="0.35 mm"),
        length("bore", words="that bore", example="86.02 mm"),
        length("other_bore", words="the other bore, or the same at another height", example="86.06 mm"),
    ),
    results=(
        Result("gap_mm", "length", "mm", "gap in the other bore", 3),
        Result("gap_per_bore", "ratio", "1", "that gap over the other bore", 5),
    ),
    source="HAND: the ring keeps its length",
    method="gap' = gap + π · (bore' − bore)",
)

_RUN_OUT = Calculator(
    name="metrology.run-out",
    title="Run-out, bend and form from a dial over one turn",
    module="gudgeon.calc.metrology.round_forms:turned_under_a_dial",
    parameters=(
        text("readings", words="of the dial, apart by semicolons; bare numbers are mm", example="0; 0.02; 0.05; 0.03"),
        text("angles", words="of the readings, apart by semicolons; even steps of one turn where not given",
             example="0; 90; 180; 270", optional=True),
    ),
    results=(
        Result("total_mm", "length_difference", "mm", "what the dial swings", 4),
        Result("bend_mm", "length_difference", "mm", "half of that: how far a round shaft is off its axis here", 4),
        Result("eccentricity_mm", "length_difference", "mm", "distance of center and axis, form set aside", 4),
        Result("high_deg", "angle", "°", "where the part stands out most by that", 1),
        Result("form_mm", "length_difference", "mm", "what the dial would swing without it", 4),
    ),
    source="HAND: an eccentricity e moves the dial by e · cos(φ − φ₀)",
    method="total = max − min; least squares of m + a · cos φ + b · sin φ; eccentricity = √(a² + b²)",
)  # fmt: skip

_GUIDE = Calculator(
    name="metrology.guide-clearance",
    title="Clearance of a valve stem in its guide, from rocking the valve",
    module="gudgeon.calc.metrology.round_forms:rocked_valve",
    parameters=(
        length("rock", words="what the dial shows from one side to the other", example="0.20 mm"),
        length("guide_length", words="length of the guide", example="40 mm"),
        length("height", words="from the end of the guide to the dial", example="10 mm"),
    ),
    results=(Result("clearance_mm", "length", "mm", "stem to guide, as a difference of diameters", 4),),
    source="HAND: the stem tilts about the middle of its guide",
    method="clearance = rock / (1 + 2 · height / guide length)",
)

CALCULATORS = (_ROUNDNESS, _V_BLOCK, _RING_GAP, _RUN_OUT, _GUIDE)

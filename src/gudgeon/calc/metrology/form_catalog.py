"""The calculator of flatness: its inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import text

_FLATNESS = Calculator(
    name="metrology.flatness",
    title="How flat a face is, from points read anywhere on it",
    module="gudgeon.calc.metrology.form_forms:flatness",
    parameters=(
        Parameter("file", None, None, "CSV file of x, y, z, one line for each point; a header may say the unit",
                  example="face.csv", file=True),
        text("unit", words="unit of the figures, where no header says it; else mm", example="in", optional=True),
    ),
    results=(
        Result("minimum_zone_mm", "length", "mm", "distance of the two closest parallel planes holding all points", 4),
        Result("least_squares_mm", "length", "mm", "from the lowest point to the highest, off the least-squares plane",
               4),
        Result("plane", None, None, "a, b, c of the middle plane z = a x + b y + c, c in mm", several=True),
        Result("contact_points", None, None, "points that touch the two planes, counted from 1: above, then below",
               several=True),
        Result("certificate_gap_mm", "length", "mm", "how much narrower a zone could be at most, by the proof"),
    ),
    source="ISO 12781-1:2011 (minimum zone and least squares reference planes)",
    method="four points hold the two planes; a point beyond them takes the place of one of the four, until none is "
    "beyond; planes and points are turned until the distance is square to the planes; shares of the four that balance "
    "prove that no zone is narrower",
)  # fmt: skip

CALCULATORS = (_FLATNESS,)

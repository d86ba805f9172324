"""The calculator of a bead of sealant: its inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length, text

SEALANT_BEAD = Calculator(
    name="planning.sealant-bead",
    title="Sealant for a bead",
    module="gudgeon.calc.planning.supplies_forms:sealant_bead",
    parameters=(
        length("length", words="of the bead", example="560 mm", optional=True),
        text("points", words="x and y in mm that the bead goes around through, such as the bolts of the cover; instead "
             "of its length", example="0 0; 90 0; 90 60; 0 60", optional=True),
        length("width", words="of the bead as it is laid", example="2 mm"),
        Parameter("reserve", "ratio", "1", "more, for the nozzle and the ends; else as is usual", optional=True,
                  example="0.3"),
        Parameter("tube", "volume", "cm³", "what is in the tube at hand", optional=True, example="70 mL"),
    ),
    results=(
        Result("length_mm", "length", "mm", "length of the bead", 0),
        Result("volume_cm3", "volume", "cm³", "sealant that it takes", 1),
        Result("from_tube_mm", "length", "mm", "bead that the tube is enough for", 0),
    ),
    source="HAND: volume of a cylinder; reserve COMMON PRACTICE",
    method="V = length · π / 4 · width² · (1 + reserve)",
)  # fmt: skip

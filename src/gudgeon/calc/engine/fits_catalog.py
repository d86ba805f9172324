"""The calculators of fits: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length, text

_OIL = Calculator(
    name="engine.oil-clearance",
    title="Clearance that the parts of a bearing leave",
    module="gudgeon.calc.engine.fits_forms:oil_clearance",
    parameters=(
        text("bore", words="bore without shells: a size, a range or ±; in mm where it has no unit",
             example="53.00–53.02 mm"),
        text("journal", words="journal, pin or stem, written the same way", example="49.97 ± 0.01 mm"),
        text("shell", words="thickness of a half in its middle; none where the shaft runs bare",
             example="1.49–1.50 mm", optional=True,
             also=("shells", "shell_thickness", "shell_thicknesses")),
        text("other_shell", words="the other half, where it differs", example="1.48–1.49 mm", optional=True),
    ),
    results=(
        Result("clearance_least_mm", "length_difference", "mm", "tightest: small bore, thick shells, thick journal", 4),
        Result("clearance_most_mm", "length_difference", "mm", "loosest: the other ends", 4),
        Result("clearance_middle_mm", "length_difference", "mm", "every part in the middle of its range", 4),
    ),
    source="HAND: sizes subtracted; checked with tables of US Army technical manuals",
    method="clearance = bore − upper half − lower half − journal",
)  # fmt: skip

_RING = Calculator(
    name="engine.ring-gap",
    title="Ring gap when hot, and against the bore",
    module="gudgeon.calc.engine.fits_forms:ring_gap",
    parameters=(
        length("cold_gap", words="end gap in this bore, when cold", example="0.35 mm"),
        length("bore", words="the bore, when cold", example="86 mm"),
        Parameter("ring_temperature", "temperature", "°C", "ring when hot; assumed, with that of the bore",
                  optional=True, example="200 °C"),
        Parameter("bore_temperature", "temperature", "°C", "bore at the ring when hot", optional=True,
                  example="120 °C"),
        Parameter("cold_temperature", "temperature", "°C", "at which gap and bore were measured", "20"),
        Parameter("ring_material", None, None, "material of the ring, on file", "iron or steel"),
        Parameter("bore_material", None, None, "material of the bore, on file", "iron or steel"),
        Parameter("ring_expansion", "expansion", "1/K", "linear expansion of the ring, instead of the material",
                  optional=True, example="11 µm/(m·K)"),
        Parameter("expansion", "expansion", "1/K", "linear expansion of both, instead of the materials",
                  optional=True, example="11 µm/(m·K)"),
        Parameter("bore_expansion", "expansion", "1/K", "linear expansion of the bore, instead of the material",
                  optional=True, example="11 µm/(m·K)"),
    ),
    results=(
        Result("hot_gap_mm", "length_difference", "mm", "gap when hot; below zero the ends press on each other", 3),
        Result("closed_by_mm", "length_difference", "mm", "what the heat takes from the gap", 3),
        Result("hot_bore_mm", "length", "mm", "bore when hot", 3),
        Result("gap_per_bore", "ratio", "1", "cold gap over bore", 5),
    ),
    source="HAND: the ring is as long as the circumference less the gap; expansions as on file",
    method="hot gap = π · D · (1 + αb · Δtb) − (π · D − gap) · (1 + αr · Δtr)",
)  # fmt: skip

_PIN = Calculator(
    name="engine.pin-for-hole",
    title="Drill shanks that go into a hole, as a pin",
    module="gudgeon.calc.engine.fits_forms:pin",
    parameters=(
        length("hole", words="diameter of the hole", example="6 mm", also=("hole_diameter", "diameter")),
    ),
    results=(
        Result("nearest", None, None, "largest of all that is not larger than the hole"),
        Result("nearest_mm", "length", "mm", "its diameter", 3),
        Result("play_mm", "length_difference", "mm", "hole less that shank", 3),
        Result("inch_series", None, None, "largest of fractions, numbers and letters"),
        Result("inch_series_mm", "length", "mm", "its diameter", 3),
        Result("fraction", None, None, "largest fraction of an inch, in 64ths"),
        Result("fraction_mm", "length", "mm", "its diameter", 3),
        Result("number", None, None, "largest number drill"),
        Result("number_mm", "length", "mm", "its diameter", 3),
        Result("letter", None, None, "largest letter drill"),
        Result("letter_mm", "length", "mm", "its diameter", 3),
        Result("metric", None, None, "largest metric drill"),
        Result("metric_mm", "length", "mm", "its diameter", 3),
    ),
    source="tables of number and letter drills as printed; ISO 235 for metric steps (memory); 64ths of an inch",
    method="largest size of each series that is not larger than the hole",
)

CALCULATORS = (_OIL, _RING, _PIN)

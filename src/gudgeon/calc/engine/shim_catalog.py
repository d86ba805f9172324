"""The calculator of one shim: its inputs, results and source. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length, text

_SHIM = Calculator(
    name="engine.shim",
    title="The shim that brings a valve clearance to what is wanted",
    module="gudgeon.calc.engine.shim_forms:shim",
    parameters=(
        length("old_shim", words="shim in place when the clearance was measured", example="2.45 mm"),
        text("measured", words="clearance measured with it; a range between two blades", example="0.24 mm"),
        text("wanted", words="clearance wanted: a range, or one value", example="0.25-0.35 mm"),
        Parameter(
            "series", None, None, "sizes that can be had: first, last and step, or each of them",
            optional=True, example="2.00-2.80 mm step 0.05 mm",
        ),
    ),
    results=(
        Result("exact_mm", "length", "mm", "shim that would be exactly right", 3),
        Result("fitted_mm", "length", "mm", "nearest size; of two equally near the thinner", 3),
        Result("clearance_after_mm", "length_difference", "mm", "clearance with that size", 3),
        Result("after_between", None, None, "clearance with that size, between two blades"),
    ),
    source="Engine repair manual of a diesel engine, edition of September 2003, valve clearance; "
    "HAND: what the shim grows by, the clearance loses",
    method="new = old + (measured − wanted), wanted being the middle of a range",
)  # fmt: skip

CALCULATORS = (_SHIM,)

"""The calculators of measurement: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.metrology import form_catalog, round_catalog, uncertainty_catalog
from gudgeon.calc.registration import text

_CONFORMITY = Calculator(
    name="metrology.conformity",
    title="What a reading with its uncertainty proves about its limits",
    module="gudgeon.calc.metrology.forms:conformity",
    parameters=(
        text("value", words="reading; a bare number is in the base unit of its kind", example="0.07 mm"),
        text("u", words="standard uncertainty of the reading", example="0.01 mm"),
        text("lower", words="lower limit", example="0.03 mm", optional=True),
        text("upper", words="upper limit", example="0.10 mm", optional=True),
        Parameter("rule", None, None, "guard-band, or simple: the reading alone decides", "guard-band",
                  ("guard-band", "simple")),
        Parameter("risk", "ratio", "1", "risk of a wrong verdict", "0.05"),
        Parameter("kind", None, None, "kind of quantity of reading and limits", "length"),
        Parameter("dof", "number", "1", "degrees of freedom of u, where it comes from few readings", optional=True,
                  example="4"),
    ),
    results=(
        Result("verdict", None, None, "inside, outside or in doubt"),
        Result("probability_inside", "ratio", "1", "probability of lying inside", 4),
        Result("guard_band", None, None, "how far inside a reading must lie to prove it"),
    ),
    source="ISO 14253-1:2017; JCGM 106:2012, 7.3 and 8.3; JCGM 101:2008, 6.4.9.2",
    method="p = Φ((upper − value)/u) − Φ((lower − value)/u), with Student's distribution for Φ where degrees of "
    "freedom are given; inside when p ≥ 1 − risk, outside when p ≤ risk and the reading lies outside, else in doubt",
)  # fmt: skip

CALCULATORS = (
    _CONFORMITY,
    *form_catalog.CALCULATORS,
    *round_catalog.CALCULATORS,
    *uncertainty_catalog.CALCULATORS,
)

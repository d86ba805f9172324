"""All calculators, gathered from the subjects. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Result
from gudgeon.calc.engine import catalog as engine
from gudgeon.calc.joint import catalog as joint
from gudgeon.calc.metrology import catalog as metrology
from gudgeon.calc.planning import catalog as planning
from gudgeon.calc.registration import text

_CONVERT = Calculator(
    name="quantity.convert",
    title="A figure in another unit of its kind",
    module="gudgeon.calc.conversion:convert_figure",
    parameters=(
        text("value", words="number with its unit", example="70 lbf·ft"),
        text("to", words="unit wanted", example="N·m"),
        text("kind", words="kind of quantity, where the units leave it open", example="torque", optional=True),
    ),
    results=(
        Result("value", None, None, "the figure in the unit wanted"),
        Result("kind", None, None, "kind of quantity"),
    ),
    source="NIST SP 811:2008, appendix B; Weights and Measures Act 1985; ISO 80000-4:2019",
    method="exact factors of the definitions",
)  # fmt: skip

CALCULATORS: tuple[Calculator, ...] = (
    *joint.CALCULATORS,
    *engine.CALCULATORS,
    *metrology.CALCULATORS,
    *planning.CALCULATORS,
    _CONVERT,
)

"""The calculators of uncertainty, repeats and size at 20 °C: their inputs, results and sources."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length, text

_EXPANDED = Calculator(
    name="metrology.expanded-uncertainty",
    title="Combined and expanded uncertainty from all causes of error",
    module="gudgeon.calc.metrology.uncertainty_forms:expanded_uncertainty",
    parameters=(
        text(
            "components",
            words="causes of error, apart by semicolons: `name: figure distribution dof=… sensitivity=… k=… tag=…`, of "
            "which only the figure is needed. A normal figure (the rule) is a standard uncertainty, or k times one "
            "where k is given; that of rectangular, triangular or u-shaped is the half-width, and so is ± with "
            "nothing else. Bare numbers are of one unit. A sensitivity has its sign, and units where the cause is of "
            "another kind: `1 K rectangular sensitivity=1.8 µm/K`. Components of one tag are the same error",
            example="25 nm normal dof=18; 9.7 nm dof=25.6; zero: ± 3 µm rectangular",
        ),
        text("correlation", words="pairs by number or name, apart by semicolons",
             example="1, 2 = 0.5; 1, zero = -0.2", optional=True),
        Parameter("coverage", None, None, "a factor from 1 to 10, or a probability, like `95 %` or `0.99`: then the "
                  "factor follows from the degrees of freedom", "2"),
    ),
    results=(
        Result("u", None, None, "combined standard uncertainty, in the unit of the first component"),
        Result("dof_effective", "number", "1", "effective degrees of freedom, rounded down; none where they have no "
               "end", 0),
        Result("k", "number", "1", "coverage factor", 3),
        Result("expanded", None, None, "expanded uncertainty ± U, in the unit of the first component"),
        Result("largest", None, None, "the cause that counts most"),
    ),
    source="JCGM 100:2008, 4.3, 5.1.2, 5.2.2, 6.2, G.4.1 and G.6.4",
    method="u² = Σ Σ cᵢ uᵢ cⱼ uⱼ rᵢⱼ; ν = u⁴ / Σ (uₖ⁴ / νₖ), what is correlated as one cause; U = k · u",
)  # fmt: skip

_REPEATS = Calculator(
    name="metrology.repeats-needed",
    title="How many repeats bring the mean close enough",
    module="gudgeon.calc.metrology.uncertainty_forms:repeats",
    parameters=(
        Parameter("half_width_over_s", "ratio", "1", "half-width wanted of the mean, over the scatter of one reading",
                  example="0.5"),
        Parameter("coverage", "ratio", "1", "how often the statement shall be true", "0.95"),
    ),
    results=(Result("repeats", "number", "1", "readings of one place, each set up anew", 0),),
    source="JCGM 100:2008, 4.2.3 and G.3.2",
    method="least n with t(p, n − 1) / √n ≤ half-width over scatter",
)  # fmt: skip

_SIZE = Calculator(
    name="metrology.size-at-20",
    title="Size at 20 °C of a part that was measured warm or cold",
    module="gudgeon.calc.metrology.uncertainty_forms:size",
    parameters=(
        length("length", words="size as read off the gauge", example="86.012 mm"),
        Parameter("part_temperature", "temperature", "°C", "temperature of the part", example="30 °C"),
        Parameter("expansion", "expansion", "1/K", "linear expansion of the part; this or the material",
                  optional=True, example="21.5 µm/(m·K)"),
        text("material", words="material on file: gray iron, aluminum 356, mild steel and others; or the expansion",
             example="aluminum 356", optional=True),
        Parameter("gauge_temperature", "temperature", "°C", "temperature of the gauge; without it, that of the part",
                  optional=True, example="20 °C"),
        Parameter("gauge_expansion", "expansion", "1/K", "linear expansion of the gauge; without it, gauge steel",
                  optional=True, example="11.5 µm/(m·K)"),
        Parameter("u_length", "length_difference", "mm", "standard uncertainty of the reading", optional=True,
                  example="0.003 mm"),
        Parameter("part_temperature_error", "temperature_difference", "K",
                  "± error of the part's temperature; without it, 1 K of a garage thermometer", optional=True,
                  example="1 K"),
        Parameter("gauge_temperature_error", "temperature_difference", "K",
                  "± error of the gauge's temperature; without it, 1 K", optional=True, example="1 K"),
        Parameter("expansion_error", "expansion", "1/K",
                  "± error of the expansion; without it, as on file, or 1 µm/(m·K)", optional=True,
                  example="0.5 µm/(m·K)"),
        Parameter("gauge_expansion_error", "expansion", "1/K",
                  "± error of the gauge's expansion; without it, 1 µm/(m·K)", optional=True, example="1 µm/(m·K)"),
    ),
    results=(
        Result("length_mm", "length", "mm", "size at 20 °C", 4),
        Result("u_mm", "length_difference", "mm", "its standard uncertainty"),
        Result("correction_mm", "length_difference", "mm", "what was added to the reading", 4),
    ),
    source="ISO 1:2022; JCGM 100:2008, H.1; expansions with their own sources",
    method="L₂₀ = L · (1 + αg · (tg − 20)) / (1 + αp · (tp − 20)), exact: the sum L · (1 + αg Δg − αp Δp) differs "
    "by 0.14 µm for 86 mm of aluminum at 80 °C and a gauge at 20 °C; a gauge as warm as the part shares its "
    "temperature's error, so that only αp − αg counts",
)  # fmt: skip

CALCULATORS = (_SIZE, _EXPANDED, _REPEATS)

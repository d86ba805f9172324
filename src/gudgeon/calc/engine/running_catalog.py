"""The calculators of the air, of cranking, of a leak and of coolant: inputs, results and sources."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.registration import length, text

AIR = (100.0, 1500.0)
"""What a bare air pressure in kPa may be: 5.5 is meant in bar, and 80 in psi."""

_ALTITUDE = Parameter("altitude", "altitude", "m", "above the sea", "0 m", example="500 m")

_ATMOSPHERE = Calculator(
    name="engine.atmosphere",
    title="The air at an altitude",
    module="gudgeon.calc.engine.running_forms:atmosphere",
    parameters=(
        _ALTITUDE,
        Parameter("temperature", "temperature", "°C", "of today; else the standard air's", optional=True,
                  example="29.4 °C"),
        Parameter("pressure", "pressure_absolute", "Pa", "of today, absolute; else the standard air's",
                  optional=True, example="99.49 kPa"),
    ),
    results=(
        Result("pressure_pa", "pressure_absolute", "Pa", "pressure of the air, absolute", 2),
        Result("temperature_k", "temperature", "K", "temperature of the air", 1),
        Result("density", "density", "kg/m³", "density of dry air", 4),
    ),
    source="U.S. Standard Atmosphere 1976, equations 18, 23, 33a and 42; ISO 2533:1975",
    method="p = p0 · (T / T0)^(g M / R L), T = T0 − L · H, H = r Z / (r + Z); density = p M / (R T)",
)  # fmt: skip

_CRANKING = Calculator(
    name="engine.cranking-pressure",
    title="Pressure that a compression gauge should show",
    module="gudgeon.calc.engine.running_forms:cranking",
    parameters=(
        Parameter("ratio", "ratio", "1", "compression ratio", example="9.0"),
        Parameter("intake_closing", "angle", "°", "crank angle after bottom dead center; "
                  "without it the ratio is taken as that from closing", optional=True, example="60°"),
        length("bore", words="cylinder diameter; it cancels", example="86 mm", optional=True),
        length("stroke", words="travel of the piston", example="86 mm", optional=True),
        length("rod_length", words="connecting rod, center to center", example="143 mm", optional=True, also=("rod",)),
        Parameter("pin_offset", "length_difference", "mm",
                  "pin axis beside the crank axis; + where the throw goes down", "0"),
        Parameter("exponent", "number", "1", "one exponent, or the lower of two; else 1.20 to 1.30",
                  optional=True, example="1.25"),
        Parameter("exponent_high", "number", "1", "the upper of two", optional=True, example="1.30"),
        _ALTITUDE,
        Parameter("measured", "pressure_gauge", "kPa", "what the gauge showed", optional=True,
                  example="11 bar"),
        Parameter("minimum", "pressure_gauge", "kPa", "least pressure as the manual prints it", optional=True,
                  example="515 psi"),
        Parameter("minimum_altitude", "altitude", "m", "for which it is printed", "0 m", example="500 ft"),
        Parameter("rule", None, None, "by which the printed one goes to this altitude", "pressure",
                  ("pressure", "density")),
        Parameter("density", "density", "kg/m³", "of the air here, for the density rule; else the standard air's",
                  optional=True, example="0.0613 lb/ft³"),
        Parameter("minimum_density", "density", "kg/m³",
                  "of the air that it is printed for; else the standard air's", optional=True,
                  example="0.0715 lb/ft³"),
    ),
    results=(
        Result("dynamic_ratio", "ratio", "1", "ratio from intake closing", 3),
        Result("gauge_low_kpa", "pressure_gauge", "kPa", "gauge, by the lower exponent", 0),
        Result("gauge_high_kpa", "pressure_gauge", "kPa", "gauge, by the upper exponent", 0),
        Result("ambient_kpa", "pressure_absolute", "kPa", "pressure of the air, absolute", 2),
        Result("implied_exponent", "number", "1", "exponent of what was measured", 3),
        Result("minimum_here_kpa", "pressure_gauge", "kPa", "the printed least pressure, here", 0),
    ),
    source="HAND: polytropic compression from intake closing; exponents 1.20 to 1.30 COMMON PRACTICE; "
    "altitude after TM 5-3895-359-14&P",
    method="p = p0 · (r^n − 1), r = 1 + (ratio − 1) · s / stroke; printed · air here / air there",
)  # fmt: skip

_SPREAD = Calculator(
    name="engine.compression-spread",
    title="Cylinders compared",
    module="gudgeon.calc.engine.running_forms:spread",
    parameters=(
        text("readings", words="one for each cylinder", example="11.2 bar; 10.9 bar; 8.0 bar; 11.0 bar"),
        Parameter("rule", None, None, "how the manual limits it", "ratio to highest",
                  ("absolute", "ratio to highest", "percent below mean"), spelled=(("difference", "absolute"),)),
        text("limit", words="most difference, least share of the highest, or most below the mean",
             example="75 %"),
    ),
    results=(
        Result("verdict", None, None, "inside or outside"),
        Result("spread", "pressure_gauge", "kPa", "lowest to highest", 0),
        Result("lowest_to_highest", "ratio", "1", "the lowest of the highest", 3),
        Result("below_mean", "ratio", "1", "the lowest below the mean of all", 3),
        Result("lowest_cylinder", None, None, "counted in the order given"),
        Result("highest_cylinder", None, None, "counted in the order given"),
    ),
    source="TM 5-3895-359-14&P (difference), TM 5-4210-230-14&P-1 p. 883 (75 % of the highest); "
    "below the mean COMMON PRACTICE",
    method="highest − lowest; lowest / highest; 1 − lowest / mean",
)  # fmt: skip

_LEAK_DOWN = Calculator(
    name="engine.leak-down",
    title="What a leak-down test says",
    module="gudgeon.calc.engine.running_forms:leak",
    parameters=(
        Parameter(
            "supply",
            "pressure_gauge",
            "kPa",
            "before the orifice, gauge",
            example="80 psi",
            also=("supply_pressure",),
            bare=AIR,
        ),
        Parameter(
            "cylinder",
            "pressure_gauge",
            "kPa",
            "behind it, gauge",
            example="75 psi",
            also=("cylinder_pressure",),
            bare=AIR,
        ),
        length("orifice", words="diameter of the orifice in the tester", example="0.040 in"),
        length("other_orifice", words="of another tester", example="0.060 in", optional=True),
        _ALTITUDE,
    ),
    results=(
        Result("leak_percent", None, "%", "share of the pressure that is lost"),
        Result("equivalent_hole_mm", "length", "mm", "round hole that leaks as much", 3),
        Result("other_cylinder_kpa", "pressure_gauge", "kPa", "same leak on the other tester, gauge", 1),
        Result("other_leak_percent", None, "%", "same leak on the other tester"),
        Result("verdict", None, None, "what such a share lost is called"),
    ),
    source="HAND: isentropic flow of air through two holes of one coefficient; tester of AC 43.13-1B, 8-14",
    method="orifice² · q(supply → cylinder) = hole² · q(cylinder → outside), choked below 0.528",
)

_COOLANT = Calculator(
    name="engine.coolant",
    title="Freezing point and mixing of coolant",
    module="gudgeon.calc.engine.coolant_forms:coolant",
    parameters=(
        Parameter("glycol", None, None, "in the concentrate", "ethylene", ("ethylene", "propylene"),
                  also=("glycol_kind", "kind"),
                  spelled=(("EG", "ethylene"), ("MEG", "ethylene"), ("PG", "propylene"), ("MPG", "propylene"))),
        Parameter("basis", None, None, "how shares are counted", "volume", ("volume", "mass")),
        Parameter("fraction", "ratio", "1", "share of glycol asked about, as 50 % or 0.5",
                  optional=True, example="50 %"),
        Parameter("target", "ratio", "1", "share wanted in the system, as 50 % or 0.5", optional=True, example="50 %"),
        Parameter("guards_to", "temperature", "°C", "instead: the cold that it must stand", optional=True,
                  example="-30 °C"),
        Parameter("capacity", "volume", "L", "of the system", optional=True, example="6.4 L"),
        Parameter("residual", "volume", "L", "what is in it now; nothing where left out", optional=True,
                  example="2 L"),
        Parameter("present", "ratio", "1", "share of glycol in that, as 33 % or 0.33", "0", example="33 %"),
        Parameter("added", "ratio", "1", "share of glycol in what is poured in; 100 % is undiluted", "100 %"),
        Parameter("drain", "volume", "L", "instead: drained and filled up each time", optional=True,
                  example="3 L"),
        Parameter("cycles", "number", "1", "how many times", "1"),
        Parameter("specific_gravity", "ratio", "1", "of the glycol; else 1.1155 or 1.038", optional=True,
                  example="1.1155"),
        text("table", words="of freezing points: ASHRAE, Melinder or Lange", example="Lange", optional=True),
    ),
    results=(
        Result("freeze_c", "temperature", "°C", "first ice", 1),
        Result("volume_share", "ratio", "1", "share of glycol by volume", 4),
        Result("mass_share", "ratio", "1", "share of glycol by mass", 4),
        Result("drain_l", "volume", "L", "to drain first", 2),
        Result("concentrate_l", "volume", "L", "concentrate to pour in"),
        Result("water_l", "volume", "L", "clean water to pour in"),
    ),
    source="ASHRAE 2001 by volume, Melinder 2010 by mass, Lange's Handbook, 15th edition, table 5.13; "
    "mixing HAND",
    method="monotone curve through the table; glycol before = glycol after",
)  # fmt: skip

CALCULATORS = (_ATMOSPHERE, _CRANKING, _SPREAD, _LEAK_DOWN, _COOLANT)

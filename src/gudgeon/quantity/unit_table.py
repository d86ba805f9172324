"""The units: family, symbol, exact factor to the base unit of the family, offset, system, kind, spellings.

The most usual unit of a family stands first. `kind` is empty, or names the one kind that the unit serves.
"""

import math
from fractions import Fraction

Row = tuple[str, str, Fraction, Fraction, str, str, tuple[str, ...]]

_INCH = Fraction(254, 10)  # mm
_FOOT = 12 * _INCH
_GRAVITY = Fraction(980665, 100000)  # m/s²
_POUND = Fraction(45359237, 100000000)  # kg
_POUND_FORCE = _POUND * _GRAVITY  # N
_PSI = _POUND_FORCE / _INCH**2  # MPa
_MMHG = Fraction(135951, 10000) * _GRAVITY / 1000  # kPa
_DEGREES_PER_RADIAN = Fraction(180) / Fraction(math.pi)
_US_GALLON = 231 * _INCH**3 / 1000  # cm³
_IMPERIAL_GALLON = Fraction(454609, 100)  # cm³
_FAHRENHEIT = Fraction(5, 9)


def _row(
    family: str, symbol: str, factor: Fraction | int, system: str, *aliases: str,
    offset: Fraction | int = 0, only: str = "",
) -> Row:  # fmt: skip
    return family, symbol, Fraction(factor), Fraction(offset), system, only, aliases


# fmt: off
_M, _I, _B = "metric", "inch", "both"

_LENGTH = (
    _row("length", "mm", 1, _M, "millimeter", "millimeters", "millimetre", "millimetres"),
    _row("length", "in", _INCH, _I, "inch", "inches", '"', "''"),
    _row("length", "µm", Fraction(1, 1000), _M, "um", "micron", "microns", "micrometer", "micrometers"),
    _row("length", "thou", _INCH / 1000, _I, "thousandth", "thousandths"),
    _row("length", "cm", 10, _M, "centimeter", "centimeters"),
    _row("length", "m", 1000, _M, "meter", "meters", "metre", "metres"),
    _row("length", "ft", _FOOT, _I, "foot", "feet", "'"),
    _row("length", "µin", _INCH / 1000000, _I, "uin", "microinch", "microinches"),
    _row("length", "nm", Fraction(1, 1000000), _M, "nanometer", "nanometers"),
    _row("length", "km", 1000000, _M, "kilometer", "kilometers", "kilometre", "kilometres", only="altitude"),
    _row("length", "mi", 5280 * _FOOT, _I, "mile", "miles", only="altitude"),
    _row("distance", "km", 1, _M, "kilometer", "kilometers", "kilometre", "kilometres"),
    _row("distance", "mi", 5280 * _FOOT / 1000000, _I, "mile", "miles"),
    _row("area", "mm²", 1, _M, "sq mm"),
    _row("area", "cm²", 100, _M, "sq cm"),
    _row("area", "m²", 1000000, _M, "sq m"),
    _row("area", "in²", _INCH**2, _I, "sq in", "square inch", "square inches"),
    _row("volume", "cm³", 1, _M, "cc", "ccm", "cu cm", "mL", "ml"),
    _row("volume", "L", 1000, _M, "l", "ltr", "liter", "liters", "litre", "litres", "dm3"),
    _row("volume", "in³", _INCH**3 / 1000, _I, "cu in", "cui", "ci", "cid", "cubic inch", "cubic inches"),
    _row("volume", "US qt", _US_GALLON / 4, _I, "U.S. qt", "US quart", "US quarts", "qt US"),
    _row("volume", "US gal", _US_GALLON, _I, "U.S. gal", "US gallon", "US gallons", "gal US"),
    _row("volume", "US pt", _US_GALLON / 8, _I, "U.S. pt", "US pint", "US pints"),
    _row("volume", "US fl oz", _US_GALLON / 128, _I, "U.S. fl oz", "fl oz US"),
    _row("volume", "imp qt", _IMPERIAL_GALLON / 4, _I, "Imp qt", "imperial qt", "UK qt", "imperial quarts"),
    _row("volume", "imp gal", _IMPERIAL_GALLON, _I, "Imp gal", "imperial gal", "UK gal", "imperial gallons"),
    _row("volume", "imp pt", _IMPERIAL_GALLON / 8, _I, "Imp pt", "imperial pt", "UK pt", "imperial pints"),
    _row("volume", "imp fl oz", _IMPERIAL_GALLON / 160, _I, "Imp fl oz", "UK fl oz"),
    _row("volume", "mm³", Fraction(1, 1000), _M, "cu mm"),
    _row("volume", "m³", 1000000, _M, "cu m"),
    _row("roughness", "µm", 1, _M, "um", "micron", "microns"),
    _row("roughness", "µin", _INCH / 1000, _I, "uin", "microinch", "microinches"),
)

_FORCE = (
    _row("torque", "N·m", 1, _M, "Nm", "newton-meter", "newton-meters"),
    _row("torque", "lbf·ft", _POUND_FORCE * _FOOT / 1000, _I, "ft·lbf", "lb·ft", "ft·lb", "lbs·ft", "ft·lbs",
         "foot-pound", "foot-pounds", "lbft", "ftlb", "ftlbs", "lbfft"),
    _row("torque", "lbf·in", _POUND_FORCE * _INCH / 1000, _I, "in·lbf", "lb·in", "in·lb", "lbs·in", "in·lbs",
         "inch-pound", "inch-pounds", "lbin", "inlb", "inlbs"),
    _row("torque", "kgf·m", _GRAVITY, _M, "kgm", "kg·m", "m·kgf", "m·kg", "mkg", "kgfm", "kp·m", "mkp"),
    _row("torque", "kgf·cm", _GRAVITY / 100, _M, "kg·cm", "cm·kgf", "kgcm", "cmkg", "kgfcm"),
    _row("torque", "cN·m", Fraction(1, 100), _M, "cNm"),
    _row("torque", "daN·m", 10, _M, "daNm", "mdaN", "m·daN"),
    _row("torque", "kN·m", 1000, _M, "kNm"),
    _row("torque", "ozf·in", _POUND_FORCE * _INCH / 16000, _I, "oz·in", "in·oz", "in·ozf"),
    _row("energy", "J", 1, _M, "joule", "joules"),
    _row("energy", "kJ", 1000, _M),
    _row("energy", "ft·lbf", _POUND_FORCE * _FOOT / 1000, _I, "ft·lb", "foot-pound", "foot-pounds"),
    _row("force", "N", 1, _M, "newton", "newtons"),
    _row("force", "lbf", _POUND_FORCE, _I, "lb", "lbs"),
    _row("force", "kN", 1000, _M),
    _row("force", "kgf", _GRAVITY, _M, "kp"),
    _row("force", "kip", 1000 * _POUND_FORCE, _I, "kips", "kipf"),
    _row("force", "ozf", _POUND_FORCE / 16, _I),
    _row("force", "daN", 10, _M),
    _row("mass", "kg", 1, _M, "kilogram", "kilograms"),
    _row("mass", "lb", _POUND, _I, "lbs", "lbm", "pound", "pounds"),
    _row("mass", "g", Fraction(1, 1000), _M, "gram", "grams"),
    _row("mass", "oz", _POUND / 16, _I, "ounce", "ounces"),
    _row("stiffness", "N/mm", 1, _M, "kN/m"),
    _row("stiffness", "lbf/in", _POUND_FORCE / _INCH, _I, "lb/in"),
    _row("stiffness", "kN/mm", 1000, _M, "MN/m", "N/µm"),
    _row("stiffness", "N/m", Fraction(1, 1000), _M),
    _row("stiffness", "kgf/mm", _GRAVITY, _M, "kg/mm"),
    _row("stiffness", "Mlbf/in", 1000000 * _POUND_FORCE / _INCH, _I),
    _row("compliance", "mm/N", 1, _M),
    _row("compliance", "µm/kN", Fraction(1, 1000000), _M),
    _row("compliance", "µin/lbf", _INCH / _POUND_FORCE / 1000000, _I),
    _row("compliance", "in/lbf", _INCH / _POUND_FORCE, _I),
    _row("compliance", "µm/N", Fraction(1, 1000), _M),
    _row("bending_stiffness", "N·mm²", 1, _M),
    _row("bending_stiffness", "N·m²", 1000000, _M),
    _row("bending_stiffness", "kN·m²", 1000000000, _M),
    _row("bending_stiffness", "lbf·in²", _POUND_FORCE * _INCH**2, _I, "lb·in2"),
    _row("plate_rigidity", "N·mm", 1, _M),
    _row("plate_rigidity", "kN·mm", 1000, _M),
    _row("plate_rigidity", "lbf·in²/in", _POUND_FORCE * _INCH, _I, "lb·in2/in"),
    _row("beam_foundation", "N/mm²", 1, _M, "N/mm/mm"),
    _row("beam_foundation", "lbf/in/in", _POUND_FORCE / _INCH**2, _I, "lb/in/in"),
    _row("plate_foundation", "N/mm³", 1, _M, "N/mm/mm2", "N/mm2/mm"),
    _row("plate_foundation", "kN/mm³", 1000, _M),
    _row("plate_foundation", "MN/m³", Fraction(1, 1000), _M),
    _row("plate_foundation", "lbf/in³", _POUND_FORCE / _INCH**3, _I, "lb/in3"),
)

_PRESSURE = (
    _row("pressure", "kPa", 1, _M),
    _row("pressure", "psi", 1000 * _PSI, _I, "lbf/in2", "lb/in2", "PSI", "lb/sq in", "lbs/sq in"),
    _row("pressure", "bar", 100, _M),
    _row("pressure", "kgf/cm²", _GRAVITY * 10, _M, "kg/cm2", "kp/cm2"),
    _row("pressure", "MPa", 1000, _M),
    _row("pressure", "Pa", Fraction(1, 1000), _M),
    _row("pressure", "hPa", Fraction(1, 10), _M, "mbar"),
    _row("pressure", "psig", 1000 * _PSI, _I, "psi g", "PSIG", only="pressure_gauge"),
    _row("pressure", "psia", 1000 * _PSI, _I, "psi a", "PSIA", only="pressure_absolute"),
    _row("pressure", "mmHg", _MMHG, _M, "mm Hg"),
    _row("pressure", "inHg", _MMHG * _INCH, _I, "in Hg", "in. Hg"),
    _row("pressure", "atm", Fraction(101325, 1000), _M),
    _row("stress", "MPa", 1, _M, "N/mm2"),
    _row("stress", "psi", _PSI, _I, "lbf/in2", "lb/in2", "PSI"),
    _row("stress", "ksi", 1000 * _PSI, _I, "kpsi"),
    _row("stress", "Mpsi", 1000000 * _PSI, _I, "Mlbf/in2"),
    _row("stress", "GPa", 1000, _M, "kN/mm2"),
    _row("stress", "kgf/mm²", _GRAVITY, _M, "kg/mm2", "kp/mm2"),
    _row("stress", "Pa", Fraction(1, 1000000), _M, "N/m2"),
)

_OTHER = (
    _row("angle", "°", 1, _B, "deg", "degs", "degree", "degrees"),
    _row("angle", "turn", 360, _B, "turns", "rev", "revolution", "revolutions"),
    _row("angle", "′", Fraction(1, 60), _B, "'", "arcmin", "minute of arc"),
    _row("angle", "rad", _DEGREES_PER_RADIAN, _B, "radian", "radians"),
    _row("temperature", "°C", 1, _M, "deg C", "degC", "° C", "C", "celsius"),
    _row("temperature", "°F", _FAHRENHEIT, _I, "deg F", "degF", "° F", "F", "fahrenheit",
         offset=-32 * _FAHRENHEIT),
    _row("temperature", "K", 1, _M, "kelvin", offset=Fraction(-27315, 100)),
    _row("temperature_difference", "K", 1, _M, "°C", "deg C", "degC", "° C", "C", "kelvin"),
    _row("temperature_difference", "°F", _FAHRENHEIT, _I, "deg F", "degF", "° F", "F"),
    _row("time", "s", 1, _B, "sec", "secs", "second", "seconds"),
    _row("time", "min", 60, _B, "mins", "minute", "minutes"),
    _row("time", "h", 3600, _B, "hr", "hrs", "hour", "hours"),
    _row("time", "d", 86400, _B, "day", "days"),
    _row("time", "ms", Fraction(1, 1000), _B),
    _row("ratio", "1", 1, _B, "", ":1", ": 1"),
    _row("ratio", "%", Fraction(1, 100), _B, "percent", "per cent"),
    _row("number", "1", 1, _B, ""),
    _row("speed", "r/min", 1, _B, "rpm", "rev/min", "min-1", "1/min", "RPM", "/min"),
    _row("speed", "r/s", 60, _B, "rev/s", "s-1"),
    _row("voltage", "V", 1, _B, "volt", "volts"),
    _row("voltage", "mV", Fraction(1, 1000), _B),
    _row("expansion", "1/K", 1, _M, "/K", "K-1", "1/°C", "/°C", "mm/mm/K", "mm/(mm·K)"),
    _row("expansion", "1/°F", 1 / _FAHRENHEIT, _I, "/°F", "in/in/°F", "in/(in·°F)"),
    _row("expansion", "µin/(in·°F)", 1 / _FAHRENHEIT / 1000000, _I, "uin/(in·°F)"),
    _row("expansion", "µm/(m·K)", Fraction(1, 1000000), _M, "um/(m·K)", "um/m/K", "µm/m/K",
         "µm/m·K", "10-6/K", "ppm/K", "µm/(m·°C)"),
    _row("density", "kg/m³", 1, _M),
    _row("density", "g/cm³", 1000, _M, "kg/L", "g/mL", "g/cc"),
    _row("density", "lb/ft³", _POUND / (_FOOT / 1000) ** 3, _I, "lbm/ft3", "lb/cu ft"),
    _row("density", "lb/in³", _POUND / (_INCH / 1000) ** 3, _I, "lbm/in3"),
)

# fmt: on
ROWS: tuple[Row, ...] = _LENGTH + _FORCE + _PRESSURE + _OTHER

# Symbols that mean two things inside one family: never guessed.
AMBIGUOUS: dict[tuple[str, str], tuple[str, ...]] = {
    ("length", "mil"): ("thou", "mm"),
    ("volume", "gal"): ("US gal", "imp gal"),
    ("volume", "qt"): ("US qt", "imp qt"),
    ("volume", "pt"): ("US pt", "imp pt"),
    ("volume", "gallon"): ("US gal", "imp gal"),
    ("volume", "gallons"): ("US gal", "imp gal"),
    ("volume", "quart"): ("US qt", "imp qt"),
    ("volume", "quarts"): ("US qt", "imp qt"),
    ("volume", "pint"): ("US pt", "imp pt"),
    ("volume", "pints"): ("US pt", "imp pt"),
    ("volume", "fl·oz"): ("US fl oz", "imp fl oz"),
}

# Spellings that a person writes and that mean something else in full: say what to write.
HINTS: dict[tuple[str, str], str] = {
    ("torque", "nm"): "N·m",
    ("torque", "NM"): "N·m",
    ("torque", "mN"): "N·m",
    ("force", "kg"): "kgf",
    ("pressure", "pa"): "Pa",
}

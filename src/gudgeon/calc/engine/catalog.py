"""The calculators of the engine: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.engine import drive_catalog, events_catalog, fits_catalog, running_catalog, shim_catalog
from gudgeon.calc.registration import length, volume

_BORE = length("bore", words="cylinder diameter", example="86 mm")
_STROKE = length("stroke", words="travel of the piston", example="86 mm")

_DISPLACEMENT = Calculator(
    name="engine.displacement",
    title="Displacement",
    module="gudgeon.calc.engine.forms:displacement",
    parameters=(_BORE, _STROKE, Parameter("cylinders", "number", "1", "how many", example="4")),
    results=(
        Result("displacement_cm3", "volume", "cm³", "displacement of the engine", 1),
        Result("swept_per_cylinder_cm3", "volume", "cm³", "swept volume of one cylinder", 2),
    ),
    source="HAND: volume of a cylinder; terms of ISO 7967-1",
    method="π/4 · bore² · stroke · cylinders",
)

_RATIO = Calculator(
    name="engine.compression-ratio",
    title="Compression ratio from the parts around the gas",
    module="gudgeon.calc.engine.forms:ratio",
    parameters=(
        _BORE,
        _STROKE,
        volume("chamber_volume", words="chamber in the head, by burette", example="45 cm³"),
        length(
            "gasket_bore",
            words="opening of the gasket; the bore where not given",
            example="87 mm",
            optional=True,
        ),
        length("gasket_thickness", words="gasket, tightened", example="1.2 mm"),
        Parameter(
            "crown_volume",
            "volume",
            "cm³",
            "piston crown: + dish, − dome",
            "0",
            also=("piston_crown_volume",),
        ),
        Parameter("piston_height", "length_difference", "mm", "piston at the top: + proud of the deck", "0"),
    ),
    results=(
        Result("ratio", "ratio", "1", "compression ratio", 2),
        Result("clearance_volume_cm3", "volume", "cm³", "volume above the piston at the top", 2),
        Result("swept_per_cylinder_cm3", "volume", "cm³", "swept volume of one cylinder", 2),
        Result("gasket_volume_cm3", "volume", "cm³", "volume inside the gasket", 2),
        Result("deck_volume_cm3", "volume", "cm³", "volume between piston and deck; − where proud", 2),
    ),
    source="Ganesan, Internal Combustion Engines, worked example 1.1; volumes by hand",
    method="ratio = (swept + clearance) / clearance; "
    "clearance = chamber + gasket + crown − bore area · height",
)

_CUT = Calculator(
    name="engine.cut",
    title="What a cut from the head face does to the ratio",
    module="gudgeon.calc.engine.forms:cut",
    parameters=(
        length("cut", words="taken off the head face", example="0.2 mm"),
        Parameter("ratio", "ratio", "1", "ratio before the cut", optional=True, example="9.0"),
        volume("clearance_volume", words="instead of the ratio", example="62.4 cm³", optional=True),
        length("bore", words="cylinder diameter", example="86 mm", optional=True),
        length("stroke", words="travel of the piston", example="86 mm", optional=True),
        volume("swept_volume", words="instead of bore and stroke", example="500 cm³", optional=True),
        Parameter(
            "mouth_area", "area", "mm²", "opening of the chamber in the face; the bore area where not given",
            optional=True, example="48 cm²",
        ),
    ),
    results=(
        Result("new_ratio", "ratio", "1", "ratio after the cut", 2),
        Result("volume_removed_cm3", "volume", "cm³", "volume taken from each chamber", 2),
        Result("old_ratio", "ratio", "1", "ratio before the cut", 2),
        Result("clearance_volume_cm3", "volume", "cm³", "clearance volume after the cut", 2),
    ),
    source="HAND: dV = A · d; ratio after Ganesan, Internal Combustion Engines, worked example 1.1",
    method="new ratio = 1 + swept / (clearance − mouth area · cut)",
)  # fmt: skip

_POSITION = Calculator(
    name="engine.piston-position",
    title="Where the piston stands at an angle of the crank",
    module="gudgeon.calc.engine.forms:position",
    parameters=(
        _STROKE,
        length("rod_length", words="connecting rod, center to center", example="143 mm", also=("rod",)),
        Parameter("crank_angle", "angle", "°", "from the throw pointing along the cylinder", example="90°"),
        Parameter("pin_offset", "length_difference", "mm",
                  "pin axis beside the crank axis; + where the throw goes down", "0"),
    ),
    results=(
        Result("drop_mm", "length", "mm", "below the highest place", 3),
        Result("speed_ratio", "ratio", "1", "speed against the mean piston speed; + is downward", 3),
        Result("top_center_deg", "angle", "°", "crank angle of the highest place", 2),
        Result("stroke_mm", "length", "mm", "true stroke", 3),
    ),
    source="HAND: slider-crank",
    method="drop = √((l + r)² − e²) − r · cos φ − √(l² − (r · sin φ − e)²)",
)  # fmt: skip

CALCULATORS = (
    _DISPLACEMENT,
    _RATIO,
    _CUT,
    _POSITION,
    *drive_catalog.CALCULATORS,
    *events_catalog.CALCULATORS,
    *fits_catalog.CALCULATORS,
    *running_catalog.CALCULATORS,
    *shim_catalog.CALCULATORS,
)

"""What an engine has, as its sheet says it; nothing asks for what it has not."""

from collections.abc import Callable
from typing import get_args

from gudgeon.sheet.engine import Feature
from gudgeon.sheet.model import DataSheet

_DRIVES = ("timing belt", "timing chain", "timing gears")
_ADJUSTERS = ("shims", "screw adjusters", "hydraulic lifters")


def _clearance(sheet: DataSheet) -> bool:
    """Whether there is a valve clearance to measure: hydraulic lifters take up their own."""
    if sheet.valve_gear is not None:
        return sheet.valve_gear.adjustment != "hydraulic lifters"
    return not (sheet.lacks("shims") and sheet.lacks("screw adjusters")) or sheet.lacks("hydraulic lifters")


_DERIVED: dict[str, Callable[[DataSheet], bool]] = {
    "valve clearance": _clearance,
    "several cylinders": lambda sheet: sheet.engine.cylinders > 1,
    "camshaft in the block": lambda sheet: sheet.lacks("overhead cam"),
}
"""Features that follow from others; a sheet never states them."""

FEATURES: tuple[str, ...] = (*get_args(Feature), *_DERIVED)
"""Every feature that a hold or a task may ask for."""


def has(sheet: DataSheet, feature: str) -> bool:
    """Whether the engine has a feature; what the sheet does not deny is taken to be there."""
    if feature in _DERIVED:
        return _DERIVED[feature](sheet)
    if sheet.lacks(feature):
        return False
    if feature in _DRIVES and sheet.drive is not None:
        return sheet.drive.kind == feature
    if feature in _ADJUSTERS and sheet.valve_gear is not None:
        return sheet.valve_gear.adjustment == feature
    return True

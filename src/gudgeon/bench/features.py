"""What an engine has, as its sheet says it; nothing asks for what it has not."""

from gudgeon.sheet.model import DataSheet

_DRIVES = ("timing belt", "timing chain", "timing gears")
_ADJUSTERS = ("shims", "screw adjusters", "hydraulic lifters")


def has(sheet: DataSheet, feature: str) -> bool:
    """Whether the engine has a feature; what the sheet does not deny is taken to be there."""
    if sheet.lacks(feature):
        return False
    if feature in _DRIVES and sheet.drive is not None:
        return sheet.drive.kind == feature
    if feature in _ADJUSTERS and sheet.valve_gear is not None:
        return sheet.valve_gear.adjustment == feature
    return True

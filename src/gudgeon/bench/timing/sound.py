"""Figures of the drive that cannot be: each is told as an error, and then counts as not stated."""

from gudgeon.bench.timing.drive_model import Remarks
from gudgeon.sheet.drive import Drive


def sound(drive: Drive, remarks: Remarks) -> Drive:
    """The drive without figures that cannot be."""
    unsound: dict[str, None] = {}
    if drive.pitch is not None and drive.pitch.value.middle_in("mm") <= 0:
        _refuse(remarks, ("drive", "pitch"), drive.pitch.value.text, "a pitch is above 0")
        unsound["pitch"] = None
    if drive.belt_teeth is not None and drive.belt_teeth <= 0:
        why = "a chain has links" if drive.kind == "timing chain" else "a belt has teeth, a chain links"
        _refuse(remarks, ("drive", "belt_teeth"), str(drive.belt_teeth), why)
        unsound["belt_teeth"] = None
    if drive.rise is not None and drive.rise.value.middle_in("mm") < 0:
        why = "the pitch line lies above the roller, so it is 0 or more"
        _refuse(remarks, ("drive", "rise"), drive.rise.value.text, why)
        unsound["rise"] = None
    wheels = {}
    for key, wheel in drive.wheels.items():
        if wheel.diameter is not None and wheel.diameter.middle_in("mm") <= 0:
            path = ("drive", "wheels", key, "diameter")
            _refuse(remarks, path, wheel.diameter.text, "a diameter is above 0")
            wheels[key] = wheel.model_copy(update={"diameter": None})
        else:
            wheels[key] = wheel
    return drive.model_copy(update={**unsound, "wheels": wheels})


def _refuse(remarks: Remarks, path: tuple[str, ...], printed: str, why: str) -> None:
    remarks.add(
        "error", path, f"{printed} cannot be: {why}. Look at the figure and its sign.", printed=printed
    )

"""The drive of the camshafts worked out from the sheet: path, length, teeth between marks, which side is pulled tight.

    model = drive_model(bench)              # or drive_of(sheet, written=...), without a book
    shift = cam_shift(model, {"head": Lowered(0.20, 0.01)})

Nothing is raised for a sheet that contradicts itself or lacks something: `model.remarks` tells it with field and line,
and the rest is answered.
"""

from dataclasses import replace

from gudgeon.bench.context import Bench
from gudgeon.bench.timing.counts import counted, remark_counts, remark_length, remark_ratio
from gudgeon.bench.timing.drive_model import DriveModel, DriveWheel, Remarks
from gudgeon.bench.timing.shift import CamShift, DriveShift, Lowered, cam_shift
from gudgeon.bench.timing.sound import sound
from gudgeon.bench.timing.wheels import order_of, remark_places, running, tensioner_off_path, wheels_of
from gudgeon.calc.engine.drive_path import DrivePath, WheelAt, drive_path
from gudgeon.calc.engine.drive_wheels import marks_realign
from gudgeon.errors import InputError
from gudgeon.sheet.model import DataSheet
from gudgeon.written.located import Written

__all__ = [
    "CamShift",
    "DriveModel",
    "DriveShift",
    "DriveWheel",
    "Lowered",
    "cam_shift",
    "drive_model",
    "drive_of",
]


def drive_model(bench: Bench) -> DriveModel | None:
    """The drive of the sheet of this build; None where the sheet has none."""
    return drive_of(bench.sheet, written=bench.papers.written)


def drive_of(sheet: DataSheet, *, written: Written | None = None) -> DriveModel | None:
    """The drive of a sheet; None where it has none. With `written` every remark names its line."""
    if sheet.drive is None:
        return None
    remarks = Remarks(written, kind=sheet.drive.kind)
    drive = sound(sheet.drive, remarks)
    wheels = wheels_of(drive)
    gears = drive.kind == "timing gears"
    order = () if gears else order_of(drive, wheels, remarks)
    if not gears:
        remark_places(drive, wheels, remarks, order=order)
    clockwise, source = running(sheet, drive, remarks)
    path, clockwise, source = _path(wheels, order, (clockwise, source), remarks)
    tight = _tight(wheels, order, clockwise, remarks)
    pitch = drive.pitch.value.middle_in("mm") if drive.pitch is not None else None
    loop = None if path is None or pitch is None else path.length_mm / pitch
    counts = counted(drive, wheels, path=path, pitch_mm=pitch, remarks=remarks)
    if not tensioner_off_path(drive, wheels, order):
        remark_length(drive, loop, remarks)
    remark_counts(drive, counts, remarks)
    remark_ratio(wheels, remarks, order=order)
    if gears:
        _remark_gears(remarks)
    crank = next((one.teeth for one in wheels.values() if one.is_crankshaft), None)
    known = crank is not None and drive.belt_teeth is not None and not gears
    takes_up = drive.tensioner_takes_up
    return DriveModel(
        kind=drive.kind,
        viewed_from=drive.viewed_from or "",
        clockwise=clockwise,
        clockwise_from=source,
        wheels=wheels,
        order=order,
        tight=tight,
        path=path,
        pitch_mm=pitch,
        belt_teeth=drive.belt_teeth,
        loop_teeth=loop,
        counts=counts,
        realign=marks_realign(drive.belt_teeth or 1, crank_teeth=crank or 1) if known else None,
        realign_with_cam=(
            marks_realign(drive.belt_teeth or 1, crank_teeth=crank or 1, with_cam=True) if known else None
        ),
        heads={name: one.value.middle_in("°") for name, one in drive.heads.items()},
        takes_up=takes_up.value.text if takes_up is not None else "",
        takes_up_mm=takes_up.value.middle_in("mm") if takes_up is not None else None,
        cam_in_block=_in_block(sheet, wheels, remarks),
        drive=drive,
        remarks=remarks.all(),
    )


def _path(
    wheels: dict[str, DriveWheel],
    order: tuple[str, ...],
    stated: tuple[bool | None, str],
    remarks: Remarks,
) -> tuple[DrivePath | None, bool | None, str]:
    """The loop, the way in which it runs, and what says so; a way that the order contradicts is no way."""
    clockwise, source = stated
    if not order:
        return None, clockwise, source
    places = [wheels[key].at for key in order]
    known = [one for one in places if one is not None]
    if len(known) < len(places):
        return None, clockwise, source
    either = {way: _try(known, way) for way in (True, False)}
    if clockwise is None:
        return _without_turning(either, order, remarks)
    found = either[clockwise]
    if isinstance(found, DrivePath):
        return found, clockwise, source
    other = either[not clockwise]
    if isinstance(other, DrivePath):
        way, back = ("clockwise", "counterclockwise") if clockwise else ("counterclockwise", "clockwise")
        field = ("drive", "turns") if source == "drive.turns" else ("engine", "rotation")
        why = (
            f"It says {way}, but a belt that runs over the wheels in the order of `path` runs {back}. One of them is "
            "wrong: exchange it. Which side is pulled tight, and so the cam timing after a cut, is left open."
        )
        remarks.add("error", field, why, printed=way)
        return other, None, ""
    remarks.add("error", ("drive", "path"), _told(wheels, order, clockwise), printed=", ".join(order))
    return None, clockwise, source


def _without_turning(
    either: dict[bool, DrivePath | InputError], order: tuple[str, ...], remarks: Remarks
) -> tuple[DrivePath | None, bool | None, str]:
    """The loop where the sheet does not say which way it turns: its order may tell."""
    possible = [one for one in either.values() if isinstance(one, DrivePath)]
    if not possible:
        error = either[True]
        assert isinstance(error, InputError)
        remarks.add("error", ("drive", "path"), error.message, printed=", ".join(order))
        return None, None, ""
    if len(possible) == 1:
        return possible[0], possible[0].clockwise, "drive.path"
    why = "Which way the crankshaft turns is not known"
    left_open = "the tight side, and the cam timing after a cut, are left open"
    remarks.add("missing", ("drive", "turns"), f"{why}: {left_open}.")
    return possible[0], None, ""


def _try(wheels: list[WheelAt], clockwise: bool) -> DrivePath | InputError:
    try:
        return drive_path(wheels, clockwise=clockwise)
    except InputError as error:
        return error


def _told(wheels: dict[str, DriveWheel], order: tuple[str, ...], clockwise: bool) -> str:
    """Why there is no such path, with the wheels by their names."""
    called = [replace(at, name=wheels[key].name) for key in order if (at := wheels[key].at) is not None]
    found = _try(called, clockwise)
    assert isinstance(found, InputError)
    return found.message


def _tight(
    wheels: dict[str, DriveWheel],
    order: tuple[str, ...],
    clockwise: bool | None,
    remarks: Remarks,
) -> tuple[str, ...]:
    """The keys from the last camshaft to the crankshaft; the crankshaft pulls the belt that comes to it."""
    cams = [index for index, key in enumerate(order) if wheels[key].is_camshaft]
    if not cams or clockwise is None:
        return ()
    tight = (*order[cams[-1] :], order[0])
    slack = next((wheels[key] for key in tight if wheels[key].is_tensioner), None)
    if slack is not None:
        why = (
            f"{slack.name} lies between {wheels[tight[0]].name} and {wheels[tight[-1]].name} as the belt runs: on the "
            "side that the crankshaft pulls, where no tensioner can be. The order of `path`, or the running direction, "
            "is the wrong way round."
        )
        remarks.add("error", ("drive", "path"), why, printed=", ".join(order))
    return tight


def _in_block(sheet: DataSheet, wheels: dict[str, DriveWheel], remarks: Remarks) -> bool:
    """Whether the camshafts sit in the block, so that a cut of a head does not turn them.

    Where the sheet does not say it: when their wheels name no head, or when none is named and it has none overhead.
    """
    gear, carried = sheet.valve_gear, any(one.on for one in wheels.values() if one.is_camshaft)
    where = gear.camshaft if gear is not None else None
    if where == "in the block" and carried:
        why = "The camshaft is in the block, but its wheel is said to sit `on` a head. Mend the wrong one."
        remarks.add("error", ("valve_gear", "camshaft"), why, printed="in the block")
    if where == "in the head" or (where is None and carried):
        for one in wheels.values():
            if one.is_camshaft and not one.on:
                why = f"{one.name} names no head that carries it (`on`): what a cut does to its timing is left open."
                remarks.add("missing", ("drive", "wheels", one.key), why)
    told = any(one.is_camshaft for one in wheels.values()) or sheet.lacks("overhead cam")
    return where == "in the block" or (where is None and told and not carried)


def _remark_gears(remarks: Remarks) -> None:
    why = (
        "Gears mesh: how a changed center distance turns a camshaft, and what it does to their backlash, is not worked "
        "out. Measure the backlash after a cut."
    )
    remarks.add("note", ("drive", "kind"), why)

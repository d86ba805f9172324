"""What cannot be right in drive, valve gear, fits and proofs by themselves: names that lead nowhere, wheels twice."""

from collections.abc import Iterator

from pydantic import BaseModel

from gudgeon.sheet.drive import Drive, TeethBetween
from gudgeon.sheet.model import DataSheet
from gudgeon.written.check import unknown
from gudgeon.written.located import Path

Found = Iterator[tuple[Path, str]]


def drive_findings(sheet: DataSheet) -> Found:
    """Everything that the drive gets wrong in itself, and every name of a characteristic that is not there."""
    if sheet.drive is not None:
        yield from _drive(sheet.drive)
    yield from _characteristics(sheet)
    if sheet.head is not None and sheet.head.face is not None and sheet.head.face not in sheet.faces:
        yield ("head", "face"), unknown("face", value=sheet.head.face, known=sheet.faces)


def _drive(drive: Drive) -> Found:
    for index, name in enumerate(drive.keyless):
        if name not in drive.wheels:
            yield ("drive", "keyless", index), unknown("wheel", value=name, known=drive.wheels)
    for key, wheel in drive.wheels.items():
        if wheel.on is not None and drive.heads and wheel.on not in drive.heads:
            yield ("drive", "wheels", key, "on"), unknown("head", value=wheel.on, known=drive.heads)
    for index, between in enumerate(drive.teeth_between_marks):
        if isinstance(between, TeethBetween):
            for end, name in (("from", between.from_), ("to", between.to)):
                if name not in drive.wheels:
                    place: Path = ("drive", "teeth_between_marks", index, end)
                    yield place, unknown("wheel", value=name, known=drive.wheels)
    for index, name in enumerate(drive.path):
        if name in drive.path[:index]:
            yield ("drive", "path", index), f"The path runs over `{name}` twice. Name each wheel once."


def _characteristics(sheet: DataSheet) -> Found:
    for path, key in _named(sheet):
        if key not in sheet.characteristics:
            yield path, unknown("characteristic", value=key, known=sheet.characteristics)


def _named(sheet: DataSheet) -> Iterator[tuple[Path, str]]:
    """Every characteristic that another part of the sheet names as holding its readings."""
    yield from _of(sheet.head, ("head",), "measured_as", "pits", "cam_tunnel")
    yield from _of(sheet.drive, ("drive",), "crank_stops")
    for size, key in sheet.cylinder.measured_as.items() if sheet.cylinder is not None else ():
        yield ("cylinder", "measured_as", size), key
    gear = sheet.valve_gear
    for side in ("intake", "exhaust"):
        yield from _of(getattr(gear, side, None), ("valve_gear", side), "clearance", "shim", "margin", "lobe")
    fits = sheet.fits
    if fits is not None:
        for name, bearing in fits.bearings.items():
            yield from _of(bearing, ("fits", "bearings", name), "bore", "journal")
        yield from ((("fits", "ring_gaps", index), key) for index, key in enumerate(fits.ring_gaps))
        yield from _of(fits, ("fits",), "ring_bore")
        yield from _of(fits.weights, ("fits", "weights"), "pistons", "rods")
    after = sheet.after_start
    yield from _of(after, ("after_start",), "cranking_pressure", "wet", "leak_down")
    for index, one in enumerate(after.oil_pressure if after is not None else ()):
        yield from _of(one, ("after_start", "oil_pressure", index), "measured_as")


def _of(part: BaseModel | None, path: Path, *names: str) -> Iterator[tuple[Path, str]]:
    for name in names:
        key = getattr(part, name, None)
        if key is not None:
            yield (*path, name), key

"""The drive: teeth between marks and the whole loop along its path, sums, sprockets two to one, running direction."""

from collections.abc import Iterator

from gudgeon.bench.proof.findings import Finding, Grade, finding
from gudgeon.bench.timing.drive import drive_of
from gudgeon.bench.timing.drive_model import DriveRemark
from gudgeon.sheet.model import DataSheet

_MEASURED = "drive.belt_teeth"
"""Held against centers that somebody may have measured with a ruler: never more than a doubt."""


def check_drive(sheet: DataSheet) -> Iterator[Finding]:
    """What contradicts itself in the drive; what it lacks is told where it is worked out."""
    model = drive_of(sheet)
    for one in model.remarks if model is not None else ():
        grade = _grade(one)
        if grade is None:
            continue
        part = sheet.valve_gear if one.path.startswith("valve_gear") else sheet.drive
        yield finding(
            "drive",
            grade=grade,
            path=one.path,
            name="Drive of the camshafts",
            printed=one.printed,
            why=one.text,
            source=str(part.source or "") if part is not None else "",
        )


def _grade(one: DriveRemark) -> Grade | None:
    if one.grade == "error":
        return "doubt" if one.path == _MEASURED else "error"
    return "doubt" if one.grade == "doubt" else None

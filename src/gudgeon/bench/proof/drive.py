"""The drive: teeth between marks and the whole loop along its path, sums, sprockets two to one, running direction."""

from collections.abc import Iterator

from gudgeon.bench.proof.findings import Finding, Grade, finding
from gudgeon.bench.timing.drive import drive_of
from gudgeon.bench.timing.drive_model import DriveModel, DriveRemark
from gudgeon.bench.timing.drive_words import thing
from gudgeon.bench.timing.wheels import named
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
    if model is not None:
        yield from _path(model)
        yield from _odd_links(model)


def _path(model: DriveModel) -> Iterator[Finding]:
    """A path that names a wheel which is not there, or leaves out one that turns the camshafts."""
    drive, source = model.drive, str(model.drive.source or "")
    keys = [named(drive, said) for said in drive.path]
    for place, (said, key) in enumerate(zip(drive.path, keys, strict=True), start=1):
        if not key:
            yield finding(
                "path",
                grade="doubt",
                path=f"drive.path.{place}",
                name="Path of the drive",
                printed=said,
                why="`path` names it, and `wheels` has no such wheel: the path cannot be followed.",
                agrees=f"one of {', '.join(drive.wheels)}" if drive.wheels else "",
                source=source,
            )
    for key, one in model.wheels.items() if keys else ():
        if key not in keys and one.teeth and (one.is_crankshaft or one.is_camshaft):
            yield finding(
                "path",
                grade="doubt",
                path=f"drive.wheels.{key}",
                name="Path of the drive",
                printed=f"path: {', '.join(drive.path)}",
                why=f"{one.name} is among the wheels and turns the {one.drives}, and `path` leaves it out.",
                agrees=f"a path over `{key}` too, unless another {thing(model.kind)} turns it",
                source=source,
            )


def _odd_links(model: DriveModel) -> Iterator[Finding]:
    """A chain alternates inner and outer links: joined to a ring, their number is even."""
    if model.kind == "timing chain" and model.belt_teeth is not None and model.belt_teeth % 2:
        yield finding(
            "links",
            grade="doubt",
            path="drive.belt_teeth",
            name="Links of the chain",
            printed=str(model.belt_teeth),
            why="A chain has an even number of links, inner and outer ones in turn, unless a cranked link joins it "
            "(common practice).",
            agrees=f"{model.belt_teeth - 1} or {model.belt_teeth + 1}",
            source=str(model.drive.source or ""),
        )


def _grade(one: DriveRemark) -> Grade | None:
    if one.grade == "error":
        return "doubt" if one.path == _MEASURED else "error"
    return "doubt" if one.grade == "doubt" else None

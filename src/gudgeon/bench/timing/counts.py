"""Teeth counted along the path of the drive against those that the sheet prints."""

from gudgeon.bench.timing.drive_model import DriveWheel, Grade, Remarks, TeethCounted
from gudgeon.calc.engine.drive_errors import MarkOffBelt, WheelNotOnPath
from gudgeon.calc.engine.drive_path import DrivePath, length_between
from gudgeon.quantity.format import number
from gudgeon.sheet.drive import Drive, TeethBetween

NEAR_TEETH = 0.3
"""By so much a path may differ from whole teeth: centers are printed or measured to tenths, marks to degrees."""


def counted(
    drive: Drive,
    wheels: dict[str, DriveWheel],
    *,
    path: DrivePath | None,
    pitch_mm: float | None,
    remarks: Remarks,
) -> tuple[TeethCounted, ...]:
    """Every count that the sheet prints, with what the path makes of it; what cannot be counted is said."""
    found = []
    for index, one in enumerate(drive.teeth_between_marks):
        if not isinstance(one, TeethBetween) or one.from_ not in wheels or one.to not in wheels:
            continue
        field = ("drive", "teeth_between_marks", index)
        said = f"drive.teeth_between_marks.{index + 1}"
        ends = (wheels[one.from_], wheels[one.to])
        by_path = _between(ends, path, pitch_mm, remarks) if path is not None else None
        found.append(TeethCounted(one.from_, one.to, one.way or "", one.teeth, by_path, said))
        if by_path is None or path is None:
            continue
        back = _between((ends[1], ends[0]), path, pitch_mm, remarks)
        _remark_count(drive, found[-1], field, back=back, ends=ends, remarks=remarks)
    return tuple(found)


def _between(
    ends: tuple[DriveWheel, DriveWheel], path: DrivePath, pitch_mm: float | None, remarks: Remarks
) -> float | None:
    angles = []
    for one in ends:
        if one.mark_at_deg is None:
            why = f"Where the mark of {one.name} stands when the engine is timed is not stated (`mark_at`)"
            remarks.add("missing", ("drive", "wheels", one.key), f"{why}: teeth to it are not counted.")
            continue
        angles.append((one.key, one.mark_at_deg))
    if len(angles) < 2 or pitch_mm is None:
        return None
    try:
        return length_between(path, start=angles[0], end=angles[1]) / pitch_mm
    except MarkOffBelt as error:
        key = next(one.key for one in ends if f"mark of {one.key} " in error.message)
        name = next(one.name for one in ends if one.key == key)
        remarks.add(
            "doubt",
            ("drive", "wheels", key, "mark_at"),
            error.message.replace(f"mark of {key} ", f"mark of {name} "),
            printed=f"{dict(angles)[key]:g}°",
        )
    except WheelNotOnPath as error:
        remarks.add("missing", ("drive", "path"), error.message)
    return None


def _remark_count(
    drive: Drive,
    one: TeethCounted,
    field: tuple[str | int, ...],
    *,
    back: float | None,
    ends: tuple[DriveWheel, DriveWheel],
    remarks: Remarks,
) -> None:
    """A printed count that the path does not make."""
    if one.off is None or one.by_path is None or one.printed is None or abs(one.off) <= NEAR_TEETH:
        return
    units = "links" if drive.kind == "timing chain" else "teeth"
    said = (
        f"{one.printed} {units} are printed from the mark of {ends[0].name} to that of {ends[1].name}; along the path "
        f"they are {number(one.by_path, decimals=1)}."
    )
    if back is not None and abs(back - one.printed) <= NEAR_TEETH:
        hint = "As the belt runs, the printed count leads from the second mark to the first: exchange `from` and `to`."
    elif abs(one.off + 1) <= NEAR_TEETH:
        hint = "With the marked tooth counted at both ends it would be one more: count from mark to mark."
    else:
        hint = "A count, a mark's angle, or a center is wrong: count on the engine before the belt comes off."
    printed = f"{one.start} to {one.end}: {one.printed}"
    remarks.add("doubt", field, f"{said} {hint}", printed=printed)


def remark_length(drive: Drive, loop_teeth: float | None, remarks: Remarks) -> None:
    """The whole loop against the teeth of the belt."""
    if loop_teeth is None:
        return
    units = "links" if drive.kind == "timing chain" else "teeth"
    if drive.belt_teeth is None:
        why = f"Its {units} are not stated; along the path they are {number(loop_teeth, decimals=2)}."
        remarks.add("missing", ("drive", "belt_teeth"), why)
        return
    off = loop_teeth - drive.belt_teeth
    if abs(off) <= NEAR_TEETH:
        return
    why = (
        f"{drive.belt_teeth} {units} are printed, but the path is {number(loop_teeth, decimals=2)} long: "
        f"{number(abs(off), decimals=2)} {'too many' if off > 0 else 'too few'}. Check centers, diameters and teeth "
        "of the wheels; a tensioner stands where it works, not where it is let go."
    )
    grade: Grade = "error" if abs(off) >= 1 - NEAR_TEETH else "doubt"
    remarks.add(grade, ("drive", "belt_teeth"), why, printed=str(drive.belt_teeth))


def remark_counts(drive: Drive, counts: tuple[TeethCounted, ...], remarks: Remarks) -> None:
    """Counts that lead once around add up to the belt."""
    total = around(counts)
    if total is None or drive.belt_teeth is None or total == drive.belt_teeth:
        return
    units = "links" if drive.kind == "timing chain" else "teeth"
    hint = (
        "Each count seems to hold both of its marked teeth: count from mark to mark."
        if total == drive.belt_teeth + len(counts)
        else "One of the counts, or the number printed for the belt, is wrong."
    )
    sums = " + ".join(str(one.printed) for one in counts)
    why = f"{sums} = {total} {units} lead once around, but the belt has {drive.belt_teeth}. {hint}"
    remarks.add("error", ("drive", "teeth_between_marks"), why, printed=f"{sums}; {drive.belt_teeth}")


def around(counts: tuple[TeethCounted, ...]) -> int | None:
    """The sum of counts that lead from mark to mark once around; None where they do not."""
    following = {one.start: one for one in counts}
    if not counts or len(following) < len(counts) or any(one.printed is None for one in counts):
        return None
    at, seen = counts[0].start, set()
    while at in following and at not in seen:
        seen.add(at)
        at = following[at].end
    return (
        sum(one.printed or 0 for one in counts)
        if at == counts[0].start and len(seen) == len(counts)
        else None
    )


def remark_ratio(wheels: dict[str, DriveWheel], remarks: Remarks, *, order: tuple[str, ...]) -> None:
    """A camshaft turns half as fast as the crankshaft: its wheel has twice the teeth."""
    crank = next((one for one in wheels.values() if one.is_crankshaft and one.teeth), None)
    if crank is None or crank.teeth is None:
        return
    for one in wheels.values():
        if not one.is_camshaft or one.teeth is None or one.teeth == 2 * crank.teeth:
            continue
        why = (
            f"{one.name} has {one.teeth} teeth, {crank.name} {crank.teeth}: a camshaft turns half as fast as the "
            f"crankshaft, so {2 * crank.teeth} were expected"
        )
        together = crank.key in order and one.key in order
        grade: Grade = "error" if together else "doubt"
        rest = (
            ". One of the two numbers is wrong."
            if together
            else ", unless a wheel between them changes the ratio."
        )
        field = ("drive", "wheels", one.key, "teeth")
        remarks.add(grade, field, f"{why}{rest}", printed=f"{one.teeth}; {crank.teeth}")

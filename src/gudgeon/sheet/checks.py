"""What cannot be right in a sheet by itself, whatever the engine: each finding with its place.

These refuse the sheet. Doubts about printed figures (proof-reading) are another matter
and never refuse it.
"""

from collections.abc import Iterator

from pydantic import BaseModel

from gudgeon.sheet.checks_drive import drive_findings
from gudgeon.sheet.checks_joint import joint_findings
from gudgeon.sheet.checks_measuring import measuring_findings
from gudgeon.sheet.figures import Cited, Sourced, Stated
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.parts import StatedUse
from gudgeon.sheet.reuse import Reuse
from gudgeon.written.check import unknown
from gudgeon.written.errors import Problem
from gudgeon.written.located import Path, Written


def problems(sheet: DataSheet, written: Written) -> Iterator[Problem]:
    """Everything that a well-formed sheet gets wrong in itself."""
    for path, message in _findings(sheet):
        yield Problem(written.place(path), message)


def _findings(sheet: DataSheet) -> Iterator[tuple[Path, str]]:
    yield from _sources(sheet, (), sheet, None)
    yield from _engine(sheet)
    for key, joint in sheet.joints.items():
        yield from joint_findings(("joints", key), joint)
        yield from _reuse(("joints", key, "reuse"), joint.reuse, sheet)
    yield from measuring_findings(sheet)
    yield from drive_findings(sheet)
    yield from _waits(sheet)


def _reuse(path: Path, reuse: Reuse | None, sheet: DataSheet) -> Iterator[tuple[Path, str]]:
    """The readings of a rule stand in characteristics that the sheet has."""
    if reuse is None:
        return
    for name in reuse.measured_as:
        if name not in sheet.characteristics:
            yield (*path, "measured_as"), unknown("characteristic", value=name, known=sheet.characteristics)
    for index, one in enumerate(reuse.also_by):
        yield from _reuse((*path, "and", index), one, sheet)


def _engine(sheet: DataSheet) -> Iterator[tuple[Path, str]]:
    engine = sheet.engine
    order = engine.firing_order
    if order is not None and sorted(order) != list(range(1, engine.cylinders + 1)):
        said = "-".join(map(str, order))
        yield (
            ("engine", "firing_order"),
            f"The firing order {said} does not name each of {engine.cylinders} cylinders once. Look at the page again.",
        )
    has = {
        sheet.drive.kind if sheet.drive else None,
        sheet.valve_gear.adjustment if sheet.valve_gear else None,
    }
    for index, feature in enumerate(engine.does_not_have):
        if feature in has:
            yield (
                ("engine", "does_not_have", index),
                f"The engine is said not to have {feature}, and another part of the sheet says it has. Keep one.",
            )


def _waits(sheet: DataSheet) -> Iterator[tuple[Path, str]]:
    """A wait begins at one temperature, and no two begin at the same."""
    seen: dict[float, str] = {}
    for index, one in enumerate(sheet.waits.bleed_down):
        path: Path = ("waits", "bleed_down", index, "from")
        if not one.from_.spans[0].single:
            yield (
                path,
                f"`{one.from_.text}` is no single temperature: write the one from which the wait holds.",
            )
            continue
        degrees = one.from_.in_unit("°C")
        if degrees in seen:
            yield path, f"Two waits begin at {seen[degrees]}: keep the one that the manual states."
        seen[degrees] = one.from_.text


def _sources(
    part: BaseModel, path: Path, sheet: DataSheet, around: Cited | None
) -> Iterator[tuple[Path, str]]:
    """Every figure has a source of its own or of the part it stands in; every source is known."""
    own = getattr(part, "source", None)
    if isinstance(own, Cited) and own.key not in sheet.sources:
        yield (*path, "source"), unknown("source", value=own.key, known=sheet.sources)
    if isinstance(part, Stated | StatedUse):
        if own is None and around is None:
            yield path, f"`{part.value.text}` has no source. Every figure needs one: `source: manual p. 41`."
        for index, again in enumerate(part.also if isinstance(part, Stated) else ()):
            if again.source.key not in sheet.sources:
                place = (*path, "also", index, "source")
                yield place, unknown("source", value=again.source.key, known=sheet.sources)
        return
    inner = own if isinstance(own, Cited) else around
    if isinstance(part, Joint) and inner is None:
        yield path, "This joint has no source. Every figure needs one: `source: manual p. 41`."
        return
    for name in type(part).model_fields:
        yield from _inside(getattr(part, name), (*path, _as_written(part, name)), sheet, inner)


def _inside(value: object, path: Path, sheet: DataSheet, around: Cited | None) -> Iterator[tuple[Path, str]]:
    if isinstance(value, BaseModel):
        yield from _sources(
            value, path, sheet, around if isinstance(value, Sourced | Stated | StatedUse) else None
        )
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from _inside(inner, (*path, key), sheet, around)
    elif isinstance(value, tuple):
        for index, inner in enumerate(value):
            yield from _inside(inner, (*path, index), sheet, around)


def _as_written(part: BaseModel, name: str) -> str:
    return type(part).model_fields[name].alias or name

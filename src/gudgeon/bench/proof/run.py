"""Proof-reading: every check over a sheet, errors first."""

from collections.abc import Iterator
from dataclasses import replace

from gudgeon.bench.proof.again import check_again
from gudgeon.bench.proof.angles import check_angle
from gudgeon.bench.proof.derived import check_derived
from gudgeon.bench.proof.drive import check_drive
from gudgeon.bench.proof.faces import check_faces
from gudgeon.bench.proof.far import check_far
from gudgeon.bench.proof.figures import figures
from gudgeon.bench.proof.findings import GRADES, Finding, Settled
from gudgeon.bench.proof.fitting import check_fitting
from gudgeon.bench.proof.limits import check_limits, check_width
from gudgeon.bench.proof.loops import check_clearances
from gudgeon.bench.proof.pairs import check_pair
from gudgeon.bench.proof.shapes import check_shapes
from gudgeon.bench.proof.torques import check_torques
from gudgeon.bench.proof.valve_events import check_valve_events
from gudgeon.bench.sheet_place import line_of
from gudgeon.sheet.model import DataSheet
from gudgeon.written.located import Written


def proofread(sheet: DataSheet, *, written: Written | None = None) -> tuple[Finding, ...]:
    """Every finding of a sheet, errors first, each group in the order of the file."""
    decided = {one.finding: Settled(one.decision, one.why, one.who or "", one.on) for one in sheet.settled}
    found = [
        replace(
            one,
            line=line_of(written, one.path),
            settled=decided.get(one.key),
        )
        for one in dict.fromkeys(_all(sheet))
    ]
    return tuple(sorted(found, key=lambda one: (GRADES.index(one.grade), one.line or 0)))


def _all(sheet: DataSheet) -> Iterator[Finding]:
    for figure in figures(sheet):
        yield from check_pair(figure)
        yield from check_width(figure)
        yield from check_angle(figure)
    yield from check_limits(sheet)
    yield from check_shapes(sheet)
    yield from check_faces(sheet)
    yield from check_far(sheet)
    yield from check_clearances(sheet)
    yield from check_derived(sheet)
    yield from check_fitting(sheet)
    yield from check_torques(sheet)
    yield from check_again(sheet)
    yield from check_drive(sheet)
    yield from check_valve_events(sheet)

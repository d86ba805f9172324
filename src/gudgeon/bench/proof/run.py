"""Proof-reading: every check over a sheet, errors first."""

from gudgeon.bench.proof.findings import GRADES, Finding
from gudgeon.sheet.model import DataSheet
from gudgeon.written.located import Written


def proofread(sheet: DataSheet, *, written: Written | None = None) -> tuple[Finding, ...]:
    """Every finding of a sheet, errors first, each group in the order of the file."""
    found: list[Finding] = []
    return tuple(sorted(found, key=lambda one: (GRADES.index(one.grade), one.line or 0)))
